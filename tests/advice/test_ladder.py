"""What to change first."""

from __future__ import annotations

import functools

import pytest
from msgspec.structs import replace

from grillestack.advice.changes import CHANGES
from grillestack.advice.ladder import Ladder, ladder
from grillestack.advice.trial import LEAST_WORTH_K
from grillestack.assess.asked import NO_HEAT
from grillestack.assess.assess import assess
from grillestack.assess.result import Assessment, Verdict
from grillestack.model import edits
from grillestack.model.engine import EngineSheet, Environment, Seal
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores, shrouds
from tests.advice.situations import fan, radiator, situation
from tests.assess import packs

CATALOGUE = (
    radiator(1, 700.0, 460.0, 50.0),
    radiator(2, 720.0, 520.0, 36.0),
    fan(1, 380.0, 1.25),
    fan(2, 380.0, 1.6),
)
COOL = packs.warm_day(id="case-2", name="Cool day", ambient_degc=10.0, heat_frac=0.5)


def _standing(**changes: object) -> Project:
    """Return a pack that stands still with a shroud over a strip of its core."""
    still = {"road_speed_m_s": 0.0, "coolant_frac": 0.4, "charge_frac": 0.1, **changes}
    project = packs.behind(packs.project(packs.warm_day(**still)))
    return edits.replace_part(project, replace(shrouds(project)[0], height_mm=60.0))


PACKS = {
    "half": packs.half_height_pack(),
    "full": packs.full_height_pack(packs.warm_day(), COOL),
    "whole": edits.set_environment(
        packs.with_part(
            packs.half_height_pack(packs.warm_day(air_conditioning_on=True)), packs.condenser(), 80.0, 400.0
        ),
        Environment(dirty_core=True),
    ),
    "standing": _standing(heat_frac=0.4),
}
EACH = pytest.mark.parametrize("name", sorted(PACKS))


@functools.cache
def _ladder(name: str) -> Ladder:
    return ladder(PACKS[name], CATALOGUE)


@functools.cache
def _assessed(name: str) -> Assessment:
    return assess(PACKS[name])


def _day(assessment: Assessment, case_id: str | None) -> float | None:
    return next(case.limiting_ambient_degc for case in assessment.cases if case.case_id == case_id)


def _titles(found: Ladder) -> str:
    return "; ".join(rung.title for rung in found.rungs)


@EACH
def test_the_degrees_of_a_rung_are_those_of_its_own_settled_assessment_less_those_of_the_pack(name):
    found, base = _ladder(name), _assessed(name)
    assert found.rungs
    assert found.case_id == base.deciding_case.case_id
    for rung in found.rungs:
        after = assess(rung.project)
        assert rung.hottest_after_degc == pytest.approx(_day(after, found.case_id), abs=1e-6)
        assert rung.verdict_after is after.verdict
        if rung.hottest_before_degc is None:
            assert rung.buys_k is None
        else:
            assert rung.hottest_before_degc == pytest.approx(_day(base, found.case_id), abs=1e-6)
            assert rung.buys_k == pytest.approx(_day(after, found.case_id) - _day(base, found.case_id), abs=1e-6)


@EACH
def test_rungs_stand_by_the_degrees_they_buy_what_spoils_something_last_and_none_buys_too_little(name):
    found = _ladder(name)
    worth = [(not rung.spoils, rung.buys_k if rung.buys_k is not None else float("inf")) for rung in found.rungs]
    assert worth == sorted(worth, reverse=True)
    assert all(degrees >= LEAST_WORTH_K for _, degrees in worth)


@EACH
def test_the_pack_itself_stays_as_it_was_and_every_rung_is_another(name):
    before = PACKS[name]
    for rung in _ladder(name).rungs:
        assert rung.project != before
        assert rung.project.engine == before.engine
        assert rung.project.cases == before.cases
        known = {part.id for part in (*before.parts, *rung.project.parts)}
        known |= {opening.id for opening in before.nose.openings}
        assert set(rung.parts) <= known
    assert before == PACKS[name]
    assert assess(before) == _assessed(name)


@EACH
def test_every_kind_of_change_is_a_rung_or_counted(name):
    found = _ladder(name)
    offered = situation(PACKS[name], CATALOGUE)
    kinds = {candidate.kind for change in CHANGES for candidate in change(offered)}
    assert len(found.rungs) + found.too_little_count + found.harmful_count == len(kinds)


@EACH
def test_no_rung_puts_two_things_in_the_same_space(name):
    for rung in _ladder(name).rungs:
        assert assess(rung.project).depth.overlaps == _assessed(name).depth.overlaps == ()


