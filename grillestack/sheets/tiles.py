"""A full-size drawing over several sheets of paper: where each tile lies, what is on it, and how to put them together."""

from __future__ import annotations

import math
import string
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from grillestack.model.sheet_choices import Paper, SheetView
from grillestack.sheets.clip import clipped
from grillestack.sheets.collisions import simple_marks
from grillestack.sheets.dimension_marks import text_area
from grillestack.sheets.draw_list import (
    OUTLINE,
    THIN,
    Across,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Sheet,
    Text,
    Upright,
    View,
)
from grillestack.sheets.flat_part import rectangle
from grillestack.sheets.move_marks import moved
from grillestack.sheets.paper import Area, paper_form

# Tiles overlap so far; common practice, no source: 10 to 15 mm can be glued.
OVERLAP_MM = 12.0
CHECK_MM = 100.0
# A print further out than this share is to be thrown away; from memory of the trade.
REJECT_FRAC = 0.005
# What printers leave white, and strips for labels and check bars at the bottom and the left
_WHITE_MM, _BOTTOM_MM, _LEFT_MM, _AROUND_MM = 8.0, 15.0, 8.0, 5.0
_CROSS_MM, _TICK_MM = 5.0, 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FullSize:
    """One drawing at full size, in mm; the area holds all its marks."""

    key: str
    title: str
    marks: tuple[Mark, ...]
    area: Area


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """One tile: row (from the top) and column, and what of the drawing it shows."""

    row: int
    column: int
    shows: Area

    @property
    def name(self) -> str:
        """Return its label: a letter for the row, a number for the column."""
        letters = string.ascii_uppercase
        row = letters[self.row] if self.row < len(letters) else f"{letters[self.row // 26 - 1]}{letters[self.row % 26]}"
        return f"{row}{self.column + 1}"


def window_of(paper: Paper) -> Area:
    """Return the part of a sheet that shows the drawing."""
    form = paper_form(paper)
    return Area(_WHITE_MM + _LEFT_MM, _WHITE_MM + _BOTTOM_MM, form.width_mm - _WHITE_MM, form.height_mm - _WHITE_MM)


def tiles_of(area: Area, paper: Paper) -> tuple[Tile, ...]:
    """Return the tiles that cover the area, row by row from the top left."""
    window = window_of(paper)
    across, up = (
        max(1, math.ceil((size - OVERLAP_MM) / (whole - OVERLAP_MM) - 1e-9))
        for size, whole in ((area.width_mm, window.width_mm), (area.height_mm, window.height_mm))
    )
    step_x, step_y = window.width_mm - OVERLAP_MM, window.height_mm - OVERLAP_MM
    # What is left over is shared out on both sides.
    x0 = area.x0_mm - (across * step_x + OVERLAP_MM - area.width_mm) / 2
    y1 = area.y1_mm + (up * step_y + OVERLAP_MM - area.height_mm) / 2
    return tuple(
        Tile(
            row=row,
            column=column,
            shows=Area(
                x0 + column * step_x,
                y1 - row * step_y - window.height_mm,
                x0 + column * step_x + window.width_mm,
                y1 - row * step_y,
            ),
        )
        for row in range(up)
        for column in range(across)
    )


def shown_tiles(drawing: FullSize, paper: Paper) -> tuple[Tile, ...]:
    """Return the tiles on which something of the drawing is."""
    tiles = tiles_of(drawing.area, paper)
    return tuple(t for t in tiles if any(True for mark in drawing.marks for _ in clipped(mark, t.shows)))


def tile_sheets(drawing: FullSize, paper: Paper) -> tuple[Sheet, ...]:
    """Return one sheet for each tile that shows something, each with its label, crosses, check bars and neighbours."""
    tiles = shown_tiles(drawing, paper)
    texts = [mark for mark in simple_marks(drawing.marks) if isinstance(mark, Text)]
    others = [mark for mark in simple_marks(drawing.marks) if not isinstance(mark, Text)]
    whole = (*others, *_whole_texts(texts, tiles))
    return tuple(_sheet(drawing, tile, tiles, whole, paper) for tile in tiles)


