"""The arrow keys on the front view: the chosen corner of an outline moves, else what is selected."""

from __future__ import annotations

from grillestack.app.canvas.gestures.outline_hand import OutlineHand
from grillestack.app.nose_things import put_thing, thing_name
from grillestack.app.nudge import Nudge, step_mm
from grillestack.app.session import Session
from grillestack.model.outline_edits import move_corner
from grillestack.model.values import ModelError


class CornerSteps:
    """Moves the corner that is chosen; a run of presses is one step to undo."""

    def __init__(self, session: Session, hand: OutlineHand, nudge: Nudge) -> None:
        self._session = session
        self._hand = hand
        self._nudge = nudge

    def step(self, rearward: int, right: int, up: int, *, large: bool) -> None:
        """Move the chosen corner by so many steps, or the selection if no corner is chosen."""
        thing, place = self._hand.thing(), self._hand.chosen
        if thing is None or place is None:
            self._nudge.step(rearward, right, up, large=large)
            return
        by_mm = step_mm(self._session.units, large=large)
        corner = thing.outline[place]
        try:
            moved = move_corner(thing, place, corner.y_mm + right * by_mm, corner.z_mm + up * by_mm)
            project = put_thing(self._session.project, moved)
        except ModelError as error:
            self._session.message.emit(str(error))
            return
        self._session.apply(f"move a corner of {thing_name(thing)}", project, self._nudge.run_key(f"corner {place}"))
        self._session.message.emit(self._hand.corner_words())
