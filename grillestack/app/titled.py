"""A panel of a column under its title."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from grillestack.app.said import said


def titled(title: str, panel: QWidget) -> QWidget:
    """Return the panel under these words."""
    whole = QWidget()
    layout = QVBoxLayout(whole)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(0)
    words = QLabel(said(title))
    words.setObjectName("columnTitle")
    layout.addWidget(words)
    layout.addWidget(panel, 1)
    return whole
