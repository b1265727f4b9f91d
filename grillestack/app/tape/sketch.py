"""A small picture of the part as far as it is measured, with what is meant by the current field drawn over it."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from grillestack.app.palette import Palette
from grillestack.app.tape.drawing import Drawing, Frame, Span
from grillestack.app.tape.taped import Front, Tanks, Taped, TapedMount, TapedPort, edges
from grillestack.model.parts import Facing
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_ARROW_PX: Final = 5.0
_STUB_PX: Final = 13.0
_WAYS: Final = {
    Facing.LEFT: QPointF(1, 0),
    Facing.RIGHT: QPointF(-1, 0),
    Facing.UP: QPointF(0, -1),
    Facing.DOWN: QPointF(0, 1),
}


class Sketch(QWidget):
    """Paints front and side view; the field in hand is one dimension line in the accent."""

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._taped = Taped()
        self._meant = ""
        self._units = UnitSystem.METRIC
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Picture of the part")

    @property
    def meant(self) -> str:
        """Return which field is drawn."""
        return self._meant

    def show_taped(self, taped: Taped, meant: str, units: UnitSystem) -> None:
        """Show what was measured, and what the field of that name means."""
        self._taped, self._meant, self._units = taped, meant, units
        span = self.span()
        self.setAccessibleDescription("" if span is None else f"Shows where to measure: {_value(span.value_mm, units)}")
        self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.update()

    def sizeHint(self) -> QSize:
        """Return a comfortable size."""
        return QSize(420, 260)

    def minimumSizeHint(self) -> QSize:
        """Return the least size at which the picture can be read."""
        return QSize(280, 170)

    def span(self) -> Span | None:
        """Return the dimension line of the field in hand, in pixels, or nothing if the field is no length."""
        return self._drawing().span(self._meant)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint both views and the dimension in hand."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        drawing = self._drawing()
        painter.fillRect(self.rect(), self._palette.paper)
        self._paint_front(painter, drawing.frame(), drawing.front)
        self._paint_side(painter, drawing)
        for number, port in enumerate(self._taped.ports):
            self._paint_thing(painter, drawing, port, meant=self._meant.startswith(f"ports.{number}."))
        for number, mount in enumerate(self._taped.mounts):
            self._paint_thing(painter, drawing, mount, meant=self._meant.startswith(f"mounts.{number}."))
        span = self.span()
        if span is not None:
            self._paint_span(painter, span)
        self._paint_words(painter, drawing)
        painter.end()

    def _drawing(self) -> Drawing:
        return Drawing(self._taped, self.width(), self.height())

    def _paint_front(self, painter: QPainter, frame: Frame, front: Front) -> None:
        palette, core = self._palette, frame.rect(front.core)
        beside, upright = edges(front)
        tanks, plates = (beside, upright) if self._taped.tanks is Tanks.SIDES else (upright, beside)
        painter.setPen(QPen(palette.ink, 1.2))
        painter.setBrush(palette.tank_wash)
        for rect in tanks:
            painter.drawRect(frame.rect(rect))
            painter.fillRect(frame.rect(rect), _hatched(palette.tank_ink))
        painter.setBrush(palette.panel)
        for rect in plates:
            painter.drawRect(frame.rect(rect))
        painter.setBrush(palette.paper)
        painter.drawRect(core)
        painter.setPen(QPen(palette.rule, 1))
        lines = 14
        if self._taped.tanks is Tanks.SIDES:
            for row in range(1, lines):
                y = core.top() + core.height() * row / lines
                painter.drawLine(QPointF(core.left() + 1, y), QPointF(core.right() - 1, y))
        else:
            for column in range(1, lines):
                x = core.left() + core.width() * column / lines
                painter.drawLine(QPointF(x, core.top() + 1), QPointF(x, core.bottom() - 1))
        painter.setPen(QPen(palette.ink, 1.2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(frame.rect(front.overall))

    def _paint_side(self, painter: QPainter, drawing: Drawing) -> None:
        palette, tank = self._palette, drawing.tank_box()
        painter.setPen(QPen(palette.ink, 1.2))
        painter.setBrush(palette.tank_wash)
        painter.drawRect(tank)
        painter.fillRect(tank, _hatched(palette.tank_ink))
        painter.setBrush(palette.paper)
        painter.drawRect(drawing.side_box())

    def _paint_thing(self, painter: QPainter, drawing: Drawing, one: TapedPort | TapedMount, *, meant: bool) -> None:
        palette, at = self._palette, drawing.place(one)
        painter.setPen(QPen(palette.accent if meant else palette.ink, 1.6 if meant else 1.2))
        painter.setBrush(palette.paper)
        if isinstance(one, TapedMount):
            painter.drawLine(at + QPointF(-6, 0), at + QPointF(6, 0))
            painter.drawLine(at + QPointF(0, -6), at + QPointF(0, 6))
            painter.drawEllipse(at, 3.0, 3.0)
            return
        way = _WAYS.get(one.facing)
        if way is not None:
            aside = QPointF(-way.y(), way.x()) * 4
            end = at + way * _STUB_PX
            painter.drawPolygon(QPolygonF([at + aside, end + aside, end - aside, at - aside]))
        painter.drawEllipse(at, 6.0, 6.0)
        if one.facing is Facing.FRONT:
            painter.setBrush(painter.pen().color())
            painter.drawEllipse(at, 2.0, 2.0)
        elif one.facing is Facing.REAR:
            painter.drawLine(at + QPointF(-4, -4), at + QPointF(4, 4))
            painter.drawLine(at + QPointF(-4, 4), at + QPointF(4, -4))

    def _paint_span(self, painter: QPainter, span: Span) -> None:
        palette = self._palette
        painter.setPen(QPen(palette.accent, 1.8))
        painter.drawLine(span.start, span.end)
        along = span.end - span.start
        length = max((along.x() ** 2 + along.y() ** 2) ** 0.5, 1e-6)
        unit = along / length
        aside = QPointF(-unit.y(), unit.x())
        painter.setBrush(palette.accent)
        for end, inward in ((span.start, unit), (span.end, -unit)):
            tip = [end, end + inward * _ARROW_PX + aside * 3, end + inward * _ARROW_PX - aside * 3]
            painter.drawPolygon(QPolygonF(tip))
            painter.drawLine(end + aside * 6, end - aside * 6)
        words = _value(span.value_mm, self._units)
        metrics = painter.fontMetrics()
        box = QRectF(0, 0, metrics.horizontalAdvance(words) + 8.0, metrics.height() + 2.0)
        box.moveCenter((span.start + span.end) / 2)
        # Words that are longer than their line stand beside it, not on it.
        if abs(unit.y()) < 0.5 and box.width() + 2 * _ARROW_PX > length:
            box.moveBottom(span.start.y() - 8)
        elif abs(unit.y()) >= 0.5 and 2 * box.height() > length:
            box.moveLeft(span.start.x() + 12)
        box.moveLeft(min(max(box.left(), 2.0), self.width() - box.width() - 2))
        box.moveTop(max(box.top(), 1.0))
        painter.fillRect(box, palette.paper)
        painter.setPen(palette.accent)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)

    def _paint_words(self, painter: QPainter, drawing: Drawing) -> None:
        box, line = drawing.frame().rect(drawing.front.overall), painter.fontMetrics().height() + 2.0
        painter.setPen(self._palette.faint_ink)
        below = QRectF(box.left() - 20, box.bottom() + 6, box.width() + 40, line)
        painter.drawText(below, Qt.AlignmentFlag.AlignLeft, "◄ vehicle RIGHT")
        painter.drawText(below, Qt.AlignmentFlag.AlignRight, "LEFT ►")
        side = drawing.side_box()
        painter.drawText(QRectF(side.left() - 18, box.bottom() + 6, 90, line), Qt.AlignmentFlag.AlignLeft, "◄ front")


def _hatched(ink: QColor) -> QColor:
    faint = QColor(ink)
    faint.setAlpha(40)
    return faint


def _value(value_mm: float | None, units: UnitSystem) -> str:
    return "?" if value_mm is None else show_quantity(value_mm, Dimension.LENGTH, units)
