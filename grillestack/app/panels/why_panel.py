"""Why a figure is what it is: a sheet over the column, at the figure, that goes along while the pack changes."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QPoint, QPointF, QRect, Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.answer_section import ink_label
from grillestack.app.panels.further_words import kept_together
from grillestack.app.panels.link import Link
from grillestack.app.panels.why_words import LONG_WORDS, input_words, source_lines, title_words, whole_words
from grillestack.assess.figure import Why
from grillestack.units.display import UnitSystem

_NOTCH_PX = 7
_LEAST_PX = 220
_EDGE_PX = 8


class WhyPanel(QWidget):
    """Shows one answer; Esc or *close* puts it away."""

    closed = Signal()

    def __init__(self, palette: Palette, listed: Mapping[str, str], parent: QWidget) -> None:
        super().__init__(parent)
        self._palette = palette
        self._listed = listed
        self._why: Why | None = None
        self._units = UnitSystem.METRIC
        self._notch = QPoint()
        self.title = QLabel(self)
        self.title.setWordWrap(True)
        bold = QFont(self.font())
        bold.setBold(True)
        self.title.setFont(bold)
        self.close_link = Link("close", palette, self)
        self.close_link.setAccessibleName("Close why")
        self.close_link.clicked.connect(self.closed)
        self._scroll = QScrollArea(self)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setWidgetResizable(True)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        # The application's style paints every scrolled page as a panel; this one is paper.
        self._scroll.setStyleSheet("QScrollArea, QScrollArea > QWidget > QWidget { background: transparent; }")
        self._column = QVBoxLayout()
        head = QHBoxLayout()
        head.addWidget(self.title, 1)
        head.addWidget(self.close_link, 0, Qt.AlignmentFlag.AlignTop)
        self._page = QVBoxLayout(self)
        self._page.setContentsMargins(12, 10, 4, 8)
        self._page.setSpacing(6)
        self._page.addLayout(head)
        self._page.addWidget(self._scroll, 1)
        self.setAccessibleName("Why")
        self.hide()

    @property
    def why(self) -> Why | None:
        """Return what is shown."""
        return None if self.isHidden() else self._why

    def words(self) -> str:
        """Return all that is shown as plain text."""
        return whole_words(self._why, self._units, self._listed) if self._why is not None else ""

    def show_why(self, why: Why, units: UnitSystem) -> None:
        """Show that answer; the same one again changes nothing, and scrolled to it stays."""
        if (why, units) == (self._why, self._units):
            return
        same = self._why is not None and self._why.title == why.title
        at = self._scroll.verticalScrollBar().value() if same else 0
        self._why, self._units = why, units
        self.title.setText(kept_together(title_words(why, units)))
        self.setAccessibleDescription(self.words())
        self._scroll.setAccessibleName(self.words())
        old = self._scroll.takeWidget()
        if old is not None:
            old.deleteLater()
        self._scroll.setWidget(self._written(why, units))
        self._scroll.verticalScrollBar().setValue(at)

    def focus_first(self) -> None:
        """Give the focus to what is read, so that arrows scroll and Esc closes."""
        self._scroll.setFocus()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.close_link.show_palette(palette)
        ink_label(self.title, palette.ink)
        if self._why is not None:
            why, self._why = self._why, None
            self.show_why(why, self._units)
        self.update()

    def stand_at(self, figure: QRect, room: QRect) -> None:
        """Stand under the figure, or over it where there is more room; both boxes are the parent's."""
        width = room.width()
        wanted = self._wanted_px(width)
        below, above = room.bottom() - figure.bottom(), figure.top() - room.top()
        under = below >= min(wanted, _LEAST_PX) or below >= above
        height = min(wanted, max(below if under else above, _LEAST_PX))
        top = figure.bottom() + 1 if under else figure.top() - height
        top = max(room.top(), min(top, room.bottom() + 1 - height))
        self.setGeometry(room.left(), top, width, height)
        self._notch = QPoint(min(max(figure.center().x() - room.left(), 16), width - 16), 0 if under else height)
        self._page.setContentsMargins(12, 10 if not under else 10 + _NOTCH_PX, 4, 8 if under else 8 + _NOTCH_PX)
        self.raise_()
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Esc put it away."""
        if event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
            event.accept()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the sheet and its notch towards the figure."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), self._palette.panel)
        x, under = self._notch.x(), self._notch.y() == 0
        w, h, n = self.width() - 1.0, self.height() - 1.0, float(_NOTCH_PX)
        top, bottom = (n, h) if under else (0.5, h - n)
        notch = [(x - n, top), (x, 0.5), (x + n, top)] if under else []
        foot = [] if under else [(x + n, bottom), (x, h), (x - n, bottom)]
        corners = [(0.5, top), *notch, (w, top), (w, bottom), *foot, (0.5, bottom)]
        painter.setPen(QPen(self._palette.accent, 1.2))
        painter.setBrush(self._palette.paper)
        painter.drawPolygon(QPolygonF([QPointF(*corner) for corner in corners]))
        painter.end()

    def _wanted_px(self, width: int) -> int:
        inner = width - 34
        title = self.title.heightForWidth(inner - self.close_link.sizeHint().width() - 8)
        return title + self._column.totalHeightForWidth(inner) + 40 + _NOTCH_PX

    def _written(self, why: Why, units: UnitSystem) -> QWidget:
        body = QWidget()
        self._column = column = QVBoxLayout(body)
        column.setContentsMargins(0, 0, _EDGE_PX, 0)
        column.setSpacing(4)
        column.addWidget(self._label(why.says))
        self._chapter(column, "How it is found", [why.method])
        self._chapter(column, "How far it may be out", [why.spread])
        if why.inputs:
            column.addWidget(self._heading("What goes in"))
            column.addLayout(self._inputs(why, units))
        self._chapter(column, "Sources", source_lines(why, self._listed))
        column.addStretch(1)
        return body

    def _chapter(self, column: QVBoxLayout, heading: str, lines: list[str]) -> None:
        if any(lines):
            column.addWidget(self._heading(heading))
            for line in lines:
                column.addWidget(self._label(line))

    def _inputs(self, why: Why, units: UnitSystem) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(0)
        grid.setColumnStretch(0, 1)
        row = 0
        for one in why.inputs:
            name, value, origin = input_words(one, units)
            is_long = len(value) > LONG_WORDS
            grid.addWidget(self._label(name), row, 0, 1, 2 if is_long else 1)
            if not is_long:
                shown = self._label(value, wraps=False)
                shown.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
                grid.addWidget(shown, row, 1)
            beneath = "; ".join(words for words in (value if is_long else "", origin) if words)
            if beneath:
                # What nobody typed carries a mark, not only the word.
                mark = "◇ " if one.is_default else ""
                grid.addWidget(self._label(f"{mark}{beneath}", faint=True), row + 1, 0, 1, 2)
            grid.setRowMinimumHeight(row + 2, 3)
            row += 3
        return grid

    def _label(self, words: str, *, faint: bool = False, wraps: bool = True) -> QLabel:
        label = QLabel(kept_together(words))
        label.setTextFormat(Qt.TextFormat.PlainText)
        label.setWordWrap(wraps)
        label.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        ink_label(label, self._palette.faint_ink if faint else self._palette.ink)
        return label

    def _heading(self, words: str) -> QLabel:
        label = self._label(words, faint=True)
        label.setContentsMargins(0, 6, 0, 0)
        bold = QFont(label.font())
        bold.setBold(True)
        label.setFont(bold)
        return label
