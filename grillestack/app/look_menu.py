"""The lines of the View menu that say what is looked at: one part, a measured distance, the air on the face."""

from __future__ import annotations

import functools

from PySide6.QtWidgets import QMenu

from grillestack.app.canvas.face_show import FaceChoice, FaceShow
from grillestack.app.canvas.face_switch import fill_cases
from grillestack.app.canvas.front_view import FrontView
from grillestack.app.measuring import Measuring
from grillestack.app.menus import Choice, Entry, Filled, Line
from grillestack.app.session import Session

_FACES = (
    ("Face: what lies &ahead", FaceShow.AHEAD, "Ctrl+1"),
    ("Face: how &warm the air is", FaceShow.TEMPERATURE, "Ctrl+2"),
    ("Face: how fa&st the air is", FaceShow.SPEED, "Ctrl+3"),
)


def near_lines(session: Session, front: FrontView, measuring: Measuring) -> tuple[Line, ...]:
    """Return the lines that bring one part near and measure between two places."""

    def zoom_to_selected() -> None:
        if not front.zoom_to_parts(session.selection):
            session.message.emit(
                "Nothing is selected to zoom to: click a part first, or double-click it in the pack list."
            )

    return (
        Entry("Zoom to the &part", zoom_to_selected, "Ctrl+9", hint="Show what is selected as large as there is room"),
        Entry(
            "&Measure between…",
            measuring.switch,
            "Ctrl+M",
            hint="Measure between two edges or corners; nothing of it stays in the project",
            row_words="Measure",
        ),
    )


def face_lines(session: Session, choice: FaceChoice) -> tuple[Line, ...]:
    """Return what the face may show, of which one is on, and the duty case whose air is shown."""

    def fill(menu: QMenu) -> None:
        fill_cases(menu, session, choice)

    def line(words: str, show: FaceShow, keys: str) -> Choice:
        return Choice(words, functools.partial(choice.choose, show), "face", lambda: choice.show is show, keys)

    return (*(line(*one) for one in _FACES), Filled("Air of &duty case", fill))
