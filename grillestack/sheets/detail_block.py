"""One detail on paper: its caption, and its pictures side by side, each with ordinates at the left and below and its holes named."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grillestack.model.sheet_choices import DrawingUnits, WeldSymbols
from grillestack.sheets.collisions import collisions, segments_of
from grillestack.sheets.draw_list import Axis, Leader, Mark, Point, Text
from grillestack.sheets.free_places import TagWish, placed_tags
from grillestack.sheets.lettering import lines_of, text_width_mm
from grillestack.sheets.move_marks import moved, put
from grillestack.sheets.name_column import name_column
from grillestack.sheets.ordinate_rows import Row, RowItem, placed_row, row_length_mm, row_reach_mm
from grillestack.sheets.paper import Area
from grillestack.sheets.say_length import SAME_MM, said_length
from grillestack.sheets.weld_symbol import Weld, WeldNote, weld_marks, weld_width_mm

# Room beside and above a picture for what points at its holes
_BESIDE_MM, _ABOVE_MM = 16.0, 5.0
_BETWEEN_MM = 5.0
_PITCH_FRAC = 1.6
_LEAST_CAPTION_MM = 62.0
_SMALLEST_MM = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A place of a picture that is measured from its lower left corner, and what stands behind the figure."""

    key: str
    axis: Axis
    at: Point
    label: str = ""

    @property
    def value_mm(self) -> float:
        """Return what is measured, before the corner is taken off."""
        return self.at.x_mm if self.axis is Axis.ACROSS else self.at.y_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A short text beside a feature of that radius; what is not needed is left out where it has no room."""

    key: str
    text: str
    at: Point
    radius_mm: float
    is_needed: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class WeldAt:
    """A weld symbol that points at a place near the upper right of a picture."""

    tip: Point
    weld: Weld
    size_text: str = ""
    tail_text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """How a detail is written: height of its letters, units of its sizes, standard of its weld symbols."""

    text_mm: float
    units: DrawingUnits
    welds: WeldSymbols


@dataclass(frozen=True, slots=True, kw_only=True)
class DetailPicture:
    """One picture of a detail at full size."""

    name: str
    area: Area
    marks: tuple[Mark, ...]
    stations: tuple[Station, ...] = ()
    named: tuple[Named, ...] = ()
    weld: WeldAt | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Detail:
    """One piece to be made: what it is called, what is said of it, its pictures."""

    key: str
    title: str
    lines: tuple[str, ...]
    pictures: tuple[DetailPicture, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A detail on paper, its lower left corner at 0/0."""

    key: str
    marks: tuple[Mark, ...]
    width_mm: float
    height_mm: float


def detail_block(
    detail: Detail, scale_factor: float, lettering: Lettering, most_width_mm: float = math.inf
) -> Block | None:
    """Return the detail at that scale, its pictures under each other where they are too wide beside each other.

    Nothing, where its dimensions or names have no room without colliding.
    """
    rows: list[list[Block]] = [[]]
    for picture in detail.pictures:
        block = _picture(picture, scale_factor, lettering)
        if block is None:
            return None
        if rows[-1] and _row_width(rows[-1]) + _BETWEEN_MM + block.width_mm > most_width_mm:
            rows.append([])
        rows[-1].append(block)
    marks: list[Mark] = []
    height = 0.0
    for row in reversed(rows):
        x = 0.0
        for block in row:
            marks += moved(block.marks, x, height)
            x += block.width_mm + _BETWEEN_MM
        height += max(block.height_mm for block in row) + _BETWEEN_MM
    width = max(_LEAST_CAPTION_MM, *(_row_width(row) for row in rows))
    caption = tuple(_caption(detail, width, height - _BETWEEN_MM, lettering.text_mm))
    marks += caption
    if collisions(marks):
        return None
    top = max(text.at.y_mm for text in caption) + lettering.text_mm
    return Block(key=detail.key, marks=tuple(marks), width_mm=width, height_mm=top)


