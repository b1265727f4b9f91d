"""The frame of a card: a heading, what it is, and folding sections of rows."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.form import Form
from grillestack.app.said import said
from grillestack.app.session import Session


class Card(QWidget):
    """Some sections over one thing of the document."""

    def __init__(self, session: Session, heading: Callable[[], str], kind: str) -> None:
        super().__init__()
        self._session = session
        self._heading_of = heading
        self._forms: list[Form] = []
        self._heading = QLabel()
        self._heading.setObjectName("heading")
        self._heading.setWordWrap(True)
        self._heading.setTextFormat(Qt.TextFormat.PlainText)
        words = QLabel(said(kind))
        words.setObjectName("faint")
        words.setWordWrap(True)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(8, 4, 8, 8)
        self._layout.setSpacing(6)
        self._layout.addWidget(self._heading)
        self._layout.addWidget(words)
        # A stretch and no alignment: that would hold the rows to their height at another width and cut long sentences.
        self._layout.addStretch(1)

    def section(self, heading: str, form: Form, *, is_open: bool = True) -> FoldingSection:
        """Add rows under a heading that folds."""
        self._forms.append(form)
        section = FoldingSection(heading, form, is_open=is_open)
        self._add(section)
        return section

    def rows(self, form: Form) -> None:
        """Add rows without a heading."""
        self._forms.append(form)
        self._add(form)

    def _add(self, widget: QWidget) -> None:
        self._layout.insertWidget(self._layout.count() - 1, widget)

    def refresh(self) -> None:
        """Show what the document or the trial says now."""
        self._heading.setText(self._heading_of())
        for form in self._forms:
            form.refresh()
