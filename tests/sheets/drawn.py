"""Sheets for the tests, and a second opinion on what is drawn: texts and lines as shapes of another library."""

from __future__ import annotations

import functools
import itertools

import shapely
import shapely.affinity
from msgspec.structs import replace
from reportlab.pdfbase.ttfonts import TTFont

from grillestack.assets.locate import demo_projects
from grillestack.geometry.depth import depth_report
from grillestack.model.project import Project
from grillestack.model.sheet_choices import DrawingUnits, Paper, Projection
from grillestack.sheets.compose_holes import compose_holes
from grillestack.sheets.compose_pack import compose_pack
from grillestack.sheets.draw_list import (
    Across,
    Layer,
    Line,
    LineGroup,
    Mark,
    Polyline,
    Sheet,
    Text,
    Upright,
    dimensions,
)
from grillestack.sheets.lettering import font_file
from grillestack.sheets.title_block import finished_sheets
from grillestack.storage.project_file import read_project

# Height of capitals and size of type of the bundled font, in its own units, as its tables state them
_CAPITAL_SHARE = 1493 / 2048


@functools.cache
def demo(number: int, paper: Paper = Paper.A3, projection: Projection = Projection.THIRD_ANGLE) -> Project:
    """Return a demo with these choices for its sheets."""
    project = read_project(demo_projects()[number - 1])
    sheet = replace(
        project.sheet,
        paper=paper,
        projection=projection,
        units=DrawingUnits.MILLIMETRES,
        date_text="2026-11-25",
        revision_text="B",
    )
    return replace(project, sheet=sheet)


def pack_sheets(project: Project) -> tuple[Sheet, ...]:
    """Return the sheets of the pack sketch of a project."""
    return finished_sheets(project, (*compose_pack(project, depth_report(project)), *compose_holes(project)))


@functools.cache
def demo_sheets(number: int, paper: Paper = Paper.A3, projection: Projection = Projection.THIRD_ANGLE):
    """Return the pack sketch of a demo."""
    return pack_sheets(demo(number, paper, projection))


def a_sheet(*marks: Mark, scale: float = 1.0, width_mm: float = 210.0, height_mm: float = 297.0) -> Sheet:
    """Return a bare sheet with these marks."""
    return Sheet(
        key="bare",
        title="Bare sheet",
        view=demo(1).sheet.views[0],
        paper=Paper.A4,
        width_mm=width_mm,
        height_mm=height_mm,
        scale_factor=scale,
        line_group=LineGroup(wide_mm=0.5, narrow_mm=0.25),
        marks=marks,
    )


@functools.cache
def _font(is_bold: bool) -> TTFont:
    return TTFont(f"judge-{is_bold}", str(font_file(is_bold=is_bold)))


def text_shape(text: Text):
    """Return the rectangle of a text, its length measured by another library."""
    size = text.height_mm / _CAPITAL_SHARE
    width = _font(text.is_bold).stringWidth(text.text, size)
    left = {Across.LEFT: 0.0, Across.CENTRE: -width / 2, Across.RIGHT: -width}[text.across]
    base = {Upright.BASELINE: 0.0, Upright.MIDDLE: -text.height_mm / 2, Upright.TOP: -text.height_mm}[text.upright]
    box = shapely.box(left, base, left + width, base + text.height_mm)
    turned = shapely.affinity.rotate(box, text.angle_deg, origin=(0, 0))
    return shapely.affinity.translate(turned, text.at.x_mm, text.at.y_mm)


def line_shapes(marks):
    """Return every straight line as a shape of another library."""
    found = []
    for mark in marks:
        if isinstance(mark, Line):
            found.append(shapely.LineString([(mark.start.x_mm, mark.start.y_mm), (mark.end.x_mm, mark.end.y_mm)]))
        elif isinstance(mark, Polyline):
            points = [(p.x_mm, p.y_mm) for p in mark.points]
            points += points[:1] if mark.is_closed else []
            found += [shapely.LineString(pair) for pair in itertools.pairwise(points)]
    return found


def keys(sheet: Sheet) -> list[str]:
    """Return the keys of the dimensions of a sheet."""
    return [dimension.key for dimension in dimensions(sheet)]


def on_layer(sheet: Sheet, layer: Layer) -> list[Mark]:
    """Return the marks of one layer."""
    return [mark for mark in sheet.marks if mark.layer is layer]
