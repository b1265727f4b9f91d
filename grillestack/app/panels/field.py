"""A field that takes what is on the tape: it keeps what was typed, says what is wrong, and marks a default as one."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.panels.comma_answers import CommaAnswers
from grillestack.app.panels.unit_mark import UnitMark
from grillestack.app.said import said
from grillestack.assess.defaults import Default
from grillestack.units.display import UnitSystem
from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import CommaQuestionError, Dimension, QuantityError
from grillestack.units.show import display_unit, show_bare

NOT_GIVEN = "not given"


class TypedLine(QLineEdit):
    """A line that tells when what was typed shall count (Enter or leaving) and when it shall be forgotten (Esc)."""

    typed = Signal()
    forgotten = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.editingFinished.connect(self._finish)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Esc put the shown value back."""
        if event.key() == Qt.Key.Key_Escape and self.isModified():
            self.forgotten.emit()
            event.accept()
            return
        super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Keep Esc and undo for the text while something is typed."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            if event.key() == Qt.Key.Key_Escape and self.isModified():
                event.accept()
                return True
            # Undo and redo belong to the document until something is typed here.
            with_control = event.modifiers() & Qt.KeyboardModifier.ControlModifier
            if with_control and event.key() in (Qt.Key.Key_Z, Qt.Key.Key_Y) and not self.isModified():
                event.ignore()
                return False
        return super().event(event)

    def _finish(self) -> None:
        if self.isModified():
            self.typed.emit()


