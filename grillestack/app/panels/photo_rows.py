"""The rows about the photo under the nose: how strongly it shows, whether it may move, how it is tied, and what it is worth."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QWheelEvent
from PySide6.QtWidgets import QSlider

from grillestack.app.panels.form import Form, Slot
from grillestack.app.panels.photo_words import truth_words
from grillestack.app.session import Session
from grillestack.model.edits import set_photo
from grillestack.model.photo import FourCorners, LineLies, Photo
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension

_FAINTEST = 5
LINES = (
    ("As it is", LineLies.AS_TAKEN),
    ("Level", LineLies.LEVEL),
    ("Plumb", LineLies.PLUMB),
)


def photo_form(session: Session) -> Form:
    """Return the rows of the photo; the project must have one."""
    form = Form(session)
    form.row("Strength", OpacitySlider(session, form))
    form.switch("Hide the photo", _slot("hidden"))
    form.switch("Lock the photo in its place", _slot("locked"))
    photo = session.shown.nose.photo
    if photo is not None and isinstance(photo.tied, FourCorners):
        form.quantity("Width", Dimension.LENGTH, _tied_slot("width_mm"))
        form.quantity("Height", Dimension.LENGTH, _tied_slot("height_mm"))
        form.quantity("Centre to the right", Dimension.LENGTH, _tied_slot("middle_y_mm"))
        form.quantity("Lower edge at", Dimension.LENGTH, _tied_slot("bottom_z_mm"))
        form.note("Sizes and place of the flat thing whose corners are marked.")
    else:
        form.quantity("Distance", Dimension.LENGTH, _tied_slot("distance_mm"))
        form.choice("Line between", LINES, _tied_slot("lies"))
        form.quantity("First point to the right", Dimension.LENGTH, _tied_slot("first_y_mm"))
        form.quantity("First point at", Dimension.LENGTH, _tied_slot("first_z_mm"))
    form.quantity("Camera away", Dimension.LENGTH, _slot("camera_distance_mm"))
    words = form.note("")
    told: list[Any] = []

    def tell(project: Project) -> None:
        basis = [project.nose.photo, project.nose.openings, session.units]
        if project.nose.photo is not None and (
            len(told) != 3 or any(a is not b for a, b in zip(told, basis, strict=True))
        ):
            told[:] = basis
            words.setText(truth_words(project.nose.photo, project.nose.openings, session.units))

    form.follow(tell)
    form.act("Remove photo", lambda: session.apply("remove photo", set_photo(session.project, None)))
    return form


class OpacitySlider(QSlider):
    """How strongly the photo shows: one drag, or a run of keys, is one step; Esc puts a drag back."""

    def __init__(self, session: Session, form: Form) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self._session = session
        self._runs = 0
        self.setAccessibleName("Strength of the photo")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setRange(_FAINTEST, 100)
        self.setSingleStep(5)
        self.setPageStep(20)
        self.valueChanged.connect(self._take)
        self.sliderPressed.connect(self._begin_run)
        self.sliderReleased.connect(self._settle)
        form.follow(self._show)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Esc put back what a drag under way has changed."""
        if event.key() == Qt.Key.Key_Escape and self.isSliderDown():
            self.blockSignals(True)  # noqa: FBT003  Qt's own signature
            self.setSliderDown(False)
            self.blockSignals(False)  # noqa: FBT003  Qt's own signature
            self._session.end_trial()
            self._show(self._session.project)
            event.accept()
            return
        super().keyPressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the card unless the slider has the focus."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()

    def _begin_run(self) -> None:
        self._runs += 1

    def _take(self, percent: int) -> None:
        changed = self._with(percent)
        if changed is None:
            return
        if self.isSliderDown():
            self._session.try_project(changed)
        else:
            self._session.apply("change strength of the photo", changed, f"photo strength {self._runs}")

    def _settle(self) -> None:
        changed = self._with(self.value())
        if changed is not None:
            self._session.apply("change strength of the photo", changed)
        self._runs += 1

    def _with(self, percent: int) -> Project | None:
        photo = self._session.project.nose.photo
        if photo is None:
            return None
        return set_photo(self._session.project, replace(photo, opacity_frac=percent / 100))

    def _show(self, project: Project) -> None:
        if project.nose.photo is not None:
            self.blockSignals(True)  # noqa: FBT003  Qt's own signature
            self.setValue(round(project.nose.photo.opacity_frac * 100))
            self.blockSignals(False)  # noqa: FBT003  Qt's own signature


def _photo(project: Project) -> Photo:
    photo = project.nose.photo
    if photo is None:  # the rows go before they could be asked again
        raise LookupError("This project has no photo.")
    return photo


def _slot(field: str) -> Slot:
    return Slot(
        lambda project: getattr(_photo(project), field),
        lambda project, value: set_photo(project, replace(_photo(project), **{field: value})),
    )


def _tied_slot(field: str) -> Slot:
    def write(project: Project, value: Any) -> Project:
        photo = _photo(project)
        return set_photo(project, replace(photo, tied=replace(photo.tied, **{field: value})))

    return Slot(lambda project: getattr(_photo(project).tied, field), write)
