"""The whole road from project to assessment."""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace

from grillestack.assess.asked import NO_HEAT
from grillestack.assess.assess import assess
from grillestack.assess.result import Assessment, Verdict
from grillestack.model import edits
from grillestack.model.core_description import Construction, RatingPoint
from grillestack.model.engine import EngineSheet, Environment, Seal
from grillestack.model.nose import Opening
from grillestack.model.outline import Point
from grillestack.model.project import Project
from tests.assess import packs


def _only(assessment: Assessment):
    (case,) = assessment.cases
    return case


def test_empty_project_cannot_be_judged_and_says_why():
    assessment = assess(Project())
    assert assessment.verdict is Verdict.UNKNOWN
    assert assessment.deciding_case is None
    assert assessment.radiator is None
    assert all(case.top_tank_degc is None and case.limiting_ambient_degc is None for case in assessment.cases)
    assert any("radiator" in reason for reason in assessment.cases[0].reasons)
    assert any("opening" in reason for reason in assessment.cases[0].reasons)


def test_no_duty_case_cannot_be_judged():
    assessment = assess(replace(packs.half_height_pack(), cases=()))
    assert assessment.verdict is Verdict.UNKNOWN
    assert any("duty case" in remark.text for remark in assessment.remarks)


def test_unknown_heat_is_shown_as_unknown_not_as_a_number():
    assessment = assess(packs.half_height_pack(sheet=EngineSheet(charge_flow_kg_s=0.16)))
    case = _only(assessment)
    assert assessment.verdict is Verdict.UNKNOWN
    assert case.heat_target_w is None
    assert case.heat_capacity_w is None
    assert case.reasons == (NO_HEAT,)
    assert any(remark.text == NO_HEAT for remark in assessment.remarks)


def test_a_fan_of_which_nothing_is_known_leaves_the_case_open_but_not_the_one_with_fans_off():
    base = packs.half_height_pack(packs.warm_day(), packs.warm_day(id="case-2", name="Fans off", fans_on=False))
    blind = next(part for part in base.parts if part.id.startswith("fan"))
    base = edits.replace_part(base, replace(blind, curve=()))
    on, off = assess(base).cases
    assert on.verdict is Verdict.UNKNOWN
    assert any(blind.name in reason for reason in on.reasons)
    assert off.verdict is not Verdict.UNKNOWN


def test_the_heat_at_the_limit_and_the_top_tank_tell_one_story():
    """Where the pack sheds more than the target at the limit, the top tank stays below it, and the other way round."""
    for height in (120.0, 230.0, 340.0, 460.0):
        pack = packs.behind(packs.with_part(packs.project(), packs.charge_air_cooler(560.0, height), 115.0))
        case = _only(assess(pack))
        cool_enough = case.top_tank_degc <= case.top_tank_limit_degc
        assert cool_enough == (case.heat_capacity_w >= case.heat_target_w)
        assert cool_enough == (case.limiting_ambient_degc >= case.design_ambient_degc)
        assert cool_enough == (case.effective_mm2 >= case.required_mm2)


def test_at_its_limiting_ambient_the_pack_sheds_just_the_target():
    case = _only(assess(packs.half_height_pack()))
    again = _only(assess(packs.half_height_pack(packs.warm_day(ambient_degc=case.limiting_ambient_degc))))
    assert again.heat_capacity_w == pytest.approx(again.heat_target_w, rel=1e-5)
    assert again.top_tank_degc == pytest.approx(again.top_tank_limit_degc, abs=2e-3)
    assert again.margin_k == pytest.approx(0.0, abs=2e-3)


def test_effective_face_of_a_radiator_that_stands_alone_is_its_core():
    case = _only(assess(packs.behind(packs.project())))
    assert case.effective_mm2 == pytest.approx(700.0 * 460.0, rel=1e-9)


def test_effective_and_required_face_share_one_measure():
    case = _only(assess(packs.half_height_pack()))
    assert case.effective_mm2 / case.required_mm2 == pytest.approx(case.heat_capacity_w / case.heat_target_w, rel=1e-12)


