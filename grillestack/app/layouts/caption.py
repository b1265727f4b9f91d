"""What stands over the drawing of a layout: its name, its verdict in mark and word, its hottest day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.duty_figures import hottest_day_words
from grillestack.app.panels.verdict_marks import VERDICT_WORDS, Mark, MarkSign
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.assess.result import Assessment

_SIGN_PX = 16


class Caption(QWidget):
    """Two lines of words with the verdict's mark."""

    def __init__(self, palette: Palette) -> None:
        super().__init__()
        self._whole_name = ""
        self.sign = MarkSign(palette, _SIGN_PX)
        self.name = QLabel()
        self.name.setObjectName("heading")
        self.says = QLabel()
        self.says.setObjectName("faint")
        for label in (self.name, self.says):
            label.setTextFormat(Qt.TextFormat.PlainText)
            # A long name is cut off rather than let it push the other layout aside.
            label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(self.sign)
        top.addWidget(self.name, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(top)
        layout.addWidget(self.says)

    def show_side(self, side: Assessment, units: UnitSystem, *, in_hand: bool) -> None:
        """Show what is said of this layout."""
        project, mark = side.project, Mark(side.verdict.value)
        self.sign.show_mark(mark)
        self._whole_name = project.variant_name
        words = f"{VERDICT_WORDS[mark]}, hottest day {hottest_day_words(side.deciding_case, units)}"
        self.says.setText(f"in hand: {words}" if in_hand else words)
        self.setToolTip("\n".join(line for line in (project.variant_name, project.variant_note_text) if line))
        self.setAccessibleName(f"{project.variant_name}, {self.says.text()}")
        self._show_name()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Cut a long name where the new width ends."""
        super().resizeEvent(event)
        self._show_name()

    def show_palette(self, palette: Palette) -> None:
        """Show the mark in these colours."""
        self.sign.show_palette(palette)

    def _show_name(self) -> None:
        metrics = self.name.fontMetrics()
        self.name.setText(metrics.elidedText(self._whole_name, Qt.TextElideMode.ElideRight, self.name.width()))
