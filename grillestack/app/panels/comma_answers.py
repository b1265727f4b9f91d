"""What may the comma in a number mean: each meaning stands under the field as a button, and none is taken by itself."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from grillestack.units.display import DecimalMark
from grillestack.units.show import marked


class CommaAnswers(QWidget):
    """A question with its answers, one button each; takes no room while there is nothing to ask."""

    answered = Signal(str)  # the answer as it is typed with a point

    def __init__(self) -> None:
        super().__init__()
        self.question = QLabel()
        self.question.setObjectName("complaint")
        self.question.setWordWrap(True)
        self._row = QHBoxLayout()
        self._row.setSpacing(6)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addWidget(self.question)
        layout.addLayout(self._row)
        self.buttons: list[QPushButton] = []
        self.hide()

    @property
    def asks(self) -> bool:
        """Return whether a question stands."""
        return bool(self.buttons)

    def ask(self, text: str, answers: Sequence[str], unit: str, mark: DecimalMark) -> str:
        """Show the question with its answers, and return it in words; figures are written with that mark."""
        self.clear()
        for answer in answers:
            words = marked(answer, mark)
            bare = not any(letter.isalpha() or letter in "%°'\"" for letter in answer)
            shown = f"{words} {unit}".strip() if bare else words
            button = QPushButton(f"{shown}?")
            button.setAutoDefault(True)  # Enter presses it, as the space bar does
            button.setAccessibleName(f"Yes, {shown}")
            button.clicked.connect(lambda _checked=False, answer=answer: self.answered.emit(answer))
            self._row.addWidget(button)
            self.buttons.append(button)
        self._row.addStretch(1)
        sentence = f"What does the comma in “{text}” mean?"
        self.question.setText(sentence)
        self.show()
        return sentence

    def clear(self) -> None:
        """Ask nothing."""
        for button in self.buttons:
            button.hide()
            button.deleteLater()
        self.buttons.clear()
        while self._row.count():
            self._row.takeAt(0)
        self.hide()
