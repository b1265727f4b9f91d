"""The course of the coolant over time: the choice from which duty case into which, and the plot with what it says in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.answer_section import ink_label
from grillestack.app.panels.further_words import kept_together, over_time_words
from grillestack.app.panels.link import Link
from grillestack.app.panels.over_time_plot import OverTimePlot
from grillestack.app.panels.quiet_box import QuietBox
from grillestack.app.workers.course import Course
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.over_time import OverTime


class OverTimePanel(QWidget):
    """The plot and its words."""

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._is_old = False
        self.plot = OverTimePlot(palette, self)
        self.words, self.notes = QLabel(self), QLabel(self)
        self.why_link = Link("what these times rest on", palette, self)
        for label in (self.words, self.notes):
            label.setWordWrap(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.plot)
        column.addWidget(self.words)
        column.addWidget(self.why_link, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self.notes)

    def show_course(self, found: OverTime | None, units: UnitSystem, *, is_old: bool) -> None:
        """Show that course; an old one is of before the last change."""
        self._is_old = is_old
        self.plot.show_course(found, units, is_old=is_old)
        self.words.setText(kept_together(over_time_words(found, units)) if found else "")
        self.why_link.setEnabled(found is not None and not is_old)
        notes = kept_together(" ".join(found.notes)) if found else ""
        self.notes.setText(notes)
        self.notes.setVisible(bool(notes))
        self._ink()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.plot.show_palette(palette)
        self.why_link.show_palette(palette)
        self._ink()

    def _ink(self) -> None:
        ink_label(self.words, self._palette.faint_ink if self._is_old else self._palette.ink)
        ink_label(self.notes, self._palette.faint_ink)


class CourseChoice(QWidget):
    """From which duty case, into which."""

    course_chosen = Signal(object)  # Course

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._names: tuple[tuple[str, str], ...] = ()
        self.before, self.after = QuietBox(), QuietBox()
        self._labels = (QLabel("from", self), QLabel("into", self))
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(1, 1)
        for row, (label, box, name) in enumerate(
            zip(self._labels, (self.before, self.after), ("From duty case", "Into duty case"), strict=True)
        ):
            box.setAccessibleName(name)
            box.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
            box.activated.connect(lambda _index: self._choose())
            grid.addWidget(label, row, 0, Qt.AlignmentFlag.AlignRight)
            grid.addWidget(box, row, 1)
        self.show_palette(palette)

    def show_choice(self, cases: Sequence[tuple[str, str]], course: Course | None) -> None:
        """Offer these duty cases, id and name, and show which are chosen."""
        names = tuple(cases)
        for box, chosen in ((self.before, course and course.from_id), (self.after, course and course.to_id)):
            blocker = QSignalBlocker(box)
            if names != self._names:
                box.clear()
                for case_id, name in names:
                    box.addItem(name, case_id)
            box.setCurrentIndex(box.findData(chosen) if chosen else -1)
            blocker.unblock()
        self._names = names

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        for label in self._labels:
            ink_label(label, palette.faint_ink)

    def _choose(self) -> None:
        before, after = self.before.currentData(), self.after.currentData()
        if before and after:
            self.course_chosen.emit(Course(before, after))
