"""Where the degrees go, drawn: one row a step, its bar between the hottest day before and after it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.further_words import LEAST_STEP_K, degrees_words, step_words, tenths
from grillestack.app.panels.why_spot import WhySpot, words_box
from grillestack.assess.figure import FigureName, Subject
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.waterfall import Waterfall, WaterfallStep

_BAR_PX = 7
_BELOW_PX = 7
_ALONE = "Radiator alone, open nose"
_AS_IT_STANDS = "The pack as it stands"
_DESIGN_DAY = "Design day"


class _Scale(NamedTuple):
    left_px: float
    per_k: float
    least_degc: float

    def x(self, day_degc: float) -> float:
        return self.left_px + (day_degc - self.least_degc) * self.per_k


class DegreesChart(QWidget):
    """Paints the steps on one scale of hottest days, with the design day as a line through all of them."""

    why_asked = Signal(object)  # WhySpot

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._found: Waterfall | None = None
        self._design_degc: float | None = None
        self._units = UnitSystem.METRIC
        self._is_old = False
        self.spots: list[WhySpot] = []
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Where the degrees go")

    def show_degrees(
        self, found: Waterfall | None, design_degc: float | None, units: UnitSystem, *, is_old: bool
    ) -> None:
        """Show these steps; old ones are of before the last change and painted faint."""
        shown = (self._found, self._design_degc, self._units, self._is_old)
        if shown == (found, design_degc, units, is_old):
            return
        taller = (len(found.steps) if found else 0) != (len(self._found.steps) if self._found else 0)
        self._found, self._design_degc, self._units, self._is_old = found, design_degc, units, is_old
        before = "Of before the change: " if is_old else ""
        words = f"{before}{degrees_words(found, units)}" if found else ""
        self.setAccessibleDescription(words)
        self.setToolTip(words)
        if taller:
            self.updateGeometry()
        self._place_spots()
        self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        for spot in self.spots:
            spot.show_palette(palette)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let what can be asked about stay over its figure."""
        super().resizeEvent(event)
        self._place_spots()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Let a press on a bar or a name ask as one on the figure does."""
        row = int(event.position().y() // self._row_px())
        if 0 <= row < len(self.spots) and not self.spots[row].isHidden():
            self.spots[row].click()

    def _place_spots(self) -> None:
        """Lay a spot over the figure of each row; a figure of before the last change is not asked about."""
        rows = self._rows() if self._found is not None and not self._is_old else []
        while len(self.spots) < len(rows):
            spot = WhySpot(self._palette, self)
            spot.clicked.connect(lambda _checked=False, spot=spot: self.why_asked.emit(spot))
            self.spots.append(spot)
        bold = QFont(self.font())
        bold.setBold(True)
        for row, spot in enumerate(self.spots):
            if row >= len(rows):
                spot.hide()
                continue
            name, said, is_day = rows[row]
            metrics = QFontMetrics(bold if is_day else self.font())
            line = self.fontMetrics().height()
            box = QRectF(0, row * self._row_px(), self.width(), line)
            over = words_box(box, float(metrics.horizontalAdvance(said)), line, at_right=True)
            spot.lie_over(over, Subject(FigureName.STEP, "", row), f"{name} {said}")

    def _rows(self) -> list[tuple[str, str, bool]]:
        """Return name and figure of each row that is a step or a day of the pack, top to bottom."""
        found = self._found
        if found is None:
            return []
        steps = [(step.name, step_words(step, self._units), False) for step in found.steps]
        start = (_ALONE, tenths(found.start_degc, self._units), True)
        return [start, *steps, (_AS_IT_STANDS, tenths(found.end_degc, self._units), True)]

    def sizeHint(self) -> QSize:
        """Return a size that holds every row."""
        rows = len(self._found.steps) + 3 if self._found else 1
        return QSize(260, rows * self._row_px())

    def minimumSizeHint(self) -> QSize:
        """Return the least size at which every row can be read."""
        return QSize(180, self.sizeHint().height())

    def _row_px(self) -> int:
        return self.fontMetrics().height() + _BAR_PX + _BELOW_PX

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the rows."""
        del event
        found = self._found
        if found is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scale = self._scale(found)
        self._paint_design_day(painter, scale, len(found.steps) + 2)
        self._paint_day(painter, 0, _ALONE, found.start_degc, scale)
        for row, step in enumerate(found.steps, start=1):
            self._paint_step(painter, row, step, scale)
        self._paint_day(painter, len(found.steps) + 1, _AS_IT_STANDS, found.end_degc, scale)
        painter.end()

    def _scale(self, found: Waterfall) -> _Scale:
        days = [
            day
            for day in (found.start_degc, *(step.after_degc for step in found.steps), self._design_degc)
            if day is not None
        ]
        least, most = (min(days), max(days)) if days else (0.0, 1.0)
        return _Scale(5.0, (self.width() - 10.0) / max(most - least, 1.0), least)

    def _words(self, painter: QPainter, row: int, left: str, right: str) -> QRectF:
        """Write a row and return the box of its bar."""
        top, line = row * self._row_px(), self.fontMetrics().height()
        box = QRectF(0, top, self.width(), line)
        painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, right)
        right_px = self.fontMetrics().horizontalAdvance(right) + 8
        room = box.adjusted(0, 0, -right_px, 0)
        words = self.fontMetrics().elidedText(left, Qt.TextElideMode.ElideRight, int(room.width()))
        painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)
        return QRectF(0, top + line, self.width(), _BAR_PX)

    def _paint_day(self, painter: QPainter, row: int, name: str, day_degc: float | None, scale: _Scale) -> None:
        ink = self._palette.faint_ink if self._is_old else self._palette.ink
        font = painter.font()
        font.setBold(True)
        painter.setFont(font)
        painter.setPen(ink)
        bar = self._words(painter, row, name, tenths(day_degc, self._units))
        font.setBold(False)
        painter.setFont(font)
        if day_degc is not None:
            painter.setPen(QPen(self._palette.rule, 1))
            painter.drawLine(QPointF(bar.left(), bar.center().y()), QPointF(bar.right(), bar.center().y()))
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(ink)
            painter.drawEllipse(QPointF(scale.x(day_degc), bar.center().y()), 3.5, 3.5)

    def _paint_step(self, painter: QPainter, row: int, step: WaterfallStep, scale: _Scale) -> None:
        palette = self._palette
        change_k = step.change_k
        is_idle = change_k is None or abs(change_k) < LEAST_STEP_K
        ink = palette.faint_ink if self._is_old or is_idle else palette.ink
        painter.setPen(ink)
        bar = self._words(painter, row, step.name, step_words(step, self._units))
        middle = bar.center().y()
        painter.setPen(QPen(palette.rule, 1))
        painter.drawLine(QPointF(bar.left(), middle), QPointF(bar.right(), middle))
        if step.before_degc is None or step.after_degc is None or change_k is None:
            return
        before, after = scale.x(step.before_degc), scale.x(step.after_degc)
        box = QRectF(min(before, after), bar.top(), max(abs(after - before), 1.5), bar.height())
        # What comes back is hollow: a gain and a cost differ without colour.
        if change_k > 0.0 and not is_idle:
            painter.setPen(QPen(ink, 1.5))
            painter.setBrush(palette.panel)
        else:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(ink)
        painter.drawRect(box)

    def _paint_design_day(self, painter: QPainter, scale: _Scale, row: int) -> None:
        if self._design_degc is None:
            return
        x, palette = scale.x(self._design_degc), self._palette
        painter.setPen(palette.faint_ink)
        box = self._words(painter, row, _DESIGN_DAY, tenths(self._design_degc, self._units))
        painter.setPen(QPen(palette.accent, 1, Qt.PenStyle.DashLine))
        line = self.fontMetrics().height()
        for each in range(row):
            top = each * self._row_px() + line - 1
            painter.drawLine(QPointF(x, top), QPointF(x, top + _BAR_PX + 3))
        painter.setPen(QPen(palette.accent, 1))
        painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(palette.accent)
        painter.drawPolygon(
            [QPointF(x - 4, box.bottom() + 1), QPointF(x + 4, box.bottom() + 1), QPointF(x, box.top() + 1)]
        )
