"""Pushing an unlocked photo over the sheet by hand; its marks stay where they are in the picture."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.app.canvas.gestures.gesture import Marks, Pointer
from grillestack.app.canvas.gestures.snapping import whole_step
from grillestack.app.canvas.gestures.trial import TrialGesture
from grillestack.model.edits import set_photo
from grillestack.model.photo import FourCorners, Photo
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


class MovePhotoGesture(TrialGesture):
    """Shifts the photo along y and z."""

    def label(self) -> str:
        """Return what the step is called."""
        return "Move photo"

    def changed(self, at: Pointer) -> Project:
        """Return the project with the photo where the hand has it."""
        photo = self.project.nose.photo
        if photo is None:
            return self.project
        units = self.session.units
        dy = whole_step(at.across_mm - self.start.across_mm, units, free=at.snaps_off)
        dz = whole_step(at.z_mm - self.start.z_mm, units, free=at.snaps_off)
        moved = set_photo(self.project, shifted_photo(photo, dy, dz))
        across, upright = (show_quantity(abs(way), Dimension.LENGTH, units) for way in (dy, dz))
        side, height = ("right" if dy >= 0 else "left"), ("up" if dz >= 0 else "down")
        self.shown_marks = Marks(moved_text=f"photo {height} {upright}, to vehicle {side} {across}")
        return moved


def shifted_photo(photo: Photo, dy_mm: float, dz_mm: float) -> Photo:
    """Return the photo pushed by so much over the nose."""
    tied = photo.tied
    if isinstance(tied, FourCorners):
        tied = replace(tied, middle_y_mm=tied.middle_y_mm + dy_mm, bottom_z_mm=tied.bottom_z_mm + dz_mm)
    else:
        tied = replace(tied, first_y_mm=tied.first_y_mm + dy_mm, first_z_mm=tied.first_z_mm + dz_mm)
    return replace(photo, tied=tied)
