"""The sheet of holes and ports: the front view with their ordinates, centre distances and numbers, and the schedules."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.model.project import Project, stack
from grillestack.model.sheet_choices import DrawingUnits, SheetView
from grillestack.sheets.caption import CAPTION_BASE_FRAC, caption_height_mm, caption_marks
from grillestack.sheets.collisions import collisions
from grillestack.sheets.datum import Datum, datum_of
from grillestack.sheets.dimension_wishes import Ordinate, Wish, ordinates
from grillestack.sheets.draw_list import Axis, LinearDimension, Mark, Point, View
from grillestack.sheets.fittings import Fitting, fittings_of, hole_schedule, port_schedule
from grillestack.sheets.free_places import TagWish, placed_tags
from grillestack.sheets.note_block import note_block
from grillestack.sheets.ordinate_rows import Row, RowItem, broken, placed_row, row_length_mm, row_reach_mm
from grillestack.sheets.overhang import overhang_of
from grillestack.sheets.paper import Area, paper_form, scales_from
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_hole, said_length
from grillestack.sheets.sheet_body import CLEAR_MM, SheetBody, SheetTooSmallError, room_above_title, room_of, title_area
from grillestack.sheets.tables import Table, bottom_of, fill_area, fits_across, natural_width_mm
from grillestack.sheets.tiers import TierItem, Tiers, placed_tiers, tiers_reach_mm
from grillestack.sheets.view_faces import Looking, Seen, seen
from grillestack.sheets.view_marks import OnPaper, Picture, picture_marks, picture_of

_LABEL_FRAC = 11.0
_APART_MM = 1.0
_LEAST_TABLE_MM = 90.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawing:
    """What is drawn, apart from where."""

    project: Project
    datum: Datum
    picture: Picture
    fittings: tuple[Fitting, ...]
    across: tuple[Ordinate, ...]
    up: tuple[Ordinate, ...]

    @property
    def text_mm(self) -> float:
        return paper_form(self.project.sheet.paper).text_mm

    def text(self, ordinate: Ordinate) -> str:
        said = said_length(ordinate.value_mm, self.project.sheet.units)
        longest = _LABEL_FRAC * (1.5 if self.project.sheet.units is DrawingUnits.BOTH else 1.0)
        return broken(f"{said}  {ordinate.label}", self.text_mm, longest)


def compose_holes(project: Project, notes: Sequence[str] = ()) -> tuple[SheetBody, ...]:
    """Return the sheet of holes and ports, and further ones where the schedules are long; none where there are neither.

    `notes` are those that found no room on the sheet before.

    Raises
    ------
    SheetTooSmallError
        If the view does not fit the paper at any scale.
    """
    datum, fittings = datum_of(project), fittings_of(project)
    if datum is None or not (fittings or notes):
        return ()
    tables = tuple(table for table in (hole_schedule(project, datum), port_schedule(project, datum)) if table.rows)
    if not fittings:
        return further_sheets(project, tables, notes, ("pack", 2, "Cooling pack, notes"))
    wishes = _wishes(fittings, datum)
    drawing = _Drawing(
        project=project,
        datum=datum,
        picture=picture_of(project, Looking.AHEAD, 0.0),
        fittings=fittings,
        across=ordinates(wishes, Axis.ACROSS),
        up=ordinates(wishes, Axis.UP),
    )
    for scale in scales_from():
        found = _placed(drawing, scale)
        if found is not None:
            marks, view, free, said = found
            return _with_tables(drawing, scale, (marks, view, free), (*tables, *said), notes)
    raise SheetTooSmallError(
        f"The holes and ports with their dimensions do not fit {project.sheet.paper.value} at any scale: choose a larger sheet."
    )


def further_sheets(
    project: Project, tables: Sequence[Table], notes: Sequence[str], named: tuple[str, int, str]
) -> tuple[SheetBody, ...]:
    """Return sheets with nothing but tables and, behind them, notes; named by key, first number and title."""
    key, number, title = named
    paper = project.sheet.paper
    text_mm, area = paper_form(paper).text_mm, room_above_title(paper)
    columns = _columns(area, tables, text_mm)
    beside_title = Area(area.x0_mm, room_of(paper).y0_mm, title_area(paper).x0_mm - CLEAR_MM, title_area(paper).y1_mm)
    bodies: list[SheetBody] = []
    rest, notes_left = tuple(tables), tuple(notes)
    while rest or notes_left:
        marks: list[Mark] = []
        low, last = area.y1_mm, columns[0]
        for place, column in enumerate(columns):
            # The first column takes what comes; a further one only what it need not cut words of.
            here = rest if place == 0 else _that_fit(rest, column, text_mm)
            if place and not here:
                break
            shown, left = fill_area(here, column, text_mm)
            rest = (*left, *rest[len(here) :])
            marks += shown
            low, last = bottom_of(shown, column), column
            if not rest:
                break
        if rest and not marks:
            raise SheetTooSmallError(f"A row of a table is too long for {paper.value}: choose a larger sheet.")
        if notes_left and not rest:
            below = Area(last.x0_mm, area.y0_mm, last.x1_mm, low - 2 * text_mm)
            areas = [one for one in (below, beside_title) if one.width_mm > 0]
            block = note_block(notes_left, areas, text_mm)
            if block is not None:
                marks += block
                notes_left = ()
            elif not marks:
                raise SheetTooSmallError(f"The notes do not fit {paper.value}: choose a larger sheet.")
        bodies.append(
            SheetBody(
                key=f"{key}-{number}" if number > 1 else key,
                title=title,
                document_type="Schedule",
                view=SheetView.PACK if key == "pack" else SheetView.PARTS_LIST,
                paper=paper,
                scale_factor=None,
                marks=tuple(marks),
            )
        )
        number += 1
    return tuple(bodies)


def _columns(area: Area, tables: Sequence[Table], text_mm: float) -> tuple[Area, ...]:
    """Return the area in two columns, the first as wide as the widest table, if there is room for a second beside it."""
    gap = 3 * text_mm
    widest = max((natural_width_mm(table, text_mm) for table in tables), default=area.width_mm)
    left = Area(area.x0_mm, area.y0_mm, area.x0_mm + max(widest, (area.width_mm - gap) / 2), area.y1_mm)
    right = Area(left.x1_mm + gap, area.y0_mm, area.x1_mm, area.y1_mm)
    return (left, right) if right.width_mm >= _LEAST_TABLE_MM else (area,)


def _that_fit(tables: Sequence[Table], area: Area, text_mm: float) -> tuple[Table, ...]:
    """Return the tables, from the first on, that need not cut words in the area."""
    return tuple(itertools.takewhile(lambda table: fits_across(table, area.width_mm, text_mm), tables))


def _with_tables(
    drawing: _Drawing,
    scale_factor: float,
    drawn: tuple[tuple[Mark, ...], Area, tuple[Area, ...]],
    tables: Sequence[Table],
    notes: Sequence[str],
) -> tuple[SheetBody, ...]:
    marks, view, free = drawn
    h, project = drawing.text_mm, drawing.project
    # A table that would have to cut words here goes to the next sheet, and those behind it too.
    shown: list[Mark] = []
    rest = tuple(tables)
    for area in free:
        here = _that_fit(rest, area, h)
        done, left = fill_area(here, area, h)
        shown += done
        rest = (*left, *rest[len(here) :])
    body = SheetBody(
        key="pack-2",
        title="Cooling pack, holes and ports",
        document_type="Pack sketch",
        view=SheetView.PACK,
        paper=project.sheet.paper,
        scale_factor=scale_factor,
        marks=(*marks, *shown),
        views=(
            View(
                name="holes",
                scale_factor=scale_factor,
                x0_mm=view.x0_mm,
                y0_mm=view.y0_mm,
                x1_mm=view.x1_mm,
                y1_mm=view.y1_mm,
            ),
        ),
        shows_projection=True,
    )
    further = further_sheets(project, rest, notes, ("pack", 3, "Cooling pack, schedules"))
    return (body, *further)


def _wishes(fittings: Sequence[Fitting], datum: Datum) -> tuple[Wish, ...]:
    found: list[Wish] = []
    for fitting in fittings:
        at = seen(Looking.AHEAD, fitting.x_mm, fitting.y_mm, fitting.z_mm)
        for axis, value in ((Axis.ACROSS, datum.y_mm - fitting.y_mm), (Axis.UP, fitting.z_mm - datum.z_mm)):
            key = f"holes:{fitting.key}:{axis.value}"
            found.append(Wish(key=key, axis=axis, at=at, value_mm=value, tag=fitting.name, word=""))
    return tuple(found)


def _placed(
    drawing: _Drawing, scale_factor: float
) -> tuple[tuple[Mark, ...], Area, tuple[Area, ...], tuple[Table, ...]] | None:
    """Return the view at this scale, its area, the areas beside it, and what distances found no place; or nothing."""
    h, project, bounds = drawing.text_mm, drawing.project, drawing.picture.bounds
    paper = project.sheet.paper
    room, title = room_of(paper), title_area(paper).grown(CLEAR_MM)
    width, height = (bounds.u1_mm - bounds.u0_mm) / scale_factor, (bounds.v1_mm - bounds.v0_mm) / scale_factor
    origin = OnPaper(scale_factor=scale_factor, u0_mm=bounds.u0_mm, v0_mm=bounds.v0_mm, x0_mm=0.0, y0_mm=0.0)
    above, right = (_distances(drawing, origin, is_upright=upright) for upright in (False, True))
    out = overhang_of((*above[0], *right[0]), Area(0.0, 0.0, width, height))
    left = max(row_reach_mm([drawing.text(o) for o in drawing.up], h), out.left_mm) + 2.0
    below = row_reach_mm([drawing.text(o) for o in drawing.across], h) + 2.0
    over = max(tiers_reach_mm(above[0], above[1]) + caption_height_mm(Looking.AHEAD, width, h), out.above_mm)
    across_length = row_length_mm([drawing.text(o) for o in drawing.across], h)
    up_length = row_length_mm([drawing.text(o) for o in drawing.up], h)
    over_right = max(tiers_reach_mm(right[0], right[1]), out.right_mm, across_length - width) + 2.0
    tall = below + max(height + over, up_length)
    wide = left + width + over_right
    # Beside the title block if that leaves room, otherwise above it.
    low = room.y0_mm if room.x0_mm + wide <= title.x0_mm else title.y1_mm
    if wide > room.width_mm or tall > room.y1_mm - low:
        return None
    y0 = room.y1_mm - over - height
    on = OnPaper(scale_factor=scale_factor, u0_mm=bounds.u0_mm, v0_mm=bounds.v0_mm, x0_mm=room.x0_mm + left, y0_mm=y0)
    marks = _marks(drawing, on, low)
    if marks is None or collisions(marks):
        return None
    marks = (*marks, *_numbers(drawing, on, marks))
    view = Area(room.x0_mm, y0 - below, room.x0_mm + wide, room.y1_mm)
    beside = Area(view.x1_mm + 4.0, title.y1_mm, room.x1_mm, room.y1_mm)
    if title.x0_mm <= room.x0_mm + CLEAR_MM:
        under = Area(room.x0_mm, title.y1_mm, room.x1_mm, view.y0_mm - 4.0)
    else:
        under = Area(room.x0_mm, room.y0_mm, min(title.x0_mm, beside.x0_mm - 4.0), view.y0_mm - 4.0)
    free = tuple(area for area in (beside, under) if area.width_mm > _LEAST_TABLE_MM and area.height_mm > 0)
    return marks, view, free, _left_out((*above[2], *right[2]))


def _marks(drawing: _Drawing, on: OnPaper, low_mm: float) -> tuple[Mark, ...] | None:
    h, bounds, datum = drawing.text_mm, drawing.picture.bounds, drawing.datum
    room = room_of(drawing.project.sheet.paper)
    low, high = on.at(Seen(bounds.u0_mm, bounds.v0_mm)), on.at(Seen(bounds.u1_mm, bounds.v1_mm))
    at_datum = on.at(Seen(-datum.y_mm, datum.z_mm))
    length = row_length_mm([drawing.text(o) for o in drawing.across], h)
    up = placed_row(
        [_item(drawing, o, on, at_datum) for o in drawing.up],
        Row(axis=Axis.UP, edge_mm=low.x_mm, outward=-1, low_mm=low_mm, high_mm=room.y1_mm, text_mm=h),
    )
    across = placed_row(
        [_item(drawing, o, on, at_datum) for o in drawing.across],
        Row(
            axis=Axis.ACROSS,
            edge_mm=low.y_mm,
            outward=-1,
            low_mm=low.x_mm,
            high_mm=max(high.x_mm, low.x_mm + length),
            text_mm=h,
        ),
    )
    if up is None or across is None:
        return None
    above, tiers, _ = _distances(drawing, on, is_upright=False)
    base = high.y_mm + tiers_reach_mm(above, tiers) + CAPTION_BASE_FRAC * h
    return (
        *picture_marks(drawing.picture, on, holes_stand_out=True),
        *up,
        *across,
        *above,
        *_distances(drawing, on, is_upright=True)[0],
        *caption_marks(Looking.AHEAD, low.x_mm, high.x_mm, base, h),
    )


def _item(drawing: _Drawing, ordinate: Ordinate, on: OnPaper, datum: Point) -> RowItem:
    return RowItem(
        key=ordinate.key,
        datum=datum,
        feature=on.at(ordinate.at),
        value_mm=ordinate.value_mm,
        text=drawing.text(ordinate),
    )


def _distances(
    drawing: _Drawing, on: OnPaper, *, is_upright: bool
) -> tuple[tuple[LinearDimension, ...], Tiers, tuple[TierItem, ...]]:
    """Return the centre distances of each part's holes above or at the right of the view, and those without a place."""
    bounds, items = drawing.picture.bounds, []
    tags, units = part_tags(drawing.project), drawing.project.sheet.units
    for part in stack(drawing.project):
        at = [
            seen(Looking.AHEAD, f.x_mm, f.y_mm, f.z_mm)
            for f in drawing.fittings
            if f.part is part and f.hole is not None
        ]
        ends = _ends(at, is_upright=is_upright)
        if ends is None:
            continue
        first, second = ends
        length = second.v_mm - first.v_mm if is_upright else second.u_mm - first.u_mm
        items.append(
            TierItem(
                key=f"holes:{part.id}:centres-{'up' if is_upright else 'across'}",
                first=on.at(first),
                second=on.at(second),
                measured_mm=length,
                text=f"{said_length(length, units)} {tags[part.id].tag}",
            )
        )
    corner = on.at(Seen(bounds.u1_mm, bounds.v1_mm))
    tiers = Tiers(
        is_upright=is_upright,
        edge_mm=corner.x_mm if is_upright else corner.y_mm,
        outward=1,
        text_mm=drawing.text_mm,
    )
    placed, left_out = placed_tiers(items, tiers)
    return placed, tiers, left_out