def test_a_trial_from_a_neighbour_gives_the_numbers_of_the_document():
    base = packs.half_height_pack()
    cac = next(part.id for part in base.parts if part.id.startswith("charge"))
    last = assess(base)
    for step in range(1, 6):
        moved = edits.move_parts(base, [cac], dy_mm=7.0 * step, dz_mm=13.0 * step)
        last = assess(moved, last)
        cold = assess(moved)
        assert last.verdict is cold.verdict
        assert last.radiator.exposed_mm2 == cold.radiator.exposed_mm2
        for warm, still in zip(last.cases, cold.cases, strict=True):
            assert warm.limiting_ambient_degc == pytest.approx(still.limiting_ambient_degc, abs=0.01)
            assert warm.top_tank_degc == pytest.approx(still.top_tank_degc, abs=0.01)


def test_the_same_project_gives_the_same_numbers_to_the_last_digit():
    assert assess(packs.half_height_pack()).cases == assess(packs.half_height_pack()).cases


def test_a_case_does_not_depend_on_the_other_cases_beside_it():
    slow = packs.warm_day(id="case-2", name="Slow", road_speed_m_s=4.0)
    alone = _only(assess(packs.half_height_pack()))
    beside = assess(packs.half_height_pack(packs.warm_day(), slow)).cases[0]
    assert beside.limiting_ambient_degc == pytest.approx(alone.limiting_ambient_degc, abs=1e-3)


def test_no_fans_at_standstill_is_a_fail_in_words():
    pack = packs.behind(packs.project(packs.warm_day(road_speed_m_s=0.0, fans_on=False)))
    assessment = assess(pack)
    case = _only(assessment)
    assert assessment.verdict is Verdict.FAIL
    assert case.limiting_ambient_degc is None
    assert case.reasons == (
        "In “Warm day” no air crosses the radiator, so it sheds no heat: the vehicle stands and no fan turns.",
    )
    assert all(value is None or math.isfinite(value) for value in (case.air_kg_s, case.heat_capacity_w))


def test_idle_with_the_shroud_off_draws_bay_air_round_again():
    idle = packs.warm_day(road_speed_m_s=0.0, heat_frac=0.2, coolant_frac=0.4, charge_frac=0.1)
    closed = _only(assess(packs.behind(packs.project(idle))))
    bare = _only(assess(packs.behind(packs.project(idle), shroud=False)))
    assert bare.recirculated_frac > closed.recirculated_frac
    assert bare.limiting_ambient_degc < closed.limiting_ambient_degc


def test_sealing_the_edges_helps_at_standstill():
    idle = packs.warm_day(road_speed_m_s=0.0, heat_frac=0.2, coolant_frac=0.4, charge_frac=0.1)
    base = packs.behind(packs.project(idle))
    margins = [
        _only(assess(edits.set_environment(base, Environment(seal=seal, opening_closed_off=True)))).margin_k
        for seal in (Seal.SEALED, Seal.ROUGH, Seal.OPEN)
    ]
    assert margins == sorted(margins, reverse=True)
    assert margins[0] > margins[2]


def test_thin_air_carries_less_heat():
    low = _only(assess(packs.half_height_pack()))
    high = _only(assess(packs.half_height_pack(packs.warm_day(altitude_m=3000.0))))
    assert high.heat_capacity_w < 0.9 * low.heat_capacity_w


def test_a_dirty_core_lets_less_air_through():
    clean = packs.half_height_pack()
    dirty = edits.set_environment(clean, Environment(dirty_core=True))
    assert _only(assess(dirty)).air_kg_s < _only(assess(clean)).air_kg_s


def test_condenser_load_only_counts_with_the_air_conditioning_on():
    def pack(on: bool):
        case = packs.warm_day(air_conditioning_on=on)
        return packs.behind(packs.with_part(packs.project(case), packs.condenser(), 90.0))

    on, off = _only(assess(pack(True))), _only(assess(pack(False)))
    assert off.condensing_degc is None
    assert on.condensing_degc > 35.0
    assert on.heat_capacity_w < off.heat_capacity_w


