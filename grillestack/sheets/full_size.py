"""What can be drawn at full size: blanks of brackets, rails and shrouds, and the front view of the pack."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grillestack.model.project import Project
from grillestack.model.sheet_choices import Paper, SheetView
from grillestack.sheets.brackets import Piece
from grillestack.sheets.collisions import segments_of
from grillestack.sheets.draw_list import Mark, Point, Text
from grillestack.sheets.flat_part import FlatPart
from grillestack.sheets.flat_picture import flat_picture
from grillestack.sheets.frame_rails import frame_of
from grillestack.sheets.free_places import TagWish, placed_tags
from grillestack.sheets.lettering import text_width_mm
from grillestack.sheets.making import bracket_making, shroud_making
from grillestack.sheets.move_marks import moved
from grillestack.sheets.paper import Area, paper_form
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.shroud_blank import shroud_blanks
from grillestack.sheets.tiles import FullSize, window_of
from grillestack.sheets.trouble import NothingToDrawError, SheetError
from grillestack.sheets.view_faces import Looking, seen
from grillestack.sheets.view_marks import OnPaper, picture_marks, picture_of

# What is laid on metal, where nothing is named
USUAL = (SheetView.BRACKETS, SheetView.SHROUD)
_AROUND_MM = 5.0
_POSSIBLE = frozenset({SheetView.PACK, SheetView.BRACKETS, SheetView.SHROUD})


def full_size_drawings(project: Project, views: Sequence[SheetView] | None = None) -> tuple[FullSize, ...]:
    """Return the drawings of those views at full size, or those of what is to be cut from sheet.

    Raises
    ------
    NothingToDrawError
        If a view that was named has nothing to show, or none has.
    SheetError
        If a view cannot be drawn at full size.
    """
    wanted = tuple(dict.fromkeys(views or USUAL))
    found: list[FullSize] = []
    trouble: list[NothingToDrawError] = []
    for view in wanted:
        if view not in _POSSIBLE:
            raise SheetError(f"“{view.value}” has no full size: name pack, brackets or shroud with --full-size.")
        try:
            found += _drawings(project, view)
        except NothingToDrawError as reason:
            if views:
                raise
            trouble.append(reason)
    if not found:
        raise trouble[0] if trouble else NothingToDrawError("There is nothing to draw at full size.")
    return tuple(found)


def _drawings(project: Project, view: SheetView) -> Iterator[FullSize]:
    if view is SheetView.PACK:
        yield _front_view(project)
    elif view is SheetView.SHROUD:
        for blank in shroud_blanks(project, shroud_making(project.sheet.making, project.sheet.units)):
            tag = part_tags(project)[blank.shroud.id].tag
            yield _flat(project, f"{blank.shroud.id}", f"{tag} blank, seen from ahead", blank.flat)
    else:
        pieces = frame_of(project, bracket_making(project.sheet.making, project.sheet.units)).pieces
        yield from _shelved([(piece, _of_piece(project, piece)) for piece in pieces], project.sheet.paper)


def _of_piece(project: Project, piece: Piece) -> FullSize:
    return _flat(project, piece.name, f"{piece.name}, {piece.count} off", piece.flat)


def _flat(project: Project, key: str, title: str, flat: FlatPart) -> FullSize:
    """Return a blank with its cuts, bends, centre crosses, the sizes of its holes and its name."""
    picture = flat_picture(key, flat, project.sheet.units)
    text_mm = paper_form(project.sheet.paper).text_mm
    area = flat.area
    marks: list[Mark] = list(picture.marks)
    wishes = [
        TagWish(key=one.key, text=one.text, at=one.at, radius_mm=one.radius_mm + 0.5, needs_leader=False)
        for one in picture.named
    ]
    marks += placed_tags(wishes, marks, area, text_mm)
    name = TagWish(
        key=f"{key}:name",
        text=title,
        at=Point((area.x0_mm + area.x1_mm) / 2, (area.y0_mm + area.y1_mm) / 2),
        radius_mm=0.0,
        needs_leader=False,
    )
    named = placed_tags([name], marks, area, text_mm)
    if not named:
        # No room on the piece itself: above it.
        above = Point(area.x0_mm, area.y1_mm + 1.5)
        marks.append(Text(at=above, text=title, height_mm=text_mm))
        width = text_width_mm(title, text_mm)
        area = Area(area.x0_mm, area.y0_mm, max(area.x1_mm, area.x0_mm + width), area.y1_mm + 2 * text_mm + 1.5)
    marks += named
    return FullSize(key=key, title=title, marks=tuple(marks), area=area.grown(_AROUND_MM))


def _shelved(found: Sequence[tuple[Piece, FullSize]], paper: Paper) -> Iterator[FullSize]:
    """Return the pieces: those that fit a sheet several to a drawing of one tile, larger ones each by itself."""
    window = window_of(paper)
    small = [d for _, d in found if d.area.width_mm <= window.width_mm and d.area.height_mm <= window.height_mm]
    marks: list[Mark] = []
    titles: list[str] = []
    x, top, row, number = 0.0, 0.0, 0.0, 1
    for drawing in small:
        area = drawing.area
        if x > 0 and x + area.width_mm > window.width_mm:
            x, top, row = 0.0, top - row, 0.0
        if marks and top - area.height_mm < -window.height_mm:
            yield _together(marks, titles, number, window)
            marks, titles, number = [], [], number + 1
            x, top, row = 0.0, 0.0, 0.0
        marks += moved(drawing.marks, x - area.x0_mm, top - area.y1_mm)
        titles.append(drawing.title.partition(",")[0])
        x += area.width_mm
        row = max(row, area.height_mm)
    if marks:
        yield _together(marks, titles, number, window)
    yield from (drawing for _, drawing in found if drawing not in small)


def _together(marks: Sequence[Mark], titles: Sequence[str], number: int, window: Area) -> FullSize:
    area = Area(0.0, -window.height_mm, window.width_mm, 0.0)
    return FullSize(key=f"brackets-{number}", title=f"Brackets {', '.join(titles)}", marks=tuple(marks), area=area)


def _front_view(project: Project) -> FullSize:
    if not project.parts:
        raise NothingToDrawError("There is nothing to draw: put a part into the pack.")
    picture = picture_of(project, Looking.AHEAD, 0.0)
    place = OnPaper(scale_factor=1.0, u0_mm=0.0, v0_mm=0.0, x0_mm=0.0, y0_mm=0.0)
    marks = list(picture_marks(picture, place))
    text_mm = paper_form(project.sheet.paper).text_mm
    bounds = picture.bounds
    area = Area(bounds.u0_mm, bounds.v0_mm, bounds.u1_mm, bounds.v1_mm)
    tags = part_tags(project)
    wishes = []
    for part in picture.parts:
        at = seen(Looking.AHEAD, part.placement.x_mm, part.placement.y_mm, part.placement.z_mm)
        wishes.append(
            TagWish(
                key=f"full-size:{part.id}",
                text=tags[part.id].tag,
                at=Point(at.u_mm, at.v_mm),
                radius_mm=0.0,
                needs_leader=False,
            )
        )
    marks += placed_tags(wishes, marks, area, text_mm)
    lines = segments_of(marks)
    xs, ys = lines[:, [0, 2]], lines[:, [1, 3]]
    whole = Area(float(xs.min()), float(ys.min()), float(xs.max()), float(ys.max()))
    return FullSize(key="pack", title="Pack from ahead", marks=tuple(marks), area=whole.grown(_AROUND_MM))
