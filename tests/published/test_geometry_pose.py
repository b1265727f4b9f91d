"""Poses against scipy's rotations, a general-purpose library.

Axes after ISO 4130 (from memory): x rearward, y to the vehicle's right, z up, a right-handed system. In it every turn of
a placement is a right-handed rotation: the flip by 180° about z, a quarter turn by 90° about x, the tilt about y.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from grillestack.geometry.projection import placed_point, project_part
from tests.geometry.packs import a_core

POINT_UVW = (210.0, -130.0, 25.0)
DEPTH_MM = 40.0


def _rotation(quarter_turns: int, flipped: bool, tilt_deg: float) -> Rotation:
    flip = Rotation.from_euler("z", 180.0 if flipped else 0.0, degrees=True)
    turn = Rotation.from_euler("x", 90.0 * quarter_turns, degrees=True)
    tilt = Rotation.from_euler("y", tilt_deg, degrees=True)
    return tilt * turn * flip


def test_axes_are_right_handed():
    rearward, rightward, upward = np.eye(3)
    assert np.cross(rearward, rightward).tolist() == upward.tolist()


@pytest.mark.parametrize("tilt_deg", [0.0, 12.5, -30.0])
@pytest.mark.parametrize("flipped", [False, True])
@pytest.mark.parametrize("quarter_turns", range(4))
def test_placed_points_agree_with_rotations(quarter_turns, flipped, tilt_deg):
    pose = {"quarter_turns": quarter_turns, "flipped": flipped, "tilt_deg": tilt_deg}
    core = a_core(at_mm=(120.0, -40.0, 650.0), depth_mm=DEPTH_MM, pose=pose)
    u, v, w = POINT_UVW
    turned = _rotation(quarter_turns, flipped, tilt_deg).apply([w, u, v])
    # A flipped part is set back by its depth, so that the face that now looks forward stands at the placement.
    setback = _rotation(0, flipped=False, tilt_deg=tilt_deg).apply([DEPTH_MM if flipped else 0.0, 0, 0])
    assert placed_point(core, u, v, w) == pytest.approx(np.array([120.0, -40.0, 650.0]) + turned + setback)


@pytest.mark.parametrize("tilt_deg", [-30.0, -7.0, 0.0, 21.0])
def test_reach_along_x_is_that_of_the_rotated_corners(tilt_deg):
    part = project_part(a_core(size_mm=(600, 400), at_mm=(100, 0, 0), depth_mm=DEPTH_MM, pose={"tilt_deg": tilt_deg}))
    corners = np.array([[w, u, v] for w in (0, DEPTH_MM) for u in (-300, 300) for v in (-200, 200)])
    x = 100 + _rotation(0, flipped=False, tilt_deg=tilt_deg).apply(corners)[:, 0]
    assert (part.x_front_mm, part.x_rear_mm) == pytest.approx((x.min(), x.max()))
