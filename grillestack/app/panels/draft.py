"""A small form for something that is not there yet: typed in full first, then taken in one step."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from grillestack.app.panels.field import Complaint, QuantityField
from grillestack.app.panels.form import LABEL_PX
from grillestack.app.said import said
from grillestack.assess.defaults import Default
from grillestack.model.values import ModelError
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One line of the form; without a dimension it takes words."""

    key: str
    label: str
    dimension: Dimension | None = None
    initial: float | str | None = None
    optional: bool = False
    default: Default | None = None


class DraftForm(QWidget):
    """Takes all its lines at once."""

    taken = Signal()
    cancelled = Signal()

    def __init__(
        self,
        heading: str,
        wanted: Sequence[Wanted],
        units: UnitSystem,
        take: Callable[[Mapping[str, Any]], None],
        *,
        words_to_take: str = "Add",
        note: str = "",
        extra: QWidget | None = None,
    ) -> None:
        super().__init__()
        self._take = take
        self.fields: dict[str, QuantityField] = {}
        self.lines: dict[str, QLineEdit] = {}
        self._defaults = {line.key: line.default for line in wanted}
        self.complaint = Complaint()
        title = QLabel(said(heading))
        title.setObjectName("heading")
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(1, 1)
        for row, line in enumerate(wanted):
            grid.addWidget(_label(line.label), row, 0, Qt.AlignmentFlag.AlignTop)
            grid.addWidget(self._line(line, units), row, 1)
        self.take_button = QPushButton(said(words_to_take))
        self.take_button.setObjectName("chief")
        self.cancel_button = QPushButton(said("Cancel"))
        buttons = QHBoxLayout()
        buttons.addWidget(self.take_button)
        buttons.addWidget(self.cancel_button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(title)
        title.setVisible(bool(heading))
        if note:
            faint = QLabel(said(note))
            faint.setObjectName("faint")
            faint.setWordWrap(True)
            layout.addWidget(faint)
        layout.addLayout(grid)
        if extra is not None:
            layout.addWidget(extra)
        layout.addWidget(self.complaint)
        layout.addLayout(buttons)
        layout.addStretch(1)
        self.take_button.clicked.connect(self.accept)
        self.cancel_button.clicked.connect(lambda _checked=False: self.cancelled.emit())

    def begin(self) -> None:
        """Put the cursor into the first line."""
        first = next(iter([*self.lines.values(), *(f.line for f in self.fields.values())]), None)
        if first is not None:
            first.setFocus()
            first.selectAll()

    def show_units(self, units: UnitSystem) -> None:
        """Show the lines in these units."""
        for key, field in self.fields.items():
            field.show_value(field.value, units, self._defaults[key])

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Esc put the form aside, after it has put back what was being typed in a line."""
        if event.key() == Qt.Key.Key_Escape:
            self.cancelled.emit()
            event.accept()
            return
        super().keyPressEvent(event)

    def accept(self) -> None:
        """Take everything, or say at the line what is missing."""
        self.complaint.say("")
        values: dict[str, Any] = {key: line.text().strip() for key, line in self.lines.items()}
        for key, field in self.fields.items():
            if field.line.isModified() or not field.line.text():
                field.take()
            if field.is_kept:
                field.go_to_trouble()
                return
            values[key] = field.value
        try:
            self._take(values)
        except ModelError as error:
            self.complaint.say(str(error))
            return
        self.taken.emit()

    def _line(self, line: Wanted, units: UnitSystem) -> QWidget:
        if line.dimension is None:
            words = QLineEdit(str(line.initial or ""))
            words.setAccessibleName(said(line.label))
            words.returnPressed.connect(self.accept)
            self.lines[line.key] = words
            return words
        field = QuantityField(said(line.label), line.dimension, optional=line.optional)
        field.show_value(line.initial if isinstance(line.initial, float) else None, units, line.default)
        field.committed.connect(lambda value: field.show_value(value, field.units, line.default))
        field.line.returnPressed.connect(self._accept_if_taken)
        self.fields[line.key] = field
        return field

    def _accept_if_taken(self) -> None:
        """Enter in the last line takes the form; in another it goes on to the next."""
        lines = [field.line for field in self.fields.values()]
        here = next((i for i, line in enumerate(lines) if line.hasFocus()), len(lines) - 1)
        if here == len(lines) - 1:
            self.accept()
        else:
            lines[here + 1].setFocus()
            lines[here + 1].selectAll()


def _label(words: str) -> QLabel:
    label = QLabel(said(words))
    label.setObjectName("label")
    label.setWordWrap(True)
    label.setFixedWidth(LABEL_PX)
    label.setContentsMargins(0, 4, 0, 0)
    return label
