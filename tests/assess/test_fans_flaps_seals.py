"""Belt fans, voltage, relief flaps and seals edge by edge."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.assess.fan_figures import speed_ratio
from grillestack.assess.result import Verdict
from grillestack.assess.seals import leak_areas
from grillestack.geometry.overlay import build_overlay
from grillestack.model import edits
from grillestack.model.engine import Environment, Seal
from grillestack.model.parts import FanDrive
from tests.assess import packs


def _idle(**changes):
    return packs.warm_day(
        road_speed_m_s=0.0, heat_frac=0.2, coolant_frac=0.4, charge_frac=0.1, engine_speed_rpm=800.0, **changes
    )


def _each_fan(project, **changes):
    for part in project.parts:
        if part.id.startswith("fan"):
            project = edits.replace_part(project, replace(part, **changes))
    return project


def _only(project):
    (case,) = assess(project).cases
    return case


def test_a_belt_fan_turns_with_the_engine_less_what_its_clutch_slips():
    """By hand: 2000 rpm × 1.2 × (1 - 0.25) over a curve at 2400 rpm is 0.75."""
    fan = replace(
        packs.fan(), drive=FanDrive.BELT, drive_ratio_factor=1.2, curve_speed_rpm=2400.0, clutch_slip_frac=0.25
    )
    assert speed_ratio(fan, packs.warm_day(engine_speed_rpm=2000.0), Environment()) == pytest.approx(0.75)


def test_a_belt_fan_does_not_care_for_the_switch_of_the_electric_ones():
    belt = _each_fan(
        packs.behind(packs.project(_idle(fans_on=False))),
        drive=FanDrive.BELT,
        drive_ratio_factor=1.0,
        curve_speed_rpm=800.0,
    )
    electric = packs.behind(packs.project(_idle()))
    assert _only(belt).air_kg_s == pytest.approx(_only(electric).air_kg_s, rel=1e-6)


def test_a_belt_fan_whose_speed_nobody_knows_leaves_the_case_open():
    project = _each_fan(packs.behind(packs.project(packs.warm_day())), drive=FanDrive.BELT, drive_ratio_factor=1.0)
    assessment = assess(project)
    assert assessment.verdict is Verdict.UNKNOWN
    assert any("engine speed" in remark.text for remark in assessment.remarks)


def test_flow_at_standstill_goes_with_fan_speed_by_the_fan_laws():
    """Fan laws (textbook): where losses go with the square of the flow, flow goes with speed; cores are a little softer."""
    project = packs.behind(packs.project(_idle()))
    project = edits.set_environment(project, Environment(supply_voltage_v=12.0))
    full = _only(_each_fan(project, rated_voltage_v=12.0)).air_kg_s
    half = _only(_each_fan(project, rated_voltage_v=24.0)).air_kg_s
    assert 0.40 * full < half < 0.52 * full


def test_low_voltage_slows_electric_fans_only_where_both_voltages_are_known():
    fan = replace(packs.fan(), rated_voltage_v=13.5)
    assert speed_ratio(fan, packs.warm_day(), Environment(supply_voltage_v=12.15)) == pytest.approx(0.9)
    assert speed_ratio(fan, packs.warm_day(), Environment()) == 1.0
    assert speed_ratio(packs.fan(), packs.warm_day(), Environment(supply_voltage_v=9.0)) == 1.0


def _with_flaps(project, area_mm2):
    shroud = next(part for part in project.parts if part.id.startswith("shroud"))
    return edits.replace_part(project, replace(shroud, flap_area_mm2=area_mm2))


def test_flaps_let_ram_air_out_at_speed_with_the_fans_off():
    """Common practice, no source: over about 64 km/h a full shroud without relief flaps costs air."""
    fast = packs.behind(packs.project(packs.warm_day(road_speed_m_s=30.0, fans_on=False)))
    shut, flapped = _only(fast), _only(_with_flaps(fast, 60_000.0))
    assert flapped.air_kg_s > 1.03 * shut.air_kg_s


def test_flaps_stay_shut_where_the_fan_sucks():
    idle = packs.behind(packs.project(_idle()))
    assert _only(_with_flaps(idle, 60_000.0)).air_kg_s == pytest.approx(_only(idle).air_kg_s, rel=0.02)


def test_leaks_of_four_edges_add_up_edge_by_edge():
    """By hand: pack of 810 × 460 mm before its window, each edge its own gap."""
    project = packs.behind(packs.project())
    mixed = edits.set_environment(project, Environment(seal=Seal.SEALED, seal_top=Seal.ROUGH, opening_closed_off=True))
    overlay = build_overlay(mixed, 7.0)
    by_hand_mm2 = 810.0 * 4.0 + 810.0 * 1.0 + 2 * 460.0 * 1.0
    assert leak_areas(mixed, overlay).total_m2 == pytest.approx(by_hand_mm2 / 1e6, rel=1e-9)


def test_one_open_edge_costs_less_than_four():
    base = packs.behind(packs.project(_idle()))

    def day(**seals):
        return _only(edits.set_environment(base, Environment(opening_closed_off=True, **seals))).limiting_ambient_degc

    assert day(seal=Seal.SEALED) > day(seal=Seal.SEALED, seal_top=Seal.OPEN) > day(seal=Seal.OPEN)


def test_a_sealed_bottom_edge_stops_the_air_of_a_cooler_that_hangs_below_the_radiator():
    low = packs.behind(
        packs.with_part(packs.project(), packs.charge_air_cooler(), 115.0, -20.0), shroud=False, fans=False
    )
    rough = _only(edits.set_environment(low, Environment(opening_closed_off=True)))
    sealed = _only(edits.set_environment(low, Environment(opening_closed_off=True, seal_bottom=Seal.SEALED)))
    assert sealed.charge_out_degc > rough.charge_out_degc
