"""The act of tracing: choose a file, mark it, use it in one step, or leave everything as it was."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from PySide6.QtCore import QObject
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QWidget

from grillestack.app.palette import Palette
from grillestack.app.photo.marking_panel import MarkingPanel
from grillestack.app.photo.picture_file import PhotoFileError, pixels_of, read_photo
from grillestack.app.session import Session
from grillestack.model.edits import set_photo
from grillestack.model.photo import Photo, PhotoImage


class Preview(Protocol):
    """Whatever draws the photo under the nose."""

    def preview(self, photo: Photo | None, *, quick: bool = False) -> None:
        """Show this photo in the place of the document's, or the document's again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What tracing is given of the window: a file chooser, room beside the nose, the picture under it, a place to complain."""

    ask_photo: Callable[[Path], Path | None]
    show_beside: Callable[[QWidget | None], None]
    under_nose: Preview
    complain: Callable[[str], None]
    palette: Callable[[], Palette]


class TracePhoto(QObject):
    """Leads from the menu to a photo under the nose; at most one is marked at a time."""

    def __init__(self, session: Session, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._bench = bench
        self._folder = Path.home()
        self.panel: MarkingPanel | None = None
        session.file_changed.connect(lambda _path: self._leave_if_other())
        self._began_in = session.project

    def begin(self) -> None:
        """Ask for a photo and have it marked."""
        path = self._bench.ask_photo(self._folder)
        if path is None:
            return
        self._folder = path.parent
        try:
            image = read_photo(path)
            pixels = pixels_of(image)
        except PhotoFileError as error:
            self._bench.complain(str(error))
            return
        self._mark(pixels, image)

    def mark_again(self) -> None:
        """Have the marks of the project's photo moved."""
        photo = self._session.project.nose.photo
        if photo is None:
            self._session.message.emit("There is no photo yet: choose “Trace photo” first.")
            return
        try:
            pixels = pixels_of(photo.image)
        except PhotoFileError as error:
            self._bench.complain(str(error))
            return
        self._mark(pixels, photo)

    def leave(self) -> None:
        """Put the panel away and leave everything as it was."""
        panel, self.panel = self.panel, None
        if panel is None:
            return
        self._bench.show_beside(None)
        self._bench.under_nose.preview(None)
        panel.deleteLater()

    def show_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        if self.panel is not None:
            self.panel.show_palette(palette)

    def _mark(self, pixels: QImage, photo: Photo | PhotoImage) -> None:
        self.leave()
        self._session.end_trial()
        self._began_in = self._session.project
        panel = self.panel = MarkingPanel(self._session, pixels, photo, self._bench.palette())
        panel.changed.connect(lambda tied, in_hand: self._bench.under_nose.preview(tied, quick=in_hand))
        panel.used.connect(self._use)
        panel.cancelled.connect(self.leave)
        self._bench.show_beside(panel)
        panel.sheet.setFocus()
        self._bench.under_nose.preview(panel.photo())

    def _use(self, photo: Photo) -> None:
        self.leave()
        self._session.apply("trace photo", set_photo(self._session.project, photo))

    def _leave_if_other(self) -> None:
        """End the marking if another document was opened; saving names a file too."""
        if self._session.project.nose is not self._began_in.nose and self._session.undo_stack.count() == 0:
            self.leave()
