"""What in this pack can hurt someone: one line that is always in sight, the dangers named, the sentences when asked for."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QLabel, QToolButton, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.findings_list import FindingsList

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import Finding


class Cautions(QWidget):
    """Names the dangers, or tells them in full; its `fold` may stand elsewhere, where it is never scrolled away."""

    show_requested = Signal(object)  # tuple[str, ...]: ids of the parts a caution speaks of

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.fold = QToolButton(self)
        self.fold.setCheckable(True)
        self.fold.setAutoRaise(True)
        self.fold.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.fold.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.dangers = QLabel(self)
        self.dangers.setWordWrap(True)
        self.dangers.setTextFormat(Qt.TextFormat.PlainText)
        self.list = FindingsList(palette, self)
        self.list.setAccessibleName("Cautions")
        self.list.show_requested.connect(self.show_requested)
        self.fold.toggled.connect(self._unfold)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(self.dangers)
        column.addWidget(self.list)
        self._unfold(self.fold.isChecked())
        self.show_palette(palette)

    def show_cautions(self, cautions: Sequence[Finding]) -> None:
        """Show these cautions; without any the whole section goes."""
        self.setVisible(bool(cautions))
        self.fold.setVisible(bool(cautions))
        self.list.show_findings(cautions)
        count = len(cautions)
        dangers = "Cautions: " + ", ".join(dict.fromkeys(caution.danger for caution in cautions))
        words = f"{count} caution" + ("s" if count != 1 else "")
        if self.fold.text() != words:
            self.fold.setText(words)
        if self.dangers.text() != dangers:
            self.dangers.setText(dangers)
            self.fold.setAccessibleName(f"{words}. {dangers}")

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self.list.show_palette(palette)
        colours = self.dangers.palette()
        colours.setColor(QPalette.ColorRole.WindowText, palette.ink)
        self.dangers.setPalette(colours)

    def _unfold(self, opened: bool) -> None:  # noqa: FBT001  the signal hands it over by place
        self.fold.setArrowType(Qt.ArrowType.DownArrow if opened else Qt.ArrowType.RightArrow)
        self.dangers.setVisible(not opened)
        self.list.setVisible(opened)
