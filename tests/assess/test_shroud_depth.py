"""How deep a shroud is and how far its fans stand from the fins, and where leaks hang."""

from __future__ import annotations

import math

import numpy as np
import pytest
from msgspec.structs import replace

from grillestack.advice.findings import findings
from grillestack.assess.asked import asked_cases
from grillestack.assess.assess import assess, further_heat_w, pack_overlay
from grillestack.assess.pack_layout import Ideal, lay_out
from grillestack.assess.problems import batch_of
from grillestack.assess.seals import leak_areas
from grillestack.assess.uncertain import Kind, uncertain_inputs
from grillestack.geometry.overlay import build_overlay
from grillestack.model import edits
from grillestack.model.engine import Environment, Seal
from grillestack.model.nose import Opening
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import Fan, FanDrive, Shroud
from grillestack.model.project import cores, shrouds
from grillestack.physics.air_path import edge_nodes
from grillestack.physics.solve import solve
from tests.assess import packs

# The radiator of `packs` stands from 195 to 231 mm.
REAR_MM = 231.0
IDLE = packs.warm_day(road_speed_m_s=0.0, heat_frac=0.2, coolant_frac=0.4, charge_frac=0.1)


def _at(project, back_mm, *, shroud_depth_mm=2000.0):
    """Return the project with its fans that far behind the radiator's fins and a shroud of that depth."""
    for part in project.parts:
        if isinstance(part, Fan):
            project = edits.move_parts(project, [part.id], dx_mm=REAR_MM + back_mm - part.placement.x_mm)
        if isinstance(part, Shroud):
            project = edits.replace_part(project, replace(part, depth_mm=shroud_depth_mm))
    return project


def _only(project):
    (case,) = assess(project).cases
    return case


def _solved(project, ideal=None):
    overlay, stack = pack_overlay(project), cores(project)
    laid_out = lay_out(project, overlay, stack, ideal or Ideal())
    batch = batch_of(project, laid_out.layout, asked_cases(project), further_heat_w(stack))
    return laid_out, solve(laid_out.layout, batch.conditions)


def _beside(case):
    return [zone for zone in case.zones if zone.into.endswith("beside the fan")]


def test_a_shroud_with_a_fan_has_two_spaces_and_what_is_swept_leads_straight_to_the_fan():
    """By hand: two rings of 380 mm sweep their circles of the 700 × 460 mm core; the rest lies beside them."""
    case = _only(packs.behind(packs.project()))
    beside_mm2 = sum(zone.area_mm2 for zone in _beside(case))
    rings_mm2 = sum(zone.area_mm2 for zone in case.zones if zone.into == "Shroud")
    # Each ring reaches 35 mm past the core's side, which cuts it 155 mm from its middle.
    segment = 190.0**2 * math.acos(155.0 / 190.0) - 155.0 * math.sqrt(190.0**2 - 155.0**2)
    swept_mm2 = 2 * (math.pi * 190.0**2 - segment)
    assert rings_mm2 == pytest.approx(swept_mm2, rel=1e-3)
    assert rings_mm2 + beside_mm2 == pytest.approx(700.0 * 460.0, rel=1e-9)


@pytest.mark.parametrize("case", [packs.warm_day(), IDLE], ids=["warm day", "idle"])
def test_against_the_fins_a_fan_cools_a_ring_and_the_rest_stands_still(case):
    against = _only(_at(packs.behind(packs.project(case)), 0.0))
    assert _beside(against)
    assert sum(zone.air_kg_s for zone in _beside(against)) == pytest.approx(0.0, abs=1e-9)
    usual = _only(_at(packs.behind(packs.project(case)), 45.0))
    assert against.air_kg_s < 0.9 * usual.air_kg_s
    assert against.limiting_ambient_degc < usual.limiting_ambient_degc - 2.0


def test_a_fan_against_the_fins_is_spoken_of():
    project = _at(packs.behind(packs.project()), 2.0)
    assert any("between fan and fins" in finding.text for finding in findings(project, assess(project)))


