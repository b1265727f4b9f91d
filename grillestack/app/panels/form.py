"""Rows of a card: each shows one place of the document and turns what is typed there into one edit."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QComboBox, QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from grillestack.app.panels.field import Complaint, QuantityField, TypedLine
from grillestack.app.panels.leaving_text import LeavingText
from grillestack.app.panels.quiet_box import QuietBox
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.assess.defaults import Default
from grillestack.model.project import Project
from grillestack.model.values import ModelError
from grillestack.units.quantity import Dimension


@dataclass(frozen=True, slots=True)
class Slot:
    """One place of the document: how to read it and what the document is with another value there."""

    read: Callable[[Project], Any]
    write: Callable[[Project, Any], Project]


LABEL_PX = 98
PARAGRAPH_PX = 64


class Form(QWidget):
    """A column of labelled rows over one session."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._refreshers: list[Callable[[Project], None]] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnMinimumWidth(0, LABEL_PX)
        self._grid.setColumnStretch(1, 1)

    def refresh(self) -> None:
        """Show what the document or the trial says now."""
        project = self._session.shown
        for refresh in self._refreshers:
            refresh(project)

    def quantity(
        self,
        label: str,
        dimension: Dimension,
        slot: Slot,
        *,
        optional: bool = False,
        default: Default | Callable[[Project], Default | None] | None = None,
        locked: str = "",
    ) -> QuantityField:
        """Add a row for a quantity; a default may follow from the project."""
        field = QuantityField(said(label), dimension, optional=optional)
        if locked:
            field.lock(locked)

        def show(project: Project) -> None:
            found = default(project) if callable(default) else default
            field.show_value(slot.read(project), self._session.units, found)

        field.committed.connect(lambda value: self._apply(label, slot, value, field.complain))
        self._refreshers.append(show)
        self.row(label, field)
        return field

    def text(self, label: str, slot: Slot, *, locked: str = "") -> TypedLine:
        """Add a row for words."""
        line, complaint = TypedLine(), Complaint()
        line.setAccessibleName(said(label))
        if locked:
            line.setReadOnly(True)
            line.setToolTip(locked)

        def show(project: Project) -> None:
            if not line.isModified() and line.text() != slot.read(project):
                line.setText(slot.read(project))
                line.setCursorPosition(0)

        def complain(sentence: str) -> None:
            line.setModified(True)
            complaint.say(sentence)

        def take() -> None:
            line.setModified(False)
            complaint.say("")
            self._apply(label, slot, line.text().strip(), complain)

        def forget() -> None:
            line.setModified(False)
            complaint.say("")
            show(self._session.shown)

        line.typed.connect(take)
        line.forgotten.connect(forget)
        self._refreshers.append(show)
        self.row(label, _stacked(line, complaint))
        return line

    def paragraph(self, label: str, slot: Slot) -> LeavingText:
        """Add a row for several lines of words; they count when the cursor leaves them."""
        text, complaint = LeavingText(), Complaint()
        text.setAccessibleName(said(label))
        text.setTabChangesFocus(True)
        text.setFixedHeight(PARAGRAPH_PX)

        def show(project: Project) -> None:
            if not text.document().isModified() and text.toPlainText() != slot.read(project):
                text.setPlainText(slot.read(project))
                text.document().setModified(False)

        def complain(sentence: str) -> None:
            text.document().setModified(True)
            complaint.say(sentence)

        def take() -> None:
            if text.document().isModified():
                text.document().setModified(False)
                complaint.say("")
                self._apply(label, slot, text.toPlainText(), complain)

        def forget() -> None:
            text.document().setModified(False)
            complaint.say("")
            show(self._session.shown)

        text.left.connect(take)
        text.forgotten.connect(forget)
        self._refreshers.append(show)
        self.row(label, _stacked(text, complaint))
        return text

    def choice(self, label: str, options: Sequence[tuple[str, Any]], slot: Slot) -> QComboBox:
        """Add a row to choose from; options are the words and the value of each."""
        box, complaint = QuietBox(), Complaint()
        box.setAccessibleName(said(label))
        for words, value in options:
            box.addItem(said(words), value)
        values = [value for _, value in options]

        def show(project: Project) -> None:
            value = slot.read(project)
            box.setCurrentIndex(values.index(value) if value in values else -1)

        def take(index: int) -> None:
            complaint.say("")
            self._apply(label, slot, values[index], complaint.say)
            show(self._session.shown)

        box.activated.connect(take)
        self._refreshers.append(show)
        self.row(label, _stacked(box, complaint))
        return box

    def switch(self, label: str, slot: Slot) -> QCheckBox:
        """Add a row that is on or off."""
        box, complaint = QCheckBox(said(label)), Complaint()
        box.setAccessibleName(said(label))

        def take(is_on: bool) -> None:  # noqa: FBT001  Qt's signal hands a bare bool
            complaint.say("")
            self._apply(label, slot, is_on, complaint.say)
            box.setChecked(slot.read(self._session.shown))

        box.clicked.connect(take)
        self._refreshers.append(lambda project: box.setChecked(slot.read(project)))
        self.whole(_stacked(box, complaint))
        return box

    def note(self, words: str) -> QLabel:
        """Add a line of faint words."""
        label = QLabel(said(words))
        label.setObjectName("faint")
        label.setWordWrap(True)
        label.setTextFormat(Qt.TextFormat.PlainText)
        self.whole(label)
        return label

    def reading(self, label: str, read: Callable[[Project], str]) -> QLabel:
        """Add a row that only tells."""
        words = QLabel()
        words.setWordWrap(True)
        words.setTextFormat(Qt.TextFormat.PlainText)
        words.setAccessibleName(said(label))
        self._refreshers.append(lambda project: words.setText(read(project)))
        self.row(label, words)
        return words

    def act(self, words: str, act: Callable[[], None]) -> QPushButton:
        """Add a button."""
        button = QPushButton(said(words))
        button.setAccessibleName(said(words))
        button.clicked.connect(lambda _checked=False: act())
        self.whole(button, align=Qt.AlignmentFlag.AlignLeft)
        return button

    def follow(self, show: Callable[[Project], None]) -> None:
        """Have this called with what the document or the trial says, on every refresh."""
        self._refreshers.append(show)

    def whole(self, widget: QWidget, align: Qt.AlignmentFlag | None = None) -> None:
        """Add anything over the whole width."""
        row = self._grid.rowCount()
        if align is None:
            self._grid.addWidget(widget, row, 0, 1, 2)
        else:
            self._grid.addWidget(widget, row, 0, 1, 2, align)

    def row(self, label: str, widget: QWidget) -> None:
        """Add any widget behind a label."""
        words = QLabel(said(label))
        words.setWordWrap(True)
        words.setObjectName("label")
        words.setBuddy(widget)
        words.setFixedWidth(LABEL_PX)
        words.setContentsMargins(0, 4, 0, 0)
        row = self._grid.rowCount()
        self._grid.addWidget(words, row, 0, Qt.AlignmentFlag.AlignTop)
        self._grid.addWidget(widget, row, 1)

    def _apply(self, label: str, slot: Slot, value: Any, complain: Callable[[str], None]) -> None:
        try:
            project = slot.write(self._session.project, value)
        except ModelError as error:
            complain(str(error))
            return
        self._session.apply(f"change {in_a_sentence(label)}", project)


def in_a_sentence(label: str) -> str:
    """Return the label as it stands inside a sentence: its first letter small, unless it is an abbreviation."""
    return label if label[1:2].isupper() or not label[1:2].isalpha() else label[0].lower() + label[1:]


def _stacked(widget: QWidget, complaint: QWidget) -> QWidget:
    both = QWidget()
    layout = QVBoxLayout(both)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(2)
    layout.addWidget(widget)
    layout.addWidget(complaint)
    both.setFocusProxy(widget)
    return both
