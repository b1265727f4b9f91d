"""What do the figures rest on: every input and method of the assessment in words, shown when asked for."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QLabel, QToolButton, QVBoxLayout, QWidget

from grillestack.app.palette import Palette

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import Basis

_TITLE = "What the figures rest on"


class BasisList(QWidget):
    """One paragraph per figure or input, folded away until it is asked for."""

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._basis: tuple[Basis, ...] = ()
        self.fold = QToolButton(self)
        self.fold.setText(_TITLE)
        self.fold.setAccessibleName(_TITLE)
        self.fold.setCheckable(True)
        self.fold.setAutoRaise(True)
        self.fold.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.fold.setArrowType(Qt.ArrowType.RightArrow)
        self.text = QLabel(self)
        self.text.setWordWrap(True)
        self.text.setTextFormat(Qt.TextFormat.PlainText)
        self.text.setVisible(False)
        self.fold.toggled.connect(self._unfold)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.fold)
        column.addWidget(self.text)
        self.show_palette(palette)

    def show_basis(self, basis: Sequence[Basis]) -> None:
        """Show what these figures rest on."""
        if tuple(basis) != self._basis:
            self._basis = tuple(basis)
            if self.fold.isChecked():
                self._write()
        self.fold.setEnabled(bool(self._basis))

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        colours = self.text.palette()
        colours.setColor(QPalette.ColorRole.WindowText, palette.ink)
        self.text.setPalette(colours)

    def _unfold(self, opened: bool) -> None:  # noqa: FBT001  the signal hands it over by place
        self.fold.setArrowType(Qt.ArrowType.DownArrow if opened else Qt.ArrowType.RightArrow)
        if opened:
            self._write()
        self.text.setVisible(opened)

    def _write(self) -> None:
        self.text.setText("\n".join(_words(basis) for basis in self._basis))


def _words(basis: Basis) -> str:
    spread = f"; {basis.spread}" if basis.spread else ""
    return f"{basis.figure}: {basis.method} ({basis.source}){spread}."
