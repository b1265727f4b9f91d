"""Where the degrees go, as a section: the chart, and the same in words when asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.answer_section import ink_label
from grillestack.app.panels.degrees_chart import DegreesChart
from grillestack.app.panels.further_words import degrees_words, kept_together
from grillestack.app.panels.link import Link
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.waterfall import Waterfall


class Degrees(QWidget):
    """The chart with a link that unfolds its words."""

    why_asked = Signal(object)  # WhySpot

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._is_old = False
        self.chart = DegreesChart(palette, self)
        self.chart.why_asked.connect(self.why_asked)
        self.link = Link("in words", palette, self)
        self.link.setCheckable(True)
        self.words = QLabel(self)
        self.words.setWordWrap(True)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.words.setVisible(False)
        self.link.toggled.connect(self.words.setVisible)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.chart)
        column.addWidget(self.link, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self.words)

    def show_degrees(
        self, found: Waterfall | None, design_degc: float | None, units: UnitSystem, *, is_old: bool
    ) -> None:
        """Show these steps; old ones are of before the last change."""
        self._is_old = is_old
        self.chart.show_degrees(found, design_degc, units, is_old=is_old)
        words = kept_together(degrees_words(found, units)) if found else ""
        if self.words.text() != words:
            self.words.setText(words)
        self._ink()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.chart.show_palette(palette)
        self.link.show_palette(palette)
        self._ink()

    def _ink(self) -> None:
        ink_label(self.words, self._palette.faint_ink if self._is_old else self._palette.ink)
