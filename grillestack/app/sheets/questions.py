"""What the drawings ask of a person: where to write them, whether files may be replaced, which printer."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

if TYPE_CHECKING:  # printing is loaded when somebody prints
    from PySide6.QtPrintSupport import QPrinter

KINDS = {
    ".pdf": "PDF, all sheets in one file (*.pdf)",
    ".svg": "SVG, one file for each sheet (*.svg)",
    ".dxf": "DXF at full size, one file for each sheet (*.dxf)",
}


class SheetQuestions(Protocol):
    """What is asked; tests answer in its place."""

    def ask_file(self, parent: QWidget, suggested: Path) -> Path | None:
        """Return the file to write, its ending saying which kind, or nothing."""

    def ask_replace(self, parent: QWidget, names: Sequence[str]) -> bool:
        """Return whether files of those names may be replaced."""

    def ask_printer(self, parent: QWidget, printer: QPrinter) -> bool:
        """Have the printer chosen; return whether to print."""


class QtSheetQuestions:
    """Asks a person."""

    def ask_file(self, parent: QWidget, suggested: Path) -> Path | None:
        """Return the file to write, its ending saying which kind, or nothing."""
        first = KINDS.get(suggested.suffix, KINDS[".pdf"])
        kinds = ";;".join((first, *(words for words in KINDS.values() if words != first)))
        dialog = QFileDialog(parent, "Export the drawings", str(suggested), kinds)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        # Several files may be written: which of them are there already is asked when their names are known.
        dialog.setOption(QFileDialog.Option.DontConfirmOverwrite)
        chosen = dialog.selectedFiles() if dialog.exec() else []
        kind = dialog.selectedNameFilter()
        dialog.deleteLater()
        return with_ending(Path(chosen[0]), kind) if chosen else None

    def ask_replace(self, parent: QWidget, names: Sequence[str]) -> bool:
        """Return whether files of those names may be replaced."""
        button = QMessageBox.StandardButton
        box = QMessageBox(parent)
        box.setIcon(QMessageBox.Icon.Question)
        box.setText(replace_words(names))
        box.setStandardButtons(button.Yes | button.Cancel)
        box.setDefaultButton(button.Cancel)
        yes = box.button(button.Yes)
        if yes is not None:
            yes.setText("Replace")
        answer = box.exec()
        box.deleteLater()
        return button(answer) is button.Yes

    def ask_printer(self, parent: QWidget, printer: QPrinter) -> bool:
        """Have the printer chosen; return whether to print."""
        from PySide6.QtPrintSupport import QPrintDialog

        dialog = QPrintDialog(printer, parent)
        answer = bool(dialog.exec())
        dialog.deleteLater()
        return answer


def with_ending(path: Path, kind: str) -> Path:
    """Return the file with the ending of the kind chosen, unless its name ends in that of a drawing already."""
    if path.suffix.casefold() in KINDS:
        return path
    ending = next((ending for ending, words in KINDS.items() if words == kind), ".pdf")
    return path.with_name(path.name + ending)


def replace_words(names: Sequence[str]) -> str:
    """Return the question whether these files may be replaced."""
    if len(names) == 1:
        return f"“{names[0]}” is there already. Replace it?"
    return f"“{names[0]}” and {len(names) - 1} more of these files are there already. Replace them?"
