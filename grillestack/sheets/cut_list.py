"""Which pieces are cut for the pack, of which sheet and how large, as a table of the parts list."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.model.project import Project
from grillestack.sheets.frame_rails import frame_of
from grillestack.sheets.making import bracket_making, shroud_making
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_length
from grillestack.sheets.shroud_blank import shroud_blanks
from grillestack.sheets.tables import Table
from grillestack.sheets.trouble import NothingToDrawError


def cut_list(project: Project) -> Table:
    """Return the table of all pieces to be cut; it has no row where nothing can be made."""
    return Table(
        title="Cut list: pieces to make",
        heads=("Item", "Piece", "Off", "Blank", "Material"),
        rows=(*_brackets(project), *_shrouds(project)),
        at_right=frozenset({2}),
    )


def _brackets(project: Project) -> Iterator[tuple[str, ...]]:
    making = bracket_making(project.sheet.making, project.sheet.units)
    try:
        pieces = frame_of(project, making).pieces
    except NothingToDrawError:
        return
    for piece in pieces:
        size = _size(project, piece.flat.area.width_mm, piece.flat.area.height_mm)
        yield piece.name, piece.title, f"{piece.count}", size, making.material_words


def _shrouds(project: Project) -> Iterator[tuple[str, ...]]:
    making = shroud_making(project.sheet.making, project.sheet.units)
    tags = part_tags(project)
    try:
        blanks = shroud_blanks(project, making)
    except NothingToDrawError:
        return
    for blank in blanks:
        tag = tags[blank.shroud.id]
        size = _size(project, blank.flat.area.width_mm, blank.flat.area.height_mm)
        yield f"{tag.item}", f"{tag.tag} blank, if it is made", "1", size, making.material_words


def _size(project: Project, width_mm: float, height_mm: float) -> str:
    units = project.sheet.units
    return f"{said_length(width_mm, units)} × {said_length(height_mm, units)} REF"
