"""The pack from front to back, with the gaps; rows change places by dragging or by Alt and the arrow keys."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, QPoint, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QDropEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QListView, QListWidget, QListWidgetItem

from grillestack.app.palette import Palette
from grillestack.app.panels.part_row import (
    ABOVE_ROLE,
    DETAIL_ROLE,
    NUMBER_ROLE,
    STATE_ROLE,
    WARN_ROLE,
    PartRow,
    RowMark,
    mark_at,
)
from grillestack.app.panels.part_words import gap_words, size_words
from grillestack.app.session import Session
from grillestack.model.edits import restack
from grillestack.model.project import stack

if TYPE_CHECKING:
    from grillestack.geometry.depth import Gap

EMPTY = "Nothing is in the pack yet: drag a part from the shelf onto the nose."
_ID_ROLE = Qt.ItemDataRole.UserRole


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    part_id: str
    name: str
    detail: str
    above: str
    overlaps: bool
    locked: bool
    hidden: bool


class PackList(QListWidget):
    """One row for each part, numbered as on the nose; its marks say what is locked or hidden, and change it."""

    menu_wanted = Signal(object)
    lock_wanted = Signal(str)
    hide_wanted = Signal(str)

    def __init__(self, session: Session, palette: Palette) -> None:
        super().__init__()
        self._session = session
        self._following = False
        self._shown_rows: list[_Row] = []
        self._delegate = PartRow(self, palette)
        self.setItemDelegate(self._delegate)
        self.setAccessibleName("Pack, front to back")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
        self.setDefaultDropAction(Qt.DropAction.MoveAction)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setToolTip("Drag a row, or press Alt with the arrow keys, to change the order of depth.")
        # Gaps are figures of the assessment, which is announced after every change of the project.
        session.assessment_changed.connect(lambda _assessment: self._follow())
        session.selection_changed.connect(lambda _ids: self._follow_selection())
        session.units_changed.connect(lambda _units: self._follow())
        self.itemSelectionChanged.connect(self._tell_selection)
        self._follow()

    def order(self) -> list[str]:
        """Return the ids of the rows from front to back."""
        return [self.item(row).data(_ID_ROLE) for row in range(self.count())]

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._delegate.show_palette(palette)

    def shift_selected(self, by: int) -> None:
        """Move the selected parts one place rearward (1) or forward (-1) in the order, as one step."""
        order = self.order()
        chosen = [part_id for part_id in order if part_id in self._session.selection]
        for part_id in reversed(chosen) if by > 0 else chosen:
            at = order.index(part_id)
            to = at + by
            if not 0 <= to < len(order) or order[to] in chosen:
                continue
            order[at], order[to] = order[to], order[at]
        self._restack(order, "move rearward in the pack" if by > 0 else "move forward in the pack")

    def dropEvent(self, event: QDropEvent) -> None:
        """Turn a dropped row into an edit; the rows follow the document, never the drop itself."""
        if event.source() is not self:
            event.ignore()
            return
        moving = [part_id for part_id in self.order() if part_id in self._session.selection]
        target = self._row_at(event.position().toPoint())
        event.setDropAction(Qt.DropAction.IgnoreAction)
        event.accept()
        before = [i for i in self.order()[:target] if i not in moving]
        after = [i for i in self.order()[target:] if i not in moving]
        self._restack([*before, *moving, *after], "reorder the pack")

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Let a press on a mark change it; any other selects."""
        place = event.position().toPoint()
        item = self.itemAt(place)
        mark = None if item is None else mark_at(self.visualItemRect(item), place)
        if item is None or mark is None or event.button() != Qt.MouseButton.LeftButton:
            super().mousePressEvent(event)
            return
        wanted = self.lock_wanted if mark is RowMark.LOCKED else self.hide_wanted
        wanted.emit(item.data(_ID_ROLE))
        event.accept()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Ask for the menu of the part under the pointer, or of what is selected if a key asks."""
        by_key = event.reason() is QContextMenuEvent.Reason.Keyboard
        item = self.currentItem() if by_key else self.itemAt(event.pos())
        if item is not None and not item.isSelected():
            self._session.select([item.data(_ID_ROLE)])
        rect = self.visualItemRect(item) if item is not None else self.viewport().rect()
        self.menu_wanted.emit(self.viewport().mapToGlobal(rect.center()) if by_key else event.globalPos())
        event.accept()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the rows, or say what an empty pack waits for."""
        super().paintEvent(event)
        if self.count() == 0:
            painter = QPainter(self.viewport())
            painter.setPen(self.palette().placeholderText().color())
            around = self.viewport().rect().adjusted(11, 2, -8, -2)
            painter.drawText(around, Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap, EMPTY)
            painter.end()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Alt with up and down reorder."""
        steps = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}
        if event.modifiers() & Qt.KeyboardModifier.AltModifier and event.key() in steps:
            self.shift_selected(steps[Qt.Key(event.key())])
            event.accept()
            return
        super().keyPressEvent(event)

    def _row_at(self, position: QPoint) -> int:
        index = self.indexAt(position)
        if not index.isValid():
            return self.count()
        rect = self.visualRect(index)
        return index.row() + (1 if position.y() > rect.center().y() else 0)

    def _restack(self, order: list[str], label: str) -> None:
        project = self._session.project
        new = restack(project, order)
        stay = [part.id for part in project.parts if part.locked and new.part(part.id).placement != part.placement]
        if stay:
            self._session.stayed.emit(tuple(stay))
            self._follow()
            return
        self._session.apply(label, new)

    def _follow(self) -> None:
        rows = self._rows()
        if rows == self._shown_rows:
            # Most moves of a drag change nothing of the list, and painting it costs more than comparing.
            self._follow_selection()
            return
        self._shown_rows = rows
        self._following = True
        while self.count() > len(rows):
            self.takeItem(self.count() - 1)
        while self.count() < len(rows):
            self.addItem(QListWidgetItem())
        for number, row in enumerate(rows, start=1):
            item = self.item(number - 1)
            item.setText(row.name)
            item.setData(_ID_ROLE, row.part_id)
            item.setData(NUMBER_ROLE, str(number))
            item.setData(DETAIL_ROLE, row.detail)
            item.setData(ABOVE_ROLE, row.above)
            item.setData(WARN_ROLE, row.overlaps)
            item.setData(STATE_ROLE, (row.locked, row.hidden))
            spoken = f"{number}, {row.name}, {row.detail}" + (f", {row.above}" if row.above else "")
            spoken += (", locked" if row.locked else "") + (", hidden" if row.hidden else "")
            item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
        self._following = False
        self._follow_selection()

    def _rows(self) -> list[_Row]:
        """Return what the list says of what is shown."""
        shown, units = self._session.shown, self._session.units
        gaps = self._gaps_ahead()
        rows: list[_Row] = []
        for part in stack(shown):
            gap, above = gaps.get(part.id), ""
            if gap is not None:
                is_above = bool(rows) and rows[-1].part_id == gap.front_id
                above = gap_words(gap.gap_mm, units, "" if is_above else shown.part(gap.front_id).name)
            rows.append(
                _Row(
                    part_id=part.id,
                    name=part.name,
                    detail=size_words(part, units),
                    above=above,
                    overlaps=gap is not None and gap.gap_mm < 0,
                    locked=part.locked,
                    hidden=part.hidden,
                )
            )
        return rows

    def _gaps_ahead(self) -> dict[str, Gap]:
        """Return the smallest gap ahead of each part that has a neighbour there."""
        found: dict[str, Gap] = {}
        if self._session.assessment is not None:
            for gap in self._session.assessment.depth.gaps:
                if gap.rear_id not in found or gap.gap_mm < found[gap.rear_id].gap_mm:
                    found[gap.rear_id] = gap
        return found

    def _follow_selection(self) -> None:
        self._following = True
        chosen = self._session.selection
        for row in range(self.count()):
            item = self.item(row)
            item.setSelected(item.data(_ID_ROLE) in chosen)
            if len(chosen) == 1 and item.data(_ID_ROLE) == chosen[0]:
                self.setCurrentItem(item, QItemSelectionModel.SelectionFlag.NoUpdate)
        self._following = False

    def _tell_selection(self) -> None:
        if not self._following:
            self._session.select([item.data(_ID_ROLE) for item in self.selectedItems()])
