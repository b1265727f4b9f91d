"""Names of features in a column at the right of a picture, each at the end of a line; room for all is there by construction."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.sheets.draw_list import Across, Leader, Point
from grillestack.sheets.free_places import TagWish
from grillestack.sheets.lettering import text_width_mm
from grillestack.sheets.ordinate_rows import PITCH_FRAC, spread
from grillestack.sheets.paper import Area

_JOG_MM, _STUB_MM = 4.0, 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """The names and how far they reach."""

    leaders: tuple[Leader, ...]
    area: Area


def name_column(wishes: Sequence[TagWish], x_mm: float, middle_mm: float, text_mm: float) -> Column:
    """Return the names in a column that begins at `x_mm`, each as level with its feature as the others let it be."""
    ordered = sorted(wishes, key=lambda wish: (wish.at.y_mm, wish.at.x_mm))
    pitch = PITCH_FRAC * text_mm
    need = len(ordered) * pitch
    low = min([middle_mm - need / 2, *(wish.at.y_mm - pitch for wish in ordered)])
    high = max([middle_mm + need / 2, *(wish.at.y_mm + pitch for wish in ordered)])
    places = spread([wish.at.y_mm for wish in ordered], [pitch] * len(ordered), low, high) or ()
    leaders = []
    for wish, y in zip(ordered, places, strict=True):
        elbow, end = Point(x_mm + _JOG_MM, y), Point(x_mm + _JOG_MM + _STUB_MM, y)
        away = math.atan2(elbow.y_mm - wish.at.y_mm, elbow.x_mm - wish.at.x_mm)
        tip = Point(
            wish.at.x_mm + wish.radius_mm * math.cos(away),
            wish.at.y_mm + wish.radius_mm * math.sin(away),
        )
        leaders.append(
            Leader(
                key=wish.key,
                points=(tip, elbow, end),
                text_at=Point(end.x_mm + 0.4 * text_mm, y),
                lines=(wish.text,),
                text_height_mm=text_mm,
                across=Across.LEFT,
            )
        )
    longest = max((text_width_mm(wish.text, text_mm) for wish in ordered), default=0.0)
    reach = x_mm + _JOG_MM + _STUB_MM + 0.4 * text_mm + longest
    return Column(leaders=tuple(leaders), area=Area(x_mm, low, reach, high))
