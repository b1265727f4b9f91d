"""A photo that cannot be one is refused in a sentence, and what is kept fits a project file."""

from __future__ import annotations

import base64

import pytest
from msgspec.structs import replace

from grillestack.model.edits import set_photo
from grillestack.model.photo import MOST_LETTERS, MOST_PIXELS, FourCorners, Mark, PhotoImage, TwoPoints, marks_of
from grillestack.model.project import Project
from grillestack.model.values import ModelError
from grillestack.storage.envelope import LARGEST_BYTES
from tests.model.examples import GREY_PNG, a_photo


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"data_base64": "R0lGODlhAQABAAAAACw="}, "neither a JPEG nor a PNG"),
        ({"data_base64": GREY_PNG[:-3]}, "neither a JPEG nor a PNG"),
        ({"data_base64": "/9j/" + "ä" * 20}, "small letters|letters|digits"),
        ({"data_base64": "/9j/" + "A" * MOST_LETTERS}, "longer than"),
        ({"width_px": 3}, "at least 16 px"),
        ({"width_px": 2_000, "height_px": 1_500}, "2 megapixels at most"),
    ],
)
def test_a_picture_that_is_none_is_refused(change, words):
    given = {"data_base64": GREY_PNG, "width_px": 32, "height_px": 24, **change}
    with pytest.raises(ModelError, match=words):
        PhotoImage(**given)


def test_the_first_bytes_of_both_kinds_of_file_are_known():
    # JPEG begins with FF D8 FF (ITU-T T.81, start of image and the next marker); PNG with its eight bytes (ISO/IEC 15948).
    for begins in (b"\xff\xd8\xff\xe0" + bytes(20), b"\x89PNG\r\n\x1a\n" + bytes(22)):
        text = base64.b64encode(begins).decode()
        assert PhotoImage(data_base64=text, width_px=20, height_px=20).data_base64 == text


def test_a_mark_outside_the_picture_is_refused_and_names_its_place():
    photo = a_photo()
    corners = (Mark(40.5, 3), *photo.tied.corners[1:])
    with pytest.raises(ModelError, match=r"40\.5, 3 px lies outside the photo of 32 × 24 px"):
        replace(photo, tied=replace(photo.tied, corners=corners))


@pytest.mark.parametrize("count", [3, 5])
def test_there_are_four_corners(count):
    with pytest.raises(ModelError, match="corners"):
        FourCorners(corners=(Mark(1, 1),) * count, width_mm=1, height_mm=1)


@pytest.mark.parametrize("opacity", [0.0, 1.01])
def test_a_photo_nobody_can_see_is_hidden_and_not_without_opacity(opacity):
    with pytest.raises(ModelError, match="opacity"):
        replace(a_photo(), opacity_frac=opacity)


def test_the_marks_come_in_their_order():
    two = TwoPoints(first=Mark(1, 2), second=Mark(3, 4), distance_mm=100)
    assert marks_of(two) == (Mark(1, 2), Mark(3, 4))
    assert marks_of(a_photo().tied) == a_photo().tied.corners


def test_setting_and_taking_away_a_photo_changes_nothing_else():
    empty = Project()
    there = set_photo(empty, a_photo())
    assert there.nose.photo == a_photo()
    assert there.parts is empty.parts
    assert set_photo(there, None) == empty


def test_a_file_has_room_for_the_largest_photo_many_times_over():
    assert MOST_LETTERS * 4 < LARGEST_BYTES
    # A JPEG takes at most about 12 bits a pixel at the quality used here; from memory.
    assert MOST_PIXELS * 12 / 8 * 4 / 3 <= MOST_LETTERS