def _row_width(row: Sequence[Block]) -> float:
    return sum(block.width_mm for block in row) + _BETWEEN_MM * (len(row) - 1)


def _caption(detail: Detail, width_mm: float, above_mm: float, text_mm: float) -> Iterator[Text]:
    said = [(line, True) for line in lines_of(detail.title, text_mm, width_mm, is_bold=True)]
    said += [(line, False) for text in detail.lines for line in lines_of(text, text_mm, width_mm)]
    for place, (line, is_bold) in enumerate(reversed(said)):
        y = above_mm + (1.0 + place * _PITCH_FRAC) * text_mm
        yield Text(at=Point(0.0, y), text=line, height_mm=text_mm, is_bold=is_bold)


def _picture(picture: DetailPicture, scale_factor: float, lettering: Lettering) -> Block | None:
    area, text_mm, units = picture.area, lettering.text_mm, lettering.units
    reach = _reach(picture)
    width, height = reach.width_mm / scale_factor, reach.height_mm / scale_factor
    across, up = (_once(picture.stations, axis, area) for axis in (Axis.ACROSS, Axis.UP))
    texts = {axis: [_said(s, area, units) for s in found] for axis, found in ((Axis.ACROSS, across), (Axis.UP, up))}
    left = row_reach_mm(texts[Axis.UP], text_mm) + 1.0 if up else 1.0
    below = row_reach_mm(texts[Axis.ACROSS], text_mm) + 1.0 if across else 1.0
    # A row longer than the picture reaches beyond it at the right, or above.
    right = max(width, row_length_mm(texts[Axis.ACROSS], text_mm) if across else 0.0)
    top = max(height, row_length_mm(texts[Axis.UP], text_mm) if up else 0.0)
    origin = Point(left - reach.x0_mm / scale_factor, below - reach.y0_mm / scale_factor)
    datum = Point(origin.x_mm + area.x0_mm / scale_factor, origin.y_mm + area.y0_mm / scale_factor)
    marks: list[Mark] = [put(mark, scale_factor, origin) for mark in picture.marks]
    for axis, found, edge, low, high in (
        (Axis.ACROSS, across, below, left, left + right),
        (Axis.UP, up, left, below, below + top),
    ):
        if not found:
            continue
        row = Row(axis=axis, edge_mm=edge, outward=-1, low_mm=low - text_mm, high_mm=high + text_mm, text_mm=text_mm)
        placed = placed_row(_items(found, texts[axis], (origin, scale_factor, datum), area), row)
        if placed is None:
            return None
        marks += placed
    weld = _weld(picture.weld, origin, scale_factor, (left + right, below + top), lettering)
    marks += weld.marks
    tags, room = _tags(picture, (origin, scale_factor), marks, Area(left, below, left + right, below + top), text_mm)
    name_y = max(room.y1_mm, weld.height_mm) + 0.4 * text_mm
    name = Text(at=Point(left, name_y), text=picture.name, height_mm=text_mm)
    name_end = left + text_width_mm(picture.name, text_mm)
    return Block(
        key=picture.name,
        marks=(*marks, *tags, name),
        width_mm=max(room.x1_mm if tags else left + right + 2.0, name_end, weld.width_mm),
        height_mm=name_y + 1.6 * text_mm,
    )


