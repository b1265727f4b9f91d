"""What would an old hand say about this pack: findings worst first, each with a way to see what it speaks of."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from math import ceil
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent, QTextLayout, QTextOption
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.link import Link
from grillestack.app.panels.verdict_marks import Mark, paint_mark

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.assess.result import Finding

_MARK_PX = 14
_TEXT_LEFT_PX = 20
_PAD_PX = 5
_SHOW_ME = "show me"
_TYPE_IT = "type it"
_LINK_GAP_PX = 8
_AFTER_FIGURE = re.compile(r"(?<=\d) (?=\S)")


class FindingRow(QAbstractButton):
    """One finding: its severity as a shape, its text, and "show me" if it speaks of parts; pressing it shows them.

    Where one edit mends it, "do it" stands beside.
    """

    outgrown = Signal()  # the letters are others, so the height is too

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.do_it = Link("do it", palette, self)
        self.do_it.hide()
        self._palette = palette
        self._finding: Finding | None = None
        self._lines = QTextLayout()
        self._link = QRectF()
        self._text_px = 0.0
        self._measured_for: tuple[str, str, bool, int, str] = ("", "", False, 0, "")

    @property
    def finding(self) -> Finding | None:
        """Return the finding that is shown."""
        return self._finding

    @property
    def link_words(self) -> str:
        """Return what stands after the text: where a figure is missing, the way to type it; else the way to see the parts."""
        if self._finding is None:
            return ""
        if self._finding.sheet_field:
            return _TYPE_IT
        return _SHOW_ME if self._finding.parts else ""

    def show_finding(self, finding: Finding) -> None:
        """Show that finding."""
        if finding == self._finding:
            return
        self._finding = finding
        self.setText(finding.text)
        severity = finding.severity.value
        self.setAccessibleName(f"{severity}: {finding.text}")
        shows = "Selects the parts it speaks of. " if self.link_words == _SHOW_ME else ""
        shows = "Goes to the line of the engine sheet. " if self.link_words == _TYPE_IT else shows
        self.setAccessibleDescription(f"{shows}Rests on: {finding.source}." if finding.source else shows.strip())
        self.setToolTip(f"{severity}; rests on: {finding.source}" if finding.source else severity)
        self.do_it.setVisible(finding.mend is not None)
        if finding.mend is not None:
            self.do_it.setAccessibleName(f"do it: {finding.mend.value}")
            self.do_it.setAccessibleDescription("One step; Undo takes it back.")
            self.do_it.setToolTip(f"{finding.mend.value.capitalize()}, in one step; Undo takes it back.")
        pressable = bool(self.link_words)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if pressable else Qt.FocusPolicy.NoFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor if pressable else Qt.CursorShape.ArrowCursor)
        self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.do_it.show_palette(palette)
        self.update()

    def height_at(self, width: int) -> int:
        """Return the height the finding needs at that width."""
        words = self.link_words
        mendable = self._finding is not None and self._finding.mend is not None
        wanted = (self.text(), words, mendable, width, self.font().key())
        if wanted != self._measured_for:
            self._measured_for = wanted
            self._measure(width - _TEXT_LEFT_PX)
        return ceil(self._text_px) + 2 * _PAD_PX

    def _measure(self, width: int) -> None:
        """Break the text into lines; "show me" follows the last one, or stands below it where there is no room."""
        # A figure stays with its unit: no line ends between them.
        self._lines = QTextLayout(_AFTER_FIGURE.sub("\u00a0", self.text()), self.font())
        wrap = QTextOption()
        wrap.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        self._lines.setTextOption(wrap)
        self._lines.beginLayout()
        height = last_px = 0.0
        while (line := self._lines.createLine()).isValid():
            line.setLineWidth(max(40, width))
            line.setPosition(QPointF(0.0, height))
            height, last_px = height + line.height(), line.naturalTextWidth()
        self._lines.endLayout()
        line_px = float(self.fontMetrics().height())
        link_px = float(self.fontMetrics().horizontalAdvance(self.link_words)) + 2
        if not self.link_words:
            self._link = QRectF()
        elif last_px + _LINK_GAP_PX + link_px <= width:
            self._link = QRectF(last_px + _LINK_GAP_PX, height - line_px, link_px, line_px)
        else:
            self._link = QRectF(0.0, height, link_px, line_px)
        self._text_px = max(height, self._link.bottom())
        if self._finding is not None and self._finding.mend is not None:
            self._place_do_it(
                QPointF(last_px, height - line_px) if self._link.isNull() else self._link.topRight(), width
            )

    def _place_do_it(self, after: QPointF, width: int) -> None:
        """Let "do it" follow what stands there, or stand below it where there is no room."""
        size = self.do_it.sizeHint()
        line_px = float(self.fontMetrics().height())
        at = QPointF(after.x() + _LINK_GAP_PX, after.y())
        if at.x() + size.width() > width:
            at = QPointF(0.0, after.y() + line_px)
        self._text_px = max(self._text_px, at.y() + line_px)
        top = at.y() + _PAD_PX + (line_px - size.height()) / 2
        self.do_it.setGeometry(QRect(int(at.x() + _TEXT_LEFT_PX), int(top), size.width(), size.height()))

    def sizeHint(self) -> QSize:
        """Return the size at the present width."""
        return QSize(self.width(), self.height_at(self.width()))

    def changeEvent(self, event: QEvent) -> None:
        """Ask for another height when the letters change."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.outgrown.emit()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint mark, text and "show me"."""
        del event
        if self._finding is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette, box = self._palette, QRectF(self.rect())
        if self.hasFocus():
            painter.setPen(QPen(palette.accent, 1.5))
            painter.drawRect(box.adjusted(1, 1, -1, -1))
        line = self.fontMetrics().height()
        mark = QRectF(1, _PAD_PX + (line - _MARK_PX) / 2, _MARK_PX, _MARK_PX)
        paint_mark(painter, mark, Mark(self._finding.severity.value), palette)
        self.height_at(self.width())
        origin = QPointF(_TEXT_LEFT_PX, _PAD_PX)
        painter.setPen(palette.ink)
        self._lines.draw(painter, origin)
        if self.link_words:
            font = painter.font()
            font.setUnderline(self.underMouse())
            painter.setFont(font)
            painter.setPen(palette.accent)
            painter.drawText(self._link.translated(origin), Qt.AlignmentFlag.AlignVCenter, self.link_words)
        painter.end()


