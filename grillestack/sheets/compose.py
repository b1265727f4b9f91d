"""All sheets of a project that are asked for, in their order, framed and numbered."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from grillestack.assess.result import Assessment
from grillestack.model.project import Project
from grillestack.model.sheet_choices import SheetView
from grillestack.sheets.compose_pack import compose_pack
from grillestack.sheets.draw_list import Sheet
from grillestack.sheets.sheet_body import SheetBody
from grillestack.sheets.title_block import finished_sheets

Composer = Callable[[Project, Assessment], Sequence[SheetBody]]


def _pack(project: Project, assessment: Assessment) -> Sequence[SheetBody]:
    return compose_pack(project, assessment.depth)


# One composer for each thing that may be put on paper; a further one has its home here.
COMPOSERS: Mapping[SheetView, Composer] = {
    SheetView.PACK: _pack,
}


def sheets_of(project: Project, assessment: Assessment, views: Sequence[SheetView] | None = None) -> tuple[Sheet, ...]:
    """Return the sheets of those views, or of the views that the project's own choices name."""
    wanted = project.sheet.views if views is None else views
    bodies = [body for view in wanted if view in COMPOSERS for body in COMPOSERS[view](project, assessment)]
    return finished_sheets(project, bodies)
