"""The shelf: parts of the catalogues in groups, to search, to drag onto the nose or to add by Enter."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QMimeData, Qt, Signal
from PySide6.QtGui import QAction, QContextMenuEvent, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QLabel,
    QLineEdit,
    QPushButton,
    QToolButton,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from grillestack.app.palette import Palette
from grillestack.app.panels.part_row import DETAIL_ROLE, PartRow
from grillestack.app.panels.part_words import GROUPS, group_of, size_words
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.model.parts import Part

PART_MIME = "application/x-grillestack-part"
_NO_MATCH = "No part on the shelf matches these words."
_PART_ROLE = Qt.ItemDataRole.UserRole


class Shelf(QWidget):
    """Shows what there is; `wanted` carries the part that a hand chose."""

    wanted = Signal(object)
    measure_wanted = Signal()

    def __init__(self, session: Session, palette: Palette, parts: Sequence[Part]) -> None:
        super().__init__()
        self._session = session
        self._parts: tuple[Part, ...] = ()
        self.search = QLineEdit()
        self.search.setPlaceholderText(said("Search the shelf"))
        self.search.setAccessibleName("Search the shelf")
        self.search.setClearButtonEnabled(True)
        for clear in self.search.findChildren(QAction):
            clear.setText(said("Clear the search"))  # Qt gives it a picture only
        for button in self.search.findChildren(QToolButton):
            button.setAccessibleName("Clear the search")
        self.measure = QPushButton(said("Measure a part…"))
        self.measure.setAccessibleName("Measure a part")
        self.measure.setToolTip("Type a core's sizes in the order one measures them with a tape")
        self.measure.clicked.connect(lambda _checked=False: self.measure_wanted.emit())
        self.tree = PartTree()
        self.nothing = QLabel(_NO_MATCH)
        self.nothing.setObjectName("faint")
        self.nothing.setWordWrap(True)
        self.nothing.hide()
        self._delegate = PartRow(self.tree, palette, indentation_px=2 * self.tree.indentation())
        self.tree.setItemDelegate(self._delegate)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 0, 8, 0)
        layout.setSpacing(4)
        layout.addWidget(self.search)
        layout.addWidget(self.nothing)
        layout.addWidget(self.tree, 1)
        layout.addWidget(self.measure, 0, Qt.AlignmentFlag.AlignLeft)
        self.search.textChanged.connect(lambda _text: self._filter())
        self.search.returnPressed.connect(self._go_to_first)
        self.tree.itemActivated.connect(self._hand_over)
        session.units_changed.connect(lambda _units: self._show_sizes())
        self.show_parts(parts)

    def show_parts(self, parts: Sequence[Part]) -> None:
        """Put these parts on the shelf in the place of those before."""
        self._parts = tuple(parts)
        self.tree.clear()
        for group in GROUPS:
            members = [part for part in parts if group_of(part) == group]
            if not members:
                continue
            head = QTreeWidgetItem([group])
            head.setFlags(Qt.ItemFlag.ItemIsEnabled)
            head.setData(0, Qt.ItemDataRole.AccessibleTextRole, f"{group}, {len(members)} parts")
            self.tree.addTopLevelItem(head)
            for part in members:
                item = QTreeWidgetItem([part.name])
                item.setData(0, _PART_ROLE, part.id)
                item.setToolTip(0, f"{part.name}. {part.notes_text}".strip())
                head.addChild(item)
            head.setExpanded(True)
        self._show_sizes()
        self._filter()

    def find_part(self, part_id: str) -> Part | None:
        """Return the part of the shelf with that id, as the canvas asks for it on a drop."""
        return next((part for part in self._parts if part.id == part_id), None)

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._delegate.show_palette(palette)

    def _items(self) -> list[QTreeWidgetItem]:
        return [item for head in self._heads() for item in _children(head)]

    def _heads(self) -> list[QTreeWidgetItem]:
        heads = (self.tree.topLevelItem(i) for i in range(self.tree.topLevelItemCount()))
        return [head for head in heads if head is not None]

    def _show_sizes(self) -> None:
        for item in self._items():
            part = self.find_part(item.data(0, _PART_ROLE))
            if part is not None:
                words = size_words(part, self._session.units)
                item.setData(0, DETAIL_ROLE, words)
                item.setData(0, Qt.ItemDataRole.AccessibleTextRole, f"{part.name}, {words}")

    def _filter(self) -> None:
        wanted = self.search.text().casefold().split()
        anything = False
        for head in self._heads():
            shown = 0
            for item in _children(head):
                words = f"{head.text(0)} {item.text(0)} {item.data(0, DETAIL_ROLE)}".casefold()
                matches = all(word in words for word in wanted)
                item.setHidden(not matches)
                shown += matches
            head.setHidden(shown == 0)
            if wanted and shown:
                head.setExpanded(True)
            anything = anything or shown > 0
        self.nothing.setText(_NO_MATCH if self._parts else "The shelf is empty.")
        self.nothing.setVisible(not anything)

    def _go_to_first(self) -> None:
        first = next((item for item in self._items() if not item.isHidden()), None)
        if first is not None:
            self.tree.setCurrentItem(first)
            self.tree.setFocus()

    def _hand_over(self, item: QTreeWidgetItem) -> None:
        part = self.find_part(item.data(0, _PART_ROLE) or "")
        if part is not None:
            self.wanted.emit(part)


def _children(head: QTreeWidgetItem) -> list[QTreeWidgetItem]:
    children = (head.child(i) for i in range(head.childCount()))
    return [child for child in children if child is not None]


class PartTree(QTreeWidget):
    """A tree whose part rows can be dragged away by their id; `menu_wanted` carries a row and where its menu opens."""

    menu_wanted = Signal(object, object)

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Shelf of parts")
        self.setHeaderHidden(True)
        self.setIndentation(10)
        self.setRootIsDecorated(False)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setDragEnabled(True)
        self.setDragDropMode(QAbstractItemView.DragDropMode.DragOnly)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the rows the height their names take at this width."""
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Ask for the menu of the part under the pointer, or of the one in hand if a key asks."""
        by_key = event.reason() is QContextMenuEvent.Reason.Keyboard
        item = self.currentItem() if by_key else self.itemAt(event.pos())
        event.accept()
        if item is None or not item.data(0, _PART_ROLE):
            return
        self.setCurrentItem(item)
        at = self.viewport().mapToGlobal(self.visualItemRect(item).center()) if by_key else event.globalPos()
        self.menu_wanted.emit(item.data(0, _PART_ROLE), at)

    def mimeTypes(self) -> list[str]:
        """Return the one kind of thing that is dragged from here."""
        return [PART_MIME]

    def mimeData(self, items: Sequence[QTreeWidgetItem]) -> QMimeData:
        """Return the id of the dragged part, for the nose to ask the shelf for."""
        data = QMimeData()
        for item in items:
            part_id = item.data(0, _PART_ROLE)
            if part_id:
                data.setData(PART_MIME, str(part_id).encode("utf-8"))
                data.setText(item.text(0))
        return data
