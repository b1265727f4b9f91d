"""What the menus do to bring several parts in line or to make the gaps between them equal."""

from __future__ import annotations

from collections.abc import Mapping

from grillestack.app.locked import locked_among
from grillestack.app.session import Session
from grillestack.geometry.arrangement import Along, LineUp, Shift, line_up, spread
from grillestack.model.edits import move_parts
from grillestack.model.parts import Part
from grillestack.model.values import ModelError

_LINE_UP_WORDS = {
    LineUp.TOPS: "line up tops",
    LineUp.BOTTOMS: "line up lower edges",
    LineUp.MIDDLES_LEVEL: "line up middles level",
    LineUp.LEFT_SIDES: "line up left sides",
    LineUp.RIGHT_SIDES: "line up right sides",
    LineUp.MIDDLES_UPRIGHT: "line up middles upright",
    LineUp.FRONTS: "line up fronts",
    LineUp.REARS: "line up rears",
}
_SPREAD_WORDS = {
    Along.ACROSS: "equal gaps across",
    Along.UP: "equal gaps up",
    Along.DEPTH: "equal gaps fore and aft",
}


class ArrangeActs:
    """Each act is one step on the selected parts; with too few of them it says so."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def line_up(self, how: LineUp) -> None:
        """Bring the selected parts onto one line; a locked one stays and the others go to it."""
        parts = self._parts()
        if len(parts) < 2:
            self._session.message.emit("Select at least two parts to bring in line: Shift and a click adds one.")
            return
        self._apply(_LINE_UP_WORDS[how], line_up(parts, how))

    def spread(self, along: Along) -> None:
        """Make the gaps between the selected parts equal; the outermost two stay."""
        parts = self._parts()
        if len(parts) < 3:
            self._session.message.emit("Select at least three parts to make their gaps equal: the outermost two stay.")
            return
        shifts = spread(parts, along)
        stay = [name for name in locked_among(self._session.project, list(shifts)) if any(shifts[name])]
        if stay:
            self._session.stayed.emit(tuple(stay))
            return
        self._apply(_SPREAD_WORDS[along], shifts)

    def _parts(self) -> list[Part]:
        return [part for part in self._session.project.parts if part.id in self._session.selection]

    def _apply(self, label: str, shifts: Mapping[str, Shift]) -> None:
        project = self._session.project
        try:
            for name, (dx, dy, dz) in shifts.items():
                if dx or dy or dz:
                    project = move_parts(project, [name], dx_mm=dx, dy_mm=dy, dz_mm=dz)
        except ModelError as error:
            self._session.message.emit(str(error))
            return
        if project is self._session.project:
            self._session.message.emit("They stand so already.")
        self._session.apply(label, project)
