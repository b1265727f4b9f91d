"""How sure the hottest day is: the inputs that matter most for its band, each with its share as a bar."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.answer_section import ink_label
from grillestack.app.panels.further_words import driver_words, kept_together, share_words, sureness_words
from grillestack.app.panels.why_spot import WhySpot, words_box
from grillestack.assess.figure import FigureName, Subject
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.confidence import Confidence, Driver

_BAR_PX = 4
_BELOW_PX = 6


class Drivers(QWidget):
    """Paints one row an input: its name, its share, and the share as a bar."""

    why_asked = Signal(object)  # WhySpot

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._drivers: tuple[Driver, ...] = ()
        self._is_old = False
        self.spots: list[WhySpot] = []
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Inputs that matter most")

    def show_drivers(self, drivers: tuple[Driver, ...], *, is_old: bool) -> None:
        """Show these inputs; old ones are of before the last change."""
        if (drivers, is_old) == (self._drivers, self._is_old):
            return
        taller = len(drivers) != len(self._drivers)
        self._drivers, self._is_old = drivers, is_old
        self.setAccessibleDescription(
            "; ".join(f"{driver_words(one)} {share_words(one.share_frac)}" for one in drivers)
        )
        self.setToolTip("\n".join(f"{driver_words(one)}: {one.source}" for one in drivers))
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

    def _place_spots(self) -> None:
        """Lay a spot over each share; one of before the last change is not asked about."""
        while len(self.spots) < len(self._drivers):
            spot = WhySpot(self._palette, self)
            spot.clicked.connect(lambda _checked=False, spot=spot: self.why_asked.emit(spot))
            self.spots.append(spot)
        for row, spot in enumerate(self.spots):
            if row >= len(self._drivers) or self._is_old:
                spot.hide()
                continue
            driver, line = self._drivers[row], self.fontMetrics().height()
            share = share_words(driver.share_frac)
            box = QRectF(0, row * self._row_px(), self.width(), line)
            over = words_box(box, float(self.fontMetrics().horizontalAdvance(share)), line - 1.0, at_right=True)
            spot.lie_over(over, Subject(FigureName.DRIVER, "", row), f"{driver_words(driver)} {share}")

    def sizeHint(self) -> QSize:
        """Return a size that holds every row."""
        return QSize(260, max(1, len(self._drivers)) * self._row_px())

    def minimumSizeHint(self) -> QSize:
        """Return the least size at which every row can be read."""
        return QSize(180, self.sizeHint().height())

    def _row_px(self) -> int:
        return self.fontMetrics().height() + _BAR_PX + _BELOW_PX

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the rows."""
        del event
        painter = QPainter(self)
        palette, line = self._palette, self.fontMetrics().height()
        ink = palette.faint_ink if self._is_old else palette.ink
        for row, driver in enumerate(self._drivers):
            share = share_words(driver.share_frac)
            box = QRectF(0, row * self._row_px(), self.width(), line)
            painter.setPen(ink)
            painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, share)
            room = box.adjusted(0, 0, -self.fontMetrics().horizontalAdvance(share) - 8.0, 0)
            words = self.fontMetrics().elidedText(driver_words(driver), Qt.TextElideMode.ElideRight, int(room.width()))
            painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)
            track = QRectF(0, box.bottom() + 1, self.width(), _BAR_PX)
            painter.fillRect(track, palette.rule)
            painter.fillRect(QRectF(track.x(), track.y(), track.width() * driver.share_frac, track.height()), ink)
        painter.end()


class Sureness(QWidget):
    """What the band means, in a sentence, and what it hangs on."""

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._is_old = False
        self.words = QLabel(self)
        self.words.setWordWrap(True)
        self.hangs_on = QLabel("What that hangs on most:", self)
        self.drivers = Drivers(palette, self)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.words)
        column.addWidget(self.hangs_on)
        column.addWidget(self.drivers)

    def show_band(self, band: Confidence | None, units: UnitSystem, *, is_old: bool) -> None:
        """Show that band; an old one is of before the last change."""
        self._is_old = is_old
        words = kept_together(sureness_words(band, units)) if band else ""
        if self.words.text() != words:
            self.words.setText(words)
        self.drivers.show_drivers(band.drivers if band else (), is_old=is_old)
        self._ink()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.drivers.show_palette(palette)
        self._ink()

    def _ink(self) -> None:
        ink_label(self.words, self._palette.faint_ink if self._is_old else self._palette.ink)
        ink_label(self.hangs_on, self._palette.faint_ink)
