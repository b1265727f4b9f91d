"""The act of asking what fits: the panel opened beside the nose, rows shown as trials, one of them put in as one step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer
from PySide6.QtWidgets import QGraphicsScene, QWidget

from grillestack.app.fit.hunt import FitHunt
from grillestack.app.fit.room_item import RoomItem
from grillestack.app.locked import free_to_move
from grillestack.app.palette import Palette
from grillestack.app.session import Session
from grillestack.app.workers.fit_rows import FitRow
from grillestack.app.workers.further import Worker
from grillestack.fit.trial import with_part
from grillestack.model.values import ModelError

if TYPE_CHECKING:  # a panel is loaded when it is opened, or the window would come later for it
    from grillestack.app.fit.panel import FitPanel

_REST_MS = 120


@dataclass(frozen=True, slots=True, kw_only=True)
class FitPlace:
    """What the search is given of the window."""

    show_beside: Callable[[QWidget | None], None]
    scene: QGraphicsScene
    palette: Callable[[], Palette]
    back_to_nose: Callable[[], None]


class FitBench(QObject):
    """At most one panel; while it points at a row, the nose shows the pack with that part in it."""

    def __init__(
        self, session: Session, place: FitPlace, make: Callable[[], Worker], parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._place = place
        self.hunt = FitHunt(make, self)
        self.panel: FitPanel | None = None
        self.room = RoomItem()
        place.scene.addItem(self.room)
        self._row: FitRow | None = None
        self._shows_trial = False
        # The pointer crosses many rows on its way: the one it rests on is shown.
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(_REST_MS)
        self._rest.timeout.connect(self._show_row)

    def begin(self) -> None:
        """Open the panel for the selected part's place, or for charge-air coolers."""
        from grillestack.app.fit.panel import FitPanel

        self.close()
        selected = [part.id for part in self._session.project.parts if part.id in self._session.selection]
        panel = self.panel = FitPanel(
            self._session, self._place.palette(), self.hunt, selected[0] if len(selected) == 1 else None
        )
        panel.looked_at.connect(self._look_at)
        panel.chosen.connect(self.put_in)
        panel.corner_changed.connect(lambda _corner: self._show_room())
        panel.left.connect(self._leave)
        self._place.show_beside(panel)
        panel.table.setFocus()

    def close(self) -> None:
        """Close the panel and stop the search."""
        panel, self.panel = self.panel, None
        if panel is None:
            return
        self.hunt.stop()
        self._look_at(None)
        self._place.show_beside(None)
        panel.deleteLater()

    def end(self) -> None:
        """End the second process: the window closes."""
        self.hunt.close()

    def show_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        if self.panel is not None:
            self.panel.show_palette(palette)
            self._show_room()

    def put_in(self, row: FitRow) -> None:
        """Put the part in where the row says, in one step."""
        slot = self.panel.slot if self.panel is not None else None
        if slot is None:
            return
        self._look_at(None)
        if slot.taken_out is not None and not free_to_move(self._session, [slot.taken_out]):
            return
        try:
            project, part_id = with_part(self._session.project, slot, row.part, row.placement)
        except ModelError as error:
            self._session.message.emit(str(error))
            return
        self._session.apply(f"put in {row.part.name}", project)
        self._session.select([part_id])
        self._session.message.emit(f"“{row.part.name}” is in; Undo takes it out again.")

    def _leave(self) -> None:
        self.close()
        self._place.back_to_nose()

    def _look_at(self, row: FitRow | None) -> None:
        self._row = row
        if row is None:
            self._rest.stop()
            self._end_trial()
            self._show_room()
        else:
            self._rest.start()

    def _show_row(self) -> None:
        row, slot = self._row, self.panel.slot if self.panel is not None else None
        if row is None or slot is None:
            return
        self.hunt.wish(row.part.id)
        try:
            project, _ = with_part(self._session.project, slot, row.part, row.placement)
        except ModelError:
            return  # it leads out of what a document may hold: there is nothing to show
        self._shows_trial = True
        self._session.try_project(project)
        self._show_room()

    def _show_room(self) -> None:
        corner = None if self.panel is None else self.panel.corner
        if corner is not None:
            self.room.show_row(self._row if self._shows_trial else None, corner, self._place.palette())
        else:
            self.room.hide()

    def _end_trial(self) -> None:
        if self._shows_trial:
            self._shows_trial = False
            self._session.end_trial()