@EACH
def test_no_rung_hides_that_it_brings_the_charge_air_over_its_limit(name):
    over_before = any(_over(case) for case in _assessed(name).cases)
    for rung in _ladder(name).rungs:
        over = any(_over(case) for case in assess(rung.project).cases)
        assert rung.spoils == (over and not over_before)
        assert any("charge air" in effect and "over its limit" in effect for effect in rung.side_effects) == rung.spoils
        assert not rung.spoils or rung.verdict_after is Verdict.FAIL


def test_the_cases_above_hold_a_rung_that_spoils_and_one_that_gives_a_first_hottest_day():
    assert any(rung.spoils for name in PACKS for rung in _ladder(name).rungs)
    first = _ladder("standing").rungs[0]
    assert _assessed("standing").deciding_case.limiting_ambient_degc is None
    assert first.buys_k is None
    assert "shroud" in first.title


def test_a_cooler_whose_tanks_stand_before_the_radiator_is_moved_or_turned_off_it():
    full = _ladder("full")
    shut_off = _assessed("full").radiator.blocked_mm2
    mine = [rung for rung in full.rungs if rung.parts == (cores(PACKS["full"], CoreRole.CHARGE_AIR_COOLER)[0].id,)]
    assert mine
    for rung in mine:
        assert rung.buys_k > 1.0
        assert assess(rung.project).radiator.blocked_mm2 < shut_off


@pytest.mark.parametrize("name", ["half", "full", "whole"])
def test_a_cooler_moved_off_the_radiator_buys_degrees(name):
    """Common practice, no source: a radiator behind a cooler sheds less than one in fresh air."""
    moves = [rung for rung in _ladder(name).rungs if rung.title.startswith("Move the charge-air cooler")]
    assert len(moves) == 1
    assert moves[0].buys_k > 1.0


def test_edges_are_sealed_once():
    assert "Seal the edges" in _titles(_ladder("half"))
    sealed = edits.set_environment(PACKS["half"], Environment(seal=Seal.SEALED, opening_closed_off=True))
    titles = _titles(ladder(sealed, ()))
    assert titles
    assert "eal the edges" not in titles
    assert "lose off" not in titles


def test_only_dirty_cores_are_cleaned():
    assert "Clean the cores" in _titles(_ladder("whole"))
    assert "Clean the cores" not in _titles(_ladder("half"))


def test_parts_come_from_the_catalogue_that_is_handed_in():
    assert "Take a larger radiator" in _titles(_ladder("half"))
    assert "Take" not in _titles(ladder(PACKS["half"], ()))


def test_another_duty_case_has_a_ladder_of_its_own():
    full = ladder(PACKS["full"], (), case_id="case-2")
    assert (full.case_id, full.case_name) == ("case-2", "Cool day")
    assert full.rungs[0].hottest_before_degc == pytest.approx(_day(_assessed("full"), "case-2"), abs=1e-6)


def test_what_cannot_be_judged_has_an_empty_ladder_that_says_why():
    found = ladder(packs.half_height_pack(sheet=EngineSheet(charge_flow_kg_s=0.16)), CATALOGUE)
    assert found.rungs == ()
    assert found.reason == NO_HEAT
    assert ladder(Project(), ()).rungs == ()
    assert ladder(Project(), ()).reason
    assert ladder(replace(PACKS["half"], cases=()), ()).reason


def test_a_pack_that_nothing_helps_says_so():
    hopeless = packs.half_height_pack(packs.warm_day(road_speed_m_s=0.0, fans_on=False))
    found = ladder(hopeless, ())
    assert found.rungs == ()
    assert found.reason == "No single change gives Warm day a hottest day."
    assert found.too_little_count > 0


def test_a_change_that_leads_out_of_what_a_document_may_hold_is_not_offered():
    # The limit of every place is 10 m; the fan at the very end of it cannot make room for a thicker radiator.
    bare = packs.behind(packs.project(), fans=False)
    far = packs.with_part(bare, packs.fan(), 10_000.0)
    found = ladder(far, (radiator(1, 720.0, 520.0, 50.0),))
    assert "radiator" not in _titles(found)
    assert found.rungs


def test_progress_goes_from_nothing_to_all():
    told: list[float] = []
    ladder(PACKS["half"], (), lambda share: told.append(share) or True)
    assert told == sorted(told)
    assert (told[0], told[-1]) == (0.0, 1.0)
    assert len(told) > 10


@pytest.mark.parametrize("last", [1, 5, 25])
def test_a_cancelled_ladder_is_none_and_stops_at_once(last):
    told: list[float] = []

    def cancel(share: float) -> bool:
        told.append(share)
        return len(told) < last

    assert ladder(PACKS["half"], (), cancel) is None
    assert len(told) == last


def _over(case) -> bool:
    return case.charge_out_degc is not None and case.charge_out_degc > case.charge_out_limit_degc
