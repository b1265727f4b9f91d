"""The search as a whole: the failing demo helped, laws of order and cancel, and that what fits fits by the rules of practice."""

from __future__ import annotations

import math
import random

import pytest
from msgspec.structs import replace

from grillestack.advice.room import has_room
from grillestack.assess.assess import assess
from grillestack.assess.result import Verdict
from grillestack.fit.merit import SHORT_LIST
from grillestack.fit.search import assessed, first_look, in_order
from grillestack.fit.slots import Kind, slot_for, slot_in_place_of
from grillestack.fit.trial import with_part
from grillestack.geometry.depth import depth_report
from grillestack.model.edits import place_part, set_nose
from grillestack.model.nose import Nose
from grillestack.model.project import Project
from grillestack.storage.catalogue import bundled_parts
from tests.fit.packs import a_cooler, close, coolers, failing, many_coolers, passing


def some_coolers():
    wanted = ("gs-cb-0660-0220-76-d", "gs-cb-0640-0200-64-s", "gs-cb-0420-0130-50-o")
    return [part for part in coolers() if part.id in wanted]


def test_a_cooler_is_found_that_makes_the_failing_demo_pass():
    project = failing()
    assert assess(project).verdict is Verdict.FAIL
    slot = slot_for(project, Kind.CHARGE_AIR_COOLER)
    found = first_look(project, some_coolers(), slot)
    best = in_order(found, assessed(project, found))[0]
    changed, part_id = with_part(project, slot, best.part, best.placement)
    after = assess(changed)
    assert part_id == "charge-air-cooler-1"
    assert after.verdict is Verdict.PASS
    # what the list says is what the pack does, to the last digit
    assert best.cost.hottest_degc == after.deciding_case.limiting_ambient_degc
    assert best.cost.margin_k == after.deciding_case.margin_k


def test_a_cooler_that_breaks_the_charge_limit_comes_last_however_hot_its_day():
    project = failing()
    found = first_look(project, some_coolers(), slot_for(project, Kind.CHARGE_AIR_COOLER))
    ranked = in_order(found, assessed(project, found))
    assert not ranked[-1].cost.within_limits
    assert ranked[-1].cost.hottest_degc > ranked[0].cost.hottest_degc
    assert all(fit.cost.within_limits for fit in ranked[:-1])


def test_order_of_the_catalogue_and_a_second_run_change_nothing():
    project = failing()
    slot = slot_for(project, Kind.CHARGE_AIR_COOLER)
    parts = some_coolers()[:2]
    runs = []
    for catalogue in (parts, parts[::-1], parts):
        found = first_look(project, catalogue, slot)
        runs.append(in_order(found, assessed(project, found)))
    assert runs[0] == runs[1] == runs[2]


def test_order_changes_nothing_for_many_either():
    project, many = passing(), many_coolers(150)
    slot = slot_for(project, Kind.CHARGE_AIR_COOLER)
    shuffled = list(many)
    random.Random(3).shuffle(shuffled)
    assert first_look(project, many, slot) == first_look(project, shuffled, slot)


def test_of_many_that_fit_the_short_list_is_assessed_and_the_rest_are_said_not_to_be():
    project = passing()
    found = first_look(project, many_coolers(150), slot_for(project, Kind.CHARGE_AIR_COOLER))
    assert len(found.fits) > SHORT_LIST == found.short_count
    merits = [fit.merit_factor for fit in found.fits]
    assert merits == sorted(merits)
    assert all(fit.cost is None for fit in in_order(found, ()))


def test_a_search_that_is_stopped_ends_and_keeps_what_it_has():
    project = failing()
    found = first_look(project, some_coolers(), slot_for(project, Kind.CHARGE_AIR_COOLER))
    told = []

    def go_on(share):
        told.append(share)
        return len(told) < 2

    done = list(assessed(project, found, go_on))
    assert told == [0.0, pytest.approx(1 / 3)]
    assert len(done) == 1
    assert len(in_order(found, done)) == 3


