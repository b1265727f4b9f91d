"""The figures of two layouts under each other: the other one, the one in hand, the difference."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QFontMetrics
from PySide6.QtWidgets import QAbstractItemView, QFrame, QHeaderView, QTreeWidget, QTreeWidgetItem

from grillestack.app.palette import Palette
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.assess.comparison import Comparison

_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_SAME = "same"


class FiguresTable(QTreeWidget):
    """One row per figure; what does not differ stands back in faint ink."""

    def __init__(self) -> None:
        super().__init__()
        self.setColumnCount(4)
        self.setRootIsDecorated(False)
        self.setUniformRowHeights(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        self.setAccessibleName("Figures side by side")
        self.setStyleSheet(
            "QTreeWidget::item { padding: 3px 6px; }"
            "QHeaderView { background: transparent; }"
            "QHeaderView::section { background: transparent; border: 0; padding: 3px 9px; font-weight: bold; }"
        )
        header = self.header()
        header.setStretchLastSection(True)
        header.setSectionsMovable(False)
        header.setMinimumSectionSize(60)
        for column in (0, 1, 2):
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)

    def show_comparison(self, comparison: Comparison, units: UnitSystem, palette: Palette) -> None:
        """Show these figures."""
        there, here = comparison.names
        self.clear()
        self.setHeaderLabels(["", self._fitting(there), f"{self._fitting(here)}, in hand", "difference"])
        head = self.headerItem()
        for column in (1, 2, 3):
            head.setTextAlignment(column, _RIGHT)
        faint, over = QBrush(palette.faint_ink), QBrush(palette.fail_ink)
        for figure in comparison.figures:
            difference = figure.difference_words(units)
            row = QTreeWidgetItem([figure.label, figure.other_words(units), figure.in_hand_words(units), difference])
            for column in (1, 2, 3):
                row.setTextAlignment(column, _RIGHT)
            for column in range(4) if difference == _SAME else ():
                row.setForeground(column, faint)
            for column, amount in ((1, figure.other), (2, figure.in_hand)):
                if amount.is_over:
                    row.setForeground(column, over)
            self.addTopLevelItem(row)

    def texts(self) -> list[list[str]]:
        """Return what the rows say, column by column."""
        rows = (self.topLevelItem(n) for n in range(self.topLevelItemCount()))
        return [[row.text(column) for column in range(4)] for row in rows if row is not None]

    def _fitting(self, name: str) -> str:
        return QFontMetrics(self.font()).elidedText(name, Qt.TextElideMode.ElideRight, max(60, self.width() // 5))
