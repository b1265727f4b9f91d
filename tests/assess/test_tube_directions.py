"""Which way the tube fluid goes: the inlet's side decides, and passes share the face."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from grillestack.assess.assess import LARGEST_CELL_MM, assess
from grillestack.assess.pack_layout import lay_out
from grillestack.geometry.overlay import build_overlay
from grillestack.model import edits
from grillestack.model.parts import Facing, Port, PortPurpose, TubeDirection
from grillestack.model.project import Project, cores
from tests.assess import packs


def _inlet(u_mm: float, v_mm: float) -> Port:
    return Port(purpose=PortPurpose.INLET, u_mm=u_mm, v_mm=v_mm, facing=Facing.REAR, bore_mm=42.0)


def _with_core(project: Project, start: str, **changes) -> Project:
    part = next(part for part in project.parts if part.id.startswith(start))
    return edits.replace_part(project, replace(part, **changes))


def _layer(project: Project, start: str):
    stack = cores(project)
    overlay = build_overlay(project, 7.0, LARGEST_CELL_MM)
    laid_out = lay_out(project, overlay, stack)
    number = next(n for n, core in enumerate(stack) if core.id.startswith(start))
    return laid_out.layout.layers[number], overlay


def _places(tube_pass, overlay):
    """Return the y and z of the first and of the last cell of the first strip."""
    firsts = tube_pass.pieces[tube_pass.cell_starts]
    y = 0.5 * (overlay.y_lines_mm[overlay.iy[firsts]] + overlay.y_lines_mm[overlay.iy[firsts] + 1])
    z = 0.5 * (overlay.z_lines_mm[overlay.iz[firsts]] + overlay.z_lines_mm[overlay.iz[firsts] + 1])
    return (y[0], z[0]), (y[tube_pass.steps - 1], z[tube_pass.steps - 1])


@pytest.mark.parametrize(("u_mm", "rightwards"), [(-380.0, True), (380.0, False)])
def test_coolant_of_a_cross_flow_radiator_starts_at_the_side_of_its_inlet(u_mm, rightwards):
    project = _with_core(packs.half_height_pack(), "radiator", ports=(_inlet(u_mm, 150.0),))
    layer, overlay = _layer(project, "radiator")
    (y_first, _), (y_last, _) = _places(layer.passes[0], overlay)
    assert (y_last > y_first) == rightwards


def test_coolant_of_a_down_flow_radiator_starts_at_the_top_where_its_inlet_is():
    project = packs.half_height_pack()
    part = next(part for part in project.parts if part.id.startswith("radiator"))
    down = packs.core(packs.RADIATOR, part.description.core_type, 700.0, 460.0, 36.0, tubes=TubeDirection.DOWN_FLOW)
    project = edits.replace_part(
        project, replace(down, id=part.id, placement=part.placement, ports=(_inlet(0.0, 250.0),))
    )
    layer, overlay = _layer(project, "radiator")
    (_, z_first), (_, z_last) = _places(layer.passes[0], overlay)
    assert z_last < z_first
    assert layer.tube_length_m == pytest.approx(0.46)


def test_a_quarter_turn_takes_the_inlet_along():
    project = _with_core(packs.half_height_pack(), "charge", ports=(_inlet(-310.0, 0.0),))
    cac = next(part.id for part in project.parts if part.id.startswith("charge"))
    # One quarter turn takes the vehicle's right to up: the inlet on the left comes to lie below.
    layer, overlay = _layer(edits.turn_part(project, cac), "charge")
    (_, z_first), (_, z_last) = _places(layer.passes[0], overlay)
    assert z_last > z_first


def test_a_u_flow_radiator_goes_there_through_one_half_and_back_through_the_other():
    project = _with_core(packs.half_height_pack(), "radiator", passes=2, ports=(_inlet(-380.0, 150.0),))
    layer, overlay = _layer(project, "radiator")
    there, back = layer.passes
    middle_mm = 255.0
    (y0, z0), (y1, _) = _places(there, overlay)
    (y2, z2), (y3, _) = _places(back, overlay)
    assert z0 > middle_mm > z2
    assert y1 > y0
    assert y3 < y2
    for one in (there, back):
        assert one.strip_share.sum() == pytest.approx(1.0)
    assert layer.tube_length_m == pytest.approx(1.4)
    assert np.sort(np.concatenate([there.pieces, back.pieces])).tolist() == np.sort(layer.pieces).tolist()


def test_twice_the_passes_halve_the_tubes_side_by_side():
    one, _ = _layer(packs.half_height_pack(), "radiator")
    two, _ = _layer(_with_core(packs.half_height_pack(), "radiator", passes=2), "radiator")
    assert two.tube_count == pytest.approx(0.5 * one.tube_count)


def test_mirroring_a_symmetrical_pack_and_all_its_inlets_changes_no_figure():
    figures = []
    for u_mm in (-380.0, 380.0):
        pack = _with_core(packs.half_height_pack(), "radiator", ports=(_inlet(u_mm, 0.0),))
        (case,) = assess(_with_core(pack, "charge", ports=(_inlet(0.8 * u_mm, 0.0),))).cases
        figures.append((case.heat_capacity_w, case.limiting_ambient_degc))
    assert figures[0] == pytest.approx(figures[1], rel=1e-6)


def test_the_side_of_the_inlet_matters_where_a_core_ahead_warms_one_end_of_the_tubes():
    """The hot end in fresh air and the cool end in warmed air, or the other way round: not the same heat."""
    heats = []
    for u_mm in (-380.0, 380.0):
        base = packs.behind(packs.with_part(packs.project(), packs.charge_air_cooler(260.0, 400.0), 115.0, y_mm=-200.0))
        (case,) = assess(_with_core(base, "radiator", ports=(_inlet(u_mm, 0.0),))).cases
        heats.append(case.heat_capacity_w)
    assert abs(heats[0] - heats[1]) > 1e-3 * heats[0]
