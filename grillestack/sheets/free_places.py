"""Where a small text beside a feature stands free of everything drawn so far."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from grillestack.sheets.collisions import Floats, all_texts, crosses_area, segments_of
from grillestack.sheets.dimension_marks import text_area
from grillestack.sheets.draw_list import Across, Leader, Mark, Point, Text, Upright
from grillestack.sheets.lettering import text_width_mm
from grillestack.sheets.paper import Area

# In heights of the text; from the second on with a line, which is longer than its arrow head.
_DISTANCES_FRAC = (0.24, 1.7, 2.6, 3.8, 5.2, 6.8, 8.8, 11.0, 14.0)
_DIRECTIONS = 16
_BESIDE_FRAC = 0.5
_CLEAR_MM = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class TagWish:
    """A short text that belongs to a feature of that radius."""

    key: str
    text: str
    at: Point
    radius_mm: float
    # A core's tag may stand anywhere inside it without a line; a hole's must be tied to it.
    needs_leader: bool = True
    # No nearer than this, so that it stands clear of what it belongs to, and no further than that; in heights of the text
    least_frac: float = 0.0
    most_frac: float = 14.0


@dataclass(frozen=True, slots=True, eq=False)
class Crowd:
    """What a text must keep clear of: lines, one row (x0, y0, x1, y1) each, and the areas of texts."""

    lines_mm: Floats
    texts: tuple[Area, ...]

    def joined_by(self, marks: Sequence[Mark]) -> Crowd:
        """Return the crowd with these marks in it."""
        texts = tuple(text_area(text) for text in all_texts(marks))
        return Crowd(np.vstack((self.lines_mm, segments_of(marks))), (*self.texts, *texts))

    def near(self, area: Area) -> Crowd:
        """Return those of it that reach into the area."""
        low = np.minimum(self.lines_mm[:, :2], self.lines_mm[:, 2:])
        high = np.maximum(self.lines_mm[:, :2], self.lines_mm[:, 2:])
        inside = (low <= (area.x1_mm, area.y1_mm)).all(axis=1) & (high >= (area.x0_mm, area.y0_mm)).all(axis=1)
        return Crowd(self.lines_mm[inside], tuple(text for text in self.texts if text.overlaps(area)))


def crowd_of(marks: Sequence[Mark]) -> Crowd:
    """Return what is on a sheet already."""
    return Crowd(np.empty((0, 4)), ()).joined_by(marks)


def placed_tags(wishes: Sequence[TagWish], marks: Sequence[Mark], room: Area, text_mm: float) -> tuple[Leader, ...]:
    """Return the texts with a line to their feature where they do not stand right beside it; what finds no place is left out."""
    crowd = crowd_of(marks)
    placed: list[Leader] = []
    for wish in wishes:
        found = placed_tag(wish, crowd, room, text_mm)
        if found is not None:
            placed.append(found)
            crowd = crowd.joined_by([found])
    return tuple(placed)


def placed_tag(wish: TagWish, crowd: Crowd, room: Area, text_mm: float) -> Leader | None:
    """Return one text in the nearest place that is free of the crowd, or nothing."""
    reach = wish.radius_mm + wish.most_frac * text_mm + text_width_mm(wish.text, text_mm) + 2 * text_mm
    around = Area(wish.at.x_mm, wish.at.y_mm, wish.at.x_mm, wish.at.y_mm).grown(reach)
    near = crowd.near(around)
    return next((one for one in _ways(wish, text_mm) if _is_free(one, near.lines_mm, near.texts, room)), None)


def _ways(wish: TagWish, text_mm: float) -> Iterator[Leader]:
    width, beside = text_width_mm(wish.text, text_mm), _BESIDE_FRAC * text_mm
    for distance in (d * text_mm for d in _DISTANCES_FRAC if wish.least_frac <= d <= wish.most_frac):
        for step in range(_DIRECTIONS):
            turn = 2 * math.pi * (step + 2) / _DIRECTIONS
            cos, sin = math.cos(turn), math.sin(turn)
            reach = wish.radius_mm + distance
            elbow = Point(wish.at.x_mm + reach * cos, wish.at.y_mm + reach * sin)
            left = cos >= -0.01
            shift = 0.4 * text_mm if left else -0.4 * text_mm
            if abs(cos) < 0.2:
                shift -= width / 2
                left = True
            at = Point(elbow.x_mm + shift, elbow.y_mm + (0.55 * text_mm * sin if distance <= beside else 0.0))
            has_line = wish.needs_leader and distance > beside and abs(cos) >= 0.2
            if wish.needs_leader and distance > beside and not has_line:
                continue
            tip = Point(wish.at.x_mm + wish.radius_mm * cos, wish.at.y_mm + wish.radius_mm * sin)
            yield Leader(
                key=wish.key,
                points=(tip, elbow) if has_line else (),
                text_at=at,
                lines=(wish.text,),
                text_height_mm=text_mm,
                across=Across.LEFT if left else Across.RIGHT,
            )


def _is_free(leader: Leader, segments: Floats, taken: Sequence[Area], room: Area) -> bool:
    text = Text(
        at=leader.text_at,
        text=leader.lines[0],
        height_mm=leader.text_height_mm,
        across=leader.across,
        upright=Upright.MIDDLE,
    )
    area = text_area(text)
    roomy = area.grown(_CLEAR_MM)
    if not room.holds(area) or any(roomy.overlaps(other) for other in taken):
        return False
    if bool(crosses_area(segments, roomy).any()):
        return False
    if not leader.points:
        return True
    line = segments_of([leader])
    return not any(bool(crosses_area(line, other).any()) for other in (area, *taken))
