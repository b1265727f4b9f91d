"""The parts that come with the program: readable, invented, complete enough to hold against the metal."""

from __future__ import annotations

import json
import re
from collections import Counter

import numpy as np
import pytest
from msgspec.structs import replace

from grillestack.assess.core_construction import Ground, core_ground
from grillestack.assets.locate import resource
from grillestack.model.core_description import CoreType
from grillestack.model.parts import (
    Core,
    CoreRole,
    Facing,
    Fan,
    PortPurpose,
    Shroud,
    SolidKind,
    TubeDirection,
    TubeFluid,
)
from grillestack.physics.coolant import ethylene_glycol
from grillestack.physics.core_alone import Bench, heat_alone_w
from grillestack.storage.catalogue import bundled_parts

PARTS = bundled_parts()
CORES = tuple(part for part in PARTS if isinstance(part, Core))
FANS = tuple(part for part in PARTS if isinstance(part, Fan))
SHROUDS = tuple(part for part in PARTS if isinstance(part, Shroud))
RADIATORS, CHARGE, CONDENSERS, COOLERS = (
    tuple(core for core in CORES if core.role is role)
    for role in (CoreRole.RADIATOR, CoreRole.CHARGE_AIR_COOLER, CoreRole.CONDENSER, CoreRole.COOLER)
)


def _files():
    return sorted(resource("catalogue").glob("*.json"))


def _port(core, purpose):
    return next(port for port in core.ports if port.purpose is purpose)


def test_there_is_something_of_every_kind_to_choose_from():
    assert len(RADIATORS) >= 12
    assert len(CHARGE) >= 20
    assert len(CONDENSERS) >= 8
    assert len(FANS) >= 10
    assert len(COOLERS) >= 8
    fluids = Counter(core.tube_fluid for core in COOLERS)
    assert fluids[TubeFluid.OIL] >= 6
    assert fluids[TubeFluid.COOLANT] >= 2
    assert sum(fluids.values()) == len(COOLERS)
    assert len(SHROUDS) >= 6
    metals = Counter(core.description.core_type for core in RADIATORS)
    assert set(metals) == {CoreType.ALUMINIUM_ONE_ROW, CoreType.ALUMINIUM_TWO_ROW, CoreType.COPPER_BRASS}
    assert {core.tubes for core in RADIATORS} == set(TubeDirection)
    makes = {CoreType.BAR_AND_PLATE_CHARGE_AIR, CoreType.TUBE_AND_FIN_CHARGE_AIR}
    assert {core.description.core_type for core in CHARGE} == makes
    assert {fan.rated_voltage_v for fan in FANS} == {12.0, 24.0}


@pytest.mark.parametrize("path", _files(), ids=lambda path: path.name)
def test_every_file_says_that_its_parts_are_invented(path):
    content = json.loads(path.read_text(encoding="utf-8"))
    assert "invented" in content["about"].lower()
    for part in content["parts"]:
        assert part["supplier_text"] == "invented example part"
        assert "invented" in part["notes_text"].lower()
        assert part["price_text"] in ("", "example")


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.id)
def test_the_order_number_is_ours_and_leads_to_the_part(part):
    assert re.fullmatch(r"GS-[A-Z]{1,2}(-[0-9A-Z]+)+", part.order_number_text)
    assert part.id == part.order_number_text.lower()


def test_no_two_parts_share_a_name():
    assert len({part.name for part in PARTS}) == len(PARTS)


@pytest.mark.parametrize("part", [*CORES, *SHROUDS], ids=lambda part: part.id)
def test_the_sizes_in_a_name_are_those_of_the_part(part):
    named = tuple(float(size) for size in re.findall(r"\b\d+\b", part.name)[:3])
    sizes = (part.core_width_mm, part.core_height_mm) if isinstance(part, Core) else (part.width_mm, part.height_mm)
    assert named == (*sizes, part.depth_mm)


@pytest.mark.parametrize("core", CORES, ids=lambda core: core.id)
def test_core_tanks_and_plates_fill_the_overall_size(core):
    assert Counter(solid.kind for solid in core.solids) == {SolidKind.TANK: 2, SolidKind.SIDE_PLATE: 2}
    pieces = [solid.rect for solid in core.solids] + [core.core]
    filled_mm2 = sum(piece.width_mm * piece.height_mm for piece in pieces)
    assert filled_mm2 == pytest.approx(core.overall.width_mm * core.overall.height_mm)
    assert not any(a.overlaps(b) for n, a in enumerate(pieces) for b in pieces[:n])


