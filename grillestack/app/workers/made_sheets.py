"""The drawings of a document, made in the second process: as sheets to look at, or as the bytes of files."""

from __future__ import annotations

import functools
from collections.abc import Callable

from msgspec.structs import replace

from grillestack.advice.ladder import ladder
from grillestack.app.own_parts import shelf_parts
from grillestack.app.workers.messages import AskSheets
from grillestack.app.workers.sheet_travel import SheetAnswer, packed_sheets
from grillestack.assess.assess import assess
from grillestack.assess.confidence import confidence
from grillestack.assess.core_spread import core_spread
from grillestack.assess.waterfall import waterfall
from grillestack.model.project import Project
from grillestack.model.sheet_choices import SheetChoices, SheetView
from grillestack.sheets.compose import sheets_of
from grillestack.sheets.compose_report import WorkedOut
from grillestack.sheets.compose_template import template_sheets
from grillestack.sheets.draw_list import Sheet
from grillestack.sheets.output import file_bytes
from grillestack.sheets.trouble import SheetError

GoOn = Callable[[float], bool]

_COMPOSED_FRAC = 0.6
_MANY_PAGES = ".pdf"


def sheet_answer(ask: AskSheets, go_on: GoOn = lambda _share: True) -> SheetAnswer | None:
    """Return the sheets that the document's choices name, or files of them; nothing if `go_on` said no."""
    try:
        sheets = _composed(ask.project, ask.ending)
        if not go_on(_COMPOSED_FRAC):
            return None
        if not ask.ending:
            return SheetAnswer(sheets=packed_sheets(sheets), sheet_count=len(sheets))
        return _files(sheets, ask.ending, go_on)
    except SheetError as trouble:
        return SheetAnswer(trouble=str(trouble))


def _composed(project: Project, ending: str) -> tuple[Sheet, ...]:
    views = project.sheet.views
    if not views:
        raise SheetError("No drawing is chosen: tick one under “Drawings”.")
    # A plotter or a laser takes a full-size drawing whole; only pages of paper must be joined.
    is_whole = SheetView.TEMPLATE in views and ending not in ("", _MANY_PAGES)
    if is_whole:
        project = replace(
            project, sheet=replace(project.sheet, views=tuple(v for v in views if v is not SheetView.TEMPLATE))
        )
    found: tuple[Sheet, ...] = ()
    if project.sheet.views:
        worked_out = None
        if SheetView.REPORT in views:
            worked_out = _worked_out(replace(project, sheet=SheetChoices()))
        found = sheets_of(project, assess(project), None, worked_out)
    return (*found, *template_sheets(project, is_tiled=False)) if is_whole else found


def _files(sheets: tuple[Sheet, ...], ending: str, go_on: GoOn) -> SheetAnswer | None:
    if ending == _MANY_PAGES:
        return SheetAnswer(files=dict(file_bytes(sheets, ending)), sheet_count=len(sheets))
    files: dict[str, bytes] = {}
    for number, sheet in enumerate(sheets, start=1):
        behind = f"-{number}" if len(sheets) > 1 else ""
        files[behind] = file_bytes((sheet,), ending)[""]
        if not go_on(_COMPOSED_FRAC + (1.0 - _COMPOSED_FRAC) * number / len(sheets)):
            return None
    return SheetAnswer(files=files, sheet_count=len(sheets))


@functools.lru_cache(maxsize=1)
def _worked_out(project: Project) -> WorkedOut:
    """Return what the report tells besides the assessment; it stays as it is while only the drawings' choices change."""
    assessment = assess(project)
    case = assessment.deciding_case
    if case is None or case.heat_capacity_w is None:
        return WorkedOut()
    parts, _ = shelf_parts()
    return WorkedOut(
        waterfall=waterfall(project, case.case_id),
        confidence=confidence(project, case.case_id, heat_spread=core_spread),
        ladder=ladder(project, parts, case_id=case.case_id),
    )
