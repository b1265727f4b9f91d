"""The map of better places for a held core: asked when a hand takes hold, dropped when document or core are others."""

from __future__ import annotations

import logging
from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import QObject, Signal

from grillestack.app.session import Session
from grillestack.app.workers.further import Further
from grillestack.app.workers.messages import Answer, FromWorker, Progress

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.advice.better_places import BetterPlaces
    from grillestack.model.project import Project

_log = logging.getLogger(__name__)


class Places(QObject):
    """Holds at most one map; while it is worked out `share_frac` says how much is done."""

    changed = Signal()

    def __init__(self, session: Session, further: Further, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._further = further
        self._document: Project | None = None
        self._part_id = ""
        self._number: int | None = None
        self._share_frac: float | None = None
        self._map: BetterPlaces | None = None
        self._broke_off = False
        self._is_held = False
        session.project_changed.connect(lambda _old, _new: self._drop_the_stale())

    @property
    def found(self) -> BetterPlaces | None:
        """Return the map, if it is that of the document and the core asked about."""
        return self._map

    @property
    def share_frac(self) -> float | None:
        """Return how much is worked out; nothing while nothing is."""
        return self._share_frac if self._number is not None else None

    @property
    def broke_off(self) -> bool:
        """Return whether the calculation broke off."""
        return self._broke_off

    def want(self, part_id: str, *, is_held: bool) -> None:
        """Ask for the map of that core in the document, unless it is there or asked for already.

        What a hand holds comes before all other questions, and what was only chosen so far then moves up.
        """
        is_same = part_id == self._part_id and self._session.project is self._document
        moves_up = is_held and not self._is_held and self._number is not None and self._share_frac == 0.0
        if is_same and not moves_up:
            return
        self.drop()
        self._document, self._part_id, self._is_held = self._session.project, part_id, is_held
        self._number = self._further.ask_places(self._session.project, part_id, self._hear, is_held=is_held)
        self._share_frac = 0.0
        if self._number is None:
            self._document = None  # nobody is there yet: ask again next time
        else:
            self.changed.emit()

    def drop(self) -> None:
        """Let map and question go."""
        number, self._number = self._number, None
        had_any = number is not None or self._map is not None
        self._document, self._part_id, self._map, self._broke_off = None, "", None, False
        if number is not None:
            self._further.stop_places(number)
        if had_any:
            self.changed.emit()

    def _drop_the_stale(self) -> None:
        if self._document is not None and self._session.project is not self._document:
            self.drop()

    def _hear(self, message: FromWorker) -> None:
        if message.number != self._number:
            return
        if isinstance(message, Progress):
            self._share_frac = message.share_frac
        else:
            self._number = None
            self._map = self._unpacked(message) if isinstance(message, Answer) else None
            self._broke_off = self._map is None
        self.changed.emit()

    @staticmethod
    def _unpacked(message: Answer) -> BetterPlaces | None:
        from grillestack.app.workers.answers import unpacked_places

        try:
            return unpacked_places(message.result)
        except msgspec.DecodeError:
            _log.exception("no map of better places")
            return None
