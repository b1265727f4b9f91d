"""Full-size templates: a first page on how to print and join them with a map of the tiles, and the tiles."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from grillestack.model.project import Project
from grillestack.model.sheet_choices import SheetView
from grillestack.sheets.collisions import all_texts, segments_of
from grillestack.sheets.detail_sheets import SheetNames, with_words
from grillestack.sheets.dimension_marks import text_area
from grillestack.sheets.draw_list import OUTLINE, THIN, Layer, Mark, Point, Polyline, Sheet, Text
from grillestack.sheets.flat_part import rectangle
from grillestack.sheets.free_places import TagWish, placed_tags
from grillestack.sheets.full_size import full_size_drawings
from grillestack.sheets.lettering import shortened
from grillestack.sheets.move_marks import put
from grillestack.sheets.paper import Area, paper_form
from grillestack.sheets.sheet_body import SheetBody, room_above_title
from grillestack.sheets.tables import Table
from grillestack.sheets.tiles import CHECK_MM, OVERLAP_MM, REJECT_FRAC, FullSize, shown_tiles, tile_sheets, whole_sheet
from grillestack.sheets.title_block import finished_sheets

_NAMES = SheetNames(key="template", title="Full-size templates", document_type="Template", view=SheetView.TEMPLATE)
_MAP_MM, _MAP_GAP_MM = 78.0, 6.0
_LABEL_FRACS = (1.0, 0.8, 0.6, 0.45)


def compose_template(
    project: Project, views: Sequence[SheetView] | None = None, *, is_tiled: bool = True
) -> tuple[tuple[SheetBody, ...], tuple[Sheet, ...]]:
    """Return the first pages, which are framed like all others, and the tiles; untiled each drawing is one sheet.

    Raises
    ------
    SheetError
        If there is nothing to draw at full size.
    """
    drawings = full_size_drawings(project, views)
    paper = project.sheet.paper
    if not is_tiled:
        return (), tuple(whole_sheet(drawing, paper) for drawing in drawings)
    tiles = tuple(sheet for drawing in drawings for sheet in tile_sheets(drawing, paper))
    first = with_words(project, _NAMES, (), (_table(project, drawings),), _notes())
    room = room_above_title(paper)
    right = Area(_right_of(first[0].marks) + 2 * _MAP_GAP_MM, room.y0_mm, room.x1_mm, room.y1_mm)
    pages = list(_map_pages(project, drawings, right if right.width_mm > _MAP_MM else room))
    if right.width_mm > _MAP_MM and len(first) == 1 and pages:
        # Wide paper holds words and maps side by side.
        pages[0] = replace(first[0], marks=(*first[0].marks, *pages[0].marks))
    else:
        pages = [*first, *pages]
    return tuple(_numbered(page, number) for number, page in enumerate(pages, start=1)), tiles


def _right_of(marks: Sequence[Mark]) -> float:
    """Return how far words and tables reach to the right."""
    return max(
        max((text_area(text).x1_mm for text in all_texts(marks)), default=0.0),
        float(segments_of(marks)[:, [0, 2]].max(initial=0.0)),
    )


def template_sheets(
    project: Project, views: Sequence[SheetView] | None = None, *, is_tiled: bool = True
) -> tuple[Sheet, ...]:
    """Return the templates as sheets, their first pages framed and numbered among themselves.

    Raises
    ------
    SheetError
        If there is nothing to draw at full size.
    """
    pages, tiles = compose_template(project, views, is_tiled=is_tiled)
    return (*finished_sheets(project, pages), *tiles)


def _numbered(page: SheetBody, number: int) -> SheetBody:
    return replace(page, key="template" if number == 1 else f"template-{number}")


def _notes() -> tuple[str, ...]:
    return (
        "PRINT AT 100 %: no “fit to page”, no scaling, no centring. Print this page and one tile first.",
        (
            f"Measure both check bars of every tile: {CHECK_MM:g} mm each. Throw the print away if one is out by more than "
            f"{REJECT_FRAC * 100:g} %, {REJECT_FRAC * CHECK_MM:g} mm."
        ),
        (
            f"Tiles are labelled by row, A from the top, and column, 1 from the left. They overlap by {OVERLAP_MM:g} mm: lay "
            "cross on cross, cut one of the two edges away, glue, and check the overall size with a steel tape."
        ),
        "Wide lines are cuts, double-dotted ones the middle of a bend. Paper grows with damp: use the prints on the same day.",
        "VERIFY ON VEHICLE before cutting. CAUTION: local codes decide what may be cut or drilled in the front structure.",
    )


def _table(project: Project, drawings: Sequence[FullSize]) -> Table:
    rows = []
    for drawing in drawings:
        tiles = shown_tiles(drawing, project.sheet.paper)
        rows.append(
            (
                drawing.title,
                f"{drawing.area.width_mm:.0f} × {drawing.area.height_mm:.0f} mm",
                str(max(t.row for t in tiles) + 1),
                str(max(t.column for t in tiles) + 1),
                str(len(tiles)),
            )
        )
    return Table(
        title=f"Tiles on {project.sheet.paper.value}",
        heads=("Drawing", "Size", "Rows", "Columns", "Sheets"),
        rows=tuple(rows),
        at_right=frozenset({2, 3, 4}),
        total=("", "", "", "in all", str(sum(int(row[4]) for row in rows))),
    )


def _map_pages(project: Project, drawings: Sequence[FullSize], room: Area) -> Iterator[SheetBody]:
    """Return pages with small maps of the drawings of more than one tile."""
    paper = project.sheet.paper
    text_mm = paper_form(paper).text_mm
    many = [d for d in drawings if len(shown_tiles(d, paper)) > 1]
    across = max(1, int((room.width_mm + _MAP_GAP_MM) // (_MAP_MM + _MAP_GAP_MM)))
    down = max(1, int((room.height_mm + _MAP_GAP_MM) // (_MAP_MM + _MAP_GAP_MM)))
    for start in range(0, len(many), across * down):
        marks: list[Mark] = []
        for place, drawing in enumerate(many[start : start + across * down]):
            row, column = divmod(place, across)
            x, y = room.x0_mm + column * (_MAP_MM + _MAP_GAP_MM), room.y1_mm - row * (_MAP_MM + _MAP_GAP_MM)
            marks += _map(project, drawing, Area(x, y - _MAP_MM, x + _MAP_MM, y), text_mm)
        yield SheetBody(
            key="template",
            title="Full-size templates, map of the tiles",
            document_type="Template",
            view=SheetView.TEMPLATE,
            paper=paper,
            scale_factor=None,
            marks=tuple(marks),
            has_notes=False,
        )


def _map(project: Project, drawing: FullSize, cell: Area, text_mm: float) -> Iterator[Mark]:
    title = shortened(drawing.title, text_mm, cell.width_mm)
    yield Text(at=Point(cell.x0_mm, cell.y1_mm - text_mm), text=title, height_mm=text_mm, is_bold=True)
    tiles = shown_tiles(drawing, project.sheet.paper)
    whole = Area(
        min(t.shows.x0_mm for t in tiles),
        min(t.shows.y0_mm for t in tiles),
        max(t.shows.x1_mm for t in tiles),
        max(t.shows.y1_mm for t in tiles),
    )
    height = cell.height_mm - 2.5 * text_mm
    scale = max(whole.width_mm / cell.width_mm, whole.height_mm / height)
    origin = Point(cell.x0_mm - whole.x0_mm / scale, cell.y0_mm - whole.y0_mm / scale)
    lines = [
        put(mark, scale, origin) for mark in drawing.marks if isinstance(mark, Polyline) and mark.stroke == OUTLINE
    ]
    # The middle lines of the overlaps, so that tiles stand side by side
    shown = [tile.shows.grown(-OVERLAP_MM / 2) for tile in tiles]
    for area in shown:
        edge = Polyline(points=rectangle(area), is_closed=True, stroke=THIN, layer=Layer.FRAME)
        lines.append(put(edge, scale, origin))
    yield from lines
    for tile, area in zip(tiles, shown, strict=True):
        yield from _tile_label(tile.name, _on_map(area, scale, origin), lines, text_mm)


def _on_map(area: Area, scale: float, origin: Point) -> Area:
    return Area(
        origin.x_mm + area.x0_mm / scale,
        origin.y_mm + area.y0_mm / scale,
        origin.x_mm + area.x1_mm / scale,
        origin.y_mm + area.y1_mm / scale,
    )


def _tile_label(name: str, area: Area, lines: Sequence[Mark], text_mm: float) -> Iterator[Mark]:
    """Return the label of a tile where its outline leaves room, smaller where that is little."""
    middle = Point((area.x0_mm + area.x1_mm) / 2, (area.y0_mm + area.y1_mm) / 2)
    wish = TagWish(key=f"map:{name}", text=name, at=middle, radius_mm=0.0, needs_leader=False)
    for share in _LABEL_FRACS:
        found = placed_tags([wish], lines, area, share * text_mm)
        if found:
            yield from found
            return
