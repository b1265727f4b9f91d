"""From cruise into the grade, and idle after."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from msgspec.structs import replace

from grillestack.assess.asked import asked_cases
from grillestack.assess.heat_shed import heat_shed
from grillestack.assess.over_time import OverTime, idle_case, over_time
from grillestack.model.engine import EngineSheet, usual_duty_cases
from grillestack.model.project import Project
from grillestack.physics.lumped_heat import Lump, temperature_after_degc, time_to_reach_s
from tests.assess import packs

GRADE, CRAWL, MOTORWAY, IDLE = usual_duty_cases()
# Standing with its fans off, no air: the heat goes nowhere. And a grade so slow that it passes all that is computed.
STALLED = replace(IDLE, id="stalled", name="Fans off", fans_on=False)
SLOW = replace(GRADE, id="slow", name="Slow grade", road_speed_m_s=8.0)


def _pack(*more: object, sheet: EngineSheet = packs.SHEET) -> Project:
    return packs.half_height_pack(GRADE, CRAWL, MOTORWAY, IDLE, *more, sheet=sheet)


def _climb(pack: Project | None = None, begin: str = MOTORWAY.id, end: str = GRADE.id) -> OverTime:
    return over_time(pack or _pack(), begin, end)


def _energy_gap_frac(begin_degc: float, end_degc: float, lump: Lump) -> float:
    """Return by how much the integral of heat in less heat shed misses C·ΔT, by Gauss-Legendre between the corners."""
    nodes, weights = np.polynomial.legendre.leggauss(24)
    low, high = sorted((begin_degc, end_degc))
    inner = sorted((at for at in lump.corner_degc if low < at < high), reverse=end_degc < begin_degc)
    taken_j = 0.0
    for begin, end in itertools.pairwise([begin_degc, *inner, end_degc]):
        lasts_s = time_to_reach_s(lump, begin, end)
        for node, weight in zip(nodes, weights, strict=True):
            at_degc = temperature_after_degc(lump, begin, 0.5 * lasts_s * (1.0 + node))
            taken_j += 0.5 * lasts_s * weight * (lump.heat_in_w - lump.heat_shed_w(at_degc))
    return taken_j / (lump.capacity_j_per_k * (end_degc - begin_degc)) - 1.0


def test_a_drive_that_the_thermostat_holds_starts_at_its_opening_and_climbs_to_the_assessments_top_tank():
    result = _climb()
    assert result.start_degc == 88.0
    assert result.steady_degc > result.limit_degc == 107.2
    assert result.points[0].seconds_s == 0.0
    assert result.points[0].top_tank_degc == 88.0
    temperatures = [point.top_tank_degc for point in result.points]
    assert temperatures == sorted(temperatures)
    # The curve ends when 99 % of the way is gone.
    assert temperatures[-1] == pytest.approx(88.0 + 0.99 * (result.steady_degc - 88.0), abs=1e-6)


def test_the_limit_is_reached_when_the_curve_says_so():
    result = _climb()
    times, temperatures = np.array([(p.seconds_s, p.top_tank_degc) for p in result.points]).T
    assert np.interp(result.time_to_limit_s, times, temperatures) == pytest.approx(107.2, abs=0.02)


def test_a_load_that_stays_below_the_limit_never_reaches_it_and_cools_from_where_it_came_to():
    result = _climb(end=CRAWL.id)
    assert 88.0 < result.steady_degc < result.limit_degc
    assert result.time_to_limit_s is None
    assert result.cooling.begin_degc == result.steady_degc


def test_a_start_above_the_limit_is_there_at_once():
    result = _climb(begin=GRADE.id, end=MOTORWAY.id)
    assert result.start_degc > result.limit_degc
    assert result.time_to_limit_s == 0.0
    assert result.points[0].top_tank_degc == result.start_degc
    assert result.cooling.begin_degc == result.limit_degc
    assert any("above the limit" in note for note in result.notes)


def test_no_step_is_no_change():
    temperatures = {point.top_tank_degc for point in _climb(begin=CRAWL.id, end=CRAWL.id).points}
    assert max(temperatures) - min(temperatures) < 1e-6


def test_without_air_the_coolant_warms_in_a_straight_line_at_the_engines_heat():
    result = _climb(_pack(STALLED), end=STALLED.id)
    assert result.steady_degc is None
    # All of 0.12 × 59.8 kW goes into the lump.
    assert result.time_to_limit_s == pytest.approx(result.capacity_j_per_k * 19.2 / (0.12 * 59_800.0), rel=1e-4)
    assert result.points[-1].top_tank_degc == pytest.approx(107.2 + 15.0)
    assert any("no top tank temperature sheds the heat" in note for note in result.notes)


def test_from_a_drive_without_steady_temperature_there_is_no_curve_but_the_limit_at_once():
    result = _climb(_pack(STALLED), begin=STALLED.id)
    assert (result.start_degc, result.time_to_limit_s, result.points) == (None, 0.0, ())
    assert result.cooling.begin_degc == result.limit_degc


def test_above_what_is_computed_no_curve_is_drawn_and_the_steady_temperature_is_still_told():
    up, down = _climb(_pack(SLOW), end=SLOW.id), _climb(_pack(SLOW), begin=SLOW.id)
    assert up.steady_degc > 122.2
    assert up.points[-1].top_tank_degc == pytest.approx(122.2)
    assert down.start_degc == up.steady_degc
    assert down.points == ()
    assert any("no curve is drawn" in note for note in up.notes)


def test_at_idle_the_coolant_falls_past_half_sixty_three_per_cent_and_the_fan_switch():
    cooling = _climb().cooling
    assert cooling.case_name == IDLE.name
    assert (cooling.begin_degc, cooling.end_degc, cooling.fan_on_degc) == (107.2, 88.0, 99.0)
    times, temperatures = np.array([(p.seconds_s, p.top_tank_degc) for p in cooling.points]).T
    assert np.interp(cooling.half_s, times, temperatures) == pytest.approx(97.6, abs=0.01)
    assert np.interp(cooling.sixty_three_s, times, temperatures) == pytest.approx(107.2 - 0.63212 * 19.2, abs=0.01)
    assert np.interp(cooling.fan_on_s, times, temperatures) == pytest.approx(99.0, abs=0.01)


def test_what_is_below_the_fan_switch_already_takes_no_time_and_what_does_not_fall_has_no_half():
    cooling = _climb(end=MOTORWAY.id).cooling
    assert cooling.begin_degc == cooling.end_degc == 88.0
    assert (cooling.half_s, cooling.sixty_three_s, cooling.fan_on_s) == (None, None, 0.0)


def test_an_idle_that_does_not_cool_is_said_to_warm_on():
    pack = packs.half_height_pack(GRADE, MOTORWAY, STALLED)
    cooling = _climb(pack).cooling
    assert cooling.case_name == STALLED.name
    assert (cooling.end_degc, cooling.half_s, cooling.fan_on_s) == (None, None, None)
    assert cooling.points[-1].top_tank_degc > cooling.begin_degc


def test_the_idle_case_is_the_standing_one_with_the_least_heat():
    hotter = replace(IDLE, id="case-9", heat_frac=0.4)
    assert idle_case(asked_cases(packs.half_height_pack(GRADE, hotter, IDLE))).case.id == IDLE.id
    assert idle_case(asked_cases(packs.half_height_pack(GRADE, MOTORWAY))) is None


def test_without_a_standing_case_there_is_no_cooling_and_a_note_says_what_to_add():
    result = _climb(packs.half_height_pack(GRADE, MOTORWAY))
    assert result.cooling is None
    assert any("add one" in note for note in result.notes)


@pytest.mark.parametrize("field", ["coolant_volume_m3", "engine_mass_kg"])
def test_more_coolant_or_a_heavier_engine_takes_longer_to_the_same_temperature(field):
    """A theorem: every time is proportional to the capacity."""
    light, heavy = (
        _climb(_pack(sheet=replace(packs.SHEET, **{field: factor * base})))
        for base in ({"coolant_volume_m3": 0.01, "engine_mass_kg": 250.0}[field],)
        for factor in (1.0, 3.0)
    )
    assert heavy.steady_degc == light.steady_degc
    ratio = heavy.capacity_j_per_k / light.capacity_j_per_k
    assert ratio > 1.0
    assert heavy.time_to_limit_s / light.time_to_limit_s == pytest.approx(ratio, rel=1e-9)
    assert heavy.cooling.half_s / light.cooling.half_s == pytest.approx(ratio, rel=1e-9)


def test_a_hotter_thermostat_starts_hotter_and_leaves_less_time():
    cool, hot = (_climb(_pack(sheet=replace(packs.SHEET, thermostat_degc=at))) for at in (82.0, 93.0))
    assert (cool.thermostat_degc, hot.start_degc) == (82.0, 93.0)
    assert cool.start_degc < hot.start_degc
    assert cool.time_to_limit_s > hot.time_to_limit_s


def test_a_thermostat_above_the_limit_is_above_the_limit():
    result = _climb(_pack(sheet=replace(packs.SHEET, top_tank_limit_degc=85.0)))
    assert result.start_degc == 88.0
    assert result.time_to_limit_s == 0.0
    # Below its opening the idling engine warms the coolant up to it.
    assert (result.cooling.begin_degc, result.cooling.end_degc) == (85.0, 88.0)


def test_on_the_packs_own_heat_the_energy_balance_closes_to_round_off():
    """A law: the integral of engine heat less heat shed, by Gauss-Legendre, against C·ΔT, up the grade and down at idle."""
    result = _climb()
    asked = asked_cases(_pack())
    for number, begin, end in ((0, 88.0, 107.2), (3, 107.2, 88.5)):
        shed = heat_shed(_pack(), asked)[number]
        lump = Lump(
            capacity_j_per_k=result.capacity_j_per_k,
            heat_in_w=asked[number].heat_target_w,
            corner_degc=shed.corner_degc,
            corner_heat_w=shed.corner_heat_w,
        )
        assert abs(_energy_gap_frac(begin, end, lump)) < 1e-11


def test_what_cannot_be_judged_or_is_not_there_has_no_answer():
    assert over_time(_pack(sheet=EngineSheet()), MOTORWAY.id, GRADE.id) is None
    assert over_time(_pack(), "no-such-case", GRADE.id) is None
    assert over_time(_pack(), MOTORWAY.id, "no-such-case") is None
    assert over_time(packs.project(GRADE, MOTORWAY), MOTORWAY.id, GRADE.id) is None


@pytest.mark.parametrize("at_share", [0.0, 1.0])
def test_cancelling_gives_nothing(at_share):
    assert over_time(_pack(), MOTORWAY.id, GRADE.id, lambda share: share != at_share) is None


def test_progress_goes_from_nought_to_one():
    seen: list[float] = []
    over_time(_pack(), MOTORWAY.id, GRADE.id, lambda share: seen.append(share) is None)
    assert seen == [0.0, 1.0]