def _ends(at: Sequence[Seen], *, is_upright: bool) -> tuple[Seen, Seen] | None:
    """Return the two holes furthest apart, of those nearest to where the dimension stands; none if all are in line."""
    if len(at) < 2:
        return None
    if is_upright:
        first, second = min(at, key=lambda p: (p.v_mm, -p.u_mm)), max(at, key=lambda p: (p.v_mm, p.u_mm))
        return (first, second) if second.v_mm - first.v_mm > _APART_MM else None
    first, second = min(at, key=lambda p: (p.u_mm, -p.v_mm)), max(at, key=lambda p: (p.u_mm, p.v_mm))
    return (first, second) if second.u_mm - first.u_mm > _APART_MM else None


def _left_out(items: Sequence[TierItem]) -> tuple[Table, ...]:
    if not items:
        return ()
    rows = tuple((item.text, item.key.rpartition("-")[2]) for item in items)
    return (Table(title="Further centre distances", heads=("Distance", "Along"), rows=rows),)


def _numbers(drawing: _Drawing, on: OnPaper, marks: Sequence[Mark]) -> tuple[Mark, ...]:
    bounds, units = drawing.picture.bounds, drawing.project.sheet.units
    low, high = on.at(Seen(bounds.u0_mm, bounds.v0_mm)), on.at(Seen(bounds.u1_mm, bounds.v1_mm))
    wishes = [
        TagWish(
            key=f"holes:{fitting.key}:number",
            text=f"{fitting.name} {said_hole(fitting.diameter_mm, units)}",
            at=on.at(seen(Looking.AHEAD, fitting.x_mm, fitting.y_mm, fitting.z_mm)),
            radius_mm=fitting.diameter_mm / 2 / on.scale_factor + 0.3,
            most_frac=8.8,
        )
        for fitting in drawing.fittings
    ]
    inside = Area(low.x_mm, low.y_mm, high.x_mm, high.y_mm)
    return placed_tags(wishes, marks, inside, drawing.text_mm)