def whole_sheet(drawing: FullSize, paper: Paper) -> Sheet:
    """Return the drawing on one sheet of its own size."""
    area = drawing.area
    corner = Point(_WHITE_MM + _LEFT_MM, _WHITE_MM + _BOTTOM_MM)
    width = max(area.width_mm, CHECK_MM + 2 * _TICK_MM) + corner.x_mm + _WHITE_MM
    height = max(area.height_mm, CHECK_MM + 2 * _TICK_MM) + corner.y_mm + _WHITE_MM
    marks = (
        *moved(drawing.marks, corner.x_mm - area.x0_mm, corner.y_mm - area.y0_mm),
        *_check_bars(corner, paper_form(paper).text_mm),
    )
    return _as_sheet(drawing, f"template:{drawing.key}", (width, height), marks, paper)


def _whole_texts(texts: Sequence[Text], tiles: Sequence[Tile]) -> Iterator[Text]:
    """Return the texts, those that no tile would show whole moved into the one that shows their middle."""
    for text in texts:
        area = text_area(text)
        if any(tile.shows.holds(area) for tile in tiles):
            yield text
            continue
        x, y = (area.x0_mm + area.x1_mm) / 2, (area.y0_mm + area.y1_mm) / 2
        home = next((t.shows for t in tiles if t.shows.holds(Area(x, y, x, y))), tiles[0].shows).grown(-1.0)
        dx = max(0.0, home.x0_mm - area.x0_mm) - max(0.0, area.x1_mm - home.x1_mm)
        dy = max(0.0, home.y0_mm - area.y0_mm) - max(0.0, area.y1_mm - home.y1_mm)
        yield replace(text, at=Point(text.at.x_mm + dx, text.at.y_mm + dy))


def _sheet(drawing: FullSize, tile: Tile, tiles: Sequence[Tile], marks: Sequence[Mark], paper: Paper) -> Sheet:
    form, window = paper_form(paper), window_of(paper)
    dx, dy = window.x0_mm - tile.shows.x0_mm, window.y0_mm - tile.shows.y0_mm
    shown = [part for mark in marks for part in clipped(mark, tile.shows)]
    all_marks = (
        *moved(shown, dx, dy),
        Polyline(points=rectangle(window), is_closed=True, stroke=THIN, layer=Layer.FRAME),
        *(_crosses(window) if len(tiles) > 1 else ()),
        *_neighbours(tile, tiles, window, form.text_mm),
        *_label(drawing, tile, tiles, paper),
        *_check_bars(Point(window.x0_mm, window.y0_mm), form.text_mm),
    )
    key = f"template:{drawing.key}:{tile.name}"
    return replace(
        _as_sheet(drawing, key, (form.width_mm, form.height_mm), all_marks, paper),
        title=f"{drawing.title}, tile {tile.name}",
    )


def _as_sheet(
    drawing: FullSize, key: str, size_mm: tuple[float, float], marks: tuple[Mark, ...], paper: Paper
) -> Sheet:
    return Sheet(
        key=key,
        title=f"{drawing.title}, full size",
        view=SheetView.TEMPLATE,
        paper=paper,
        width_mm=size_mm[0],
        height_mm=size_mm[1],
        scale_factor=1.0,
        line_group=paper_form(paper).line_group,
        marks=marks,
        views=(View(name=drawing.key, scale_factor=1.0, x0_mm=0.0, y0_mm=0.0, x1_mm=size_mm[0], y1_mm=size_mm[1]),),
    )


def _crosses(window: Area) -> Iterator[Line]:
    """Return crosses on the middle lines of the overlaps: those of neighbours fall together."""
    inner = window.grown(-OVERLAP_MM / 2)
    for point in rectangle(inner):
        for dx, dy in ((_CROSS_MM, 0.0), (0.0, _CROSS_MM)):
            yield Line(
                start=Point(point.x_mm - dx, point.y_mm - dy),
                end=Point(point.x_mm + dx, point.y_mm + dy),
                stroke=THIN,
                layer=Layer.FRAME,
            )


