"""How far a straightened photo may be trusted, checked by moving marks and by a camera that sees things off the plane."""

from __future__ import annotations

import math

import numpy as np
import pytest

from grillestack.geometry.homography import homography, mapped, similarity
from grillestack.geometry.photo_truth import largest_mm_per_px, off_plane_shift_mm
from tests.geometry.photographs import camera

SEEN = ((412.0, 803.0), (1105.0, 771.0), (1083.0, 640.0), (431.0, 655.0))
PLATE = ((260.0, 480.0), (-260.0, 480.0), (-260.0, 590.0), (260.0, 590.0))


def test_a_photo_that_is_only_scaled_has_one_scale_everywhere():
    matrix = similarity((0, 0), (100, 30), (0, 0), (-250, -75))
    assert largest_mm_per_px(matrix, SEEN) == pytest.approx(2.5)


def test_the_worst_scale_is_what_a_pixel_moves_a_place_at_most():
    matrix = homography(SEEN, PLATE)
    # Moved by a thousandth of a pixel in 360 directions at 2601 places: numbers instead of derivatives.
    shares = np.linspace(0, 1, 51)
    a, b, c, d = map(np.array, SEEN)
    places = np.array([(1 - t) * ((1 - s) * a + s * b) + t * ((1 - s) * d + s * c) for s in shares for t in shares])
    here = mapped(matrix, places)
    worst = 0.0
    for angle in np.radians(range(360)):
        there = mapped(matrix, places + 1e-3 * np.array([math.cos(angle), math.sin(angle)]))
        worst = max(worst, float(np.linalg.norm(there - here, axis=1).max()) / 1e-3)
    assert largest_mm_per_px(matrix, SEEN) == pytest.approx(worst, rel=1e-3)


def test_a_plate_of_520_mm_over_650_px_is_0_8_mm_to_the_pixel():
    seen = [(100, 500), (750, 500), (750, 362.5), (100, 362.5)]
    assert largest_mm_per_px(homography(seen, PLATE), seen) == pytest.approx(520 / 650)


@pytest.mark.parametrize("behind_mm", [-200.0, -30.0, 0.0, 50.0, 400.0])
@pytest.mark.parametrize("pose", [(0, 0, 0), (25, -10, 5)])
def test_things_off_the_plane_are_drawn_wrong_by_what_the_formula_says_whatever_the_cameras_turn(behind_mm, pose):
    yaw, pitch, roll = pose
    taken = camera(yaw_deg=yaw, pitch_deg=pitch, roll_deg=roll, distance_mm=2_500, aims_at=(0, 600))
    matrix = homography([taken.sees(*corner) for corner in PLATE], PLATE)
    # In the tests' frame: viewer's right, up, ahead. The camera looks at the plane at right angles in its foot.
    foot_y, foot_z, away_mm = -taken.place_mm[0], taken.place_mm[1], taken.place_mm[2]
    for y, z in ((300.0, 700.0), (-420.0, 350.0)):
        drawn = mapped(matrix, [taken.sees(y, z, -behind_mm)])[0]
        offset = math.hypot(y - foot_y, z - foot_z)
        outward = (math.hypot(drawn[0] - foot_y, drawn[1] - foot_z)) - offset
        assert outward == pytest.approx(off_plane_shift_mm(behind_mm, offset, away_mm), abs=1e-6)


def test_50_mm_behind_at_300_mm_from_the_middle_and_two_and_a_half_metres_off_is_six_millimetres_too_small():
    # By hand: 300 · 50 / 2550 = 5.88 mm; the rule of thumb 50 · 300 / 2500 says 6.
    assert off_plane_shift_mm(50, 300, 2_500) == pytest.approx(-5.882, abs=1e-3)


@pytest.mark.parametrize("behind_mm", [-2_500.0, -3_000.0])
def test_what_stands_at_or_behind_the_camera_has_no_answer(behind_mm):
    with pytest.raises(ValueError, match="behind the camera"):
        off_plane_shift_mm(behind_mm, 300, 2_500)
