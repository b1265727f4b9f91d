"""Sheets as one PDF: true to scale, one page each, the font embedded, the same bytes for the same sheets."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from typing import Any

from grillestack.sheets.collisions import simple_marks
from grillestack.sheets.draw_list import (
    THIN,
    Across,
    Arc,
    Circle,
    Fill,
    Hatch,
    Line,
    Mark,
    Point,
    Polyline,
    Sheet,
    Stroke,
    Text,
    Upright,
)
from grillestack.sheets.hatch_lines import hatch_lines
from grillestack.sheets.lettering import em_mm, font_file, text_width_mm
from grillestack.sheets.line_styles import dashes_mm

PT_PER_MM = 72 / 25.4
_PLAIN, _BOLD = "SheetLetters", "SheetLettersBold"


def pdf_bytes(sheets: Sequence[Sheet]) -> bytes:
    """Return the sheets as the pages of a PDF file."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    # Fresh each time: a font remembers which letters it gave to the last file.
    pdfmetrics.registerFont(TTFont(_PLAIN, str(font_file())))
    pdfmetrics.registerFont(TTFont(_BOLD, str(font_file(is_bold=True))))
    stream = io.BytesIO()
    canvas = Canvas(stream, invariant=1, pageCompression=1)
    canvas.setTitle(sheets[0].title if sheets else "")
    canvas.setCreator("grillestack")
    for sheet in sheets:
        canvas.setPageSize((sheet.width_mm * PT_PER_MM, sheet.height_mm * PT_PER_MM))
        for mark in simple_marks(sheet.marks):
            _draw(canvas, mark, sheet)
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _draw(canvas: Any, mark: Mark, sheet: Sheet) -> None:
    if isinstance(mark, Text):
        _write(canvas, mark)
    elif isinstance(mark, Fill):
        canvas.drawPath(_path(canvas, mark.points, is_closed=True), stroke=0, fill=1)
    elif isinstance(mark, Hatch):
        _set(canvas, THIN, sheet)
        for start, end in hatch_lines(mark):
            canvas.line(*_pt(start), *_pt(end))
    elif isinstance(mark, Line):
        _set(canvas, mark.stroke, sheet)
        canvas.line(*_pt(mark.start), *_pt(mark.end))
    elif isinstance(mark, Polyline):
        _set(canvas, mark.stroke, sheet)
        canvas.drawPath(_path(canvas, mark.points, is_closed=mark.is_closed), stroke=1, fill=0)
    elif isinstance(mark, Circle):
        _set(canvas, mark.stroke, sheet)
        canvas.circle(*_pt(mark.centre), mark.radius_mm * PT_PER_MM, stroke=1, fill=0)
    elif isinstance(mark, Arc):
        _set(canvas, mark.stroke, sheet)
        _arc(canvas, mark)


def _set(canvas: Any, stroke: Stroke, sheet: Sheet) -> None:
    canvas.setLineWidth(sheet.line_group.width_mm(stroke.weight) * PT_PER_MM)
    canvas.setDash([length * PT_PER_MM for length in dashes_mm(stroke, sheet.line_group)])


def _path(canvas: Any, points: Sequence[Point], *, is_closed: bool) -> Any:
    path = canvas.beginPath()
    path.moveTo(*_pt(points[0]))
    for point in points[1:]:
        path.lineTo(*_pt(point))
    if is_closed:
        path.close()
    return path


def _arc(canvas: Any, arc: Arc) -> None:
    x, y = _pt(arc.centre)
    r = arc.radius_mm * PT_PER_MM
    sweep = (arc.end_deg - arc.start_deg) % 360 or 360.0
    canvas.arc(x - r, y - r, x + r, y + r, arc.start_deg, sweep)


def _write(canvas: Any, mark: Text) -> None:
    width = text_width_mm(mark.text, mark.height_mm, is_bold=mark.is_bold)
    left = {Across.LEFT: 0.0, Across.CENTRE: -width / 2, Across.RIGHT: -width}[mark.across]
    base = {Upright.BASELINE: 0.0, Upright.MIDDLE: -mark.height_mm / 2, Upright.TOP: -mark.height_mm}[mark.upright]
    turn = math.radians(mark.angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    x = (mark.at.x_mm + left * cos - base * sin) * PT_PER_MM
    y = (mark.at.y_mm + left * sin + base * cos) * PT_PER_MM
    text = canvas.beginText()
    text.setTextTransform(cos, sin, -sin, cos, x, y)
    text.setFont(_BOLD if mark.is_bold else _PLAIN, em_mm(mark.height_mm, is_bold=mark.is_bold) * PT_PER_MM)
    text.textOut(mark.text)
    canvas.drawText(text)


def _pt(point: Point) -> tuple[float, float]:
    return point.x_mm * PT_PER_MM, point.y_mm * PT_PER_MM
