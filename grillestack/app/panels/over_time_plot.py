"""The top tank temperature against time, drawn small, with its limit as a line."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.further_words import duration_words, over_time_words
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.over_time import OverTime

_PLOT_PX = 96
_LEAST_SPAN_K = 4.0
_ROOM_FRAC = 0.24  # above and below the curve, for the words at its ends


class OverTimePlot(QWidget):
    """Paints one curve from the step of the load on, its limit, and where it meets it."""

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._found: OverTime | None = None
        self._units = UnitSystem.METRIC
        self._is_old = False
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Top tank temperature over time")

    def show_course(self, found: OverTime | None, units: UnitSystem, *, is_old: bool) -> None:
        """Show that course; an old one is of before the last change and painted faint."""
        self._found, self._units, self._is_old = found, units, is_old
        self.setAccessibleDescription(over_time_words(found, units) if found else "")
        self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.update()

    def sizeHint(self) -> QSize:
        """Return a size that holds plot and words."""
        return QSize(260, 2 * self.fontMetrics().height() + _PLOT_PX + 8)

    def minimumSizeHint(self) -> QSize:
        """Return the least size at which it can be read."""
        return QSize(180, self.sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint frame, limit and curve."""
        del event
        found = self._found
        if found is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        line = self.fontMetrics().height()
        plot = QRectF(0.5, line + 2.5, self.width() - 1.0, _PLOT_PX)
        lasts_s = found.points[-1].seconds_s if found.points else 0.0
        scale = _scale(found, plot, lasts_s)
        self._paint_frame(painter, plot, lasts_s)
        self._paint_limit(painter, found.limit_degc, scale.at(0.0, found.limit_degc).y(), plot)
        if found.points:
            self._paint_curve(painter, found, scale)
        painter.end()

    def _paint_frame(self, painter: QPainter, plot: QRectF, lasts_s: float) -> None:
        painter.setPen(QPen(self._palette.rule, 1))
        painter.setBrush(self._palette.paper)
        painter.drawRect(plot)
        painter.setPen(self._palette.faint_ink)
        line = self.fontMetrics().height()
        painter.drawText(QRectF(0, 0, self.width(), line), Qt.AlignmentFlag.AlignLeft, "Top tank")
        below = QRectF(0, plot.bottom() + 2, self.width(), line)
        painter.drawText(below, Qt.AlignmentFlag.AlignLeft, "load comes")
        if lasts_s > 0.0:
            painter.drawText(below, Qt.AlignmentFlag.AlignRight, f"{duration_words(lasts_s)} later")

    def _paint_limit(self, painter: QPainter, limit_degc: float, y: float, plot: QRectF) -> None:
        pen = QPen(self._palette.accent, 1.5, Qt.PenStyle.DashLine)
        painter.setPen(pen)
        painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y))
        line = self.fontMetrics().height()
        words = f"limit {show_quantity(limit_degc, Dimension.TEMPERATURE, self._units)}"
        box = QRectF(0, 0, self.width(), line)
        key = box.right() - self.fontMetrics().horizontalAdvance(words) - 6
        painter.drawLine(QPointF(key - 22, line / 2), QPointF(key, line / 2))
        painter.setPen(self._palette.ink)
        painter.drawText(box, Qt.AlignmentFlag.AlignRight, words)

    def _paint_curve(self, painter: QPainter, found: OverTime, scale: _Scale) -> None:
        ink = self._palette.faint_ink if self._is_old else self._palette.ink
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(ink, 2))
        painter.drawPolyline(QPolygonF([scale.at(point.seconds_s, point.top_tank_degc) for point in found.points]))
        begin, end = found.points[0], found.points[-1]
        rises = end.top_tank_degc >= begin.top_tank_degc
        line = self.fontMetrics().height()
        painter.setPen(ink)
        # The curve bends away from the corner below a rise and above a fall: there is room for words.
        first = scale.at(begin.seconds_s, begin.top_tank_degc)
        beside = QRectF(first.x() + 10, first.y() + 1 if rises else first.y() - line - 1, 90, line)
        painter.drawText(beside, Qt.AlignmentFlag.AlignLeft, self._degrees(begin.top_tank_degc))
        last = scale.at(end.seconds_s, end.top_tank_degc)
        box = QRectF(last.x() - 94, last.y() + 3 if rises else last.y() - line - 3, 90, line)
        if box.top() < scale.at(0.0, found.limit_degc).y() < box.bottom():
            box.moveTop(last.y() - line - 3 if rises else last.y() + 3)
        painter.drawText(box, Qt.AlignmentFlag.AlignRight, self._degrees(end.top_tank_degc))
        if found.time_to_limit_s and found.time_to_limit_s <= end.seconds_s:
            painter.setBrush(ink)
            painter.drawEllipse(scale.at(found.time_to_limit_s, found.limit_degc), 3.5, 3.5)

    def _degrees(self, value_degc: float) -> str:
        return show_quantity(value_degc, Dimension.TEMPERATURE, self._units)


class _Scale(NamedTuple):
    plot: QRectF
    lasts_s: float
    low_degc: float
    high_degc: float

    def at(self, seconds_s: float, degc: float) -> QPointF:
        along = seconds_s / self.lasts_s if self.lasts_s > 0.0 else 0.0
        up = (degc - self.low_degc) / (self.high_degc - self.low_degc)
        return QPointF(self.plot.left() + along * self.plot.width(), self.plot.bottom() - up * self.plot.height())


def _scale(found: OverTime, plot: QRectF, lasts_s: float) -> _Scale:
    shown = [found.limit_degc, *(point.top_tank_degc for point in found.points)]
    low, high = min(shown), max(shown)
    room_k = _ROOM_FRAC * max(high - low, _LEAST_SPAN_K)
    return _Scale(plot, lasts_s, low - room_k, max(high, low + _LEAST_SPAN_K) + room_k)
