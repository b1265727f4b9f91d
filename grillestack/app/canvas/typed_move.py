"""Moving what is selected by a typed distance, begun by a key: the field stands at the part as it does during a drag."""

from __future__ import annotations

from typing import Final, Protocol

from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import QWidget

from grillestack.app.canvas.gestures.feed import GestureFeed
from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.grid import Grid
from grillestack.app.canvas.gestures.move import MoveGesture, Sheet
from grillestack.app.canvas.gestures.move_fore_aft import MoveForeAftGesture
from grillestack.app.canvas.gestures.shift import outline_of
from grillestack.app.canvas.gestures.snap import united
from grillestack.app.locked import free_to_move, seen_among
from grillestack.app.session import Session

_FIRST_ARROW: Final = {Sheet.FRONT: Qt.Key.Key_Up, Sheet.SIDE: Qt.Key.Key_Right, Sheet.PLAN: Qt.Key.Key_Up}


class MovingView(Protocol):
    """What a view answers to have something on it moved by key."""

    hand: GestureFeed
    grid: Grid

    def hold_document(self) -> None:
        """Take the document as it is for what the hand holds."""

    def pointer_at(self, px: QPointF, modifiers: Qt.KeyboardModifier) -> Pointer:
        """Return where that pixel is on the sheet."""

    def px_of(self, across_mm: float, z_mm: float) -> QPointF:
        """Return the pixel at a place of the sheet."""

    def hasFocus(self) -> bool:
        """Return whether the keyboard is there."""

    def setFocus(self) -> None:
        """Take the keyboard."""

    def viewport(self) -> QWidget:
        """Return the widget on which the sheet is seen."""


def begin_typed_move(view: MovingView, session: Session, sheet: Sheet) -> bool:
    """Let the distance be typed by which the selection is moved over that view; say whether there is anything to move."""
    chosen = seen_among(session.project, session.selection)
    if not chosen:
        session.message.emit("Nothing is selected: choose a part first, by a click or by Tab on the sheet.")
        return False
    free = free_to_move(session, chosen)
    if not free or view.hand.under_way:
        return False
    around = united(outline_of(session.project, name) for name in free)
    middle = (0.0, 0.0) if around is None else ((around.y0_mm + around.y1_mm) / 2, (around.z0_mm + around.z1_mm) / 2)
    view.setFocus()
    view.hold_document()
    at = view.pointer_at(view.px_of(*middle), Qt.KeyboardModifier.AltModifier)  # nothing it stands near draws it
    grid_on = view.grid.is_on
    gesture = (
        MoveForeAftGesture(session, free, grid_on=grid_on)
        if sheet is Sheet.SIDE
        else MoveGesture(session, free, sheet, grid_on=grid_on)
    )
    view.hand.take_up(gesture, at)
    view.hand.key(_FIRST_ARROW[sheet], "")
    view.viewport().update()
    return True


class TypedMoves:
    """Begins a typed move on the sheet that has the keyboard, else on the front view."""

    def __init__(self, session: Session, front: MovingView, side: MovingView, plan: MovingView) -> None:
        self._session = session
        self._sheets = ((side, Sheet.SIDE), (plan, Sheet.PLAN))
        self._front = front

    def begin(self) -> None:
        """Open the field at what is selected."""
        for view, sheet in self._sheets:
            if view.hasFocus():
                begin_typed_move(view, self._session, sheet)
                return
        begin_typed_move(self._front, self._session, Sheet.FRONT)