@pytest.mark.parametrize("core", CORES, ids=lambda core: core.id)
def test_the_tanks_stand_at_the_ends_of_the_tubes(core):
    for solid in core.solids:
        beside = abs(solid.rect.u_min_mm + solid.rect.u_max_mm) > abs(solid.rect.v_min_mm + solid.rect.v_max_mm)
        ends_cross_flow = (solid.kind is SolidKind.TANK) == beside
        assert ends_cross_flow is (core.tubes is TubeDirection.CROSS_FLOW)


@pytest.mark.parametrize("core", CORES, ids=lambda core: core.id)
def test_every_port_sits_in_a_tank_with_room_for_its_bore(core):
    tanks = [solid for solid in core.solids if solid.kind is SolidKind.TANK]
    for port in core.ports:
        tank = next(
            solid
            for solid in tanks
            if solid.rect.u_min_mm <= port.u_mm <= solid.rect.u_max_mm
            and solid.rect.v_min_mm <= port.v_mm <= solid.rect.v_max_mm
        )
        assert tank.front_mm <= port.w_mm <= tank.front_mm + tank.depth_mm
        room_mm = {
            Facing.LEFT: min(tank.depth_mm, tank.rect.height_mm),
            Facing.RIGHT: min(tank.depth_mm, tank.rect.height_mm),
            Facing.UP: min(tank.depth_mm, tank.rect.width_mm),
            Facing.DOWN: min(tank.depth_mm, tank.rect.width_mm),
            Facing.FRONT: min(tank.rect.width_mm, tank.rect.height_mm),
            Facing.REAR: min(tank.rect.width_mm, tank.rect.height_mm),
        }[port.facing]
        wall_mm = 1.5
        assert port.bore_mm + 2 * wall_mm < room_mm
        assert port.fitting_text


@pytest.mark.parametrize("core", CORES, ids=lambda core: core.id)
def test_a_port_stands_on_the_surface_it_points_from(core):
    for port in core.ports:
        tank_mm = next(s for s in core.solids if s.kind is SolidKind.TANK)
        surface_mm, place_mm = {
            Facing.LEFT: (core.overall.u_min_mm, port.u_mm),
            Facing.RIGHT: (core.overall.u_max_mm, port.u_mm),
            Facing.UP: (core.overall.v_max_mm, port.v_mm),
            Facing.DOWN: (core.overall.v_min_mm, port.v_mm),
            Facing.FRONT: (tank_mm.front_mm, port.w_mm),
            Facing.REAR: (tank_mm.front_mm + tank_mm.depth_mm, port.w_mm),
        }[port.facing]
        assert place_mm == pytest.approx(surface_mm)


@pytest.mark.parametrize("core", RADIATORS, ids=lambda core: core.id)
def test_a_radiator_is_filled_from_above_and_vented_at_its_top(core):
    assert _port(core, PortPurpose.INLET).v_mm > 0 > _port(core, PortPurpose.OUTLET).v_mm
    assert _port(core, PortPurpose.VENT).v_mm == core.overall.v_max_mm
    assert _port(core, PortPurpose.DRAIN).v_mm < _port(core, PortPurpose.OUTLET).v_mm + 60


@pytest.mark.parametrize("core", [*RADIATORS, *CHARGE, *CONDENSERS], ids=lambda core: core.id)
def test_the_outlet_is_where_the_last_pass_ends(core):
    inlet, outlet = _port(core, PortPurpose.INLET), _port(core, PortPurpose.OUTLET)
    along = "u_mm" if core.tubes is TubeDirection.CROSS_FLOW else "v_mm"
    same_end = getattr(inlet, along) * getattr(outlet, along) > 0
    assert same_end is (core.passes % 2 == 0)


def test_charge_air_ports_stand_opposite_on_the_same_side_and_down():
    def way(core):
        return tuple(_port(core, purpose).facing for purpose in (PortPurpose.INLET, PortPurpose.OUTLET))

    ways = Counter(way(core) for core in CHARGE)
    for expected in (
        (Facing.LEFT, Facing.RIGHT),
        (Facing.LEFT, Facing.LEFT),
        (Facing.DOWN, Facing.DOWN),
    ):
        assert ways[expected] >= 3


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.id)
def test_weight_and_mounts_are_given_and_the_mounts_are_within_reach(part):
    assert part.weight_kg is not None
    assert len(part.mounts) >= 4
    if isinstance(part, Core):
        half = part.overall.width_mm / 2, part.overall.height_mm / 2
        assert part.pressure_rating_pa is not None
    elif isinstance(part, Fan):
        half = part.ring_diameter_mm / 2, part.ring_diameter_mm / 2
    else:
        half = part.width_mm / 2, part.height_mm / 2
    for mount in part.mounts:
        assert abs(mount.u_mm) <= half[0]
        assert abs(mount.v_mm) <= half[1]
        assert mount.kind_text


