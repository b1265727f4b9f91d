"""What gestures that change the document share: they preview with trials and end in one step, or in none."""

from __future__ import annotations

from grillestack.app.canvas.gestures.gesture import NO_MARKS, Marks, Pointer
from grillestack.app.canvas.gestures.typed_offset import TypedOffset
from grillestack.app.session import Session
from grillestack.model.project import Project
from grillestack.model.values import ModelError


class TrialGesture:
    """Base of the gestures: they say what the document becomes for a place of the pointer, and what that is called."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.project = session.project
        self.start = Pointer(across_mm=0.0, z_mm=0.0, px_per_mm=1.0)
        self.typed: TypedOffset | None = None
        self.shown_marks = NO_MARKS

    # --- what each gesture says -------------------------------------------------------------------------------------

    def take_hold(self) -> None:
        """Note what stays the same while the gesture lasts; `start` and `project` are set."""

    def changed(self, at: Pointer) -> Project:
        """Return the document as it is for this place of the pointer, and set the marks.

        Raises
        ------
        ModelError
            If it cannot be so; what was shown last stays.
        """
        raise NotImplementedError

    def label(self) -> str:
        """Return what the step is called."""
        raise NotImplementedError

    def after(self) -> None:
        """Do what comes once the step is made."""

    # --- the four moments -------------------------------------------------------------------------------------------

    @property
    def marks(self) -> Marks:
        """Return what to draw over the sheet at this moment."""
        return self.shown_marks

    def begin(self, at: Pointer) -> None:
        """Take hold there."""
        self.start, self.project = at, self.session.project
        self.take_hold()

    def update(self, at: Pointer) -> None:
        """Show the document as the hand has it."""
        self.session.try_project(self._possible(at))

    def finish(self, at: Pointer) -> None:
        """Leave it so as one step."""
        wanted, label = self._possible(at), self.label()
        self.shown_marks = NO_MARKS
        self.session.apply(label, wanted)
        self.after()

    def cancel(self) -> None:
        """Put everything back."""
        self.shown_marks = NO_MARKS
        self.session.end_trial()

    def _possible(self, at: Pointer) -> Project:
        try:
            return self.changed(at)
        except ModelError as refusal:
            self.session.message.emit(str(refusal))
            return self.session.shown
