"""From marks in a photo to the nose: a camera of the tests' own takes the photo, and the millimetres must come back."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from msgspec.structs import replace

from grillestack.geometry.homography import QuadrilateralError, mapped, turns_left, weights
from grillestack.geometry.photo_plane import around_reference_px, map_to_nose, pairs, reference_mm
from grillestack.geometry.photo_truth import mark_leverage_mm_per_px
from grillestack.model.photo import FourCorners, LineLies, Mark, TwoPoints
from tests.geometry.photographs import camera

PLATE = FourCorners(
    corners=(Mark(0, 0), Mark(0, 0), Mark(0, 0), Mark(0, 0)),
    width_mm=520.0,
    height_mm=110.0,
    middle_y_mm=15.0,
    bottom_z_mm=480.0,
)
# Corners of an opening over the plate, in its plane.
OPENING = [(-380.0, 560.0), (380.0, 560.0), (380.0, 900.0), (-380.0, 900.0)]


def random_camera(seed):
    rng = random.Random(seed)
    return camera(
        yaw_deg=rng.uniform(-35, 35),
        pitch_deg=rng.uniform(-20, 20),
        roll_deg=rng.uniform(-12, 12),
        distance_mm=rng.uniform(1_500, 4_000),
        aims_at=(rng.uniform(-200, 200), rng.uniform(550, 800)),
        focal_px=rng.uniform(900, 1_600),
    )


def marked(taken, *, rounded_to_px=None):
    """Return the plate with its corners marked where the camera saw them, on whole or half pixels if so told."""
    seen = [taken.sees(*place) for place in reference_mm(PLATE)]
    if rounded_to_px is not None:
        seen = [tuple(round(number / rounded_to_px) * rounded_to_px for number in place) for place in seen]
    return replace(PLATE, corners=tuple(Mark(x, y) for x, y in seen))


@pytest.mark.parametrize("seed", range(25))
def test_exact_corners_give_the_openings_millimetres_back_from_any_pose(seed):
    taken = random_camera(seed)
    found = mapped(map_to_nose(marked(taken)), [taken.sees(*place) for place in OPENING])
    assert np.abs(found - OPENING).max() < 0.1


@pytest.mark.parametrize("seed", range(25))
def test_corners_on_half_pixels_err_by_no_more_than_the_leverage_of_the_marks_says(seed):
    taken = random_camera(seed)
    tied = marked(taken, rounded_to_px=0.5)
    inside = [(15.0 + a * 260.0, 535.0 + b * 55.0) for a in (-1, -0.5, 0, 0.5, 1) for b in (-1, 0, 1)]
    for places, room in ((inside, 1.05), (OPENING, 1.25)):
        seen = np.array([taken.sees(*place) for place in places])
        off_mm = np.linalg.norm(mapped(map_to_nose(tied), seen) - places, axis=1)
        # On a grid of half pixels a mark is a quarter pixel off at most on each axis. The room is for what is not linear:
        # little inside the plate, more in an opening that reaches three plate heights beyond it.
        leverage = mark_leverage_mm_per_px(pairs(tied.corners), reference_mm(tied), seen)
        assert (off_mm <= room * leverage.sum(axis=1) * 0.25 * math.sqrt(2.0)).all()


def test_a_mark_a_pixel_wrong_moves_its_own_corner_by_a_pixels_worth_and_far_places_by_more():
    tied = marked(camera(distance_mm=2_000))
    corners = pairs(tied.corners)
    leverage = mark_leverage_mm_per_px(corners, reference_mm(tied), np.array([*corners, camera().sees(300, 1_000)]))
    # Held square at 2 m with 1200 px focal length a pixel is 2000/1200 mm; the other corners stay where they are.
    assert np.allclose(leverage[:4], np.eye(4) * 2_000 / 1_200, atol=1e-3)
    assert leverage[4].max() > 5 * 2_000 / 1_200


def test_the_flat_thing_comes_out_at_its_own_size_and_place():
    tied = marked(random_camera(3))
    matrix = map_to_nose(tied)
    assert np.allclose(mapped(matrix, around_reference_px(tied)), [(275, 480), (-245, 480), (-245, 590), (275, 590)])
    assert min(weights(matrix, around_reference_px(tied))) > 0


def test_a_photo_is_never_mirrored():
    # The plate's lower left corner, as the viewer sees it, is at the vehicle's right: greatest y.
    tied = marked(camera())
    assert reference_mm(tied)[0] == (275.0, 480.0)
    assert tied.corners[0].x_px < tied.corners[1].x_px
    assert tied.corners[0].y_px > tied.corners[3].y_px
    corners = [(mark.x_px, mark.y_px) for mark in tied.corners]
    assert turns_left(corners) == turns_left(reference_mm(tied))


def test_left_and_right_exchanged_is_refused():
    a, b, c, d = marked(camera()).corners
    with pytest.raises(QuadrilateralError, match="Left and right are exchanged"):
        map_to_nose(replace(PLATE, corners=(b, a, d, c)))


TWO = TwoPoints(first=Mark(400, 600), second=Mark(1000, 680), distance_mm=605.0, first_y_mm=300.0, first_z_mm=500.0)


def test_two_points_scale_the_photo_and_leave_it_unturned():
    # 600 px across and 80 px down are 605.31 px by Pythagoras, so a pixel is 605/605.31 mm.
    scale = 605.0 / math.hypot(600, 80)
    found = mapped(map_to_nose(TWO), [(400, 600), (1000, 680), (400, 500)])
    assert np.allclose(found, [(300, 500), (300 - 600 * scale, 500 - 80 * scale), (300, 500 + 100 * scale)])


@pytest.mark.parametrize("lies", [LineLies.LEVEL, LineLies.PLUMB])
@pytest.mark.parametrize("second", [(1000, 680), (1000, 520), (200, 650), (430, 100), (380, 1000)])
def test_a_line_said_to_be_level_or_plumb_is_so_on_the_nose_and_keeps_its_length(lies, second):
    tied = replace(TWO, second=Mark(*second), lies=lies)
    (first_y, first_z), (second_y, second_z) = mapped(map_to_nose(tied), [(400, 600), second])
    assert (first_y, first_z) == pytest.approx((300, 500))
    assert math.hypot(second_y - first_y, second_z - first_z) == pytest.approx(605)
    if lies is LineLies.LEVEL:
        assert second_z == pytest.approx(500)
        assert (second_y < first_y) == (second[0] > 400)
    else:
        assert second_y == pytest.approx(300)
        assert (second_z < first_z) == (second[1] > 600)


def test_two_points_on_each_other_are_refused():
    with pytest.raises(QuadrilateralError, match="almost on each other"):
        map_to_nose(replace(TWO, second=Mark(403, 602)))


def test_the_surroundings_of_two_points_are_the_box_around_them():
    left_bottom, _, right_top, _ = around_reference_px(TWO)
    assert left_bottom == (400, 681)
    assert right_top == (1001, 600)