def test_every_drawable_but_bad_layout_is_answered():
    base = packs.half_height_pack()
    bad = [
        replace(base, parts=(*base.parts[1:], replace(base.parts[0], placement=base.parts[1].placement))),
        edits.move_parts(base, [base.parts[0].id], dy_mm=5000.0),
        edits.move_parts(base, [part.id for part in base.parts], dz_mm=-3000.0),
        replace(base, parts=tuple(part for part in base.parts if part.id.startswith(("fan", "shroud")))),
        replace(base, nose=replace(base.nose, openings=())),
        replace(base, parts=(*base.parts, *(replace(part, id=part.id + "-b") for part in base.parts))),
    ]
    for project in bad:
        assessment = assess(project)
        for case in assessment.cases:
            for name in ("heat_capacity_w", "top_tank_degc", "limiting_ambient_degc", "air_kg_s", "effective_mm2"):
                value = getattr(case, name)
                assert value is None or math.isfinite(value)


def test_a_fan_curve_of_two_points_is_a_sentence_not_a_crash():
    base = packs.half_height_pack()
    short = next(part for part in base.parts if part.id.startswith("fan"))
    assessment = assess(edits.replace_part(base, replace(short, curve=short.curve[:2])))
    assert assessment.verdict is Verdict.UNKNOWN
    assert any(short.name in remark.text and "three different flows" in remark.text for remark in assessment.remarks)


def test_fins_and_tubes_that_cannot_be_put_together_leave_the_pack_open_and_name_the_core():
    base = packs.half_height_pack()
    core = next(part for part in base.parts if part.id.startswith("radiator"))
    impossible = Construction(
        tube_pitch_mm=9.8,
        tube_thickness_mm=12.0,
        tube_depth_mm=36.0,
        tube_wall_mm=0.3,
        fin_height_mm=8.0,
        fin_pitch_mm=1.4,
        fin_thickness_mm=0.08,
        louvre_pitch_mm=1.2,
        louvre_length_mm=6.8,
        louvre_angle_deg=27.0,
    )
    described = replace(core, description=replace(core.description, construction=impossible))
    assessment = assess(edits.replace_part(base, described))
    assert assessment.verdict is Verdict.UNKNOWN
    assert any(core.name in remark.text and "Tube thickness" in remark.text for remark in assessment.remarks)


def test_a_rating_point_is_used_and_the_remarks_say_nothing_else():
    base = packs.half_height_pack()
    core = next(part for part in base.parts if part.id.startswith("radiator"))
    rating = RatingPoint(
        heat_w=60_000.0, face_velocity_m_s=6.0, air_inlet_degc=30.0, tube_inlet_degc=100.0, tube_flow_kg_s=2.0
    )
    rated = edits.replace_part(base, replace(core, description=replace(core.description, rating=rating)))
    assert not any("not used" in remark.text or "not yet used" in remark.text for remark in assess(rated).remarks)
    assert _only(assess(rated)).heat_capacity_w != _only(assess(base)).heat_capacity_w


def test_an_opening_without_area_lets_no_air_in_and_spoils_no_figure():
    base = packs.half_height_pack()
    flat = Opening(id="opening-9", name="Flat", outline=(Point(0, 0), Point(10, 10), Point(20, 20)))
    beside = edits.set_nose(base, replace(base.nose, openings=(*base.nose.openings, flat)))
    assert _only(assess(beside)).heat_capacity_w == pytest.approx(_only(assess(base)).heat_capacity_w, rel=1e-6)
    alone = assess(edits.set_nose(base, replace(base.nose, openings=(flat,))))
    assert alone.verdict is Verdict.FAIL
    assert math.isfinite(_only(alone).air_kg_s)


def test_a_core_beyond_the_data_of_the_correlation_says_so():
    """The correlation's cores were 15.6 to 57.4 mm deep (from memory); the cooler of this pack is 64 mm."""
    basis = {entry.figure: entry for entry in assess(packs.half_height_pack()).basis}
    cooler = next(entry for figure, entry in basis.items() if "Charge air cooler" in figure)
    assert "Core depth 64 mm is outside 15.6 to 57.4 mm" in cooler.spread
    assert "outside" not in next(entry for figure, entry in basis.items() if "Radiator" in figure).spread