class Complaint(QLabel):
    """The plain sentence under a field; it takes no room while there is nothing to say."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("complaint")
        self.setWordWrap(True)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.hide()

    def say(self, sentence: str) -> None:
        """Show the sentence, or nothing."""
        self.setText(sentence)
        self.setVisible(bool(sentence))


class QuantityField(QWidget):
    """One quantity with its unit beside it; `committed` carries the value in the internal unit, or nothing."""

    committed = Signal(object)

    def __init__(self, name: str, dimension: Dimension, *, optional: bool = False) -> None:
        super().__init__()
        self._name = name
        self._dimension = dimension
        self._optional = optional
        self._units = UnitSystem.METRIC
        self._value: float | None = None
        self._default: Default | None = None
        self.line = TypedLine()
        self.line.setAccessibleName(name)
        self.line.setMinimumWidth(64)
        self.unit = UnitMark()
        self.complaint = Complaint()
        self.comma = CommaAnswers()
        self.because = QLabel()
        self.because.setObjectName("faint")
        self.because.setWordWrap(True)
        self.because.setTextFormat(Qt.TextFormat.PlainText)
        self.because.hide()
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        row.addWidget(self.line, 1)
        row.addWidget(self.unit)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(2)
        whole.addLayout(row)
        whole.addWidget(self.complaint)
        whole.addWidget(self.comma)
        whole.addWidget(self.because)
        self.setFocusProxy(self.line)
        # Not fixed: the complaint's lines depend on the width, and a fixed height would cut them.
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        self.line.typed.connect(self.take)
        self.line.forgotten.connect(self.forget)
        self.unit.toggled.connect(self.because.setVisible)
        self.comma.answered.connect(self._answer)
        self._render()

    @property
    def is_kept(self) -> bool:
        """Return whether something typed stands here that the document did not take."""
        return self.line.isModified()

    @property
    def value(self) -> float | None:
        """Return the value shown, in the internal unit."""
        return self._value

    @property
    def units(self) -> UnitSystem:
        """Return the system in which the value is shown."""
        return self._units

    def show_value(self, value: float | None, units: UnitSystem, default: Default | None = None) -> None:
        """Show the value of the document; what is being typed stays."""
        if (value, units, default) == (self._value, self._units, self._default) and not self.line.isModified():
            return
        self._value, self._units, self._default = value, units, default
        if not self.line.isModified():
            self._render()

    def lock(self, reason: str) -> None:
        """Make the field read-only and say why."""
        self.line.setReadOnly(True)
        self.line.setToolTip(reason)
        self.line.setAccessibleDescription(reason)

    def go_to_trouble(self) -> None:
        """Lead the keyboard to what is asked, or to what was typed."""
        (self.comma.buttons[0] if self.comma.asks else self.line).setFocus()

    def complain(self, sentence: str) -> None:
        """Show the sentence under the field and keep what was typed."""
        self.comma.clear()
        self.line.setModified(True)
        self.line.setProperty("refused", "yes")
        self._restyle()
        self.complaint.say(sentence)
        self.line.setAccessibleDescription(sentence)

    def forget(self) -> None:
        """Put the shown value back in the place of what was typed."""
        self.line.setModified(False)
        self._render()

    def typed_value(self) -> float | None:
        """Return what the text says in the internal unit, nothing if it is empty and may be.

        Raises
        ------
        QuantityError
            With the sentence for the person at the field.
        """
        text = self.line.text().strip()
        if not text and self._optional:
            return None
        return parse_quantity(text, self._dimension, display_unit(self._dimension, self._units))

    def take(self) -> None:
        """Hand on what is typed, or say under the field why it cannot be taken."""
        # A text that stands for the very value already there must not move it by the last digit shown.
        may_stay = self._value is not None or self._optional
        if may_stay and self.line.text().strip() == show_bare(self._value, self._dimension, self._units):
            self.forget()
            return
        try:
            value = self.typed_value()
        except CommaQuestionError as question:
            self._ask(question)
            return
        except QuantityError as error:
            self.complain(str(error))
            return
        self.line.setModified(False)
        self.complaint.say("")
        self.comma.clear()
        self.committed.emit(value)
        if not self.line.isModified():
            self._render()

    def _ask(self, question: CommaQuestionError) -> None:
        """Ask under the field what the comma means; after Enter the next Enter is the first answer."""
        self.complain("")
        text, unit = self.line.text().strip(), _unit_words(display_unit(self._dimension, self._units))
        by_enter = self.line.hasFocus()
        self.line.setAccessibleDescription(self.comma.ask(text, question.answers, unit, self._units.mark))
        if by_enter:
            self.go_to_trouble()

    def _answer(self, text: str) -> None:
        self.line.setText(text)
        self.line.setModified(True)
        self.line.setFocus()
        self.take()

    def _render(self) -> None:
        given = self._value is not None
        unit = display_unit(self._dimension, self._units)
        self.line.setText(show_bare(self._value, self._dimension, self._units))
        self.line.setModified(False)
        self.line.setProperty("refused", "no")
        self._restyle()
        self.complaint.say("")
        self.comma.clear()
        stands_in = self._default is not None and not given
        self.unit.show_unit(_unit_words(unit), self._name if stands_in else "")
        self.because.setText(self._why_default())
        if self._default is not None and not given:
            shown = show_bare(self._default.value, self._dimension, self._units)
            self.line.setPlaceholderText(said("{figure} default", figure=shown))
            self.line.setToolTip(f"Default: {self._default.source}")
            self.line.setAccessibleDescription(f"default {shown} {_unit_words(unit)}; {self._default.source}")
        elif not self.line.isReadOnly():
            self.line.setPlaceholderText(said(NOT_GIVEN) if self._optional else "")
            self.line.setToolTip("")
            self.line.setAccessibleDescription(_unit_words(unit))

    def _why_default(self) -> str:
        """Return what the default rests on, in a sentence or two."""
        if self._default is None:
            return ""
        shown = f"{show_bare(self._default.value, self._dimension, self._units)} {display_unit(self._dimension, self._units)}"
        source, tag = self._default.source, self._default.tag.value
        rests = source if tag in source else f"{source} ({tag})"
        return f"Default {shown.strip()}: {rests}. Type your own to replace it."

    def _restyle(self) -> None:
        style = self.line.style()
        style.unpolish(self.line)
        style.polish(self.line)


def _unit_words(unit: str) -> str:
    return "°" if unit == "deg" else unit