class FindingsList(QWidget):
    """All findings in the order given; a row follows its finding and is used again for another, never made anew."""

    show_requested = Signal(object)  # tuple[str, ...]: ids of the parts a finding speaks of
    mend_requested = Signal(object)  # Finding
    type_requested = Signal(str)  # the line of the engine sheet that is missing

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._shown: list[FindingRow] = []
        self._spare: list[FindingRow] = []
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Findings")

    @property
    def rows(self) -> tuple[FindingRow, ...]:
        """Return the rows that are shown, worst first."""
        return tuple(self._shown)

    def tab_chain(self) -> list[QWidget]:
        """Return what Tab reaches here, top to bottom."""
        chain: list[QWidget] = []
        for row in self._shown:
            if row.link_words:
                chain.append(row)
            if row.finding is not None and row.finding.mend is not None:
                chain.append(row.do_it)
        return chain

    def show_findings(self, findings: Sequence[Finding]) -> None:
        """Show these findings, touching only what differs from what is shown."""
        if [row.finding for row in self._shown] == list(findings):
            return
        rows = self._rows_for(findings)
        for row in self._shown:
            if row not in rows:
                row.setVisible(False)
                self._spare.append(row)
        turned = rows != self._shown
        self._shown = rows
        for row, finding in zip(rows, findings, strict=True):
            row.show_finding(finding)
        if turned:
            for before, after in itertools.pairwise(self.tab_chain()):
                QWidget.setTabOrder(before, after)
        self._place_rows()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        for row in (*self._shown, *self._spare):
            row.show_palette(palette)

    def sizeHint(self) -> QSize:
        """Return the size at the present width."""
        return QSize(260, self.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the texts anew at another width."""
        if event.size().width() != event.oldSize().width():
            self._place_rows()
        super().resizeEvent(event)

    def _rows_for(self, findings: Sequence[Finding]) -> list[FindingRow]:
        """Return one row per finding: the row that shows it, else one that spoke of the same, else a spare or new one."""
        exact = {row.finding: row for row in self._shown}
        rows = [exact.pop(finding, None) for finding in findings]
        akin: dict[tuple[tuple[str, ...], str], list[FindingRow]] = {}
        for old, row in exact.items():
            if old is not None:
                akin.setdefault((old.parts, old.source), []).append(row)
        for place, finding in enumerate(findings):
            free = akin.get((finding.parts, finding.source))
            if rows[place] is None and free:
                rows[place] = free.pop(0)
        return [row if row is not None else self._spare_row() for row in rows]

    def _spare_row(self) -> FindingRow:
        if self._spare:
            return self._spare.pop()
        row = FindingRow(self._palette, self)
        row.clicked.connect(lambda: self._request(row))
        row.do_it.clicked.connect(lambda: self._request_mend(row))
        row.outgrown.connect(self._place_rows)
        return row

    def _request(self, row: FindingRow) -> None:
        if row.finding is None:
            return
        if row.link_words == _TYPE_IT:
            self.type_requested.emit(row.finding.sheet_field)
        elif row.finding.parts:
            self.show_requested.emit(row.finding.parts)

    def _request_mend(self, row: FindingRow) -> None:
        if row.finding is not None and row.finding.mend is not None:
            self.mend_requested.emit(row.finding)

    def _place_rows(self) -> None:
        top, width = 0, self.width()
        for row in self._shown:
            height = row.height_at(width)
            if row.geometry() != QRect(0, top, width, height):
                row.setGeometry(0, top, width, height)
            row.setVisible(True)
            top += height
        if self.height() != top or self.minimumHeight() != top:
            self.setFixedHeight(top)