def _tags(
    picture: DetailPicture, on: tuple[Point, float], marks: Sequence[Mark], area: Area, text_mm: float
) -> tuple[tuple[Leader, ...], Area]:
    """Return the names beside their features, or all in a column where one that is needed has no room there."""
    origin, scale = on
    wishes = {
        one.key: TagWish(
            key=one.key,
            text=one.text,
            at=Point(origin.x_mm + one.at.x_mm / scale, origin.y_mm + one.at.y_mm / scale),
            radius_mm=one.radius_mm / scale + 0.3,
        )
        for one in picture.named
    }
    room = Area(area.x0_mm - 2.0, area.y0_mm - 1.0, area.x1_mm + _BESIDE_MM, area.y1_mm + _ABOVE_MM)
    tags = placed_tags(list(wishes.values()), marks, room, text_mm)
    placed_keys = {tag.key for tag in tags}
    needed = [one.key for one in picture.named if one.is_needed]
    if all(key in placed_keys for key in needed):
        return tags, room
    column = name_column([wishes[key] for key in needed], area.x1_mm, (area.y0_mm + area.y1_mm) / 2, text_mm)
    reach = column.area
    whole = Area(room.x0_mm, room.y0_mm, reach.x1_mm, max(room.y1_mm, reach.y1_mm))
    return column.leaders, whole


def _weld(
    wish: WeldAt | None, origin: Point, scale_factor: float, corner: tuple[float, float], lettering: Lettering
) -> Block:
    """Return the weld symbol above the picture, its arrow coming from the upper right."""
    if wish is None:
        return Block(key="", marks=(), width_mm=0.0, height_mm=0.0)
    tip = Point(origin.x_mm + wish.tip.x_mm / scale_factor, origin.y_mm + wish.tip.y_mm / scale_factor)
    height = lettering.text_mm
    note = WeldNote(
        tip=tip,
        elbow=Point(tip.x_mm + 3.0 * height, corner[1] + _ABOVE_MM + 1.8 * height),
        weld=wish.weld,
        size_text=wish.size_text,
        tail_text=wish.tail_text,
        height_mm=height,
    )
    return Block(
        key="",
        marks=weld_marks(note, lettering.welds),
        width_mm=note.elbow.x_mm + weld_width_mm(note) + 2.0,
        height_mm=note.elbow.y_mm + 1.8 * height,
    )


def _reach(picture: DetailPicture) -> Area:
    """Return what the picture takes with all its marks, which may reach beyond what is measured."""
    lines = segments_of(picture.marks)
    xs, ys = lines[:, [0, 2]], lines[:, [1, 3]]
    area = picture.area
    return Area(
        min(area.x0_mm, float(xs.min())),
        min(area.y0_mm, float(ys.min())),
        max(area.x1_mm, float(xs.max())),
        max(area.y1_mm, float(ys.max())),
    )


def _once(stations: Sequence[Station], axis: Axis, area: Area) -> tuple[Station, ...]:
    """Return the stations along an axis without those in line with one before; of these the one nearest to the row."""
    found: list[Station] = []
    for station in sorted((s for s in stations if s.axis is axis), key=lambda s: _from_row(s, area)):
        twin = next((s for s in found if abs(s.value_mm - station.value_mm) < SAME_MM), None)
        if twin is None:
            found.append(station)
        elif station.label and not twin.label:
            found[found.index(twin)] = Station(key=twin.key, axis=axis, at=twin.at, label=station.label)
    return tuple(found)


def _from_row(station: Station, area: Area) -> float:
    return station.at.y_mm - area.y0_mm if station.axis is Axis.ACROSS else station.at.x_mm - area.x0_mm


def _said(station: Station, area: Area, units: DrawingUnits) -> str:
    corner = area.x0_mm if station.axis is Axis.ACROSS else area.y0_mm
    value = station.value_mm - corner
    return f"{said_length(value if abs(value) > _SMALLEST_MM else 0.0, units)} {station.label}".rstrip()


def _items(
    stations: Sequence[Station], texts: Sequence[str], on: tuple[Point, float, Point], area: Area
) -> list[RowItem]:
    origin, scale, datum = on
    return [
        RowItem(
            key=station.key,
            datum=datum,
            feature=Point(origin.x_mm + station.at.x_mm / scale, origin.y_mm + station.at.y_mm / scale),
            value_mm=station.value_mm - (area.x0_mm if station.axis is Axis.ACROSS else area.y0_mm),
            text=text,
        )
        for station, text in zip(stations, texts, strict=True)
    ]
