"""Drawing by clicks: corner after corner, a typed length where it must be exact, Enter or the first corner to close."""

from __future__ import annotations

import math

from PySide6.QtCore import Qt

from grillestack.app.canvas.gestures.drawn_things import Drawn, finish_drawing, whole_outline
from grillestack.app.canvas.gestures.gesture import NO_MARKS, Drawing, Fact, Marks, Pointer
from grillestack.app.canvas.gestures.outline_handles import HANDLE_REACH_PX
from grillestack.app.canvas.gestures.place_corner import (
    Guides,
    Place,
    Placed,
    at_length,
    corner_lines,
    place_corner,
)
from grillestack.app.canvas.gestures.snap import Axis, SnapLine, front_snap_lines, side_snap_lines
from grillestack.app.canvas.gestures.typed_length import ENTER, TypedLength
from grillestack.app.session import Session
from grillestack.model.values import ModelError
from grillestack.units.quantity import Dimension, QuantityError
from grillestack.units.show import show_quantity

MIRROR_KEY = Qt.Key.Key_M
_SAME_MM = 0.01
_CLOSED_HINT = "Type a length for an exact side. Enter or the first corner closes it, Backspace takes a corner back, Esc leaves nothing."
_OPEN_HINT = "Enter or a double click ends it, Backspace takes a corner back, Esc leaves nothing."