@pytest.mark.parametrize("kind", list(Kind))
def test_what_fits_can_be_built_by_the_rules_of_practice(kind):
    # the ladder's own check of room, another way round: nothing in one space, no clearance lost, through the window
    project = passing()
    slot = slot_for(project, kind)
    stood = depth_report(project)
    for fit in first_look(project, bundled_parts(), slot).fits:
        changed, _ = with_part(project, slot, fit.part, fit.placement)
        assert has_room(project, stood, changed), fit.part.id


@pytest.mark.parametrize("lean_deg", [5.0, -8.0])
def test_what_fits_in_a_pack_that_leans_can_be_built_too(lean_deg):
    lean = math.tan(math.radians(lean_deg))
    project = passing()
    for part in project.parts:
        at = part.placement
        leant = replace(at, tilt_deg=lean_deg, x_mm=at.x_mm + 20 + (at.z_mm - 700) * lean)
        project = place_part(project, part.id, leant)
    slot, stood = slot_for(project, Kind.CHARGE_AIR_COOLER), depth_report(project)
    found = first_look(project, coolers(), slot)
    assert found.fits
    for fit in found.fits:
        changed, _ = with_part(project, slot, fit.part, fit.placement)
        assert fit.placement.tilt_deg == lean_deg
        assert has_room(project, stood, changed), fit.part.id


@pytest.mark.parametrize("part_id", [part.id for part in passing().parts if part.id != "condenser-1"])
def test_a_part_that_stands_there_well_fits_where_it_stands(part_id):
    # A pack without one finding about room: each of its parts is one answer to what fits there. Not so its condenser: of the
    # 24 mm that a bend at its lower rear port asks for, the cooler behind it leaves 16.
    project = passing()
    part = project.part(part_id)
    found = first_look(project, [part], slot_in_place_of(project, part_id))
    (fit,) = found.fits
    at = part.placement
    assert (fit.placement.y_mm, fit.placement.z_mm) == (at.y_mm, at.z_mm)


def test_a_nose_without_a_window_is_said_and_searched_all_the_same():
    project = failing()
    bare = set_nose(project, replace(project.nose, support_window=None))
    found = first_look(bare, coolers(), slot_for(bare, Kind.CHARGE_AIR_COOLER))
    assert found.remarks[0].startswith(
        "This nose has no support window: the room ends where its openings and its pack do."
    )
    assert found.fits


def test_a_nose_with_nothing_drawn_is_said():
    found = first_look(Project(nose=Nose()), coolers()[:1], slot_for(Project(), Kind.CHARGE_AIR_COOLER))
    assert "nothing bounds the room: draw the support window first." in found.remarks[0]


def test_a_part_wider_than_any_opening_is_said():
    found = first_look(failing(), [a_cooler("huge", 1200.0, 1000.0)], slot_for(failing(), Kind.CHARGE_AIR_COOLER))
    assert not found.fits
    assert any(
        remark.startswith(
            "“Invented cooler huge” is 1000 mm at its narrowest, wider than any opening of this nose (850 mm)"
        )
        for remark in found.remarks
    )


def test_an_empty_catalogue_finds_nothing_and_says_so():
    found = first_look(failing(), (), slot_for(failing(), Kind.CONDENSER))
    assert (found.fits, found.near) == ((), ())
    assert found.refused[0].startswith("There is no condenser to try")
    assert list(assessed(failing(), found)) == []


@pytest.mark.parametrize("project", [passing(), close(), failing()], ids=["passing", "close", "failing"])
def test_the_shroud_that_stands_there_fits_where_it_stands_though_its_brackets_are_bolted_to_the_core(project):
    slot = slot_for(project, Kind.SHROUD)
    present = project.part(slot.taken_out)
    (fit,) = first_look(project, [present], slot).fits
    assert fit.placement == present.placement