def test_a_shroud_2_mm_deep_costs_what_a_fan_2_mm_away_costs():
    base = packs.behind(packs.project())
    (shroud,) = shrouds(base)
    close = edits.move_parts(base, [shroud.id], dx_mm=REAR_MM - shroud.placement.x_mm)
    shallow = _at(close, 45.0, shroud_depth_mm=2.0)
    near = _at(close, 2.0)
    assert _only(shallow).limiting_ambient_degc == pytest.approx(_only(near).limiting_ambient_degc, abs=1e-3)
    assert _only(shallow).limiting_ambient_degc < _only(_at(close, 45.0)).limiting_ambient_degc - 1.0


@pytest.mark.parametrize("case", [packs.warm_day(), IDLE], ids=["warm day", "idle"])
def test_far_behind_the_fins_the_shroud_is_one_chamber_again(case):
    """At 1 m the loss is (45/1000)² of what it is at 45 mm: under 0.01 K are left of the answer without any."""
    project = _at(packs.half_height_pack(case), 1000.0)
    (far, with_way), (one, without) = _solved(project), _solved(project, Ideal(full_shroud=True))
    assert one.layout.passages == ()
    assert far.layout.nodes == one.layout.nodes + 1
    assert with_way.ambient_degc == pytest.approx(without.ambient_degc, abs=0.01)
    assert with_way.heat_w == pytest.approx(without.heat_w, rel=1e-3)


@pytest.mark.parametrize("back_mm", [0.0, 3.0, 25.0, 60.0])
def test_air_and_heat_balance_with_two_spaces(back_mm):
    project = _at(packs.half_height_pack(packs.warm_day(), replace(IDLE, id="case-2")), back_mm)
    laid_out, solution = _solved(project)
    tails, tips = edge_nodes(laid_out.layout)
    for row, mass in enumerate(solution.flow.mass_kg_s):
        for node in range(laid_out.layout.nodes):
            assert abs(mass[tails == node].sum() - mass[tips == node].sum()) < 1e-9
        bay = solution.state.node_degc[row, laid_out.layout.bay] - solution.ambient_degc[row]
        carried = 1006.0 * mass[solution.ranges.exit] * bay
        assert carried == pytest.approx(solution.sweep.heat_w[row].sum(), rel=1e-3)


def test_each_step_back_is_worth_less_than_the_one_before():
    """No law, but so in every pack tried: more depth, a hotter day; the loss goes with 1/depth²."""
    days = [_only(_at(packs.half_height_pack(), back)).limiting_ambient_degc for back in (10.0, 25.0, 50.0, 100.0)]
    gains = np.diff(days)
    assert (gains > 0.0).all()
    assert (np.diff(gains) < 0.0).all()


def test_a_fan_that_stands_still_keeps_its_ring():
    """What it sweeps still leads straight to the other fan; more than beside the rings, where the way costs."""
    base = _at(packs.behind(packs.project(replace(IDLE, engine_speed_rpm=800.0))), 20.0)
    still = next(part for part in base.parts if isinstance(part, Fan))
    slipping = {"drive": FanDrive.BELT, "drive_ratio_factor": 1.0, "curve_speed_rpm": 800.0, "clutch_slip_frac": 1.0}
    slow = edits.replace_part(base, replace(still, **slipping))
    both, one = _only(base), _only(slow)
    areas = [sum(z.area_mm2 for z in case.zones if z.into == "Shroud") for case in (both, one)]
    assert areas[0] == pytest.approx(areas[1])
    assert one.air_kg_s < 0.8 * both.air_kg_s


def test_flaps_of_a_shroud_wholly_swept_stand_beside_the_ring_all_the_same():
    fan = replace(packs.fan(), ring_diameter_mm=900.0)
    project = packs.with_part(packs.behind(packs.project(packs.warm_day(fans_on=False)), fans=False), fan, 300.0)
    (shroud,) = shrouds(project)
    assert not _solved(project)[0].layout.passages
    flapped = edits.replace_part(project, replace(shroud, flap_area_mm2=40_000.0))
    laid_out, solution = _solved(flapped)
    (passage,), (flap,) = laid_out.layout.passages, laid_out.layout.flaps
    assert passage.upstream == flap.upstream
    # The ring reaches beyond the shroud on all sides, so no rim is left to pass and the flaps carry nothing.
    assert passage.area_m2 == 0.0
    assert solution.flow.mass_kg_s[:, solution.ranges.flaps] == pytest.approx(0.0, abs=1e-9)


