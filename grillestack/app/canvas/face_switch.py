"""The small switch beside the legend: what the painted face shows, and of which duty case."""

from __future__ import annotations

import functools

from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QMenu, QToolButton, QWidget

from grillestack.app.canvas.face_show import FaceChoice, FaceShow
from grillestack.app.said import said
from grillestack.app.session import Session

_WORDS = {
    FaceShow.AHEAD: ("ahead", "Paint the face by what lies ahead of it"),
    FaceShow.TEMPERATURE: ("warmth", "Paint the face by how warm the air is that enters it"),
    FaceShow.SPEED: ("speed", "Paint the face by how fast the air enters it"),
}


class FaceSwitch(QWidget):
    """Three buttons of which one is down, and the duty case while air is shown."""

    def __init__(self, session: Session, choice: FaceChoice, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._choice = choice
        self.setObjectName("faceSwitch")
        self.setAccessibleName("What the face shows")
        self.setCursor(Qt.CursorShape.ArrowCursor)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2)
        self.buttons: dict[FaceShow, QToolButton] = {}
        group = QButtonGroup(self)
        for show, (words, hint) in _WORDS.items():
            button = self.buttons[show] = _button(words, hint)
            button.setCheckable(True)
            button.clicked.connect(lambda _checked=False, show=show: choice.choose(show))
            group.addButton(button)
            row.addWidget(button)
        self.case_button = _button("case ▾", "Choose the duty case whose air is shown")
        self.case_menu = QMenu(self.case_button)
        self.case_button.clicked.connect(self.ask_case)
        row.insertWidget(0, self.case_button)
        self.follow()

    def ask_case(self) -> None:
        """Offer the duty cases over the button."""
        fill_cases(self.case_menu, self._session, self._choice)
        corner = self.case_button.mapToGlobal(QPoint(0, 0))
        self.case_menu.popup(corner - QPoint(0, self.case_menu.sizeHint().height()))

    def event(self, event: QEvent) -> bool:
        """Take the room that the buttons ask for, also when letters or buttons become larger."""
        if event.type() == QEvent.Type.LayoutRequest:
            self.adjustSize()
        return super().event(event)

    def follow(self) -> None:
        """Show what is chosen."""
        self.buttons[self._choice.show].setChecked(True)
        self.case_button.setVisible(self._choice.show is not FaceShow.AHEAD)
        self.adjustSize()


def fill_cases(menu: QMenu, session: Session, choice: FaceChoice) -> None:
    """Offer the deciding duty case and every one by its name."""
    menu.clear()
    group = QActionGroup(menu)
    cases = session.assessment.cases if session.assessment else ()
    wished = choice.case_id if any(case.case_id == choice.case_id for case in cases) else None
    for words, case_id in (("the deciding case", None), *((case.name, case.case_id) for case in cases)):
        action = QAction(words, menu)
        action.setCheckable(True)
        action.setChecked(case_id == wished)
        action.triggered.connect(functools.partial(_choose_case, choice, case_id))
        group.addAction(action)
        menu.addAction(action)


def _choose_case(choice: FaceChoice, case_id: str | None, _checked: bool = False) -> None:  # noqa: FBT001, FBT002  Qt's signature
    choice.choose_case(case_id)


def _button(words: str, hint: str) -> QToolButton:
    button = QToolButton()
    button.setObjectName("face")
    button.setText(said(words))
    button.setToolTip(said(hint))
    button.setAccessibleName(said(hint))
    button.setAutoRaise(True)
    # The view walks through the parts by Tab; what is shown is switched by its own keys.
    button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    return button
