"""What fits, one row each: sorted by any column, told about the row under the pointer or the keys, placed by one click."""

from __future__ import annotations

import enum
from collections.abc import Callable, Sequence
from typing import Final

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QBrush, QFont, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QTreeWidget, QTreeWidgetItem

from grillestack.app.palette import Palette
from grillestack.app.panels.verdict_marks import Mark, mark_ink
from grillestack.app.workers.fit_rows import FitRow

_RIGHT: Final = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_ROW_ROLE: Final = Qt.ItemDataRole.UserRole
_NAME_PX: Final = 190
# What is not known comes last, whichever way round.
_UNKNOWN: Final = 1e9


class Column(enum.IntEnum):
    """The columns from left to right."""

    NAME = 0
    VERDICT = 1
    HOTTEST = 2
    LOST = 3
    CHARGE = 4
    LOSS = 5
    MARGIN = 6
    WAY = 7
    SIZE = 8
    PORTS = 9


_HEADS: Final = (
    "part",
    "verdict",
    "hottest day",
    "face lost",
    "charge air",
    "loss",
    "margin",
    "way round",
    "size",
    "ports",
)
_FIGURES: Final = (Column.HOTTEST, Column.LOST, Column.CHARGE, Column.LOSS, Column.MARGIN)


class FitTable(QTreeWidget):
    """Shows rows best first until a column head is pressed; the row under the pointer or the keys is the one `looked_at`."""

    looked_at = Signal(object)  # FitRow | None
    chosen = Signal(object)  # FitRow

    def __init__(self, palette: Palette) -> None:
        super().__init__()
        self._palette = palette
        self._rows: tuple[FitRow, ...] = ()
        self._items: dict[str, QTreeWidgetItem] = {}
        self._sort: tuple[Column, bool] | None = None
        self._looked_at: str | None = None
        self.setColumnCount(len(_HEADS))
        self.setHeaderLabels(list(_HEADS))
        self.setRootIsDecorated(False)
        self.setUniformRowHeights(True)
        self.setAllColumnsShowFocus(True)
        self.setMouseTracking(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setAccessibleName("What fits")
        self.setStyleSheet("QTreeWidget::item { padding: 3px 2px; }")
        self.setToolTip("Point at a row to see it on the nose; a click puts it in, and Undo takes it back.")
        header = self.header()
        header.setSectionsClickable(True)
        header.setSectionsMovable(False)
        header.setStretchLastSection(False)
        header.setSortIndicatorClearable(True)
        for column in Column:
            fixed = column is Column.NAME
            header.setSectionResizeMode(
                column, QHeaderView.ResizeMode.Interactive if fixed else QHeaderView.ResizeMode.ResizeToContents
            )
            self.headerItem().setTextAlignment(column, _RIGHT if column in _FIGURES else Qt.AlignmentFlag.AlignLeft)
        header.resizeSection(Column.NAME, _NAME_PX)
        header.sectionClicked.connect(self._sort_by)
        self.itemEntered.connect(lambda item, _column: self._look_at(item))
        self.currentItemChanged.connect(lambda item, _before: self._look_at(item))
        self.itemClicked.connect(lambda item, _column: self.chosen.emit(item.data(0, _ROW_ROLE)))

    def show_rows(self, rows: Sequence[FitRow]) -> None:
        """Show these rows; under the pointer they keep their places, so that none is clicked that just came there."""
        self._rows = tuple(rows)
        if self.underMouse() and {row.part.id for row in rows} == self._items.keys():
            for row in rows:
                self._fill(self._items[row.part.id], row)
            return
        self._rebuild()

    def _rebuild(self) -> None:
        current = self.current
        self.blockSignals(True)  # noqa: FBT003  Qt's signature; the rows are the same ones in another order
        self.clear()
        self._items = {}
        for row in self._sorted():
            item = self._items[row.part.id] = QTreeWidgetItem()
            self._fill(item, row)
            self.addTopLevelItem(item)
        if current is not None and current.part.id in self._items:
            self.setCurrentItem(self._items[current.part.id])
        self.blockSignals(False)  # noqa: FBT003  as above

    def show_palette(self, palette: Palette) -> None:
        """Show the rows in these colours."""
        self._palette = palette
        self._rebuild()

    @property
    def current(self) -> FitRow | None:
        """Return the row that the keys stand on."""
        item = self.currentItem()
        return None if item is None else item.data(0, _ROW_ROLE)

    @property
    def shown(self) -> tuple[FitRow, ...]:
        """Return the rows from top to bottom."""
        items = (self.topLevelItem(place) for place in range(self.topLevelItemCount()))
        return tuple(item.data(0, _ROW_ROLE) for item in items if item is not None)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Enter put the row in."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.current is not None:
            self.chosen.emit(self.current)
            event.accept()
            return
        super().keyPressEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        """Look at nothing once the pointer has left."""
        super().leaveEvent(event)
        self.look_away()
        self._rebuild()

    def look_away(self) -> None:
        """Look at no row."""
        if self._looked_at is not None:
            self._looked_at = None
            self.looked_at.emit(None)

    def _look_at(self, item: QTreeWidgetItem | None) -> None:
        row: FitRow | None = None if item is None else item.data(0, _ROW_ROLE)
        if row is not None and row.part.id != self._looked_at:
            self._looked_at = row.part.id
            self.looked_at.emit(row)

    def _sort_by(self, section: int) -> None:
        column = Column(section)
        descending = column in (Column.HOTTEST, Column.MARGIN)
        if self._sort is None or self._sort[0] is not column:
            self._sort = (column, descending)
        elif self._sort[1] is descending:
            self._sort = (column, not descending)
        else:
            self._sort = None
        header = self.header()
        header.setSortIndicatorShown(self._sort is not None)
        if self._sort is not None:
            order = Qt.SortOrder.DescendingOrder if self._sort[1] else Qt.SortOrder.AscendingOrder
            header.setSortIndicator(self._sort[0], order)
        self._rebuild()

    def _sorted(self) -> list[FitRow]:
        rows = sorted(self._rows, key=lambda row: (row.order_factor, row.part.id))
        if self._sort is None:
            return rows
        column, descending = self._sort
        if column not in _FIGURES:
            return sorted(rows, key=_words_of(column), reverse=descending)
        figure = _figure_of(column)

        def key(row: FitRow) -> float:
            value = figure(row)
            return _UNKNOWN if value is None else -value if descending else value

        return sorted(rows, key=key)

    def _fill(self, item: QTreeWidgetItem, row: FitRow) -> None:
        texts = (
            row.name,
            row.verdict,
            row.hottest,
            row.lost,
            row.charge,
            row.loss,
            row.margin,
            row.way,
            row.size,
            row.ports,
        )
        for column, text in zip(Column, texts, strict=True):
            item.setText(column, text)
            if column in _FIGURES:
                item.setTextAlignment(column, _RIGHT)
        item.setData(0, _ROW_ROLE, row)
        item.setToolTip(0, row.part.name)
        if row.is_assessed:
            bold = QFont(self.font())
            bold.setBold(True)
            item.setFont(Column.VERDICT, bold)
            item.setForeground(Column.VERDICT, QBrush(mark_ink(Mark(row.verdict), self._palette)))
        else:
            for column in Column:
                item.setForeground(column, QBrush(self._palette.faint_ink))


def _words_of(column: Column) -> Callable[[FitRow], str]:
    words: dict[Column, Callable[[FitRow], str]] = {
        Column.NAME: lambda row: row.name,
        Column.VERDICT: lambda row: row.verdict,
        Column.WAY: lambda row: row.way,
        Column.SIZE: lambda row: row.size,
        Column.PORTS: lambda row: row.ports,
    }
    return words[column]


def _figure_of(column: Column) -> Callable[[FitRow], float | None]:
    figures: dict[Column, Callable[[FitRow], float | None]] = {
        Column.HOTTEST: lambda row: row.hottest_degc,
        Column.LOST: lambda row: row.lost_frac,
        Column.CHARGE: lambda row: row.charge_degc,
        Column.LOSS: lambda row: row.loss_pa,
        Column.MARGIN: lambda row: row.margin_mm,
    }
    return figures[column]
