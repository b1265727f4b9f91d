"""Which shape goes with a verdict or a severity, so that neither is ever told by colour alone."""

from __future__ import annotations

import enum

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from grillestack.app.palette import Palette


class Mark(enum.Enum):
    """Verdicts and severities; the value is the one that verdict or severity carries."""

    PASS = "pass"
    CLOSE = "close"
    FAIL = "fail"
    UNKNOWN = "unknown"
    SERIOUS = "serious"
    WARNING = "warning"
    NOTE = "note"


VERDICT_WORDS = {Mark.PASS: "pass", Mark.CLOSE: "close", Mark.FAIL: "fail", Mark.UNKNOWN: "not known"}


def mark_ink(mark: Mark, palette: Palette) -> QColor:
    """Return the ink of that mark and of its word."""
    return {
        Mark.PASS: palette.pass_ink,
        Mark.CLOSE: palette.close_ink,
        Mark.FAIL: palette.fail_ink,
        Mark.UNKNOWN: palette.unknown_ink,
        Mark.SERIOUS: palette.fail_ink,
        Mark.WARNING: palette.warning,
        Mark.NOTE: palette.faint_ink,
    }[mark]


def paint_mark(painter: QPainter, box: QRectF, mark: Mark, palette: Palette) -> None:
    """Paint the mark into a square box; the painter comes back as it was."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    ink = mark_ink(mark, palette)
    stroke = QPen(ink, max(1.4, box.width() / 10), Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap)
    knocked_out = QPen(palette.panel, max(1.6, box.width() / 7), Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    if mark is Mark.PASS:
        painter.drawEllipse(box)
        painter.setPen(knocked_out)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(_in(box, (0.27, 0.53), (0.44, 0.70), (0.74, 0.34)))
    elif mark is Mark.CLOSE:
        # A figure close to its limit: half of the diamond is used up.
        painter.drawPolygon(_in(box, (0.0, 0.5), (1.0, 0.5), (0.5, 1.0)))
        painter.setPen(stroke)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolygon(_in(box, (0.5, 0.04), (0.96, 0.5), (0.5, 0.96), (0.04, 0.5)))
    elif mark is Mark.FAIL:
        painter.drawRect(
            box.adjusted(box.width() * 0.06, box.height() * 0.06, -box.width() * 0.06, -box.height() * 0.06)
        )
        painter.setPen(knocked_out)
        painter.drawLine(_in(box, (0.30, 0.30), (0.70, 0.70)).at(0), _in(box, (0.30, 0.30), (0.70, 0.70)).at(1))
        painter.drawLine(_in(box, (0.70, 0.30), (0.30, 0.70)).at(0), _in(box, (0.70, 0.30), (0.30, 0.70)).at(1))
    elif mark is Mark.UNKNOWN:
        stroke.setStyle(Qt.PenStyle.DotLine)
        painter.setPen(stroke)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(box.adjusted(1, 1, -1, -1))
    else:
        _paint_severity(painter, box, mark, stroke, palette)
    painter.restore()


def _paint_severity(painter: QPainter, box: QRectF, mark: Mark, stroke: QPen, palette: Palette) -> None:
    if mark is Mark.NOTE:
        painter.drawEllipse(_in(box, (0.5, 0.5)).at(0), box.width() * 0.17, box.height() * 0.17)
        return
    triangle = _in(box, (0.5, 0.06), (0.97, 0.92), (0.03, 0.92))
    filled = mark is Mark.SERIOUS
    painter.setPen(stroke)
    painter.setBrush(stroke.color() if filled else QColor(Qt.GlobalColor.transparent))
    painter.drawPolygon(triangle)
    inner = QPen(palette.panel if filled else stroke.color(), max(1.4, box.width() / 9))
    inner.setCapStyle(Qt.PenCapStyle.RoundCap)
    painter.setPen(inner)
    line = _in(box, (0.5, 0.36), (0.5, 0.60), (0.5, 0.77))
    painter.drawLine(line.at(0), line.at(1))
    painter.drawPoint(line.at(2))


def _in(box: QRectF, *places: tuple[float, float]) -> QPolygonF:
    return QPolygonF([QPointF(box.x() + u * box.width(), box.y() + v * box.height()) for u, v in places])


class MarkSign(QWidget):
    """One mark as a widget; the word beside it says the same, so it is silent to a screen reader."""

    def __init__(self, palette: Palette, side_px: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._mark = Mark.UNKNOWN
        self._side_px = side_px
        self.setFixedSize(QSize(side_px, side_px))

    @property
    def mark(self) -> Mark:
        """Return the mark that is shown."""
        return self._mark

    def show_mark(self, mark: Mark) -> None:
        """Show that mark."""
        if mark is not self._mark:
            self._mark = mark
            self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the mark."""
        del event
        painter = QPainter(self)
        side = self._side_px - 2.0
        paint_mark(painter, QRectF(1.0, 1.0, side, side), self._mark, self._palette)
        painter.end()
