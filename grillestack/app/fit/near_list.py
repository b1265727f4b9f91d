"""What does not fit, the nearest first: what stops it and what would let it in, in sentences."""

from __future__ import annotations

import html
from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from grillestack.app.workers.fit_rows import NearRow

_MOST: Final = 40


class NearList(QWidget):
    """One paragraph for each part."""

    def __init__(self) -> None:
        super().__init__()
        self._made: list[QLabel] = []
        self._rest = QLabel(self)
        self._rest.setObjectName("faint")
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(8, 4, 8, 8)
        self._column.setSpacing(8)
        self._column.addWidget(self._rest)
        self._column.addStretch(1)
        self.setAccessibleName("What does not fit")
        self._rest.setWordWrap(True)

    def show_near(self, near: Sequence[NearRow]) -> None:
        """Show these parts."""
        shown = near[:_MOST]
        while len(self._made) < len(shown):
            label = QLabel(self)
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.RichText)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            self._column.insertWidget(len(self._made), label)
            self._made.append(label)
        for label, row in zip(self._made, shown, strict=False):
            said = "<br>".join(html.escape(sentence) for sentence in row.said)
            label.setText(f"<b>{html.escape(row.name)}</b><br>{said}")
            label.setAccessibleName(" ".join((row.name, *row.said)))
        for place, label in enumerate(self._made):
            label.setVisible(place < len(shown))
        more = len(near) - len(shown)
        said = "1 more does not fit; it is" if more == 1 else f"{more} more do not fit; they are"
        self._rest.setText(f"{said} further from it." if more > 0 else "")
        self._rest.setVisible(more > 0)
