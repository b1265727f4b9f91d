"""How does each duty case come out: one row per case, with all its figures when it is opened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.duty_figures import Figure, duty_figures, top_tank_words
from grillestack.app.panels.verdict_marks import VERDICT_WORDS, Mark, mark_ink, paint_mark
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import Assessment, CaseResult

_ROW_PAD_PX = 8
_CHEVRON_PX = 14
_MARK_PX = 12
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class DutyRow(QAbstractButton):
    """One duty case: name, verdict as shape and word, top tank temperature against its limit; pressed to open it."""

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._mark = Mark.UNKNOWN
        self._top_tank = ""
        self._decides = False
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_case(self, case: CaseResult, units: UnitSystem, *, decides: bool) -> None:
        """Show that case; the one that decides the verdict is set in bold."""
        mark, top_tank = Mark(case.verdict.value), top_tank_words(case, units)
        now = (case.name, mark, top_tank, decides)
        if now == (self.text(), self._mark, self._top_tank, self._decides):
            return
        if case.name != self.text():
            self.setText(case.name)
            self.updateGeometry()
        self.setToolTip(case.name)
        _, self._mark, self._top_tank, self._decides = now
        self.setAccessibleName(f"{case.name}: {VERDICT_WORDS[mark]}, top tank {top_tank}")
        self.setAccessibleDescription("Deciding case. Opens all figures." if decides else "Opens all figures.")
        self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.update()

    def hasHeightForWidth(self) -> bool:
        """Return that a long name takes a line of its own where the column is narrow."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height at that width."""
        lines = 1 if self._fits_one_line(width) else 2
        return lines * self.fontMetrics().height() + _ROW_PAD_PX

    def sizeHint(self) -> QSize:
        """Return the size at the present width."""
        return QSize(260, self.heightForWidth(self.width()))

    def _name_font(self) -> QFont:
        font = QFont(self.font())
        font.setBold(self._decides)
        return font

    def _columns_px(self) -> tuple[float, float]:
        """Return the widths of the verdict's word and of the top tank, the same in every row."""
        metrics = self.fontMetrics()
        return metrics.horizontalAdvance("not known") + 4.0, metrics.horizontalAdvance("000 of 000 °F") + 4.0

    def _fits_one_line(self, width: int) -> bool:
        bold = QFont(self.font())
        bold.setBold(True)  # whether it decides may change under a drag, its height may not
        name_px = QFontMetrics(bold).horizontalAdvance(self.text())
        return _CHEVRON_PX + name_px + 8 + _MARK_PX + 5 + sum(self._columns_px()) + 4 <= width

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint one line, or two where the name needs one of its own."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect())
        if self.underMouse() or self.isChecked():
            painter.fillRect(box, self._palette.accent_wash)
        if self.hasFocus():
            painter.setPen(QPen(self._palette.accent, 1.5))
            painter.drawRect(box.adjusted(1, 1, -1, -1))
        one_line = self._fits_one_line(self.width())
        line_px = float(self.fontMetrics().height())
        first = box if one_line else QRectF(box.left(), _ROW_PAD_PX / 2, box.width(), line_px)
        last = first if one_line else first.translated(0.0, line_px)
        word_px, tank_px = self._columns_px()
        tank = QRectF(box.right() - tank_px - 4, last.top(), tank_px, last.height())
        word = QRectF(tank.left() - word_px, last.top(), word_px, last.height())
        mark = QRectF(word.left() - _MARK_PX - 5, last.center().y() - _MARK_PX / 2, _MARK_PX, _MARK_PX)
        name_end = mark.left() - 4 if one_line else box.right() - 4
        name = QRectF(box.left() + _CHEVRON_PX, first.top(), name_end - box.left() - _CHEVRON_PX, first.height())
        self._paint_chevron(painter, first)
        painter.setPen(self._palette.ink)
        painter.drawText(tank, _RIGHT, self._top_tank)
        painter.setPen(mark_ink(self._mark, self._palette))
        painter.drawText(word, _LEFT, VERDICT_WORDS[self._mark])
        paint_mark(painter, mark, self._mark, self._palette)
        font = self._name_font()
        shown = QFontMetrics(font).elidedText(self.text(), Qt.TextElideMode.ElideRight, int(name.width()))
        painter.setFont(font)
        painter.setPen(self._palette.ink)
        painter.drawText(name, _LEFT, shown)
        painter.end()

    def _paint_chevron(self, painter: QPainter, box: QRectF) -> None:
        x, y = box.left() + 6, box.center().y()
        painter.setPen(QPen(self._palette.faint_ink, 1.5))
        if self.isChecked():
            painter.drawPolyline(QPolygonF([QPointF(x - 3, y - 2), QPointF(x, y + 2), QPointF(x + 3, y - 2)]))
        else:
            painter.drawPolyline(QPolygonF([QPointF(x - 2, y - 3), QPointF(x + 2, y), QPointF(x - 2, y + 3)]))


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
        room = QRect(0, 0, max(40, width - _CHEVRON_PX - 4), 10_000)
        return self.fontMetrics().boundingRect(room, Qt.TextFlag.TextWordWrap, self._reasons).height() + 4

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint every line."""
        del event
        painter = QPainter(self)
        line, metrics = self._line_px(), self.fontMetrics()
        for row, (label, value) in enumerate(self._figures):
            box = QRectF(_CHEVRON_PX, 2.0 + row * line, self.width() - _CHEVRON_PX - 4, line)
            room_px = int(box.width()) - metrics.horizontalAdvance(value) - 8
            painter.setPen(self._palette.faint_ink)
            painter.drawText(box, _LEFT, metrics.elidedText(label, Qt.TextElideMode.ElideRight, room_px))
            painter.setPen(self._palette.ink)
            painter.drawText(box, _RIGHT, value)
        if self._reasons:
            box = QRectF(_CHEVRON_PX, 4.0 + self._lines_px(), self.width() - _CHEVRON_PX - 4, self.height())
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
