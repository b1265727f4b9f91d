"""The few questions that a window of their own may ask: which file, and what to do with unsaved work."""

from __future__ import annotations

import enum
from pathlib import Path
from typing import Protocol

from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from grillestack.assets.locate import PROJECT_ENDING

_PHOTOS = "Photos (*.jpg *.jpeg *.png *.webp *.JPG *.JPEG *.PNG *.WEBP);;All files (*)"
_FILTER = f"Projects of grillestack (*{PROJECT_ENDING});;All files (*)"


class Unsaved(enum.Enum):
    """What to do with work that is not saved."""

    SAVE = "save"
    LEAVE = "leave"
    CANCEL = "cancel"


class Dialogs(Protocol):
    """What the window asks; tests answer in its place."""

    def ask_open(self, folder: Path) -> Path | None:
        """Return the file to open, or nothing."""

    def ask_save(self, suggested: Path) -> Path | None:
        """Return the file to save to, or nothing."""

    def ask_photo(self, folder: Path) -> Path | None:
        """Return the photo to trace, or nothing."""

    def ask_unsaved(self, title: str) -> Unsaved:
        """Return what to do with the unsaved work."""


class QtDialogs:
    """Asks a person."""

    def __init__(self, parent: QWidget | None = None) -> None:
        self.parent = parent

    def ask_open(self, folder: Path) -> Path | None:
        """Return the file to open, or nothing."""
        name, _ = QFileDialog.getOpenFileName(self.parent, "Open a project", str(folder), _FILTER)
        return Path(name) if name else None

    def ask_save(self, suggested: Path) -> Path | None:
        """Return the file to save to, or nothing."""
        dialog = QFileDialog(self.parent, "Save the project", str(suggested), _FILTER)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setDefaultSuffix(PROJECT_ENDING.removeprefix("."))
        chosen = dialog.selectedFiles() if dialog.exec() else []
        dialog.deleteLater()
        return Path(chosen[0]) if chosen else None

    def ask_photo(self, folder: Path) -> Path | None:
        """Return the photo to trace, or nothing."""
        name, _ = QFileDialog.getOpenFileName(self.parent, "Choose a photo of the nose", str(folder), _PHOTOS)
        return Path(name) if name else None

    def ask_unsaved(self, title: str) -> Unsaved:
        """Return what to do with the unsaved work."""
        button = QMessageBox.StandardButton
        box = QMessageBox(self.parent)
        box.setIcon(QMessageBox.Icon.Question)
        box.setText(f"“{title}” has changes that are not saved.")
        box.setStandardButtons(button.Save | button.Discard | button.Cancel)
        box.setDefaultButton(button.Save)
        leave = box.button(button.Discard)
        if leave is not None:
            leave.setText("Don't save")
        answer = box.exec()
        box.deleteLater()
        return {button.Save: Unsaved.SAVE, button.Discard: Unsaved.LEAVE}.get(button(answer), Unsaved.CANCEL)
