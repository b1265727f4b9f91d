"""The blank of a box with an open front, fixing flanges and relieved corners, and where a point of the box lies on it."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from grillestack.sheets.bend import Bend
from grillestack.sheets.draw_list import Point
from grillestack.sheets.flat_part import BendLine
from grillestack.sheets.trouble import NothingToDrawError

# Between flanges that meet at a corner; common practice, no source.
GAP_MM = 1.0
_CHORD_DEG = 7.5
# Cosine and sine of whole quarter turns
_TURNS = ((1, 0), (0, 1), (-1, 0), (0, -1))


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxShape:
    """A box by its outer sizes: rear panel, walls that run forward, flanges at their front edges.

    `flange_mm` is how far a flange reaches from the wall's outer face, inwards or outwards.
    """

    width_mm: float
    height_mm: float
    depth_mm: float
    flange_mm: float
    flange_is_inward: bool
    bend: Bend


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxBlank:
    """The blank about the middle of the rear panel as seen from ahead, into the box: its outline and its bend lines."""

    shape: BoxShape
    contour: tuple[Point, ...]
    bends: tuple[BendLine, ...]

    def on_flange(self, across_mm: float, up_mm: float) -> Point | None:
        """Return where a point of the front plane lies on the blank; nothing where no flange is."""
        return _on_flange(self.shape, across_mm, up_mm)


@dataclass(frozen=True, slots=True)
class _Side:
    """One wall with its flange: half of the panel along it, half of its own width at wall and flange."""

    half_mm: float
    wall_mm: float
    flange_mm: float


def box_blank(shape: BoxShape, name: str) -> BoxBlank:
    """Return the blank of a box; `name` is what a sentence of trouble calls it.

    Raises
    ------
    NothingToDrawError
        If the box cannot be folded from one sheet.
    """
    _check(shape, name)
    contour: list[Point] = []
    bends: list[BendLine] = []
    for quarter, side in enumerate(_sides(shape)):
        turn = _quarter(quarter)
        contour += [turn(s, t) for s, t in _wall_edge(shape, side)]
        contour += [turn(s, t) for s, t in _relief(shape, quarter)]
        bends += [
            BendLine(start=turn(s, -half), end=turn(s, half), is_up=is_up) for s, half, is_up in _bends(shape, side)
        ]
    return BoxBlank(shape=shape, contour=tuple(contour), bends=tuple(bends))


def relief_radius_mm(bend: Bend) -> float:
    """Return the radius of a corner relief: it takes out the whole square in which two bends meet."""
    return 0.75 * bend.allowance_mm + 0.5


def wall_flat_mm(shape: BoxShape) -> float:
    """Return the straight part of a wall between its two bends."""
    return shape.depth_mm - 2 * shape.bend.setback_mm


def _flange_outer_mm(shape: BoxShape) -> float:
    # Outwards the outer faces of wall and flange meet at the inside of the box.
    return shape.flange_mm if shape.flange_is_inward else shape.flange_mm + shape.bend.thickness_mm


def _sides(shape: BoxShape) -> tuple[_Side, ...]:
    """Return the walls at the right, above, at the left and below; upright flanges run through, level ones stand between."""
    bend = shape.bend
    hx, hy = shape.width_mm / 2, shape.height_mm / 2
    wall_x, wall_y = hy - bend.thickness_mm, hx - bend.thickness_mm
    if shape.flange_is_inward:
        flange_x, flange_y = hy - bend.setback_mm - GAP_MM, hx - shape.flange_mm - GAP_MM
    else:
        flange_x, flange_y = wall_x, wall_y
    upright, level = _Side(hx, wall_x, flange_x), _Side(hy, wall_y, flange_y)
    return upright, level, upright, level


def _wall_edge(shape: BoxShape, side: _Side) -> Iterator[tuple[float, float]]:
    """Return the outline of a wall and its flange from one relief to the next: s outwards, t along, anticlockwise."""
    bend = shape.bend
    start = _relief_reach_mm(shape, side)
    end = _wall_end_mm(shape, side.half_mm)
    tip = end + bend.allowance_mm + _flange_outer_mm(shape) - bend.setback_mm
    steps = [(start, side.wall_mm), (end, side.wall_mm), (end, side.flange_mm), (tip, side.flange_mm)]
    if side.flange_mm == side.wall_mm:
        steps = [steps[0], steps[3]]
    yield from ((s, -t) for s, t in steps)
    yield from reversed(steps)


def _wall_end_mm(shape: BoxShape, half_mm: float) -> float:
    return half_mm - shape.bend.setback_mm + shape.bend.allowance_mm + wall_flat_mm(shape)


def _relief_reach_mm(shape: BoxShape, side: _Side) -> float:
    bend = shape.bend
    from_middle = bend.setback_mm - bend.thickness_mm - bend.allowance_mm / 2
    radius = relief_radius_mm(bend)
    return side.half_mm - bend.setback_mm + bend.allowance_mm / 2 + math.sqrt(radius**2 - from_middle**2)


def _relief(shape: BoxShape, quarter: int) -> Iterator[tuple[float, float]]:
    """Return the inner points of the relief behind the wall, from its edge round the panel's corner to the next wall."""
    bend, radius = shape.bend, relief_radius_mm(shape.bend)
    halves = (shape.width_mm / 2, shape.height_mm / 2)
    half, other = halves if quarter % 2 == 0 else halves[::-1]
    cs, ct = (h - bend.setback_mm + bend.allowance_mm / 2 for h in (half, other))
    off = math.degrees(math.asin((bend.setback_mm - bend.thickness_mm - bend.allowance_mm / 2) / radius))
    start, end = off, -270.0 - off
    count = math.ceil((start - end) / _CHORD_DEG)
    for step in range(1, count):
        turn = math.radians(start + (end - start) * step / count)
        yield cs + radius * math.cos(turn), ct + radius * math.sin(turn)


