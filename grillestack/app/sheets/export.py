"""Drawings written to files: made whole in the second process first, then put in place one by one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from grillestack.app.session import Session
from grillestack.app.sheets.maker import SheetMaker
from grillestack.app.sheets.questions import KINDS, SheetQuestions
from grillestack.storage.atomic import replace_file
from grillestack.storage.trouble import why_not_written


class SheetExport(QObject):
    """One export at a time, with progress and the sentence how it ended."""

    begun = Signal()
    ended = Signal(str)  # a sentence, empty if it was stopped

    def __init__(self, session: Session, maker: SheetMaker, questions: SheetQuestions, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._maker = maker
        self._questions = questions
        self._window = parent
        self._last: Path | None = None
        self.is_busy = False

    def ask(self, ending: str = ".pdf") -> None:
        """Ask where to, and write the drawings there."""
        out = self._questions.ask_file(self._window, self._suggested(ending))
        if out is not None:
            self.write(out)

    def write(self, out: Path) -> None:
        """Make the files, then write them."""
        ending = out.suffix.casefold()
        if ending not in KINDS:
            self.ended.emit(f"“{out.name}” is no file of a drawing: let its name end in .pdf, .svg or .dxf.")
            return
        self._last = out
        self.is_busy = True
        self.begun.emit()
        self._maker.export(ending, lambda files, trouble: self._take(out, files, trouble))

    def stop(self) -> None:
        """Write nothing after all."""
        if self.is_busy:
            self._maker.stop_export()
            self._end("")

    def _take(self, out: Path, files: Mapping[str, bytes] | None, trouble: str) -> None:
        if files is None:
            self._end(trouble)
            return
        found = {out.with_name(f"{out.stem}{behind}{out.suffix}"): content for behind, content in files.items()}
        there = [path.name for path in found if path.exists()]
        if there and not self._questions.ask_replace(self._window, there):
            self._end("")
            return
        self._end(written_words(found, replace_file))

    def _end(self, sentence: str) -> None:
        self.is_busy = False
        self.ended.emit(sentence)

    def _suggested(self, ending: str) -> Path:
        path = self._session.path
        if self._last is not None:
            return self._last.with_suffix(ending)
        return path.with_suffix(ending) if path else Path.home() / f"drawings{ending}"


def written_words(files: Mapping[Path, bytes], replace: Callable[[Path, bytes], None]) -> str:
    """Write the files, each whole or not at all, and return the sentence how it went."""
    written: list[Path] = []
    for path, content in files.items():
        try:
            replace(path, content)
        except (OSError, ValueError) as trouble:
            why = why_not_written(path, trouble)
            if not written:
                return why
            return f"{why} {_before_words(written)}"
        written.append(path)
    first = f"“{written[0].name}”"
    if len(written) == 1:
        return f"Written: {first} in “{written[0].parent}”."
    return f"Written: {len(written)} files, {first} to “{written[-1].name}”, in “{written[0].parent}”."


def _before_words(written: list[Path]) -> str:
    if len(written) == 1:
        return f"“{written[0].name}” is written whole."
    return f"The {len(written)} files before it are written whole."
