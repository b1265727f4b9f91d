"""What a case without an answer says: one sentence for one cause."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.assess.result import CaseResult, Verdict
from grillestack.model.nose import SupportWindow
from grillestack.model.outline import rectangle_outline
from grillestack.model.project import Project
from tests.assess import packs


def _answer(project: Project) -> CaseResult:
    (case,) = assess(project).cases
    return case


def _walled_up(project: Project) -> Project:
    far_off = SupportWindow(outline=rectangle_outline(2000, 2000, 2100, 2100), x_mm=50.0)
    return replace(project, nose=replace(project.nose, support_window=far_off))


def test_a_pack_behind_a_wall_says_once_that_no_air_crosses_it():
    case = _answer(_walled_up(packs.half_height_pack(packs.warm_day(air_conditioning_on=True))))
    assert case.verdict is Verdict.FAIL
    assert case.reasons == (
        "In “Warm day” no air crosses the radiator, so it sheds no heat: what lies before and behind it lets none through.",
    )
    assert (case.top_tank_degc, case.limiting_ambient_degc, case.effective_mm2) == (None, None, None)


def test_a_fan_that_stirs_the_same_air_round_sheds_no_heat_and_says_why():
    """A slit for an opening, standing still, shroud off: what the fan draws comes back past the edges."""
    stirred = packs.behind(
        packs.project(packs.warm_day(road_speed_m_s=0.0), front=packs.nose(width_mm=4.0, height_mm=4.0)), shroud=False
    )
    case = _answer(stirred)
    assert case.verdict is Verdict.FAIL
    assert case.air_kg_s > 0.05
    assert case.reasons == (
        "In “Warm day” the heat does not get away at any temperature: too little outside air comes through the pack.",
    )
    assert (case.top_tank_degc, case.limiting_ambient_degc) == (None, None)


def test_too_much_heat_is_told_by_how_much_is_shed_on_the_coldest_day():
    case = _answer(packs.half_height_pack(sheet=replace(packs.SHEET, heat_to_coolant_w=9e5)))
    (reason,) = case.reasons
    assert reason.startswith("In “Warm day” there is no hottest day: even at -60 °C the radiator sheds ")


def test_a_pack_with_an_answer_gives_no_reason():
    assert _answer(packs.half_height_pack()).reasons == ()
