"""How does one duty case come out: a line with name, verdict and top tank, pressed to see the rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.duty_figures import top_tank_words
from grillestack.app.panels.verdict_marks import VERDICT_WORDS, Mark, mark_ink, paint_mark
from grillestack.app.panels.why_spot import WhySpot, words_box
from grillestack.assess.figure import FigureName, Subject
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import CaseResult

CHEVRON_PX = 16
_ROW_PAD_PX = 8
_MARK_PX = 12
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class DutyRow(QAbstractButton):
    """One duty case: name, verdict as shape and word, top tank temperature against its limit; pressed to open it."""

    why_asked = Signal(object)  # WhySpot

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._mark = Mark.UNKNOWN
        self._top_tank = ""
        self._decides = False
        self._case_id = ""
        self.spot = WhySpot(palette, self)
        self.spot.clicked.connect(lambda _checked=False: self.why_asked.emit(self.spot))
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_case(self, case: CaseResult, units: UnitSystem, *, decides: bool) -> None:
        """Show that case; the one that decides the verdict carries a bar at its left."""
        mark, top_tank = Mark(case.verdict.value), top_tank_words(case, units)
        self._case_id = case.case_id
        now = (case.name, mark, top_tank, decides)
        if now == (self.text(), self._mark, self._top_tank, self._decides):
            return
        if case.name != self.text():
            self.setText(case.name)
            self.updateGeometry()
        self.setToolTip(case.name)
        _, self._mark, self._top_tank, self._decides = now
        self.setAccessibleName(f"{case.name}: {VERDICT_WORDS[mark]}, top tank {top_tank}")
        self.setAccessibleDescription("Deciding case. Opens all figures." if decides else "Opens all figures.")
        self._place_spot()
        self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.spot.show_palette(palette)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let what can be asked about stay over its figure."""
        super().resizeEvent(event)
        self._place_spot()

    def _place_spot(self) -> None:
        if not self._top_tank:
            return
        said_px = float(self.fontMetrics().horizontalAdvance(self._top_tank))
        over = words_box(self._tank_box(), said_px, self.fontMetrics().height(), at_right=True)
        subject = Subject(FigureName.TOP_TANK, self._case_id)
        self.spot.lie_over(over, subject, f"{self.text()}, top tank {self._top_tank}")

    def _tank_box(self) -> QRectF:
        """Return where the top tank stands: on the last line, at its right."""
        box = QRectF(self.rect())
        line_px, tank_px = float(self.fontMetrics().height()), self._columns_px()[1]
        first = box if self._fits_one_line(self.width()) else QRectF(0, _ROW_PAD_PX / 2, box.width(), line_px)
        last = first if self._fits_one_line(self.width()) else first.translated(0.0, line_px)
        return QRectF(box.right() - tank_px - 4, last.top(), tank_px, last.height())

    def hasHeightForWidth(self) -> bool:
        """Return that a long name takes a line of its own where the column is narrow."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height at that width."""
        lines = 1 if self._fits_one_line(width) else 2
        return lines * self.fontMetrics().height() + _ROW_PAD_PX

    def sizeHint(self) -> QSize:
        """Return the size at the present width."""
        return QSize(260, self.heightForWidth(self.width()))

    def _columns_px(self) -> tuple[float, float]:
        """Return the widths of the verdict's word and of the top tank, the same in every row."""
        metrics = self.fontMetrics()
        return metrics.horizontalAdvance("not known") + 4.0, metrics.horizontalAdvance("000 of 000 °F") + 4.0

    def _fits_one_line(self, width: int) -> bool:
        name_px = self.fontMetrics().horizontalAdvance(self.text())
        return CHEVRON_PX + name_px + 8 + _MARK_PX + 5 + sum(self._columns_px()) + 4 <= width

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint one line, or two where the name needs one of its own."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect())
        if self.underMouse() or self.isChecked():
            painter.fillRect(box, self._palette.accent_wash)
        if self._decides:
            painter.fillRect(QRectF(0, 4, 2, box.height() - 8), self._palette.ink)
        if self.hasFocus():
            painter.setPen(QPen(self._palette.accent, 1.5))
            painter.drawRect(box.adjusted(1, 1, -1, -1))
        one_line = self._fits_one_line(self.width())
        line_px = float(self.fontMetrics().height())
        first = box if one_line else QRectF(box.left(), _ROW_PAD_PX / 2, box.width(), line_px)
        last = first if one_line else first.translated(0.0, line_px)
        word_px, _ = self._columns_px()
        tank = self._tank_box()
        word = QRectF(tank.left() - word_px, last.top(), word_px, last.height())
        mark = QRectF(word.left() - _MARK_PX - 5, last.center().y() - _MARK_PX / 2, _MARK_PX, _MARK_PX)
        name_end = mark.left() - 4 if one_line else box.right() - 4
        name = QRectF(box.left() + CHEVRON_PX, first.top(), name_end - box.left() - CHEVRON_PX, first.height())
        self._paint_chevron(painter, first)
        painter.setPen(self._palette.ink)
        painter.drawText(tank, _RIGHT, self._top_tank)
        painter.setPen(mark_ink(self._mark, self._palette))
        painter.drawText(word, _LEFT, VERDICT_WORDS[self._mark])
        paint_mark(painter, mark, self._mark, self._palette)
        painter.setPen(self._palette.ink)
        shown = painter.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, int(name.width()))
        painter.drawText(name, _LEFT, shown)
        painter.end()

    def _paint_chevron(self, painter: QPainter, box: QRectF) -> None:
        x, y = box.left() + 8, box.center().y()
        painter.setPen(QPen(self._palette.faint_ink, 1.5))
        if self.isChecked():
            painter.drawPolyline(QPolygonF([QPointF(x - 3, y - 2), QPointF(x, y + 2), QPointF(x + 3, y - 2)]))
        else:
            painter.drawPolyline(QPolygonF([QPointF(x - 2, y - 3), QPointF(x + 2, y), QPointF(x - 2, y + 3)]))
