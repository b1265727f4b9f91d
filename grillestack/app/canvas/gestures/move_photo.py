"""Pushing an unlocked photo over the sheet by hand; its marks stay where they are in the picture."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.app.canvas.gestures.gesture import NO_MARKS, Marks, Pointer
from grillestack.app.canvas.gestures.move import whole_step
from grillestack.app.session import Session
from grillestack.model.edits import set_photo
from grillestack.model.photo import FourCorners, Photo
from grillestack.model.project import Project
from grillestack.model.values import ModelError
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


class MovePhotoGesture:
    """Shifts the photo along y and z."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._start = Pointer(across_mm=0.0, z_mm=0.0, px_per_mm=1.0)
        self._project = session.project
        self._marks = NO_MARKS

    @property
    def marks(self) -> Marks:
        """Return how far the photo has come."""
        return self._marks

    def begin(self, at: Pointer) -> None:
        """Take hold of the photo."""
        self._start, self._project = at, self._session.project

    def update(self, at: Pointer) -> None:
        """Show the photo where the hand has it."""
        self._session.try_project(self._moved(at))

    def finish(self, at: Pointer) -> None:
        """Leave the photo there as one step."""
        self._session.apply("Move photo", self._moved(at))
        self._marks = NO_MARKS

    def cancel(self) -> None:
        """Put the photo back."""
        self._marks = NO_MARKS
        self._session.end_trial()

    def _moved(self, at: Pointer) -> Project:
        photo = self._project.nose.photo
        if photo is None:
            return self._project
        units = self._session.units
        dy = whole_step(at.across_mm - self._start.across_mm, units, free=at.snaps_off)
        dz = whole_step(at.z_mm - self._start.z_mm, units, free=at.snaps_off)
        try:
            moved = set_photo(self._project, shifted_photo(photo, dy, dz))
        except ModelError as refusal:
            self._session.message.emit(str(refusal))
            return self._session.shown
        across, upright = (show_quantity(abs(way), Dimension.LENGTH, units) for way in (dy, dz))
        side, height = ("right" if dy >= 0 else "left"), ("up" if dz >= 0 else "down")
        self._marks = Marks(moved_text=f"photo {height} {upright}, to vehicle {side} {across}")
        return moved


def shifted_photo(photo: Photo, dy_mm: float, dz_mm: float) -> Photo:
    """Return the photo pushed by so much over the nose."""
    tied = photo.tied
    if isinstance(tied, FourCorners):
        tied = replace(tied, middle_y_mm=tied.middle_y_mm + dy_mm, bottom_z_mm=tied.bottom_z_mm + dz_mm)
    else:
        tied = replace(tied, first_y_mm=tied.first_y_mm + dy_mm, first_z_mm=tied.first_z_mm + dz_mm)
    return replace(photo, tied=tied)
