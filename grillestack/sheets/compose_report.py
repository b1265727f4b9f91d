"""The report on a pack: verdict, duty cases, faces, where the degrees go, what to change, what it rests on, cautions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from grillestack.advice.findings import findings
from grillestack.advice.ladder import Ladder
from grillestack.assess.confidence import Confidence
from grillestack.assess.result import Assessment
from grillestack.assess.waterfall import Waterfall
from grillestack.model.project import Project
from grillestack.model.sheet_choices import DrawingUnits, SheetView
from grillestack.sheets.draw_list import Mark
from grillestack.sheets.paper import Area, paper_form
from grillestack.sheets.report_charts import band_figure, waterfall_figure
from grillestack.sheets.report_faces import faces_figure
from grillestack.sheets.report_flow import Piece, Words, flowed
from grillestack.sheets.report_words import (
    NOT_WORKED_OUT,
    band_words,
    basis_table,
    case_table,
    caution_words,
    default_words,
    face_table,
    finding_words,
    ladder_table,
    verdict_words,
)
from grillestack.sheets.sheet_body import SheetBody, room_above_title
from grillestack.units.display import UnitSystem

# A normal pack takes no more pages; letters get smaller before there are more. ISO 3098 knows 1.8 and 2.5 mm.
_MOST_PAGES = 3
_LETTERS_MM = (2.5, 2.2, 2.0, 1.8)
_COLUMN_MM, _GUTTER_MM = 150.0, 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedOut:
    """What was worked out besides the assessment; `None` is not worked out, and the report says so."""

    waterfall: Waterfall | None = None
    confidence: Confidence | None = None
    ladder: Ladder | None = None


def compose_report(
    project: Project, assessment: Assessment, worked_out: WorkedOut | None = None
) -> tuple[SheetBody, ...]:
    """Return the pages of the report.

    Raises
    ------
    SheetTooSmallError
        If something is larger than the paper.
    """
    paper = project.sheet.paper
    columns = _columns(room_above_title(paper))
    found: tuple[tuple[Mark, ...], ...] = ()
    for letters in (paper_form(paper).text_mm, *_LETTERS_MM):
        pieces = tuple(_pieces(project, assessment, worked_out or WorkedOut(), (columns[0].width_mm, letters)))
        found = flowed(pieces, columns, letters)
        if len(found) <= _MOST_PAGES:
            break
    return tuple(
        SheetBody(
            key="report" if number == 1 else f"report-{number}",
            title="Report",
            document_type="Report",
            view=SheetView.REPORT,
            paper=paper,
            scale_factor=None,
            marks=marks,
        )
        for number, marks in enumerate(found, start=1)
    )


def _columns(room: Area) -> tuple[Area, ...]:
    count = max(1, int((room.width_mm + _GUTTER_MM) // (_COLUMN_MM + _GUTTER_MM)))
    width = (room.width_mm - (count - 1) * _GUTTER_MM) / count
    return tuple(
        Area(
            room.x0_mm + k * (width + _GUTTER_MM),
            room.y0_mm,
            room.x0_mm + k * (width + _GUTTER_MM) + width,
            room.y1_mm,
        )
        for k in range(count)
    )


def _pieces(
    project: Project, assessment: Assessment, worked_out: WorkedOut, on: tuple[float, float]
) -> Iterator[Piece]:
    width, text = on
    units = _units(project)
    found = findings(project, assessment, units)
    yield from verdict_words(assessment, units)
    if assessment.cases:
        yield case_table(assessment.cases, units)
    faces = faces_figure(assessment, width, text)
    if faces is not None:
        yield Words(text="What the faces see, from ahead", is_head=True)
        yield faces
    areas = face_table(assessment, units)
    if areas is not None:
        yield areas
    yield Words(text="Where the degrees go", is_head=True)
    chart = None if worked_out.waterfall is None else waterfall_figure(worked_out.waterfall, width, text, units)
    yield chart if chart is not None else Words(text=_why_missing(worked_out.waterfall))
    yield Words(text="How sure the hottest day is", is_head=True)
    yield from _band(assessment, worked_out.confidence, on, units)
    yield Words(text="What to change first", is_head=True)
    yield Words(text=NOT_WORKED_OUT) if worked_out.ladder is None else ladder_table(worked_out.ladder, units)
    told = finding_words(found)
    if told:
        yield Words(text="What an old hand would say", is_head=True)
        yield from told
    yield Words(text="Cautions, and where local codes and licensed practice decide", is_head=True)
    yield from caution_words(found)
    yield Words(text="Assumptions", is_head=True)
    yield default_words(assessment.basis)
    if assessment.basis:
        yield Words(text="What the figures rest on", is_head=True)
        yield basis_table(assessment.basis)


def _band(
    assessment: Assessment, confidence: Confidence | None, on: tuple[float, float], units: UnitSystem
) -> Iterator[Piece]:
    if confidence is None:
        yield Words(text=NOT_WORKED_OUT)
        return
    case = assessment.deciding_case
    design = None if case is None or case.name != confidence.case_name else case.design_ambient_degc
    figure = band_figure(confidence, design, on[0], on[1], units)
    if figure is not None:
        yield figure
    yield from band_words(confidence)


def _why_missing(waterfall: Waterfall | None) -> str:
    return NOT_WORKED_OUT if waterfall is None else "No step of it has a hottest day."


def _units(project: Project) -> UnitSystem:
    inches = (DrawingUnits.INCH_FRACTIONS, DrawingUnits.INCH_DECIMALS)
    return UnitSystem.INCH if project.sheet.units in inches else UnitSystem.METRIC
