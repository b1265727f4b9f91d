"""The lines of the View menu that say what the painted face shows."""

from __future__ import annotations

import functools

from PySide6.QtWidgets import QMenu

from grillestack.app.canvas.face_show import FaceChoice, FaceShow
from grillestack.app.canvas.face_switch import fill_cases
from grillestack.app.menus import Choice, Filled, Line
from grillestack.app.session import Session

_LINES = (
    ("Face: what lies &ahead", FaceShow.AHEAD, "Ctrl+1"),
    ("Face: how &warm the air is", FaceShow.TEMPERATURE, "Ctrl+2"),
    ("Face: how fa&st the air is", FaceShow.SPEED, "Ctrl+3"),
)


def face_lines(session: Session, choice: FaceChoice) -> tuple[Line, ...]:
    """Return the lines: three showings of which one is on, and the duty case whose air is shown."""

    def fill(menu: QMenu) -> None:
        fill_cases(menu, session, choice)

    def line(words: str, show: FaceShow, keys: str) -> Choice:
        return Choice(words, functools.partial(choice.choose, show), "face", lambda: choice.show is show, keys)

    return (*(line(*one) for one in _LINES), Filled("Air of &duty case", fill))
