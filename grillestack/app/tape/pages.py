"""The lines of one step of the tape form."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QLineEdit, QPushButton, QWidget

from grillestack.app.panels.field import QuantityField
from grillestack.app.panels.quiet_box import QuietBox
from grillestack.app.tape.steps import MOUNT, PORT, Asked, Step, StepName
from grillestack.app.tape.taped import NAMES, USUAL_TYPES, Corner, Tanks, Taped, TapedPort
from grillestack.model.core_description import CoreType
from grillestack.model.parts import Facing, PortPurpose
from grillestack.units.display import UnitSystem

_LABEL_PX = 130
_ROLES = tuple((words.removeprefix("Measured "), role) for role, words in NAMES.items())
_TYPES = (
    ("as is usual", None),
    *((core_type.value.replace("-", " "), core_type) for core_type in CoreType),
)

Hands = Mapping[str, Callable[..., None]]


class Page(QWidget):
    """Builds the lines of its step and hands on what is typed; it knows which line means what in the picture."""

    def __init__(self, step: Step, taped: Taped, units: UnitSystem, hands: Hands) -> None:
        super().__init__()
        self._hands = hands
        self._units = units
        self.fields: dict[str, QuantityField] = {}
        self._meant: dict[QWidget, str] = {}
        self._order: list[QWidget] = []
        self._begins: list[QWidget] = []
        self._row = 0
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 4, 0)
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(6)
        self._grid.setColumnStretch(1, 1)
        self._build(step, taped)
        self._grid.setRowStretch(self._row, 1)

    def watched(self) -> tuple[QWidget, ...]:
        """Return the widgets whose focus shows something in the picture."""
        return tuple(self._meant)

    def meant_by(self, widget: QWidget) -> str | None:
        """Return which measure that widget is about."""
        return self._meant.get(widget)

    def focus_first(self) -> None:
        """Put the cursor into the first line."""
        if self._order:
            self._order[0].setFocus()

    def focus_last(self) -> None:
        """Put the cursor into the first line of what was added last."""
        if self._begins:
            self._begins[-1].setFocus()

    @property
    def is_kept(self) -> bool:
        """Return whether something typed here could not be taken."""
        return any(field.is_kept for field in self.fields.values())

    def focus_kept(self) -> None:
        """Put the cursor where something could not be taken."""
        next(field for field in self.fields.values() if field.is_kept).line.setFocus()

    def settle(self) -> None:
        """Have all that is typed count now, as if the cursor had left it."""
        for field in self.fields.values():
            if field.line.isModified():
                field.take()

    def complain(self, found: Mapping[str, str]) -> None:
        """Show each sentence under its field, and put the cursor into the first."""
        first = None
        for key, field in self.fields.items():
            field.complaint.say(found.get(key, ""))
            if key in found and first is None:
                first = field
        if first is not None:
            first.line.setFocus()

    def show_units(self, units: UnitSystem) -> None:
        """Show the lines in these units."""
        self._units = units
        for field in self.fields.values():
            field.show_value(field.value, units)

    def _build(self, step: Step, taped: Taped) -> None:
        measure = self._hands["measure"]
        if step.name is StepName.WHAT:
            self._choice("Kind", _ROLES, taped.role, lambda role: measure("role", role))
            self._choice("Built as", _TYPES, taped.core_type, lambda built: measure("core_type", built))
            usual = USUAL_TYPES[taped.role].value.replace("-", " ")
            self._note(f"Usual for this kind: {usual}. It says what the core can do until you know better.")
        if step.name is StepName.TANKS:
            options = [(tanks.value, tanks) for tanks in Tanks]
            self._choice("Tanks are", options, taped.tanks, lambda tanks: measure("tanks", tanks))
        if step.name is StepName.WEIGHT:
            self._line("Name", taped.name, NAMES[taped.role], lambda words: measure("name", words))
        for asked in step.asked:
            self._quantity(asked, asked.key, getattr(taped, asked.key), functools.partial(measure, asked.key))
        if step.name in (StepName.PORTS, StepName.MOUNTS):
            self._things("ports" if step.name is StepName.PORTS else "mounts", taped)

    def _things(self, kind: str, taped: Taped) -> None:
        things: Sequence[Any] = getattr(taped, kind)
        word = "port" if kind == "ports" else "mount"
        for number, one in enumerate(things):
            self._thing(kind, number, one)
            self._button(f"Remove {word} {number + 1}", functools.partial(self._hands["remove"], kind, number))
        self._button(f"Add a {word}" if not things else f"Add another {word}", lambda: self._hands["add"](kind))

    def _thing(self, kind: str, number: int, one: Any) -> None:
        measure_in, prefix = self._hands["measure_in"], f"{kind}.{number}"

        def put(key: str) -> Callable[[Any], None]:
            return lambda value: measure_in(kind, number, key, value)

        self._note(f"{'Port' if kind == 'ports' else 'Mount'} {number + 1}")
        if isinstance(one, TapedPort):
            purposes = [(p.value, p) for p in PortPurpose]
            first: QWidget = self._choice("Purpose", purposes, one.purpose, put("purpose"), f"{prefix}.purpose")
            facings = [(f.value, f) for f in Facing]
            self._choice("Points to the", facings, one.facing, put("facing"), f"{prefix}.facing")
        else:
            first = self._line("What it is", one.kind_text, "pin, ear, bolt hole", put("kind_text"))
            self._meant[first] = f"{prefix}.kind_text"
        self._begins.append(first)
        corners = [(c.value, c) for c in Corner]
        self._choice("From the corner", corners, one.corner, put("corner"), f"{prefix}.corner")
        for asked in PORT if kind == "ports" else MOUNT:
            self._quantity(asked, f"{prefix}.{asked.key}", getattr(one, asked.key), put(asked.key))

    def _quantity(self, asked: Asked, key: str, value: float | None, take: Callable[[float | None], None]) -> None:
        # An empty line is a question still open, not a mistake; what must be there is asked for at Next.
        field = QuantityField(asked.label, asked.dimension, optional=True)
        field.show_value(value, self._units)
        field.line.setPlaceholderText(asked.if_empty)

        def taken(new: float | None) -> None:
            field.show_value(new, self._units)
            field.line.setPlaceholderText(asked.if_empty)
            take(new)

        field.committed.connect(taken)
        field.line.returnPressed.connect(lambda: self._go_on_from(field.line))
        self.fields[key] = field
        self._meant[field.line] = key
        self._order.append(field.line)
        self._put(asked.label, field)

    def _choice(
        self, label: str, options: Sequence[tuple[str, Any]], value: Any, take: Callable[[Any], None], meant: str = ""
    ) -> QComboBox:
        box = QuietBox()
        box.setAccessibleName(label)
        for words, each in options:
            box.addItem(words, each)
        values = [each for _, each in options]
        box.setCurrentIndex(values.index(value))
        box.activated.connect(lambda index: take(values[index]))
        if meant:
            self._meant[box] = meant
        self._order.append(box)
        self._put(label, box)
        return box

    def _line(self, label: str, value: str, stand_in: str, take: Callable[[str], None]) -> QLineEdit:
        line = QLineEdit(value)
        line.setAccessibleName(label)
        line.setPlaceholderText(stand_in)
        line.textEdited.connect(take)
        line.returnPressed.connect(lambda: self._go_on_from(line))
        self._order.append(line)
        self._put(label, line)
        return line

    def _note(self, words: str) -> None:
        label = QLabel(words)
        label.setObjectName("faint")
        label.setWordWrap(True)
        self._grid.addWidget(label, self._row, 0, 1, 2)
        self._row += 1

    def _button(self, words: str, act: Callable[[], None]) -> None:
        button = QPushButton(words)
        button.setAccessibleName(words)
        button.clicked.connect(lambda _checked=False: act())
        self._order.append(button)
        self._grid.addWidget(button, self._row, 0, 1, 2, Qt.AlignmentFlag.AlignLeft)
        self._row += 1

    def _put(self, label: str, widget: QWidget) -> None:
        words = QLabel(label)
        words.setObjectName("label")
        words.setFixedWidth(_LABEL_PX)
        words.setWordWrap(True)
        words.setBuddy(widget)
        words.setContentsMargins(0, 4, 0, 0)
        self._grid.addWidget(words, self._row, 0, Qt.AlignmentFlag.AlignTop)
        self._grid.addWidget(widget, self._row, 1)
        self._row += 1

    def _go_on_from(self, line: QWidget) -> None:
        """Enter goes to the next line, and from the last one to the next step."""
        here = next((field for field in self.fields.values() if field.line is line), None)
        if here is not None and here.line.isModified():
            here.take()
        if here is not None and here.is_kept:
            return
        rest = self._order[self._order.index(line) + 1 :]
        following = next(iter(self._typed(rest)), None)
        if following is None:
            self._hands["go_on"]()
        else:
            following.setFocus()

    def _typed(self, widgets: Sequence[QWidget]) -> Iterator[QWidget]:
        return (widget for widget in widgets if isinstance(widget, QLineEdit | QComboBox))
