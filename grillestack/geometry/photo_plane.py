"""Where each pixel of the photo lies on the nose: from what was marked to the map into y and z."""

from __future__ import annotations

import math
from collections.abc import Sequence

from grillestack.geometry.homography import Matrix, Pair, QuadrilateralError, homography, similarity, turns_left
from grillestack.model.photo import FourCorners, LineLies, Mark, TwoPoints, marks_of

_LEAST_APART_PX = 8.0


def map_to_nose(tied: FourCorners | TwoPoints) -> Matrix:
    """Return the map from the photo [px, right and down] to the front view [mm, y and z].

    Seen from ahead, +y points to the viewer's left and a photo counts its pixels downwards, so the two run opposite ways
    on both axes and the map never mirrors.

    Raises
    ------
    QuadrilateralError
        If nothing sensible can be seen from these marks; the sentence says which to drag.
    """
    return _by_corners(tied) if isinstance(tied, FourCorners) else _by_two_points(tied)


def around_reference_px(tied: FourCorners | TwoPoints) -> tuple[Pair, Pair, Pair, Pair]:
    """Return the quadrilateral in the photo over which the marks promise something: the corners, or a box around two points."""
    marks = marks_of(tied)
    if isinstance(tied, FourCorners):
        a, b, c, d = pairs(marks)
        return a, b, c, d
    (x1, y1), (x2, y2) = pairs(marks)
    left, right, top, bottom = min(x1, x2), max(x1, x2) + 1.0, min(y1, y2), max(y1, y2) + 1.0
    return (left, bottom), (right, bottom), (right, top), (left, top)


def reference_mm(tied: FourCorners) -> tuple[Pair, Pair, Pair, Pair]:
    """Return where the corners of the flat thing are on the vehicle, y and z, in the order in which they are marked."""
    half = tied.width_mm / 2
    left, right = tied.middle_y_mm + half, tied.middle_y_mm - half
    bottom, top = tied.bottom_z_mm, tied.bottom_z_mm + tied.height_mm
    return (left, bottom), (right, bottom), (right, top), (left, top)


def pairs(marks: Sequence[Mark]) -> list[Pair]:
    """Return the marks as pairs of numbers."""
    return [(mark.x_px, mark.y_px) for mark in marks]


def _by_corners(tied: FourCorners) -> Matrix:
    corners = pairs(tied.corners)
    matrix = homography(corners, reference_mm(tied))
    if turns_left(corners) != turns_left(reference_mm(tied)):
        raise QuadrilateralError(
            "Left and right are exchanged: the corners must go from lower left to lower right, upper right, upper left."
        )
    return matrix


def _by_two_points(tied: TwoPoints) -> Matrix:
    first, second = pairs((tied.first, tied.second))
    if math.dist(first, second) < _LEAST_APART_PX:
        raise QuadrilateralError("The two points lie almost on each other: drag them to the ends of a long distance.")
    # As on the vehicle, before any turn: both axes run the other way.
    dy, dz = first[0] - second[0], first[1] - second[1]
    if tied.lies is LineLies.LEVEL:
        dy, dz = math.copysign(1.0, dy), 0.0
    elif tied.lies is LineLies.PLUMB:
        dy, dz = 0.0, math.copysign(1.0, dz)
    scale = tied.distance_mm / math.hypot(dy, dz)
    start = (tied.first_y_mm, tied.first_z_mm)
    return similarity(first, second, start, (start[0] + scale * dy, start[1] + scale * dz))
