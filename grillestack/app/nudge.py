"""The arrow keys: the selection moves by a millimetre or a sixteenth, and a run of presses is one step."""

from __future__ import annotations

from PySide6.QtCore import QObject, QTimer

from grillestack.app.canvas.gestures.shift import shifted
from grillestack.app.locked import free_to_move
from grillestack.app.session import Session
from grillestack.model.values import ModelError
from grillestack.units.display import UnitSystem

RUN_ENDS_AFTER_MS = 1200
_STEPS_MM = {UnitSystem.METRIC: (1.0, 10.0), UnitSystem.INCH: (25.4 / 16, 25.4 / 2)}


def step_mm(units: UnitSystem, *, large: bool) -> float:
    """Return how far one press of an arrow key moves."""
    return _STEPS_MM[units.base][1 if large else 0]


class Nudge(QObject):
    """Moves what is selected by steps; a pause, another selection or another act ends the run."""

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._session = session
        self._run = 0
        self.pause = QTimer(self)
        self.pause.setSingleShot(True)
        self.pause.setInterval(RUN_ENDS_AFTER_MS)
        self.pause.timeout.connect(self.end_run)
        session.selection_changed.connect(lambda _ids: self.end_run())

    def end_run(self) -> None:
        """Have the next press begin a new step."""
        self._run += 1
        self.pause.stop()

    def step(self, rearward: int, right: int, up: int, *, large: bool) -> None:
        """Move the selection by so many steps along the vehicle's axes."""
        session = self._session
        if not session.selection:
            session.message.emit("Nothing is selected: click a part first, then move it with the arrow keys.")
            return
        free = free_to_move(session, session.selection)
        if not free:
            return
        by_mm = step_mm(session.units, large=large)
        try:
            moved = shifted(
                session.project,
                free,
                dx_mm=rearward * by_mm,
                dy_mm=right * by_mm,
                dz_mm=up * by_mm,
            )
        except ModelError as error:
            session.message.emit(str(error))
            return
        session.apply("nudge", moved, self.run_key("nudge"))

    def run_key(self, of: str) -> str:
        """Return what presses of one run share; the run goes on."""
        self.pause.start()
        return f"{of} {self._run}"
