"""Open, save and recover: the file side of the session; whatever goes wrong is one sentence and loses nothing."""

from __future__ import annotations

import secrets
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from grillestack.app.dialogs import Dialogs, Unsaved
from grillestack.app.session import Session
from grillestack.assets.locate import PROJECT_ENDING
from grillestack.model.project import Project
from grillestack.storage.autosave import (
    Recovery,
    RecoveryError,
    discard_recovery,
    pending_recoveries,
    write_recovery,
)
from grillestack.storage.ownership import Claim, HeldBy, begin_session, claim_file
from grillestack.storage.project_file import ProjectFileError, read_project, write_project
from grillestack.storage.recent import remember_file

AUTOSAVE_MS = 2000
_NO_LETTERS_OF_A_FILE = str.maketrans(dict.fromkeys('/\\:*?"<>|', "-"))


class FileDesk(QObject):
    """Keeps the document of one session in files."""

    settling = Signal()  # what is still being typed shall count now
    complained = Signal(str)
    kept = Signal()
    recovery_found = Signal(object)

    def __init__(
        self,
        session: Session,
        dialogs: Dialogs,
        clock: Callable[[], float] = time.time,
        parent: QObject | None = None,
        demos: Sequence[Path] = (),
    ) -> None:
        super().__init__(parent)
        self._demos = frozenset(demo.resolve() for demo in demos)
        self._session = session
        self._dialogs = dialogs
        self._clock = clock
        self._claim: Claim | None = None
        self._saved_at_s: float | None = None
        self._has_recovery = False
        try:
            running = begin_session()
            self._running: Claim | None = running.claim
            self._id = running.id
        except OSError:
            # Without locks there is no warning of a second window; work goes on.
            self._running = None
            self._id = secrets.token_hex(8)
        self.timer = QTimer(self)
        self.timer.setSingleShot(True)
        self.timer.setInterval(AUTOSAVE_MS)
        self.timer.timeout.connect(self.keep_now)
        session.project_changed.connect(lambda _old, _new: self._note_change())
        session.clean_changed.connect(lambda _clean: self._note_change())

    @property
    def seconds_since_saved(self) -> float | None:
        """Return how long ago this window saved the document, or nothing if it has not."""
        return None if self._saved_at_s is None else max(0.0, self._clock() - self._saved_at_s)

    def open(self) -> None:
        """Ask for a file and open it."""
        if self.may_leave():
            folder = self._session.path.parent if self._session.path else Path.home()
            path = self._dialogs.ask_open(folder)
            if path is not None:
                self.open_file(path)

    def open_asking(self, path: Path, *, as_demo: bool = False) -> None:
        """Open that file, if the unsaved work may be left."""
        if self.may_leave():
            self.open_file(path, as_demo=as_demo)

    def open_file(self, path: Path, *, as_demo: bool = False) -> bool:
        """Open that file; a demo, however it was found, is opened without its name, so that saving never writes over it."""
        as_demo = as_demo or path.resolve() in self._demos
        try:
            project = read_project(path)
        except ProjectFileError as error:
            self.complained.emit(str(error))
            return False
        self._put(project, None if as_demo else path)
        if not as_demo:
            remember_file(path)
        return True

    def begin_project(self, project: Project) -> None:
        """Put a new project, which no file holds yet, on the session."""
        self._put(project, None, saved=False)

    def save(self) -> bool:
        """Save to the document's own file, or ask for one; say whether it is saved."""
        self.settling.emit()
        if self._session.path is None:
            return self.save_as()
        return self._write(self._session.path)

    def save_as(self) -> bool:
        """Ask for a file and save to it; say whether it is saved."""
        self.settling.emit()
        name = self._session.project.title.translate(_NO_LETTERS_OF_A_FILE).strip(" .") or "project"
        folder = self._session.path.parent if self._session.path else Path.home()
        path = self._dialogs.ask_save(folder / f"{name}{PROJECT_ENDING}")
        return path is not None and self._write(path)

    def may_leave(self) -> bool:
        """Return whether the document may go, after asking about unsaved work; the recovery keeps it anyway."""
        self._session.end_trial()
        self.settling.emit()
        if self._session.is_clean:
            return True
        answer = self._dialogs.ask_unsaved(self._session.project.title)
        if answer is Unsaved.SAVE:
            return self.save()
        if answer is Unsaved.LEAVE:
            self.keep_now()
            return True
        return False

    def keep_now(self) -> None:
        """Write the unsaved work into the recovery, never into the user's file."""
        self.timer.stop()
        if self._session.is_clean:
            return
        try:
            write_recovery(self._session.project, self._session.path, self._id)
        except RecoveryError as error:
            self.complained.emit(str(error))
            return
        self._has_recovery = True
        self.kept.emit()

    def look_for_recoveries(self) -> None:
        """Tell about unsaved work of windows that are no more."""
        for recovery in pending_recoveries():
            self.recovery_found.emit(recovery)

    def take_up(self, recovery: Recovery) -> None:
        """Go on with that unsaved work; it is kept under this window's name before the old copy goes."""
        if not self.may_leave():
            self.recovery_found.emit(recovery)
            return
        self._put(recovery.project, recovery.original, saved=False)
        self.keep_now()
        if self._has_recovery:
            discard_recovery(recovery)

    def let_go(self, recovery: Recovery) -> None:
        """Forget that unsaved work."""
        discard_recovery(recovery)

    def close(self) -> None:
        """Give the files back; a recovery of unsaved work stays."""
        self.timer.stop()
        for claim in (self._claim, self._running):
            if claim is not None:
                claim.release()
        self._claim = self._running = None

    def _note_change(self) -> None:
        if self._session.in_trial:
            return
        if self._session.is_clean:
            self.timer.stop()
            self._forget_recovery()
        else:
            self.timer.start()

    def _forget_recovery(self) -> None:
        if self._has_recovery:
            discard_recovery(self._id)
            self._has_recovery = False

    def _put(self, project: Project, path: Path | None, *, saved: bool = True) -> None:
        left_behind = not self._session.is_clean and self._has_recovery
        self._has_recovery = False if left_behind else self._has_recovery
        if left_behind:
            self._renew_id()
        self._saved_at_s = None
        self._session.open_project(project, path, saved=saved)
        self._own(path)  # last: what it may have to say is of the document that is open now

    def _renew_id(self) -> None:
        """Leave the recovery of work that was not saved to be found again, and go on under another id."""
        if self._running is not None:
            self._running.release()
            self._running = None
        try:
            running = begin_session()
        except OSError:
            self._id = secrets.token_hex(8)
            return
        self._running, self._id = running.claim, running.id

    def _own(self, path: Path | None) -> None:
        if self._claim is not None:
            self._claim.release()
            self._claim = None
        if path is None:
            return
        try:
            claim = claim_file(path)
        except OSError:
            return
        if isinstance(claim, HeldBy):
            self.complained.emit(
                f"“{path.name}” is open in another window too: the one saved last wins, so save this one under another name."
            )
        else:
            self._claim = claim

    def _write(self, path: Path) -> bool:
        try:
            write_project(self._session.project, path)
        except ProjectFileError as error:
            self.complained.emit(str(error))
            return False
        is_another = path != self._session.path
        self._saved_at_s = self._clock()
        self._session.mark_saved(path)
        self.timer.stop()
        self._forget_recovery()
        remember_file(path)
        if is_another:
            self._own(path)
        return True