def test_about_half_of_the_cores_say_how_they_are_built():
    grounds = Counter(core_ground(core).ground for core in CORES)
    assert 0.35 <= grounds[Ground.CONSTRUCTION] / len(CORES) <= 0.65
    for group in (RADIATORS, CHARGE, CONDENSERS, COOLERS):
        assert {core_ground(core).ground for core in group} == {Ground.CONSTRUCTION, Ground.TYPE}


@pytest.mark.parametrize("core", [c for c in CORES if c.description.construction], ids=lambda core: core.id)
def test_described_tubes_fit_the_depth_and_the_type(core):
    described = core.description.construction
    assert described.tube_rows * described.tube_depth_mm <= core.depth_mm
    assert core_ground(core).construction.flow_depth_m * 1000 == pytest.approx(core.depth_mm)
    rows = {CoreType.ALUMINIUM_ONE_ROW: (1,), CoreType.ALUMINIUM_TWO_ROW: (2,), CoreType.COPPER_BRASS: (2, 3, 4)}
    assert described.tube_rows in rows.get(core.description.core_type, (1,))
    finned = core.role is CoreRole.CHARGE_AIR_COOLER or core.description.core_type is CoreType.PLATE_OIL_COOLER
    assert (described.inner_fin is not None) is finned


@pytest.mark.parametrize("fan", FANS, ids=lambda fan: fan.id)
def test_a_fan_has_a_curve_that_falls_from_no_flow_to_its_free_flow(fan):
    assert 5 <= len(fan.curve) <= 7
    flows, pressures = ([getattr(p, name) for p in fan.curve] for name in ("flow_m3_s", "pressure_pa"))
    assert flows == sorted(set(flows))
    assert pressures == sorted(set(pressures), reverse=True)
    assert (flows[0], pressures[-1]) == (0.0, 0.0)
    assert flows[-1] == fan.free_flow_m3_s
    assert 0 < fan.motor_diameter_mm < 0.5 * fan.ring_diameter_mm
    assert fan.running_current_a is not None


@pytest.mark.parametrize("shroud", SHROUDS, ids=lambda shroud: shroud.id)
def test_a_shroud_fits_a_radiator_of_the_catalogue(shroud):
    width_mm, height_mm = shroud.width_mm, shroud.height_mm
    full = "full cover" in shroud.name
    fitting = [
        core
        for core in RADIATORS
        if height_mm <= core.core_height_mm <= height_mm + 20
        and (core.core_width_mm == width_mm if full else 0.6 < width_mm / core.core_width_mm < 0.7)
    ]
    assert fitting


def test_the_further_coolers_leave_their_heat_open_but_for_one_that_says_so():
    given = [core for core in COOLERS if core.given_heat_w is not None]
    assert len(given) == 1
    assert "kW" in given[0].notes_text
    assert all("type it in" in core.notes_text for core in COOLERS if core.given_heat_w is None)


@pytest.mark.parametrize("core", COOLERS, ids=lambda core: core.id)
def test_a_further_cooler_says_what_runs_through_it_and_leaves_the_rest_to_be_typed(core):
    assert core.tube_fluid is not None
    assert core.tube_inlet_degc is None
    assert core.tube_flow_m3_s is None
    if core.given_heat_w is None:
        assert "inlet temperature and flow" in core.notes_text


@pytest.mark.parametrize("core", COOLERS, ids=lambda core: core.id)
def test_a_further_cooler_works_once_inlet_and_flow_are_typed(core):
    """Between nothing and what its air could take up if the liquid stayed as hot as it came in; 4 m/s, 35 °C, 1.1 kg/m³."""
    inlet = 110.0 if core.tube_fluid is TubeFluid.OIL else 65.0
    typed = replace(core, given_heat_w=None, tube_inlet_degc=inlet, tube_flow_m3_s=2.5e-4)
    ground = core_ground(typed)
    assert ground.problem is None
    one = np.ones(1)
    liquid = ethylene_glycol(0.5) if ground.alone.oil is None else ground.alone.oil
    flow = 2.5e-4 * float(liquid.density_kg_m3(inlet))
    air = Bench(
        flux_kg_s_m2=4.4 * one, air_in_degc=35.0 * one, tube_in_degc=inlet * one, tube_flow_kg_s=flow * one,
        coolant=ethylene_glycol(0.5),
    )  # fmt: skip
    heat = float(heat_alone_w(ground.alone, air)[0])
    most = 4.4 * core.core_width_mm * core.core_height_mm * 1e-6 * 1006.0 * (inlet - 35.0)
    assert 0.1 * most < heat < most
