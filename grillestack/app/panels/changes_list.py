"""What to change first: the rungs of the ladder, the best three at once and the others when asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.answer_section import ink_label
from grillestack.app.panels.change_row import ChangeRow
from grillestack.app.panels.further_words import left_out_words
from grillestack.app.panels.link import Link
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.advice.ladder import Ladder

AT_ONCE: Final = 3


class ChangesList(QWidget):
    """One row a rung; rows are used again, never made anew for the same number of rungs."""

    show_requested = Signal(object)  # tuple[str, ...]
    do_requested = Signal(object)  # Rung
    why_asked = Signal(object)  # WhySpot
    grown = Signal()

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._made: list[ChangeRow] = []
        self._count = 0
        self._is_old = False
        self._reason, self._left_out = QLabel(self), QLabel(self)
        self.more = Link("", palette, self)
        self.more.setCheckable(True)
        self.more.toggled.connect(lambda _checked: self._unfold())
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(2)
        for label in (self._reason, self._left_out):
            label.setWordWrap(True)
        self._column.addWidget(self._reason)
        self._column.addWidget(self.more, 0, Qt.AlignmentFlag.AlignLeft)
        self._column.addWidget(self._left_out)
        self.setAccessibleName("What to change first")
        self.show_palette(palette)

    @property
    def rows(self) -> tuple[ChangeRow, ...]:
        """Return the rows that hold a rung, best first, folded away or not."""
        return tuple(self._made[: self._count])

    def show_ladder(self, found: Ladder | None, units: UnitSystem, *, is_old: bool) -> None:
        """Show these rungs and how many are left out; old ones are of before the last change."""
        rungs = found.rungs if found else ()
        self._is_old = is_old
        self._count = len(rungs)
        has_grown = len(self._made) < self._count
        while len(self._made) < self._count:
            self._make_row()
        for place, (row, rung) in enumerate(zip(self._made, rungs, strict=False)):
            row.show_rung(rung, units, place, is_old=is_old)
        reason, left_out = (found.reason, left_out_words(found)) if found else ("", "")
        for label, words in ((self._reason, reason), (self._left_out, left_out)):
            label.setText(words)
            label.setVisible(bool(words))
        self._unfold()
        self._ink()
        if has_grown:
            self.grown.emit()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.more.show_palette(palette)
        for row in self._made:
            row.show_palette(palette)
        self._ink()

    def _make_row(self) -> None:
        row = ChangeRow(self._palette, self)
        row.show_requested.connect(self.show_requested)
        row.do_requested.connect(self.do_requested)
        row.why_asked.connect(self.why_asked)
        self._column.insertWidget(1 + len(self._made), row)
        self._made.append(row)

    def _unfold(self) -> None:
        shown = self._count if self.more.isChecked() else min(AT_ONCE, self._count)
        for number, row in enumerate(self._made):
            row.setVisible(number < shown)
        rest = self._count - AT_ONCE
        self.more.setVisible(rest > 0)
        words = "fewer" if self.more.isChecked() else f"{rest} more"
        self.more.setText(words)
        self.more.setAccessibleName(f"{words} changes")
        self.more.updateGeometry()

    def _ink(self) -> None:
        ink_label(self._reason, self._palette.faint_ink if self._is_old else self._palette.ink)
        ink_label(self._left_out, self._palette.faint_ink)
