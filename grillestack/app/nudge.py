"""The arrow keys: the selection moves by a millimetre or a sixteenth, and a run of presses is one step."""

from __future__ import annotations

from msgspec.structs import replace
from PySide6.QtCore import QObject, QTimer

from grillestack.app.session import SUPPORT_WINDOW_ID, Session
from grillestack.model.edits import move_parts, set_nose
from grillestack.model.outline import Outline, Point
from grillestack.model.project import Project
from grillestack.model.values import ModelError
from grillestack.units.display import UnitSystem

RUN_ENDS_AFTER_MS = 1200
_STEPS_MM = {UnitSystem.METRIC: (1.0, 10.0), UnitSystem.INCH: (25.4 / 16, 25.4 / 2)}


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
        step_mm = _STEPS_MM[session.units][1 if large else 0]
        try:
            moved = moved_by(session.project, session.selection, (rearward * step_mm, right * step_mm, up * step_mm))
        except ModelError as error:
            session.message.emit(str(error))
            return
        session.apply("nudge", moved, f"nudge {self._run}")
        self.pause.start()


def moved_by(project: Project, ids: tuple[str, ...], by_mm: tuple[float, float, float]) -> Project:
    """Return the project with those parts, openings, obstructions or the support window shifted along x, y and z."""
    dx, dy, dz = by_mm
    parts = [part.id for part in project.parts if part.id in ids]
    project = move_parts(project, parts, dx_mm=dx, dy_mm=dy, dz_mm=dz)
    nose = project.nose
    openings = tuple(
        replace(o, outline=_shifted(o.outline, dy, dz), x_mm=o.x_mm + dx) if o.id in ids else o for o in nose.openings
    )
    obstructions = tuple(
        replace(o, outline=_shifted(o.outline, dy, dz), x_front_mm=o.x_front_mm + dx, x_rear_mm=o.x_rear_mm + dx)
        if o.id in ids
        else o
        for o in nose.obstructions
    )
    window = nose.support_window
    if window is not None and SUPPORT_WINDOW_ID in ids:
        window = replace(window, outline=_shifted(window.outline, dy, dz), x_mm=window.x_mm + dx)
    changed = replace(nose, openings=openings, obstructions=obstructions, support_window=window)
    return project if changed == nose else set_nose(project, changed)


def _shifted(outline: Outline, dy: float, dz: float) -> Outline:
    return tuple(Point(p.y_mm + dy, p.z_mm + dz) for p in outline)
