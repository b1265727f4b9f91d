"""What stops a part and what would let it in: that the change named really does, and that none comes without its caution."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.fit.change_words import STRUCTURE_CAUTION
from grillestack.fit.search import first_look
from grillestack.fit.slots import Kind, slot_for, slot_in_place_of
from grillestack.fit.words import near_sentences
from grillestack.model import edits
from grillestack.model.nose import Obstruction
from grillestack.model.outline import rectangle_outline
from grillestack.storage.catalogue import bundled_parts
from tests.fit.packs import a_cooler, close, coolers, failing, passing


def look_at(project, part, kind=Kind.CHARGE_AIR_COOLER):
    return first_look(project, [part], slot_for(project, kind))


def with_block(project, y0, z0, y1, z1, x0=60.0, x1=120.0):
    block = Obstruction(
        id="block", name="Invented block", outline=rectangle_outline(y0, z0, y1, z1), x_front_mm=x0, x_rear_mm=x1
    )
    nose = project.nose
    return edits.set_nose(project, replace(nose, obstructions=(*nose.obstructions, block)))


def test_a_cooler_too_deep_for_its_gap_fits_once_its_neighbours_moved_as_far_as_was_said():
    project = close()
    (near,) = look_at(project, a_cooler("deep", 620.0, 400.0, 100.0)).near
    change = near.changes[0]
    assert change.words.startswith("Move “Condenser” forward ")
    assert change.caution == ""
    for by_mm, fits in ((change.amount_mm - 0.1, 0), (change.amount_mm + 0.1, 1)):
        moved = edits.move_parts(project, ["condenser-1"], dx_mm=-by_mm)
        assert len(look_at(moved, a_cooler("deep", 620.0, 400.0, 100.0)).fits) == fits


def test_a_neighbour_without_room_to_move_is_not_told_to():
    (near,) = look_at(close(), a_cooler("deep", 620.0, 400.0, 190.0)).near
    assert not any(change.words.startswith("Move") for change in near.changes)


def test_a_change_of_order_is_offered_where_it_lets_the_part_in():
    found = look_at(close(), next(part for part in coolers() if part.id == "gs-cb-0640-0440-76-o"))
    said = [change.words for change in found.near[0].changes]
    assert "Let it and “Condenser” change places in the order: there it fits" in said


def test_a_wide_part_in_a_narrow_window_says_by_how_much_and_with_its_caution():
    # window 850 × 540: a core of 900 is 50 too wide ahead of it; upright 640 are 100 too high; the least counts
    (near,) = look_at(failing(), a_cooler("wide", 900.0, 640.0)).near
    assert "it is 50 mm too wide for the support window" in near.stops[0].words
    assert near.changes[0].caution == STRUCTURE_CAUTION


def test_a_block_in_the_way_is_the_last_thing_to_give_way_and_carries_its_caution():
    project = with_block(failing(), -430, 420, 430, 800)
    (near,) = look_at(project, a_cooler("high", 640.0, 300.0)).near
    assert near.stops[0].thing_id == "block"
    assert near.changes[0].words.startswith("“Invented block” would have to give way ")
    assert near.changes[0].caution == STRUCTURE_CAUTION
    by_mm = near.changes[0].amount_mm
    assert look_at(with_block(failing(), -430, 420, 430, 800 - by_mm - 0.1), a_cooler("high", 640.0, 300.0)).fits
    assert not look_at(with_block(failing(), -430, 420, 430, 800 - by_mm + 0.1), a_cooler("high", 640.0, 300.0)).fits


def test_a_port_that_points_into_something_is_turned_first():
    # tanks end at ±370 and keep 25 from blocks at ±430; the bends at both ends reach 2 × 54 further, to ±478
    project = failing()
    for block_id, y0, y1 in (("left", -560, -430), ("right", 430, 560)):
        block = Obstruction(
            id=block_id, name=block_id, outline=rectangle_outline(y0, 420, y1, 990), x_front_mm=-20.0, x_rear_mm=110.0
        )
        nose = project.nose
        project = edits.set_nose(project, replace(nose, obstructions=(*nose.obstructions, block)))
    part = a_cooler("long", 640.0, 200.0)
    found = look_at(project, part)
    assert not found.fits
    first = found.near[0].changes[0]
    assert first.words.startswith("Turn the ")
    assert first.words.endswith("port so that its hose or pipe leaves another way")
    assert first.caution == ""


@pytest.mark.parametrize("project", [passing(), close(), failing()], ids=["passing", "close", "failing"])
def test_nothing_that_touches_the_vehicle_is_ever_offered_without_its_caution(project):
    for part in project.parts:
        for near in first_look(project, bundled_parts(), slot_in_place_of(project, part.id)).near:
            assert near.stops
            for change in near.changes:
                touches = "give way" in change.words or "support window" in change.words
                assert bool(change.caution) is touches
                assert not any(word in change.words.lower() for word in ("cut ", "notch", "grind", "saw "))
            assert all(sentence.endswith(".") for sentence in near_sentences(near))


def test_a_part_too_wide_and_too_high_is_told_both():
    # window 850 × 540: a core of 900 × 900 is 50 too wide and 360 too high, whichever way it is turned
    (near,) = look_at(failing(), a_cooler("both", 900.0, 900.0)).near
    said = near_sentences(near)
    assert any("would have to be 50 mm wider and 360 mm higher" in sentence for sentence in said)


def test_only_another_part_is_no_least_change():
    said = near_sentences(look_at(failing(), a_cooler("both", 900.0, 900.0)).near[0])
    assert any(sentence.startswith("A smaller one is the way: ") for sentence in said)
    assert not any("Least change" in sentence for sentence in said)
