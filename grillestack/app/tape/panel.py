"""The form that asks for a part in the order in which one measures it, with a picture of what is meant."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCheckBox, QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.field import Complaint
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.app.tape.faults import faults
from grillestack.app.tape.pages import Page
from grillestack.app.tape.sketch import Sketch
from grillestack.app.tape.steps import STEPS, StepName, step_of
from grillestack.app.tape.taped import Taped, TapedMount, TapedPort, core_from
from grillestack.model.values import ModelError


class TapePanel(QWidget):
    """Holds what was measured; `measured` carries the core and whether it shall go to the own parts too."""

    measured = Signal(object, bool)
    put_aside = Signal()

    def __init__(self, session: Session, palette: Palette, taped: Taped | None = None) -> None:
        super().__init__()
        self._session = session
        self.taped = taped or Taped()
        self._step = 0
        self.setAccessibleName("Measure a part")
        self.sketch = Sketch(palette, self)
        self.heading = QLabel(self)
        self.heading.setObjectName("heading")
        self.words = QLabel(self)
        self.words.setObjectName("faint")
        self.words.setWordWrap(True)
        self.complaint = Complaint()
        self.keep = QCheckBox(said("Keep it among my own parts too"))
        self.keep.setAccessibleName("Keep it among my own parts too")
        self.back, self.next, self.aside = (
            QPushButton(said("Back")),
            QPushButton(said("Next")),
            QPushButton(said("Put aside")),
        )
        self.next.setObjectName("chief")
        self._scroll = QScrollArea(self)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.page = self._made_page()
        self._lay_out()
        self.back.clicked.connect(lambda _checked=False: self.go_to(self._step - 1))
        self.next.clicked.connect(lambda _checked=False: self.go_on())
        self.aside.clicked.connect(lambda _checked=False: self.put_aside.emit())
        session.units_changed.connect(self._show_units)
        self.go_to(0)

    @property
    def step(self) -> StepName:
        """Return the step that is shown."""
        return STEPS[self._step].name

    def begin(self) -> None:
        """Put the cursor into the first line of the step."""
        self.page.focus_first()

    def show_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        self.sketch.show_palette(palette)

    def go_to(self, step: int) -> None:
        """Show that step; what was typed on this one is taken along, right or wrong."""
        self.page.settle()
        self._step = min(max(step, 0), len(STEPS) - 1)
        shown = STEPS[self._step]
        self.heading.setText(f"Measure a part: {shown.name.value} ({self._step + 1} of {len(STEPS)})")
        self.words.setText(shown.words)
        self.complaint.say("")
        self._show_page()
        last = self._step == len(STEPS) - 1
        self.back.setEnabled(self._step > 0)
        self.next.setText(said("Put it on the nose") if last else said("Next"))
        self.next.setAccessibleName(self.next.text())
        self.keep.setVisible(last)
        self.begin()

    def go_on(self) -> None:
        """Go to the next step if nothing on this one is wrong; after the last, hand the part over."""
        self.page.settle()
        if self.page.is_kept:
            self.page.focus_kept()
            return
        found = faults(self.taped, self._session.units)
        here = {key: words for key, words in found.items() if step_of(key) == self._step}
        if here:
            self.page.complain(here)
            return
        if self._step < len(STEPS) - 1:
            self.go_to(self._step + 1)
            return
        if found:
            self.go_to(min(step_of(key) for key in found))
            self.page.complain({key: words for key, words in found.items() if step_of(key) == self._step})
            return
        try:
            core = core_from(self.taped)
        except ModelError as error:
            self.complaint.say(str(error))
            return
        self.measured.emit(core, self.keep.isChecked())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Esc put the form aside; what was measured stays for the next time."""
        if event.key() == Qt.Key.Key_Escape:
            self.page.settle()
            self.put_aside.emit()
            event.accept()
            return
        super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Draw what the field that takes the focus means."""
        if event.type() is QEvent.Type.FocusIn and isinstance(watched, QWidget):
            meant = self.page.meant_by(watched)
            if meant is not None:
                self.sketch.show_taped(self.taped, meant, self._session.units)
                self._scroll.ensureWidgetVisible(watched, 0, 24)
        return super().eventFilter(watched, event)

    def _made_page(self) -> Page:
        hands: dict[str, Callable[..., None]] = {
            "measure": self._measure,
            "measure_in": self._measure_in,
            "add": self._add,
            "remove": self._remove,
            "go_on": self.go_on,
        }
        page = Page(STEPS[self._step], self.taped, self._session.units, hands)
        for widget in page.watched():
            widget.installEventFilter(self)
        return page

    def _show_page(self) -> None:
        self.page = self._made_page()
        old = self._scroll.takeWidget()
        if old is not None:
            old.hide()
            old.setParent(None)
            old.deleteLater()
        self._scroll.setWidget(self.page)
        self.sketch.show_taped(self.taped, "", self._session.units)

    def _measure(self, key: str, value: Any) -> None:
        self.taped = dataclasses.replace(self.taped, **{key: value})
        self._draw()

    def _measure_in(self, kind: str, number: int, key: str, value: Any) -> None:
        things: list[Any] = list(getattr(self.taped, kind))
        things[number] = dataclasses.replace(things[number], **{key: value})
        self._measure(kind, tuple(things))

    def _add(self, kind: str) -> None:
        self.page.settle()
        one: TapedPort | TapedMount = TapedPort() if kind == "ports" else TapedMount()
        self._measure(kind, (*getattr(self.taped, kind), one))
        self._show_page()
        self.page.focus_last()

    def _remove(self, kind: str, number: int) -> None:
        self.page.settle()
        things: Sequence[Any] = getattr(self.taped, kind)
        self._measure(kind, tuple(one for place, one in enumerate(things) if place != number))
        self._show_page()
        self.page.focus_first()

    def _draw(self) -> None:
        self.sketch.show_taped(self.taped, self.sketch.meant, self._session.units)

    def _show_units(self, _units: object) -> None:
        self.page.show_units(self._session.units)
        self._draw()

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        for button in (self.back, self.next):
            buttons.addWidget(button)
        buttons.addStretch(1)
        buttons.addWidget(self.aside)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 8, 12, 12)
        layout.setSpacing(8)
        layout.addWidget(self.heading)
        layout.addWidget(self.words)
        layout.addWidget(self.sketch, 3)
        layout.addWidget(self._scroll, 4)
        layout.addWidget(self.keep)
        layout.addWidget(self.complaint)
        layout.addLayout(buttons)
