"""How does each duty case come out: one row per case, with all its figures when it is opened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.duty_figures import Figure, duty_figures
from grillestack.app.panels.duty_row import CHEVRON_PX, DutyRow
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import Assessment

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class DutyFigures(QWidget):
    """All figures of one duty case, label and value line by line, then the reasons for what is not known."""

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._figures: tuple[Figure, ...] = ()
        self._reasons = ""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Figures of the duty case")

    def show_figures(self, figures: tuple[Figure, ...], reasons: tuple[str, ...]) -> None:
        """Show these figures and reasons."""
        words = " ".join(reasons)
        if (figures, words) == (self._figures, self._reasons):
            return
        grows = len(figures) != len(self._figures) or words != self._reasons
        self._figures, self._reasons = figures, words
        self.setAccessibleDescription("; ".join([f"{label} {value}" for label, value in figures] + list(reasons)))
        if grows:
            self.updateGeometry()
        self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.update()

    def hasHeightForWidth(self) -> bool:
        """Return that reasons wrap."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height at that width."""
        return self._lines_px() + self._reasons_px(width) + 8

    def sizeHint(self) -> QSize:
        """Return a size that holds every line."""
        return QSize(260, self.heightForWidth(self.width()))

    def _line_px(self) -> int:
        return self.fontMetrics().height() + 2

    def _lines_px(self) -> int:
        return self._line_px() * len(self._figures)

    def _reasons_px(self, width: int) -> int:
        if not self._reasons:
            return 0
        room = QRect(0, 0, max(40, width - CHEVRON_PX - 4), 10_000)
        return self.fontMetrics().boundingRect(room, Qt.TextFlag.TextWordWrap, self._reasons).height() + 4

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint every line."""
        del event
        painter = QPainter(self)
        line, metrics = self._line_px(), self.fontMetrics()
        for row, (label, value) in enumerate(self._figures):
            box = QRectF(CHEVRON_PX, 2.0 + row * line, self.width() - CHEVRON_PX - 4, line)
            room_px = int(box.width()) - metrics.horizontalAdvance(value) - 8
            painter.setPen(self._palette.faint_ink)
            painter.drawText(box, _LEFT, metrics.elidedText(label, Qt.TextElideMode.ElideRight, room_px))
            painter.setPen(self._palette.ink)
            painter.drawText(box, _RIGHT, value)
        if self._reasons:
            box = QRectF(CHEVRON_PX, 4.0 + self._lines_px(), self.width() - CHEVRON_PX - 4, self.height())
            painter.setPen(self._palette.ink)
            painter.drawText(box, Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignTop, self._reasons)
        painter.end()


class DutyRows(QWidget):
    """All duty cases; rows stay as long as their case does, and an opened case stays open."""

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._assessment: Assessment | None = None
        self._units = UnitSystem.METRIC
        self._rows: list[tuple[DutyRow, DutyFigures]] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(0)
        self.setAccessibleName("Duty cases")

    @property
    def rows(self) -> tuple[DutyRow, ...]:
        """Return the rows that are shown, from top to bottom."""
        count = len(self._assessment.cases) if self._assessment else 0
        return tuple(row for row, _figures in self._rows[:count])

    @property
    def open_figures(self) -> tuple[DutyFigures, ...]:
        """Return the figures of the opened cases, from top to bottom."""
        return tuple(figures for row, figures in self._rows if row.isChecked() and not figures.isHidden())

    def show_assessment(self, assessment: Assessment | None, units: UnitSystem) -> None:
        """Show the cases of that assessment in those units."""
        self._assessment = assessment
        self._units = units
        cases = assessment.cases if assessment else ()
        while len(self._rows) < len(cases):
            self._add_row()
        deciding = assessment.deciding_case if assessment else None
        for place, (row, figures) in enumerate(self._rows):
            if place < len(cases):
                row.show_case(
                    cases[place], units, decides=deciding is not None and cases[place].case_id == deciding.case_id
                )
                row.setVisible(True)
                self._fill(place)
            else:
                row.setVisible(False)
                figures.setVisible(False)

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        for row, figures in self._rows:
            row.show_palette(palette)
            figures.show_palette(palette)

    def _add_row(self) -> None:
        place = len(self._rows)
        row, figures = DutyRow(self._palette, self), DutyFigures(self._palette, self)
        figures.setVisible(False)
        row.toggled.connect(lambda _checked: self._fill(place))
        self._layout.addWidget(row)
        self._layout.addWidget(figures)
        self._rows.append((row, figures))

    def _fill(self, place: int) -> None:
        row, figures = self._rows[place]
        if row.isChecked() and self._assessment is not None:
            case = self._assessment.cases[place]
            figures.show_figures(duty_figures(case, self._assessment.project, self._units), case.reasons)
        figures.setVisible(row.isChecked())
