"""Edits of one outline: what stays, what moves, and that none of them makes a document that cannot be."""

from __future__ import annotations

import math

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from grillestack.model.nose import Nose, Opening
from grillestack.model.outline import Point, rectangle_outline
from grillestack.model.outline_edits import (
    insert_corner,
    move_corner,
    push_side,
    radii_of,
    remove_corner,
    set_radius,
    side_normal,
    signed_area_mm2,
)
from grillestack.model.project import Project
from grillestack.model.values import ModelError

BOX = Opening(id="o", name="Grille", outline=rectangle_outline(-100, 500, 100, 600))


def test_each_side_of_a_rectangle_is_pushed_outward_whichever_way_round_it_was_drawn():
    for outline in (BOX.outline, BOX.outline[::-1]):
        thing = Opening(id="o", name="Grille", outline=outline)
        for place in range(4):
            grown = push_side(thing, place, 10)
            added = abs(signed_area_mm2(grown.outline)) - 200 * 100
            assert added in (pytest.approx(10 * 100), pytest.approx(10 * 200))


def test_a_side_of_no_length_goes_nowhere():
    thing = Opening(id="o", name="x", outline=(Point(0, 0), Point(0, 0), Point(5, 5)))
    assert side_normal(thing, 0) == (0, 0)
    assert push_side(thing, 0, 10) == thing


def test_radii_stay_with_their_corners_when_others_come_and_go():
    rounded = set_radius(set_radius(BOX, 1, 20), 3, 30)
    assert rounded.corner_radii_mm == (0, 20, 0, 30)
    more = insert_corner(rounded, 0, 0, 490)
    assert more.outline[1] == Point(0, 490)
    assert more.corner_radii_mm == (0, 0, 20, 0, 30)
    assert remove_corner(more, 1) == rounded
    assert remove_corner(more, 4).corner_radii_mm == (0, 0, 20, 0)


def test_sharp_corners_are_kept_as_no_radii_at_all():
    assert set_radius(set_radius(BOX, 2, 15), 2, 0) == BOX
    assert radii_of(BOX) == (0, 0, 0, 0)


def test_the_fourth_corner_can_go_and_the_third_cannot():
    three = remove_corner(BOX, 0)
    with pytest.raises(ModelError, match="at least 3 corners"):
        remove_corner(three, 0)


def test_radii_that_do_not_belong_to_corners_are_refused_in_a_sentence():
    with pytest.raises(ModelError, match="4 corners but 2 corner radii"):
        Opening(id="o", name="x", outline=BOX.outline, corner_radii_mm=(1.0, 2.0))
    for wrong in (-1.0, math.nan, math.inf, 5001.0, True):
        with pytest.raises(ModelError, match="corner radius must be at least 0 mm"):
            Opening(id="o", name="x", outline=BOX.outline, corner_radii_mm=(wrong,) * 4)


def edited(thing, what, place, across, up):
    if what == "move":
        return move_corner(thing, place, across, up)
    if what == "push":
        return push_side(thing, place, across)
    if what == "insert":
        return insert_corner(thing, place, across, up)
    return remove_corner(thing, place) if what == "remove" else set_radius(thing, place, up)


EDITS = st.tuples(
    st.sampled_from(["move", "push", "insert", "remove", "round"]),
    st.integers(0, 30),
    st.floats(-800, 800),
    st.floats(0, 900),
)


@given(st.lists(EDITS))
def test_any_run_of_edits_ends_in_a_document_that_can_be_written_or_in_a_sentence(edits):
    thing, sentences = BOX, []
    for what, number, across, up in edits:
        try:
            thing = edited(thing, what, number % len(thing.outline), across, up)
        except ModelError as refusal:
            sentences.append(str(refusal))
        assert len(thing.outline) >= 3
        assert len(thing.corner_radii_mm) in (0, len(thing.outline))
    assert all(sentence.endswith(".") for sentence in sentences)
    document = Project(nose=Nose(openings=(thing,)))
    assert msgspec.json.decode(msgspec.json.encode(document), type=Project) == document
