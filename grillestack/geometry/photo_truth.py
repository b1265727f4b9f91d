"""How far a straightened photo can be trusted: how much one pixel is, what a mark set wrong does, and what stands off the plane."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from grillestack.geometry.homography import Matrix, Pair, Points, homography, mapped

_GRID = 9
_STEP_PX = 1e-3


def largest_mm_per_px(to_mm: Matrix, corners_px: Sequence[Pair]) -> float:
    """Return by how many mm a place moves, at worst inside the quadrilateral, when its mark moves by one pixel.

    Parameters
    ----------
    to_mm
        The map from the photo [px] to the plane [mm].
    corners_px
        Four corners in the photo, in order [px].

    Returns
    -------
    float
        The largest singular value of the map's derivative over a grid of 9 × 9 points that holds the corners [mm/px].

    Notes
    -----
    With w the weight of a point and (u, v) where it goes, the derivative of the map is
    ``[[h11 − u·h31, h12 − u·h32], [h21 − v·h31, h22 − v·h32]] / w``; its largest singular value is the longest half axis
    of the ellipse that a circle of one pixel becomes.
    """
    shares = np.linspace(0.0, 1.0, _GRID)
    a, b, c, d = (np.array(corner, dtype=float) for corner in corners_px)
    inside = [(1 - t) * ((1 - s) * a + s * b) + t * ((1 - s) * d + s * c) for s in shares for t in shares]
    return max(float(np.linalg.norm(_derivative(to_mm, point), ord=2)) for point in inside)


def mark_leverage_mm_per_px(corners_px: Sequence[Pair], corners_mm: Sequence[Pair], places_px: Points) -> Points:
    """Return how far each place moves at most when one corner is marked a pixel wrong: n places × 4 corners [mm/px].

    Parameters
    ----------
    corners_px, corners_mm
        The marked corners in the photo and where they are in the plane.
    places_px
        The places in the photo that are asked about, n × 2.

    Notes
    -----
    Outside the marked rectangle this is more than one pixel's worth, and much more far outside a small one. It is the
    largest singular value of the derivative of the place by the corner, taken by central differences of a thousandth of a
    pixel. With all corners wrong by e pixels at once no place moves by more than e times the sum of its row, to first order.
    """
    found = np.zeros((len(places_px), 4))
    for corner in range(4):
        columns = []
        for axis in (0, 1):
            ends = []
            for sign in (1.0, -1.0):
                moved = [list(mark) for mark in corners_px]
                moved[corner][axis] += sign * _STEP_PX
                ends.append(mapped(homography([(x, y) for x, y in moved], corners_mm), places_px))
            columns.append((ends[0] - ends[1]) / (2.0 * _STEP_PX))
        found[:, corner] = np.linalg.norm(np.stack(columns, axis=2), ord=2, axis=(1, 2))
    return found


def off_plane_shift_mm(behind_mm: float, offset_mm: float, camera_distance_mm: float) -> float:
    """Return how far out a point that stands off the plane is drawn; below 0 it is drawn too far in.

    Parameters
    ----------
    behind_mm
        How far behind the plane the point stands; ahead of it below 0 [mm].
    offset_mm
        How far it is from where the camera looked at the plane at right angles, along the plane [mm].
    camera_distance_mm
        From the camera to the plane, at right angles [mm].

    Notes
    -----
    The straightened photo is exact in the plane whatever the camera's turn, so only the camera's place counts. With the
    camera at distance D over the foot F of its perpendicular, a point at offset r and b behind the plane is seen along a
    ray that meets the plane at ``r·D/(D + b)``. It is therefore drawn by ``−r·b/(D + b)`` wrong, about ``b·r/D`` towards F.
    F is taken to be what the middle of the photo shows, which holds for a camera held square to the nose.

    Valid for: points that the camera sees, ``camera_distance_mm + behind_mm > 0``.

    Source: similar triangles.

    Raises
    ------
    ValueError
        For a point at or behind the camera.
    """
    if camera_distance_mm + behind_mm <= 0.0:
        raise ValueError("The point stands at or behind the camera: a camera sees only what is before it.")
    return -offset_mm * behind_mm / (camera_distance_mm + behind_mm)


def _derivative(matrix: Matrix, point: Sequence[float] | np.typing.NDArray[np.float64]) -> Matrix:
    x, y = float(point[0]), float(point[1])
    (u, v), weight = mapped(matrix, [(x, y)])[0], float(matrix[2] @ (x, y, 1.0))
    h = matrix
    rows = [[h[0, 0] - u * h[2, 0], h[0, 1] - u * h[2, 1]], [h[1, 0] - v * h[2, 0], h[1, 1] - v * h[2, 1]]]
    return np.array(rows, dtype=np.float64) / weight
