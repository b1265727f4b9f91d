"""A sheet's marks as a Qt painter draws them: in mm of paper from the upper left corner, letters as their outlines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPainterPath, QPen, QRawFont, QTransform

from grillestack.sheets.dimension_marks import dimension_marks
from grillestack.sheets.draw_list import (
    THIN,
    Across,
    Arc,
    Circle,
    Fill,
    Hatch,
    Leader,
    Line,
    LinearDimension,
    LineGroup,
    Mark,
    OrdinateDimension,
    Point,
    Polyline,
    Stroke,
    Text,
    Upright,
)
from grillestack.sheets.hatch_lines import hatch_lines
from grillestack.sheets.lettering import em_mm, font_file, text_width_mm
from grillestack.sheets.line_styles import dashes_mm

_EM_PX = 1000.0


class Letters:
    """The outlines of the bundled font's letters, each taken from its file once."""

    def __init__(self) -> None:
        self._fonts = {
            is_bold: QRawFont(str(font_file(is_bold=is_bold)), _EM_PX, QFont.HintingPreference.PreferNoHinting)
            for is_bold in (False, True)
        }
        self._known: dict[tuple[str, bool], tuple[QPainterPath, float]] = {}

    def outline(self, mark: Text, top_mm: float) -> QPainterPath:
        """Return the text as an area on a sheet `top_mm` high, standing as the writers put it."""
        size = em_mm(mark.height_mm, is_bold=mark.is_bold) / _EM_PX
        line, at_px = QPainterPath(), 0.0
        line.setFillRule(Qt.FillRule.WindingFill)
        for letter in mark.text:
            path, advance_px = self._letter(letter, mark.is_bold)
            line.addPath(path.translated(at_px, 0.0))
            at_px += advance_px
        width = text_width_mm(mark.text, mark.height_mm, is_bold=mark.is_bold)
        left = {Across.LEFT: 0.0, Across.CENTRE: -width / 2, Across.RIGHT: -width}[mark.across]
        drop = {Upright.BASELINE: 0.0, Upright.MIDDLE: mark.height_mm / 2, Upright.TOP: mark.height_mm}[mark.upright]
        place = QTransform.fromTranslate(mark.at.x_mm, top_mm - mark.at.y_mm)
        place.rotate(-mark.angle_deg)
        place.translate(left, drop)
        place.scale(size, size)
        return place.map(line)

    def _letter(self, letter: str, is_bold: bool) -> tuple[QPainterPath, float]:  # noqa: FBT001  two fonts, one table
        found = self._known.get((letter, is_bold))
        if found is None:
            font = self._fonts[is_bold]
            glyphs = font.glyphIndexesForString(letter)
            advance = font.advancesForGlyphIndexes(glyphs)[0].x() if glyphs else 0.0
            found = (font.pathForGlyph(glyphs[0]) if glyphs else QPainterPath(), advance)
            self._known[letter, is_bold] = found
        return found


@dataclass(frozen=True, slots=True)
class Ink:
    """What is drawn: lines by how they are drawn, and filled areas, letters among them."""

    lines: tuple[tuple[Stroke, QPainterPath], ...]
    areas: tuple[QPainterPath, ...]

    @property
    def bounds(self) -> QRectF:
        """Return what all of it covers, widths of lines left out."""
        whole = QRectF()
        for path in (*(path for _, path in self.lines), *self.areas):
            whole = whole.united(path.boundingRect())
        return whole


def inked(marks: Iterable[Mark], top_mm: float, letters: Letters) -> Ink:
    """Return the ink of these marks on a sheet `top_mm` high."""
    lines: dict[Stroke, QPainterPath] = {}
    areas: list[QPainterPath] = []
    for mark in simple(marks):
        if isinstance(mark, Text):
            areas.append(letters.outline(mark, top_mm))
        elif isinstance(mark, Fill):
            areas.append(_through(mark.points, top_mm, is_closed=True))
        elif isinstance(mark, Hatch):
            path = lines.setdefault(THIN, QPainterPath())
            for ends in hatch_lines(mark):
                path.addPath(_through(ends, top_mm, is_closed=False))
        elif isinstance(mark, Line | Polyline | Circle | Arc):
            lines.setdefault(mark.stroke, QPainterPath()).addPath(_line(mark, top_mm))
    return Ink(tuple(lines.items()), tuple(areas))


def draw(painter: QPainter, ink: Ink, group: LineGroup, colour: QColor, least_width_mm: float = 0.0) -> None:
    """Draw the ink; on a screen a line may need a least width to be seen at all."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for stroke, path in ink.lines:
        width = max(group.width_mm(stroke.weight), least_width_mm)
        pen = QPen(colour, width)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        dashes = dashes_mm(stroke, group)
        if dashes:
            pen.setDashPattern([length / width for length in dashes])
        painter.setPen(pen)
        painter.drawPath(path)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    for area in ink.areas:
        painter.drawPath(area)


def simple(marks: Iterable[Mark]) -> Iterator[Mark]:
    """Return the marks with dimensions taken apart."""
    for mark in marks:
        if isinstance(mark, LinearDimension | OrdinateDimension | Leader):
            yield from dimension_marks(mark)
        else:
            yield mark


def _line(mark: Line | Polyline | Circle | Arc, top_mm: float) -> QPainterPath:
    if isinstance(mark, Line):
        return _through((mark.start, mark.end), top_mm, is_closed=False)
    if isinstance(mark, Polyline):
        return _through(mark.points, top_mm, is_closed=mark.is_closed)
    radius = mark.radius_mm
    around = QRectF(mark.centre.x_mm - radius, top_mm - mark.centre.y_mm - radius, 2 * radius, 2 * radius)
    path = QPainterPath()
    if isinstance(mark, Circle):
        path.addEllipse(around)
        return path
    sweep = (mark.end_deg - mark.start_deg) % 360 or 360.0
    path.arcMoveTo(around, mark.start_deg)
    path.arcTo(around, mark.start_deg, sweep)
    return path


def _through(points: Sequence[Point], top_mm: float, *, is_closed: bool) -> QPainterPath:
    path = QPainterPath(QPointF(points[0].x_mm, top_mm - points[0].y_mm))
    for point in points[1:]:
        path.lineTo(point.x_mm, top_mm - point.y_mm)
    if is_closed:
        path.closeSubpath()
    return path
