"""The name of a view, and which side of the vehicle is which, above the view."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.sheets.draw_list import Across, Mark, Point, Text
from grillestack.sheets.lettering import text_width_mm
from grillestack.sheets.view_faces import Looking

# Height of a caption in heights of its text, its distance from the view included
_ONE_LINE_FRAC, _TWO_LINES_FRAC = 2.7, 4.6
# How far its lowest line stands above the view
CAPTION_BASE_FRAC = 1.2
_NAMES = {
    Looking.AHEAD: "FRONT VIEW",
    Looking.ABOVE: "PLAN VIEW",
    Looking.LEFT: "LEFT SIDE VIEW",
    Looking.RIGHT: "RIGHT SIDE VIEW",
}
# At the left end, in the middle and at the right end; the longer words where there is room.
_SIDES = {
    Looking.AHEAD: (("◄ RIGHT of vehicle", "◄ RIGHT"), "", ("LEFT of vehicle ►", "LEFT ►")),
    Looking.ABOVE: (("◄ RIGHT of vehicle", "◄ RIGHT"), "▼ FRONT", ("LEFT of vehicle ►", "LEFT ►")),
    Looking.LEFT: (("◄ FRONT", "◄"), "", ("", "")),
    Looking.RIGHT: (("", ""), "", ("FRONT ►", "►")),
}


def caption_height_mm(looking: Looking, width_mm: float, text_mm: float) -> float:
    """Return the height of the caption above a view of that width."""
    return (_ONE_LINE_FRAC if _fits_one_line(looking, width_mm, text_mm) else _TWO_LINES_FRAC) * text_mm


def caption_marks(looking: Looking, x0_mm: float, x1_mm: float, y_mm: float, text_mm: float) -> Iterator[Mark]:
    """Return the texts above a view from `x0_mm` to `x1_mm`, the lowest at `y_mm`."""
    left, middle, right = _SIDES[looking]
    width = x1_mm - x0_mm
    one_line = _fits_one_line(looking, width, text_mm)
    longer = one_line or text_width_mm(f"{left[0]}   {middle}   {right[0]}", text_mm) <= width
    for text, x, across in (
        (left[0 if longer else 1], x0_mm, Across.LEFT),
        (right[0 if longer else 1], x1_mm, Across.RIGHT),
    ):
        if text:
            yield Text(at=Point(x, y_mm), text=text, height_mm=text_mm, across=across)
    centre = Point((x0_mm + x1_mm) / 2, y_mm)
    name = f"{_NAMES[looking]}  {middle}".rstrip() if one_line else _NAMES[looking]
    if one_line:
        yield Text(at=centre, text=name, height_mm=text_mm, across=Across.CENTRE, is_bold=True)
        return
    if middle and text_width_mm(f"{left[1]}  {middle}  {right[1]}", text_mm) <= width:
        yield Text(at=centre, text=middle, height_mm=text_mm, across=Across.CENTRE)
    above = y_mm + 1.9 * text_mm
    if looking in (Looking.AHEAD, Looking.ABOVE):
        yield Text(at=Point(centre.x_mm, above), text=name, height_mm=text_mm, across=Across.CENTRE, is_bold=True)
    else:
        yield Text(at=Point(x0_mm, above), text=name, height_mm=text_mm, is_bold=True)


def caption_width_mm(looking: Looking, text_mm: float) -> float:
    """Return the room that a caption takes at least."""
    left, middle, right = _SIDES[looking]
    sides = text_width_mm(f"{left[1]}  {middle}  {right[1]}".strip(), text_mm)
    return max(text_width_mm(_NAMES[looking], text_mm, is_bold=True), sides)


def _fits_one_line(looking: Looking, width_mm: float, text_mm: float) -> bool:
    left, middle, right = _SIDES[looking]
    name = f"{_NAMES[looking]}  {middle}".rstrip()
    half = text_width_mm(name, text_mm, is_bold=True) / 2 + 1.2 * text_mm
    longest = max(text_width_mm(left[0], text_mm), text_width_mm(right[0], text_mm))
    return half + longest <= width_mm / 2