class DrawTool:
    """Draws one outline, or one line, of the nose."""

    def __init__(self, session: Session, drawn: Drawn, *, mirrored: bool = False) -> None:
        self._session = session
        self._drawn = drawn
        self._mirrored = mirrored and drawn.is_outline
        self._across = Axis.Y if drawn.is_outline else Axis.X
        self._lines: tuple[SnapLine, ...] = (
            front_snap_lines(session.project, ()) if drawn.is_outline else side_snap_lines(session.project, ())
        )
        self._corners: list[Place] = []
        self._pointer: Pointer | None = None
        self._typed = TypedLength()
        self._is_over = False

    # --- what is seen of it -----------------------------------------------------------------------------------------

    @property
    def drawn(self) -> Drawn:
        """Return what is being drawn."""
        return self._drawn

    @property
    def is_mirrored(self) -> bool:
        """Return whether the other half is drawn by itself."""
        return self._mirrored

    @property
    def corners(self) -> tuple[Place, ...]:
        """Return the corners that stand."""
        return tuple(self._corners)

    @property
    def is_over(self) -> bool:
        """Return whether the drawing is made or given up."""
        return self._is_over

    @property
    def marks(self) -> Marks:
        """Return the drawing so far, the side under way and its length and angle."""
        if self._is_over:
            return NO_MARKS
        hint = self._hint()
        if self._pointer is None:
            return Marks(hint=hint)
        placed = self._placed(self._pointer)
        run = (*self._corners, placed.at_mm)
        closes = self._closes_at(self._pointer)
        drawing = Drawing(
            corners_mm=self.corners,
            at_mm=self._corners[0] if closes else placed.at_mm,
            mirrored_mm=whole_outline(self._corners if closes else run, mirrored=True) if self._mirrored else (),
            closes=closes,
            is_outline=self._drawn.is_outline,
        )
        heading, facts = self._measured(placed.at_mm, closes=closes)
        snaps = () if closes or self._typed.text else placed.snaps
        return Marks(snaps=snaps, moved_text=heading, facts=facts, drawing=drawing, hint=hint)

    # --- the hand ---------------------------------------------------------------------------------------------------

    def hover(self, at: Pointer) -> None:
        """Let the side under way follow."""
        self._pointer = at

    def press(self, at: Pointer) -> None:
        """Set a corner, or close the outline on its first one."""
        self._pointer = at
        if self._closes_at(at):
            self._finish()
        elif self._typed.text:
            self._set_typed()
        else:
            self._set(self._placed(at).at_mm)

    def release(self, at: Pointer) -> None:
        """Corners are set by presses alone."""

    def double_click(self, at: Pointer) -> None:
        """Close: the first press of the double click has set the last corner."""
        self._pointer = at
        self._finish()

    def set_mirrored(self, *, mirrored: bool) -> None:
        """Draw the other half too, or no longer."""
        self._mirrored = mirrored and self._drawn.is_outline

    def cancel(self) -> None:
        """Give the drawing up; nothing is left of it."""
        self._corners.clear()
        self._is_over = True

    # --- keys -------------------------------------------------------------------------------------------------------

    def wants_key(self, key: int, text: str) -> bool:
        """Return whether the key writes a length, closes, takes back or gives up."""
        own = (Qt.Key.Key_Escape, Qt.Key.Key_Backspace, Qt.Key.Key_Delete, *ENTER)
        return key in own or self._typed.wants(key, text) or self._is_mirror_key(key)

    def key(self, key: int, text: str) -> None:
        """Answer a key."""
        if key == Qt.Key.Key_Escape:
            self.cancel()
        elif key in ENTER:
            self._set_typed() if self._typed.text else self._finish()
        elif self._is_mirror_key(key):
            self.set_mirrored(mirrored=not self._mirrored)
        elif self._typed.wants(key, text):
            self._typed.take(key, text)
        elif self._corners:
            self._corners.pop()

    def _is_mirror_key(self, key: int) -> bool:
        return key == MIRROR_KEY and not self._typed.text and self._drawn.is_outline

    # --- inside -----------------------------------------------------------------------------------------------------

    def _hint(self) -> str:
        what = f"Draw the {self._drawn.words}: click its corners"
        what += " from front to back." if not self._drawn.is_outline else "."
        if not self._corners:
            half = " Mirrored: draw one half, from the centre line to the centre line." if self._mirrored else ""
            return f"{what}{half} Type a length and Enter for an exact side."
        return _CLOSED_HINT if self._drawn.is_outline else _OPEN_HINT

    def _placed(self, at: Pointer) -> Placed:
        last = self._corners[-1] if self._corners else None
        if last is not None and self._typed.text:
            try:
                return Placed(at_length(at, last, self._typed.length_mm(self._session.units)))
            except QuantityError:
                pass  # half a number is no fault yet: the side follows the pointer until it is one
        lines = (*self._lines, *corner_lines(self._corners, self._across))
        return place_corner(at, last, Guides(lines=lines, across=self._across, units=self._session.units))

    def _closes_at(self, at: Pointer) -> bool:
        if not self._drawn.is_outline or self._typed.text or len(self._corners) < 2:
            return False
        if len(whole_outline(self._corners, mirrored=self._mirrored)) < self._drawn.fewest:
            return False
        away_mm = math.dist(self._corners[0], (at.across_mm, at.z_mm))
        return away_mm * at.px_per_mm <= HANDLE_REACH_PX

    def _set(self, place: Place) -> None:
        if not self._corners or math.dist(self._corners[-1], place) > _SAME_MM:
            self._corners.append(place)

    def _set_typed(self) -> None:
        if not self._corners or self._pointer is None:
            self._typed.clear()
            self._session.message.emit("A length needs a corner to begin at: click the first corner, then type.")
            return
        try:
            length_mm = self._typed.length_mm(self._session.units)
        except QuantityError as error:
            self._session.message.emit(str(error))
            return
        if length_mm <= 0:
            self._session.message.emit("The side must be longer than nothing: type its length again.")
            return
        self._set(at_length(self._pointer, self._corners[-1], length_mm))
        self._typed.clear()

    def _finish(self) -> None:
        corners = whole_outline(self._corners, mirrored=self._mirrored)
        try:
            finish_drawing(self._session, self._drawn, corners)
        except ModelError as error:
            self._session.message.emit(str(error))
            return
        self._is_over = True

    def _measured(self, at: Place, *, closes: bool) -> tuple[str, tuple[Fact, ...]]:
        if closes:
            return f"close the {self._drawn.words}", ()
        if not self._corners:
            return "", ()
        last = self._corners[-1]
        length = show_quantity(math.dist(last, at), Dimension.LENGTH, self._session.units)
        heading = f"length {self._typed.shown(self._session.units)}▏" if self._typed.text else length
        return heading, (Fact(words="angle", now_text=angle_words(last, at)),)


def angle_words(start: Place, end: Place) -> str:
    """Return how a side leans, from level: 0° is level, 90° upright."""
    across, up = abs(end[0] - start[0]), abs(end[1] - start[1])
    if across == 0 and up == 0:
        return "none yet"
    lean_deg = math.degrees(math.atan2(up, across))
    if lean_deg < 0.05:
        return "level"
    return "upright" if lean_deg > 89.95 else f"{lean_deg:.1f}° from level"
