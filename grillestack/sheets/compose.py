"""All sheets of a project that are asked for, in their order, framed and numbered."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

from grillestack.assess.result import Assessment
from grillestack.model.project import Project
from grillestack.model.sheet_choices import SheetView
from grillestack.sheets.compose_brackets import compose_brackets
from grillestack.sheets.compose_holes import compose_holes
from grillestack.sheets.compose_pack import compose_pack
from grillestack.sheets.compose_report import WorkedOut, compose_report
from grillestack.sheets.compose_shroud import compose_shroud
from grillestack.sheets.compose_template import compose_template
from grillestack.sheets.cut_list import cut_list
from grillestack.sheets.draw_list import Sheet
from grillestack.sheets.parts_list import compose_parts_list
from grillestack.sheets.sheet_body import SheetBody
from grillestack.sheets.title_block import finished_sheets
from grillestack.sheets.trouble import NothingToDrawError, SheetError

Composer = Callable[[Project, Assessment], Sequence[SheetBody]]


def _pack(project: Project, assessment: Assessment) -> Sequence[SheetBody]:
    arrangement = compose_pack(project, assessment.depth)
    notes_left = [note for body in arrangement for note in body.notes_left]
    return (*arrangement, *compose_holes(project, notes_left))


def _parts_list(project: Project, assessment: Assessment) -> Sequence[SheetBody]:
    return compose_parts_list(project, assessment.depth, (cut_list(project),))


# One composer for each thing that may be put on paper; a further one has its home here.
COMPOSERS: Mapping[SheetView, Composer] = {
    SheetView.PACK: _pack,
    SheetView.BRACKETS: compose_brackets,
    SheetView.SHROUD: compose_shroud,
    SheetView.PARTS_LIST: _parts_list,
    SheetView.REPORT: compose_report,
}
# The tiles of full-size templates are sheets of their own kind, behind all others.
_KNOWN = (*COMPOSERS, SheetView.TEMPLATE)


def sheets_of(
    project: Project,
    assessment: Assessment,
    views: Sequence[SheetView] | None = None,
    worked_out: WorkedOut | None = None,
) -> tuple[Sheet, ...]:
    """Return the sheets of those views, or of the views that the project's own choices name.

    Of the project's own, one that has nothing to show is left out with a warning on the first sheet. `worked_out` is what
    the report tells besides the assessment.

    Raises
    ------
    SheetError
        If there is nothing to draw, or it does not fit the paper, or a text holds a letter that cannot be written.
    """
    wanted = tuple(dict.fromkeys(project.sheet.views if views is None else views))
    for view in wanted:
        if view not in _KNOWN:
            raise SheetError(f"There is no drawing “{view.value}”: choose among {_named(_KNOWN)}.")
    bodies: list[SheetBody] = []
    tiles: tuple[Sheet, ...] = ()
    left_out: list[str] = []
    for view in wanted:
        try:
            if view is SheetView.TEMPLATE:
                pages, tiles = compose_template(project)
                bodies += pages
            elif view is SheetView.REPORT:
                bodies += compose_report(project, assessment, worked_out)
            else:
                bodies += COMPOSERS[view](project, assessment)
        except NothingToDrawError as trouble:
            if views is not None:
                raise
            left_out.append(str(trouble))
    if not bodies:
        raise SheetError("There is nothing to draw: put a part into the pack, or choose another drawing.")
    bodies[0] = replace(bodies[0], warnings=(*bodies[0].warnings, *left_out))
    return (*finished_sheets(project, bodies), *tiles)


def _named(views: Iterable[SheetView]) -> str:
    return ", ".join(f"“{view.value}”" for view in views)
