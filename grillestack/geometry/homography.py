"""How a flat thing in a photo lies in the plane it was taken of: the projective map through four points, or two.

A map is a 3×3 matrix that takes a point (a, b, 1) to (u·w, v·w, w). Which plane is a photo and which is the vehicle is
none of its business: `photo_plane` says that.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

Matrix = NDArray[np.float64]
Points = NDArray[np.float64]
Pair = tuple[float, float]

# Of the area of the square over the longest side or diagonal. A plate seen so much from aside that its corners turn by
# less than this gives no answer worth having: half a pixel on a corner would then move the picture by a plate's size.
FLATTEST_TURN_FRAC = 2e-3


class QuadrilateralError(ValueError):
    """Four points through which no map can be laid; the message is a sentence for the person at the marks."""


def homography(from_points: Sequence[Pair], to_points: Sequence[Pair]) -> Matrix:
    """Return the map that takes each of four points to its partner exactly.

    Parameters
    ----------
    from_points, to_points
        Four corners each, in order around a convex quadrilateral [any one unit per plane].

    Returns
    -------
    Matrix
        3×3, scaled so that the centre of the four points has the weight 1; the weight is above 0 inside the quadrilateral.

    Raises
    ------
    QuadrilateralError
        If corners coincide, lie on a line, make a dent or cross.

    Notes
    -----
    The eight equations of the direct linear transformation in coordinates moved and scaled so that their centre is 0 and
    their mean distance from it √2, which keeps the 8×8 system well conditioned. The ninth number may be set to 1: in these
    coordinates it is the weight of the centre, which lies inside and therefore cannot be at infinity.

    Source: Hartley and Zisserman, Multiple View Geometry, chapter 4 (from memory).
    """
    source, target = np.array(from_points, dtype=float), np.array(to_points, dtype=float)
    refuse_bad_quadrilateral(from_points)
    refuse_bad_quadrilateral(to_points)
    to_unit_source, to_unit_target = _normaliser(source), _normaliser(target)
    rows, right = np.zeros((8, 8)), np.zeros(8)
    for k, ((x, y), (u, v)) in enumerate(
        zip(mapped(to_unit_source, source), mapped(to_unit_target, target), strict=True)
    ):
        rows[2 * k] = (x, y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y)
        rows[2 * k + 1] = (0.0, 0.0, 0.0, x, y, 1.0, -v * x, -v * y)
        right[2 * k : 2 * k + 2] = (u, v)
    unit = np.append(np.linalg.solve(rows, right), 1.0).reshape(3, 3)
    whole = np.linalg.solve(to_unit_target, unit @ to_unit_source)
    weight = float(whole[2] @ (*source.mean(axis=0), 1.0))
    return np.asarray(whole / weight, dtype=np.float64)


def similarity(first: Pair, second: Pair, to_first: Pair, to_second: Pair) -> Matrix:
    """Return the map that turns, scales and shifts, but never distorts, so that two points come to their partners.

    Raises
    ------
    QuadrilateralError
        If the two points of a pair coincide.
    """
    before, after = complex(*second) - complex(*first), complex(*to_second) - complex(*to_first)
    if min(abs(before), abs(after)) < 1e-9:
        raise QuadrilateralError("The two points lie on each other: drag one of them away.")
    # A similarity that keeps the sense of turning is one multiplication of complex numbers.
    turn = after / before
    shift = complex(*to_first) - turn * complex(*first)
    return np.array([[turn.real, -turn.imag, shift.real], [turn.imag, turn.real, shift.imag], [0.0, 0.0, 1.0]])


def mapped(matrix: Matrix, points: Sequence[Pair] | Points) -> Points:
    """Return where the map takes the points, n × 2; a point on the horizon comes back as not a number."""
    given = np.asarray(points, dtype=float).reshape(-1, 2)
    flat = np.column_stack([given, np.ones(len(given))]) @ matrix.T
    weight = np.where(np.abs(flat[:, 2]) > 1e-12, flat[:, 2], np.nan)
    return np.asarray(flat[:, :2] / weight[:, None], dtype=np.float64)


def weights(matrix: Matrix, points: Sequence[Pair] | Points) -> NDArray[np.float64]:
    """Return the weight of each point, n numbers: above 0 on the near side of the horizon, where a camera can see."""
    given = np.asarray(points, dtype=float).reshape(-1, 2)
    return np.asarray(given @ matrix[2, :2] + matrix[2, 2], dtype=np.float64)


def inverse(matrix: Matrix) -> Matrix:
    """Return the map back."""
    return np.asarray(np.linalg.inv(matrix), dtype=np.float64)


def refuse_bad_quadrilateral(corners: Sequence[Pair]) -> None:
    """Refuse four corners that are not the outline of a convex quadrilateral, in a sentence.

    Raises
    ------
    QuadrilateralError
        With what is wrong and what to drag.
    """
    if len(corners) != 4 or not all(math.isfinite(number) for corner in corners for number in corner):
        raise QuadrilateralError("There must be four corners: mark each corner of the flat thing once.")
    reach = max(math.dist(a, b) for a in corners for b in corners)
    if reach <= 0.0:
        raise QuadrilateralError("All four corners lie on each other: drag them apart.")
    if min(math.dist(corners[i], corners[j]) for i in range(4) for j in range(i)) < FLATTEST_TURN_FRAC * reach:
        raise QuadrilateralError("Two of the corners lie on each other: drag one of them to its own corner.")
    turns = [_turn(corners[i - 1], corners[i], corners[(i + 1) % 4]) for i in range(4)]
    least = FLATTEST_TURN_FRAC * reach * reach
    if any(abs(turn) < least for turn in turns):
        raise QuadrilateralError("Three of the corners lie on one line: drag them to the corners of the flat thing.")
    left = sum(turn > 0 for turn in turns)
    if left == 2:
        raise QuadrilateralError("Two sides cross: the corners are not in order, so exchange two neighbours.")
    if left in (1, 3):
        raise QuadrilateralError(
            "The corners make a dent, which no flat rectangle does in a photo: look at the innermost one again."
        )


def turns_left(corners: Sequence[Pair]) -> bool:
    """Return whether the corners go round from the first axis towards the second."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)) > 0


def _turn(before: Pair, corner: Pair, after: Pair) -> float:
    return (corner[0] - before[0]) * (after[1] - corner[1]) - (corner[1] - before[1]) * (after[0] - corner[0])


def _normaliser(points: Points) -> Matrix:
    centre = points.mean(axis=0)
    scale = math.sqrt(2.0) / float(np.linalg.norm(points - centre, axis=1).mean())
    return np.array([[scale, 0.0, -scale * centre[0]], [0.0, scale, -scale * centre[1]], [0.0, 0.0, 1.0]])
