"""Pulling a band over the sheet: every part that lies wholly inside is selected."""

from __future__ import annotations

from grillestack.app.canvas.gestures.gesture import NO_MARKS, Band, Marks, Pointer
from grillestack.app.canvas.gestures.typed_offset import TypedOffset
from grillestack.app.session import Session
from grillestack.geometry.projection import Box, project_part


class RubberBandGesture:
    """Selects the parts inside a band of the front view; with Shift or Ctrl they join those already selected."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self.typed: TypedOffset | None = None  # a band has no distance to type
        self._before: tuple[str, ...] = ()
        self._corner = Pointer(across_mm=0.0, z_mm=0.0, px_per_mm=1.0)
        self._marks = NO_MARKS

    @property
    def marks(self) -> Marks:
        """Return the band."""
        return self._marks

    def begin(self, at: Pointer) -> None:
        """Fix the first corner."""
        self._corner = at
        self._before = self._session.selection

    def update(self, at: Pointer) -> None:
        """Select what the band holds now."""
        self._marks = Marks(
            band=Band(
                across_from_mm=self._corner.across_mm,
                z_from_mm=self._corner.z_mm,
                across_to_mm=at.across_mm,
                z_to_mm=at.z_mm,
            )
        )
        kept = self._before if at.adds else ()
        self._session.select((*kept, *self._inside(at)))

    def finish(self, at: Pointer) -> None:
        """Keep the selection."""
        self.update(at)
        self._marks = NO_MARKS

    def cancel(self) -> None:
        """Select again what was selected before."""
        self._marks = NO_MARKS
        self._session.select(self._before)

    def _inside(self, at: Pointer) -> tuple[str, ...]:
        band = Box(
            min(self._corner.across_mm, at.across_mm),
            min(self._corner.z_mm, at.z_mm),
            max(self._corner.across_mm, at.across_mm),
            max(self._corner.z_mm, at.z_mm),
        )
        found = []
        for part in self._session.project.parts:
            if part.hidden:
                continue
            box = project_part(part).outline_box
            if band.holds(box.y0_mm, box.z0_mm) and band.holds(box.y1_mm, box.z1_mm):
                found.append(part.id)
        return tuple(found)
