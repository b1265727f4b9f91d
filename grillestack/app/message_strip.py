"""The strip at the top of the window: one sentence at a time that waits for the hand, never in its way."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.said import said

Answer = tuple[str, Callable[[], None]]
_MOST = 3


class MessageStrip(QWidget):
    """Holds the last few sentences, each with its answers and a way to put it aside."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Messages")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Maximum)
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.setSpacing(0)
        self.hide()

    def say(self, sentence: str, answers: Sequence[Answer] = ()) -> None:
        """Show the sentence; the same one twice shows once, and the oldest without answers gives way to a fourth."""
        for row in self._shown():
            if row.sentence == sentence:
                self._drop(row)
        while len(self._shown()) >= _MOST:
            plain = [row for row in self._shown() if not row.answered]
            self._drop((plain or self._shown())[0])
        row = StripRow(sentence, answers)
        row.done.clicked.connect(lambda _checked=False: self._drop(row))
        for button, (_, act) in zip(row.buttons, answers, strict=True):
            button.clicked.connect(lambda _checked=False, act=act: self._answer(row, act))
        self._rows.addWidget(row)
        self.show()

    def sentences(self) -> list[str]:
        """Return what is shown."""
        return [row.sentence for row in self._shown()]

    def buttons(self) -> list[QPushButton]:
        """Return the buttons of all answers shown."""
        return [button for row in self._shown() for button in row.buttons]

    def clear(self) -> None:
        """Take all sentences away that ask for no answer."""
        for row in self._shown():
            if not row.answered:
                self._drop(row)

    def _shown(self) -> list[StripRow]:
        rows = [self._rows.itemAt(i) for i in range(self._rows.count())]
        widgets = [row.widget() for row in rows if row is not None]
        return [widget for widget in widgets if isinstance(widget, StripRow)]

    def _answer(self, row: StripRow, act: Callable[[], None]) -> None:
        self._drop(row)
        act()

    def _drop(self, row: StripRow) -> None:
        self._rows.removeWidget(row)
        row.hide()
        row.deleteLater()
        self.setVisible(bool(self._shown()))


class StripRow(QFrame):
    """One sentence with its answers."""

    def __init__(self, sentence: str, answers: Sequence[Answer]) -> None:
        super().__init__()
        self.setObjectName("strip")
        self.sentence = sentence
        self.answered = bool(answers)
        words = QLabel(sentence)
        words.setWordWrap(True)
        words.setTextFormat(Qt.TextFormat.PlainText)
        words.setAccessibleName(sentence)
        words.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self.buttons = [QPushButton(said(label)) for label, _ in answers]
        self.done = QPushButton(said("Close"))
        self.done.setAccessibleName(said("Put this message aside"))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(8, 4, 8, 4)
        layout.addWidget(words, 1)
        for button in [*self.buttons, self.done]:
            layout.addWidget(button)