def _neighbours(tile: Tile, tiles: Sequence[Tile], window: Area, text_mm: float) -> Iterator[Text]:
    """Return at each edge which tile joins there."""
    by_place = {(other.row, other.column): other for other in tiles}
    middle_x, middle_y = (window.x0_mm + window.x1_mm) / 2, (window.y0_mm + window.y1_mm) / 2
    small = 0.8 * text_mm
    for (row, column), at, angle in (
        ((0, 1), Point(window.x1_mm + 3.0, middle_y), 90.0),
        ((0, -1), Point(window.x0_mm - 3.0, window.y1_mm - 25.0), 90.0),
        ((-1, 0), Point(middle_x, window.y1_mm + 3.0), 0.0),
        ((1, 0), Point(window.x1_mm - 30.0, window.y0_mm - 3.0), 0.0),
    ):
        other = by_place.get((tile.row + row, tile.column + column))
        if other is not None:
            yield Text(
                at=at,
                text=f"{other.name} joins here",
                height_mm=small,
                across=Across.CENTRE,
                upright=Upright.MIDDLE,
                angle_deg=angle,
                layer=Layer.FRAME,
            )


def _label(drawing: FullSize, tile: Tile, tiles: Sequence[Tile], paper: Paper) -> Iterator[Text]:
    text_mm = paper_form(paper).text_mm
    of_all = f"; tiles {tiles[0].name} to {tiles[-1].name}" if len(tiles) > 1 else ""
    window = window_of(paper)
    reject = REJECT_FRAC * CHECK_MM
    for place, (text, is_bold) in enumerate(
        (
            (f"{tile.name}  {drawing.title}, full size 1:1{of_all}", True),
            (f"Print at 100 %. Both bars {CHECK_MM:g} mm: throw away if out by more than {reject:g} mm.", False),
        )
    ):
        yield Text(
            at=Point(window.x0_mm, _WHITE_MM + (1 - place) * 1.7 * text_mm),
            text=text,
            height_mm=text_mm,
            is_bold=is_bold,
            layer=Layer.FRAME,
        )


def _check_bars(corner: Point, text_mm: float) -> Iterator[Mark]:
    """Return a bar along the lower edge and one along the left edge, with a tick every 10 mm, outside the corner."""
    for is_upright in (False, True):
        bar_y, bar_x = corner.y_mm - 3.0, corner.x_mm - 3.0
        start = Point(bar_x, corner.y_mm) if is_upright else Point(corner.x_mm, bar_y)
        end = Point(bar_x, corner.y_mm + CHECK_MM) if is_upright else Point(corner.x_mm + CHECK_MM, bar_y)
        yield Line(start=start, end=end, stroke=OUTLINE, layer=Layer.FRAME)
        for step in range(11):
            along = CHECK_MM * step / 10
            reach = _TICK_MM if step % 5 == 0 else _TICK_MM / 2
            if is_upright:
                a, b = Point(bar_x - reach, corner.y_mm + along), Point(bar_x, corner.y_mm + along)
            else:
                a, b = Point(corner.x_mm + along, bar_y - reach), Point(corner.x_mm + along, bar_y)
            yield Line(start=a, end=b, stroke=THIN, layer=Layer.FRAME)
        at = Point(bar_x - 2.6, corner.y_mm + 75.0) if is_upright else Point(corner.x_mm + 75.0, bar_y - 2.6)
        yield Text(
            at=at,
            text=f"{CHECK_MM:g} mm",
            height_mm=0.7 * text_mm,
            across=Across.CENTRE,
            upright=Upright.MIDDLE,
            angle_deg=90.0 if is_upright else 0.0,
            layer=Layer.FRAME,
        )
