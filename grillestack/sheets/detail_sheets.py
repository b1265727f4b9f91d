"""Sheets of details: the pieces on shelves, tables and notes in what room is left, and further sheets for the rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from grillestack.model.project import Project
from grillestack.model.sheet_choices import Paper, SheetView
from grillestack.sheets.detail_block import Detail, Lettering
from grillestack.sheets.draw_list import Mark
from grillestack.sheets.note_block import note_block
from grillestack.sheets.paper import Area, paper_form
from grillestack.sheets.sheet_body import CLEAR_MM, SheetBody, SheetTooSmallError, room_above_title, room_of, title_area
from grillestack.sheets.shelves import shelved
from grillestack.sheets.tables import Table, bottom_of, fill_area

_LEAST_STRIP_MM, _LEAST_TABLE_MM = 30.0, 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetNames:
    """What a set of sheets is called."""

    key: str
    title: str
    document_type: str
    view: SheetView


def lettering_of(project: Project) -> Lettering:
    """Return how the details of a project are written."""
    choices = project.sheet
    return Lettering(text_mm=paper_form(choices.paper).text_mm, units=choices.units, welds=choices.weld_symbols)


def piece_sheets(
    project: Project, names: SheetNames, details: Sequence[Detail], most_sheets: int
) -> tuple[SheetBody, ...]:
    """Return sheets with the details, without notes.

    Raises
    ------
    SheetTooSmallError
        If a detail does not fit the paper at any scale.
    """
    paper = project.sheet.paper
    found = shelved(details, room_above_title(paper), lettering_of(project), most_sheets)
    if found is None:
        raise SheetTooSmallError(
            f"“{names.title}” with its dimensions does not fit {paper.value} at any scale: choose a larger sheet."
        )
    return tuple(
        SheetBody(
            key=names.key if number == 1 else f"{names.key}-{number}",
            title=names.title,
            document_type=names.document_type,
            view=names.view,
            paper=paper,
            scale_factor=sheet.scale_factor,
            marks=sheet.marks,
            views=sheet.views,
            has_notes=False,
        )
        for number, sheet in enumerate(found, start=1)
    )


def with_words(
    project: Project, names: SheetNames, bodies: Sequence[SheetBody], tables: Sequence[Table], notes: Sequence[str]
) -> tuple[SheetBody, ...]:
    """Return the sheets with tables and notes in the free room of the last one, or on sheets behind it.

    Raises
    ------
    SheetTooSmallError
        If a row or the notes fit no sheet of their own.
    """
    done, last = list(bodies[:-1]), bodies[-1] if bodies else None
    tables, notes = tuple(tables), tuple(notes)
    if last is not None:
        marks, tables, notes = _in_room(_free_areas(last), tables, notes, project)
        done.append(replace(last, marks=(*last.marks, *marks), has_notes=not notes))
    while tables or notes:
        marks, tables_left, notes_left = _in_room([room_above_title(project.sheet.paper)], tables, notes, project)
        if not marks:
            raise SheetTooSmallError(
                f"The words of “{names.title}” do not fit {project.sheet.paper.value}: choose a larger sheet."
            )
        tables, notes = tables_left, notes_left
        done.append(_words_only(project, names, len(done) + 1, marks, has_notes=not notes))
    return tuple(done)


def _in_room(
    areas: Sequence[Area], tables: tuple[Table, ...], notes: tuple[str, ...], project: Project
) -> tuple[tuple[Mark, ...], tuple[Table, ...], tuple[str, ...]]:
    """Return what of tables and notes the areas hold, the tables first, each whole or on the next sheet."""
    text_mm = paper_form(project.sheet.paper).text_mm
    marks: list[Mark] = []
    free = list(areas)
    for place, area in enumerate(free):
        if not tables or area.width_mm < _LEAST_TABLE_MM:
            continue
        shown, tables = fill_area(tables, area, text_mm)
        if shown:
            marks += shown
            free[place] = Area(area.x0_mm, area.y0_mm, area.x1_mm, bottom_of(shown, area) - 2 * text_mm)
    if tables or not notes:
        return tuple(marks), tables, notes
    block = note_block(notes, [area for area in free if area.height_mm > 0], text_mm)
    return (tuple(marks), (), notes) if block is None else ((*marks, *block), (), ())


def _free_areas(body: SheetBody) -> list[Area]:
    """Return the room under the details, at the right of them and at the left of the title block, none over another."""
    room, title = room_above_title(body.paper), title_area(body.paper)
    whole = room_of(body.paper)
    lowest = min((view.y0_mm for view in body.views), default=room.y1_mm)
    right = max((view.x1_mm for view in body.views), default=room.x0_mm)
    found = []
    if room.x1_mm - right > 2 * _LEAST_STRIP_MM:
        found.append(Area(right + 2 * CLEAR_MM, lowest - CLEAR_MM, room.x1_mm, room.y1_mm))
    if lowest - 2 * CLEAR_MM > room.y0_mm:
        found.append(Area(room.x0_mm, room.y0_mm, room.x1_mm, lowest - 2 * CLEAR_MM))
    if title.x0_mm - whole.x0_mm > 2 * _LEAST_STRIP_MM:
        found.append(Area(whole.x0_mm, whole.y0_mm, title.x0_mm - CLEAR_MM, title.y1_mm))
    # Tables like room across.
    return sorted(found, key=lambda area: area.width_mm * area.height_mm, reverse=True)


def _words_only(
    project: Project, names: SheetNames, number: int, marks: Sequence[Mark], *, has_notes: bool
) -> SheetBody:
    paper: Paper = project.sheet.paper
    return SheetBody(
        key=names.key if number == 1 else f"{names.key}-{number}",
        title=names.title,
        document_type="Schedule",
        view=names.view,
        paper=paper,
        scale_factor=None,
        marks=tuple(marks),
        has_notes=has_notes,
    )
