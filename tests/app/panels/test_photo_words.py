"""What is said of a photo's accuracy is what geometry finds, and hand sums agree."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.app.panels.photo_words import truth_of, truth_words
from grillestack.model.nose import Opening
from grillestack.model.outline import rectangle_outline
from grillestack.model.photo import FourCorners, LineLies, Mark, Photo, PhotoImage, TwoPoints
from grillestack.units.display import UnitSystem
from tests.model.examples import GREY_PNG

# Seen square: 520 mm over 650 px is 0.8 mm a pixel.
IMAGE = PhotoImage(data_base64=GREY_PNG, width_px=1_600, height_px=1_200)
SQUARE = Photo(
    image=IMAGE,
    tied=FourCorners(
        corners=(Mark(475, 800), Mark(1_125, 800), Mark(1_125, 662.5), Mark(475, 662.5)),
        width_mm=520,
        height_mm=110,
        bottom_z_mm=400,
    ),
)
OPENING = Opening(id="opening-1", name="Grille", outline=rectangle_outline(-300, 560, 300, 860))


def test_the_pixel_and_what_stands_behind_are_the_hand_sum():
    truth = truth_of(SQUARE, (OPENING,), UnitSystem.METRIC)
    assert truth.mm_per_px == pytest.approx(0.8)
    # The middle of the photo lies 200 px above the plate's lower edge: z = 400 + 160 = 560. The opening's far corner is
    # 300 mm aside and 300 mm up: 424.3 mm. 50 mm behind, 2500 mm away: 424.3 · 50 / 2550 = 8.32 mm.
    assert truth.offset_mm == pytest.approx(424.26, abs=0.01)
    assert truth.off_plane_mm == pytest.approx(8.319, abs=0.01)


def test_the_words_carry_those_figures_and_no_finer_ones():
    words = truth_words(SQUARE, (OPENING,), UnitSystem.METRIC)
    assert words.startswith("1 px is 0.8 mm here.")
    assert (
        "With the camera 2500 mm away, what stands 50 mm behind the flat thing is drawn about 8 mm too small" in words
    )
    assert "at the openings' far corner" in words


def test_a_small_plate_far_from_the_opening_is_told_to_be_too_small():
    truth = truth_of(SQUARE, (OPENING,), UnitSystem.METRIC)
    assert truth.leverage_mm > 4 * truth.mm_per_px
    assert "Something larger" in truth_words(SQUARE, (OPENING,), UnitSystem.METRIC)
    beside = replace(OPENING, outline=rectangle_outline(-200, 410, 200, 500))
    assert "Something larger" not in truth_words(SQUARE, (beside,), UnitSystem.METRIC)


def test_without_openings_a_place_half_a_metre_away_is_told():
    words = truth_words(SQUARE, (), UnitSystem.METRIC)
    assert "shifts a place 500 mm away" in words
    # 500 · 50 / 2550 = 9.8 mm.
    assert "about 10 mm too small 500 mm from the photo's middle" in words


def test_a_camera_further_away_errs_less():
    near, far = (
        truth_of(replace(SQUARE, camera_distance_mm=mm), (OPENING,), UnitSystem.METRIC).off_plane_mm
        for mm in (1_500, 6_000)
    )
    assert far < near / 3


def test_in_inches_no_millimetre_is_said():
    words = truth_words(SQUARE, (OPENING,), UnitSystem.INCH)
    assert "mm" not in words
    assert "what stands 2 in behind" in words


def test_two_points_promise_only_what_they_can():
    tied = TwoPoints(first=Mark(400, 600), second=Mark(1_200, 600), distance_mm=640, lies=LineLies.LEVEL)
    words = truth_words(replace(SQUARE, tied=tied), (OPENING,), UnitSystem.METRIC)
    assert words.startswith("1 px is 0.8 mm here. Only scaled: true only if the camera was held square to the nose.")


def test_marks_that_make_no_map_are_told_in_their_own_sentence():
    a, b, c, d = SQUARE.tied.corners
    crossed = replace(SQUARE, tied=replace(SQUARE.tied, corners=(a, c, b, d)))
    assert truth_words(crossed, (), UnitSystem.METRIC).startswith("Two sides cross")