def test_radiator_alone_keeps_shroud_and_fans_and_so_pays_for_the_way_too():
    near, far = (_only(_at(packs.half_height_pack(), back)) for back in (10.0, 300.0))
    alone = [case.heat_capacity_w / case.effective_mm2 for case in (near, far)]
    assert alone[0] < 0.97 * alone[1]


def test_the_loss_of_the_way_is_uncertain_where_a_fan_stands_in_a_shroud():
    def kinds(project):
        spread = [(0.9, 1.1, "as typed")] * len(cores(project))
        return {one.kind for one in uncertain_inputs(project, cores(project), spread)}

    assert Kind.PASSAGE in kinds(packs.behind(packs.project()))
    assert Kind.PASSAGE not in kinds(packs.behind(packs.project(), shroud=False))
    assert Kind.PASSAGE not in kinds(packs.behind(packs.project(), fans=False))


def _leaks(opening, *, spread_deg=0.0, closed_off=False, **seals):
    base = packs.behind(packs.project())
    nose = replace(base.nose, openings=(Opening(id="o", name="Grille", outline=opening),), support_window=None)
    base = edits.set_nose(base, nose)
    base = edits.set_environment(base, Environment(opening_closed_off=closed_off, **seals))
    return leak_areas(base, build_overlay(base, spread_deg))


def test_an_edge_gaps_where_its_own_air_stands():
    """By hand: a pack of 810 × 460 mm from z = 25 to 485, rough: 4 mm along each edge; the jet covers its left 300 mm."""
    found = _leaks(rectangle_outline(-1000.0, -1000.0, -105.0, 1000.0), closed_off=True, seal=Seal.ROUGH)
    assert found.in_jet_m2 == pytest.approx(4.0 * (460.0 + 2 * 300.0) * 1e-6, rel=1e-9)
    assert found.beside_jet_m2 == pytest.approx(4.0 * (460.0 + 2 * 510.0) * 1e-6, rel=1e-9)


def test_the_opening_beside_the_pack_leaks_straight_from_the_jet():
    found = _leaks(rectangle_outline(-500.0, 100.0, 300.0, 400.0), seal=Seal.SEALED)
    # 95 mm beside the pack's left end (-405), 300 mm high; of its left edge 300 mm stand in that air with 1 mm of gap.
    assert found.in_jet_m2 == pytest.approx((95.0 * 300.0 + 300.0) * 1e-6, rel=1e-9)
    assert found.beside_jet_m2 == pytest.approx((160.0 + 460.0 + 2 * 810.0) * 1e-6, rel=1e-9)


def test_a_pack_on_the_very_border_of_the_jet_counts_as_in_it_and_one_without_opening_as_beside_it():
    just = _leaks(rectangle_outline(-405.0, 25.0, 405.0, 485.0), seal=Seal.SEALED)
    assert just.beside_jet_m2 == pytest.approx(0.0, abs=1e-12)
    assert just.in_jet_m2 == pytest.approx(2 * (810.0 + 460.0) * 1e-6, rel=1e-9)
    away = _leaks(rectangle_outline(2000.0, 25.0, 2100.0, 485.0), seal=Seal.SEALED, closed_off=True)
    assert away.in_jet_m2 == 0.0


def test_a_pack_wholly_in_the_jet_leaks_past_its_edges():
    """No border of the jet crosses it, so nothing turns sideways; its gaps are fed by the openings' air itself."""
    base = packs.behind(packs.project())
    wide = Opening(id="o", name="All of it", outline=rectangle_outline(-600.0, -300.0, 600.0, 800.0))
    base = edits.set_nose(base, replace(base.nose, openings=(wide,), support_window=None))

    def day(seal):
        return _only(edits.set_environment(base, Environment(opening_closed_off=True, seal=seal)))

    tight, leaky = day(Seal.SEALED), day(Seal.OPEN)
    assert leaky.bypassed_frac > 0.05 > tight.bypassed_frac > 0.0
    assert leaky.limiting_ambient_degc < tight.limiting_ambient_degc
