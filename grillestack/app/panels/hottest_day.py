"""Up to which day does the coolant stay below its limit: the hottest day against the design day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.duty_figures import has_no_day, hottest_day_words
from grillestack.app.panels.verdict_marks import Mark, mark_ink
from grillestack.app.panels.why_spot import WhySpot, words_box
from grillestack.assess.figure import FigureName, Subject
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import CaseResult

_SCALE_PX = 18
_REACH_K = 12.0  # what the scale shows on either side of the design day
_CHANCE = "Chance of meeting the design day"
_CLOSE_K = 3.0  # the verdict's own bound between close and pass
_ASKED = (FigureName.HOTTEST_DAY, FigureName.BAND, FigureName.DESIGN_DAY, FigureName.MARGIN, FigureName.CHANCE)


class HottestDay(QWidget):
    """Paints both days as figures, the margin between them, and where it lies on a short scale."""

    why_asked = Signal(object)  # WhySpot

    def __init__(self, palette: Palette, units: UnitSystem, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._units = units
        self._case: CaseResult | None = None
        self._hottest = self._design = self._margin = ""
        self._band = self._chance = ""
        self.spots = {figure: WhySpot(palette, self) for figure in _ASKED}
        for spot in self.spots.values():
            spot.clicked.connect(lambda _checked=False, spot=spot: self.why_asked.emit(spot))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Hottest day")
        self.setToolTip(
            "The pointer is the hottest day on which the coolant stays below its limit; the tick is the design day, and the "
            "dark stretch after it counts as close. In brackets stands the band in which eight of ten packs like this one would be."
        )
        self._word()

    def show_case(self, case: CaseResult | None, units: UnitSystem) -> None:
        """Show the days of that duty case in those units."""
        if case is self._case and units is self._units:
            return
        self._case = case
        self._units = units
        self._word()
        self.update()

    def show_band(self, band: str, chance: str) -> None:
        """Show that band beside the hottest day, and that chance of meeting the design day; what is empty is not shown."""
        if (band, chance) != (self._band, self._chance):
            self._band, self._chance = band, chance
            self._word()
            self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        for spot in self.spots.values():
            spot.show_palette(palette)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let what can be asked about stay over its figure."""
        super().resizeEvent(event)
        self._place_spots()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Let a press on the scale ask about the margin that it shows."""
        top = self._line_px() + self._figure_px()
        spot = self.spots[FigureName.MARGIN]
        if top <= event.position().y() <= top + _SCALE_PX + 4 and not spot.isHidden():
            spot.click()

    def _place_spots(self) -> None:
        """Lay a spot over each figure that is known or says that it is not; nothing is asked of what is not shown."""
        line, figure_px = float(self._line_px()), float(self._figure_px())
        figures = QRectF(0, line, self.width(), figure_px)
        large, usual = QFontMetrics(self._figure_font()), self.fontMetrics()
        thin = self._figure_font()
        thin.setBold(False)
        hottest_px = float(large.horizontalAdvance(self._hottest))
        band_px = float(usual.horizontalAdvance(f"({self._band})"))
        design_px = float(QFontMetrics(thin).horizontalAdvance(self._design))
        margin_px = float(usual.horizontalAdvance(self._margin))
        below = figures.bottom() + _SCALE_PX + 2
        foot = QRectF(0, below + line, self.width(), line)
        height = float(usual.height())
        boxes = {
            FigureName.HOTTEST_DAY: words_box(figures, hottest_px, figure_px - 2, at_right=False),
            FigureName.BAND: QRectF(hottest_px + 6, figures.bottom() - height - 2, band_px, height + 2),
            FigureName.DESIGN_DAY: words_box(figures, design_px, figure_px - 2, at_right=True),
            FigureName.MARGIN: QRectF((self.width() - margin_px) / 2, below, margin_px, line),
            FigureName.CHANCE: words_box(foot, float(usual.horizontalAdvance(self._chance)), height, at_right=True),
        }
        words = {
            FigureName.HOTTEST_DAY: self._hottest,
            FigureName.BAND: self._band,
            FigureName.DESIGN_DAY: self._design,
            FigureName.MARGIN: self._margin,
            FigureName.CHANCE: self._chance,
        }
        case_id = self._case.case_id if self._case else ""
        for figure, spot in self.spots.items():
            if words[figure] and self._case is not None:
                spot.lie_over(boxes[figure], Subject(figure, case_id), f"{figure.value} {words[figure]}")
            else:
                spot.hide()

    def _word(self) -> None:
        case = self._case
        self._hottest = hottest_day_words(case, self._units)
        self._design = show_quantity(case.design_ambient_degc if case else None, Dimension.TEMPERATURE, self._units)
        margin_k = case.margin_k if case else None
        if case is not None and has_no_day(case):
            self._margin = "no day is cold enough"
        elif margin_k is None:
            self._margin = "margin not known"
        else:
            words = show_quantity(abs(margin_k), Dimension.TEMPERATURE_DIFFERENCE, self._units)
            self._margin = f"{words} to spare" if margin_k >= 0 else f"{words} short"
        band = f" ({self._band})" if self._band else ""
        chance = f" {_CHANCE}: {self._chance}." if self._chance else ""
        self.setAccessibleDescription(
            f"Hottest day {self._hottest}{band}; design day {self._design}; {self._margin}.{chance}"
        )
        self._place_spots()

    def sizeHint(self) -> QSize:
        """Return a size that holds figures and scale."""
        return QSize(260, self._line_px() * 3 + self._figure_px() + _SCALE_PX + 4)

    def minimumSizeHint(self) -> QSize:
        """Return the least size at which every figure can be read."""
        return QSize(180, self.sizeHint().height())

    def _line_px(self) -> int:
        return self.fontMetrics().height() + 2

    def _figure_font(self) -> QFont:
        font = QFont(self.font())
        font.setPointSizeF(font.pointSizeF() * 1.55)
        font.setBold(True)
        return font

    def _figure_px(self) -> int:
        return QFontMetrics(self._figure_font()).height() + 2

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint labels, figures, scale and margin."""
        del event
        painter = QPainter(self)
        palette, line, half = self._palette, self._line_px(), self.width() / 2
        left, right = Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignRight
        centre = Qt.AlignmentFlag.AlignVCenter
        painter.setPen(palette.faint_ink)
        painter.drawText(QRectF(0, 0, half, line), left | centre, "Hottest day")
        painter.drawText(QRectF(half, 0, half, line), right | centre, "Design day")
        painter.setPen(palette.ink)
        usual = painter.font()
        painter.setFont(self._figure_font())
        figures = QRectF(0, line, self.width(), self._figure_px())
        painter.drawText(figures, left | centre, self._hottest)
        font = self._figure_font()
        if self._band:
            beside_px = painter.fontMetrics().horizontalAdvance(self._hottest) + 6
            painter.setFont(usual)
            painter.setPen(palette.faint_ink)
            # On the line of the figure, not in its middle.
            lower = QFontMetrics(font).descent() - QFontMetrics(usual).descent()
            band = figures.adjusted(beside_px, 0, 0, -max(0, lower) - 2)
            painter.drawText(band, left | Qt.AlignmentFlag.AlignBottom, f"({self._band})")
            painter.setPen(palette.ink)
        font.setBold(False)
        painter.setFont(font)
        painter.drawText(figures, right | centre, self._design)
        painter.setFont(usual)
        self._paint_scale(painter, QRectF(0.5, figures.bottom() + 2, self.width() - 1.0, _SCALE_PX))
        mark = Mark(self._case.verdict.value) if self._case else Mark.UNKNOWN
        painter.setPen(mark_ink(mark, palette))
        painter.drawText(
            QRectF(0, figures.bottom() + _SCALE_PX + 2, self.width(), line), Qt.AlignmentFlag.AlignHCenter, self._margin
        )
        if not self._chance:
            painter.end()
            return
        foot = QRectF(0, figures.bottom() + _SCALE_PX + 2 + line, self.width(), line)
        painter.setPen(palette.faint_ink)
        painter.drawText(foot, left | centre, _CHANCE)
        painter.setPen(palette.ink)
        painter.drawText(foot, right | centre, self._chance)
        painter.end()

    def _paint_scale(self, painter: QPainter, box: QRectF) -> None:
        palette = self._palette
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        y = box.center().y() + 3
        per_k = box.width() / (2 * _REACH_K)
        zero = box.center().x()
        painter.setPen(QPen(palette.rule, 2))
        painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y))
        painter.setPen(QPen(palette.faint_ink, 2))
        painter.drawLine(QPointF(zero, y), QPointF(zero + _CLOSE_K * per_k, y))
        painter.setPen(QPen(palette.ink, 2))
        painter.drawLine(QPointF(zero, y - 6), QPointF(zero, y + 4))
        margin_k = self._case.margin_k if self._case else None
        if margin_k is None:
            return
        inside_k = min(_REACH_K - 0.5, max(0.5 - _REACH_K, margin_k))
        x = zero + inside_k * per_k
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(palette.ink)
        if inside_k == margin_k:
            pointer = [QPointF(x - 5, y - 9), QPointF(x + 5, y - 9), QPointF(x, y - 1)]
        else:
            ahead = 8.0 if margin_k > 0 else -8.0
            pointer = [QPointF(x - ahead / 2, y - 9), QPointF(x - ahead / 2, y + 1), QPointF(x + ahead / 2, y - 4)]
        painter.drawPolygon(QPolygonF(pointer))