def _bends(shape: BoxShape, side: _Side) -> Iterator[tuple[float, float, bool]]:
    """Return the bend lines of a wall: how far out, half of its length, whether it is bent up."""
    half_bend = shape.bend.allowance_mm / 2
    yield side.half_mm - shape.bend.setback_mm + half_bend, _panel_edge_mm(shape, side), True
    yield _wall_end_mm(shape, side.half_mm) + half_bend, side.flange_mm, shape.flange_is_inward


def _panel_edge_mm(shape: BoxShape, side: _Side) -> float:
    """Return half of the length of the bend between panel and wall: from relief to relief."""
    bend = shape.bend
    other = side.wall_mm + bend.thickness_mm
    return other - bend.setback_mm + bend.allowance_mm / 2 - relief_radius_mm(bend)


def _quarter(count: int) -> Callable[[float, float], Point]:
    cos, sin = _TURNS[count]
    return lambda s, t: Point(s * cos - t * sin, s * sin + t * cos)


def _on_flange(shape: BoxShape, across_mm: float, up_mm: float) -> Point | None:
    sides = _sides(shape)
    for quarter in (0, 2, 1, 3):
        side = sides[quarter]
        cos, sin = _TURNS[quarter]
        s, t = across_mm * cos + up_mm * sin, -across_mm * sin + up_mm * cos
        apex = side.half_mm if shape.flange_is_inward else side.half_mm - shape.bend.thickness_mm
        reach = apex - s if shape.flange_is_inward else s - apex
        if shape.bend.setback_mm < reach < _flange_outer_mm(shape) and abs(t) < side.flange_mm:
            flat = _wall_end_mm(shape, side.half_mm) + shape.bend.allowance_mm + reach - shape.bend.setback_mm
            return Point(flat * cos - t * sin, flat * sin + t * cos)
    return None


def _check(shape: BoxShape, name: str) -> None:
    bend = shape.bend
    least_depth = 2 * bend.setback_mm + relief_radius_mm(bend)
    if shape.depth_mm <= least_depth:
        raise NothingToDrawError(
            f"“{name}” is {shape.depth_mm:g} mm deep, too shallow to fold with an inside radius of {bend.radius_mm:g} mm "
            f"(it takes {least_depth:.1f} mm): choose a smaller bend radius, thinner sheet or a deeper shroud."
        )
    least = bend.setback_mm + bend.thickness_mm
    if _flange_outer_mm(shape) <= least:
        raise NothingToDrawError(
            f"The flange of “{name}” would be {shape.flange_mm:g} mm wide, too narrow to bend (it takes {least:.1f} mm): "
            "place its holes further from the edge, or choose a smaller bend radius."
        )
    inner = min(shape.width_mm, shape.height_mm) / 2
    if inner <= 2 * least_depth or (shape.flange_is_inward and shape.flange_mm + GAP_MM >= inner - least_depth):
        raise NothingToDrawError(
            f"“{name}” ({shape.width_mm:g} × {shape.height_mm:g} mm) is too small to fold with a flange of "
            f"{shape.flange_mm:g} mm: choose a larger shroud or place its holes nearer to its edge."
        )
