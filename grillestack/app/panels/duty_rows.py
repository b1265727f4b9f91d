"""How does each duty case come out: one row per case, with all its figures when it is opened."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.duty_figures import NONE_IN_PACK, Figure, duty_figures
from grillestack.app.panels.duty_row import CHEVRON_PX, DutyRow
from grillestack.app.panels.why_spot import WhySpot, words_box
from grillestack.assess.figure import FigureName, Subject
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import Assessment

_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class DutyFigures(QWidget):
    """All figures of one duty case, label and value line by line, then the reasons for what is not known."""

    why_asked = Signal(object)  # WhySpot

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._figures: tuple[Figure, ...] = ()
        self._reasons = ""
        self._case_id = ""
        self.spots: list[WhySpot] = []
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Figures of the duty case")

    def show_figures(self, case_id: str, figures: tuple[Figure, ...], reasons: tuple[str, ...]) -> None:
        """Show these figures and reasons of that duty case."""
        words = " ".join(reasons)
        if (case_id, figures, words) == (self._case_id, self._figures, self._reasons):
            return
        self._case_id = case_id
        grows = len(figures) != len(self._figures) or words != self._reasons
        self._figures, self._reasons = figures, words
        self.setAccessibleDescription("; ".join([f"{label} {value}" for label, value in figures] + list(reasons)))
        if grows:
            self.updateGeometry()
        self._place_spots()
        self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        for spot in self.spots:
            spot.show_palette(palette)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let what can be asked about stay over its figure."""
        super().resizeEvent(event)
        self._place_spots()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Let a press on a label ask as one on the figure does."""
        row = int((event.position().y() - 2.0) // self._line_px())
        if 0 <= row < len(self.spots) and not self.spots[row].isHidden():
            self.spots[row].click()

    def _place_spots(self) -> None:
        while len(self.spots) < len(self._figures):
            spot = WhySpot(self._palette, self)
            spot.clicked.connect(lambda _checked=False, spot=spot: self.why_asked.emit(spot))
            self.spots.append(spot)
        for row, (spot, (label, value)) in enumerate(zip(self.spots, self._figures, strict=True)):
            if value == NONE_IN_PACK:
                spot.hide()
                continue
            box = self._row_box(row)
            said_px = float(self.fontMetrics().horizontalAdvance(value))
            over = words_box(box, said_px, self.fontMetrics().height(), at_right=True)
            spot.lie_over(over, Subject(FigureName(label), self._case_id), f"{label} {value}")

    def _row_box(self, row: int) -> QRectF:
        line = self._line_px()
        return QRectF(CHEVRON_PX, 2.0 + row * line, self.width() - CHEVRON_PX - 4, line)

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
        metrics = self.fontMetrics()
        for row, (label, value) in enumerate(self._figures):
            box = self._row_box(row)
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

    why_asked = Signal(object)  # WhySpot
    folded = Signal()

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

    def tab_chain(self) -> Iterator[QWidget]:
        """Return what Tab reaches here, top to bottom."""
        for row, figures in self._rows[: len(self.rows)]:
            yield from (row, row.spot)
            if row.isChecked():
                yield from (spot for spot in figures.spots if not spot.isHidden())

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
        row.toggled.connect(lambda _checked: self.folded.emit())
        for asks in (row.why_asked, figures.why_asked):
            asks.connect(self.why_asked)
        self._layout.addWidget(row)
        self._layout.addWidget(figures)
        self._rows.append((row, figures))

    def _fill(self, place: int) -> None:
        row, figures = self._rows[place]
        if row.isChecked() and self._assessment is not None:
            case = self._assessment.cases[place]
            shown = duty_figures(case, self._assessment.project, self._units)
            figures.show_figures(case.case_id, shown, case.reasons)
        figures.setVisible(row.isChecked())
