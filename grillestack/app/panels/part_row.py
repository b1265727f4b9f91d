"""How a part is painted in a list: its number, its name in at most two lines, and a faint line of sizes under it."""

from __future__ import annotations

import enum

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPen, QTextLayout, QTextOption
from PySide6.QtWidgets import QAbstractItemView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from grillestack.app.palette import Palette
from grillestack.app.state_marks import paint_lock, paint_veil

DETAIL_ROLE = Qt.ItemDataRole.UserRole + 1
ABOVE_ROLE = Qt.ItemDataRole.UserRole + 2
NUMBER_ROLE = Qt.ItemDataRole.UserRole + 3
WARN_ROLE = Qt.ItemDataRole.UserRole + 4
STATE_ROLE = Qt.ItemDataRole.UserRole + 5

_MARGIN_PX = 8
_NUMBER_PX = 22
_MOST_LINES = 2
_MARK_PX = 14
_MARK_STEP_PX = 22
_OFFERED_FRAC = 0.35
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


class RowMark(enum.Enum):
    """The marks at the end of a part's row, from the right."""

    LOCKED = 0
    HIDDEN = 1


Index = QModelIndex | QPersistentModelIndex


class PartRow(QStyledItemDelegate):
    """Paints rows that carry a detail; others, such as group headings, as the style does."""

    def __init__(self, view: QAbstractItemView, palette: Palette, indentation_px: int = 0) -> None:
        super().__init__(view)
        self._view = view
        self._palette = palette
        self._indentation_px = indentation_px

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self._view.viewport().update()

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """Return the room a row takes."""
        if index.data(DETAIL_ROLE) is None:
            hint = super().sizeHint(option, index)
            return QSize(hint.width(), max(hint.height(), 26))
        width = self._view.viewport().width() - self._indentation_px
        lines = name_lines(index.data(), option.font, self._words_px(index, width))
        detail = QFontMetrics(_small_font(option.font)).height()
        above = detail + 2 if index.data(ABOVE_ROLE) else 0
        return QSize(120, len(lines) * option.fontMetrics.height() + detail + 8 + above)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one row."""
        if index.data(DETAIL_ROLE) is None:
            super().paint(painter, option, index)
            return
        painter.save()
        rect = self._paint_above(painter, option, index)
        self._paint_state(painter, option, rect)
        self._paint_words(painter, option, index, rect)
        self._paint_marks(painter, option, index, rect)
        painter.restore()

    def _paint_above(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> QRect:
        """Paint what stands between this row and the one before, and return the rest of the row."""
        above = index.data(ABOVE_ROLE)
        rect = QRect(option.rect)
        if not above:
            return rect
        font = _small_font(option.font)
        metrics = QFontMetrics(font)
        left = rect.left() + _MARGIN_PX + _NUMBER_PX
        room = QRect(left, rect.top() + 1, rect.right() - left - 4, metrics.height())
        painter.setFont(font)
        painter.setPen(QPen(self._palette.warning if index.data(WARN_ROLE) else self._palette.faint_ink))
        painter.drawText(room, _LEFT, metrics.elidedText(above, Qt.TextElideMode.ElideRight, room.width()))
        rect.setTop(room.bottom() + 2)
        return rect

    def _paint_state(self, painter: QPainter, option: QStyleOptionViewItem, rect: QRect) -> None:
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, self._palette.accent_wash)
            painter.fillRect(QRect(rect.left(), rect.top(), 3, rect.height()), self._palette.accent)
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(self._palette.accent, 1))
            painter.drawRect(rect.adjusted(0, 0, -1, -1))

    def _paint_words(self, painter: QPainter, option: QStyleOptionViewItem, index: Index, rect: QRect) -> None:
        left = rect.left() + _MARGIN_PX
        number = index.data(NUMBER_ROLE)
        painter.setFont(option.font)
        if number:
            painter.setPen(QPen(self._palette.faint_ink))
            painter.drawText(QRect(left, rect.top(), _NUMBER_PX, rect.height()), _LEFT, number)
            left += _NUMBER_PX
        width = self._words_px(index, rect.width())
        line_px, top = option.fontMetrics.height(), rect.top() + 3
        is_hidden = (index.data(STATE_ROLE) or (False, False))[1]
        painter.setPen(QPen(self._palette.faint_ink if is_hidden else self._palette.ink))
        for line in name_lines(index.data(), option.font, width):
            painter.drawText(QRect(left, top, width, line_px), _LEFT, line)
            top += line_px
        font = _small_font(option.font)
        metrics = QFontMetrics(font)
        painter.setFont(font)
        painter.setPen(QPen(self._palette.faint_ink))
        detail = metrics.elidedText(index.data(DETAIL_ROLE), Qt.TextElideMode.ElideRight, width)
        painter.drawText(QRect(left, top + 1, width, metrics.height()), _LEFT, detail)

    def _paint_marks(self, painter: QPainter, option: QStyleOptionViewItem, index: Index, rect: QRect) -> None:
        """Paint what the part is, and on a selected row faintly what a press there would make it."""
        state = index.data(STATE_ROLE)
        if state is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for mark, is_set, paint in (
            (RowMark.LOCKED, state[0], paint_lock),
            (RowMark.HIDDEN, state[1], paint_veil),
        ):
            if is_set:
                paint(painter, QRectF(mark_rect(rect, mark)), self._palette.ink)
            elif option.state & QStyle.StateFlag.State_Selected:
                offered = QColor(self._palette.faint_ink)
                offered.setAlphaF(_OFFERED_FRAC)
                paint(painter, QRectF(mark_rect(rect, mark)), offered)

    @staticmethod
    def _words_px(index: Index, row_px: int) -> int:
        marks_px = 0 if index.data(STATE_ROLE) is None else len(RowMark) * _MARK_STEP_PX
        return row_px - _MARGIN_PX - 4 - (_NUMBER_PX if index.data(NUMBER_ROLE) else 0) - marks_px


def mark_rect(row: QRect, mark: RowMark) -> QRect:
    """Return where a mark stands in a row."""
    right = row.right() - 4 - mark.value * _MARK_STEP_PX
    return QRect(right - _MARK_PX, row.bottom() - 8 - _MARK_PX, _MARK_PX, _MARK_PX)


def mark_at(row: QRect, place: QPoint) -> RowMark | None:
    """Return the mark under a place of the row, with some room around it, or nothing."""
    return next((mark for mark in RowMark if mark_rect(row, mark).adjusted(-4, -5, 4, 5).contains(place)), None)


def name_lines(name: str, font: QFont, width_px: int) -> list[str]:
    """Return the name broken at words into at most two lines; what is too long even then ends in an ellipsis."""
    metrics = QFontMetrics(font)
    if metrics.horizontalAdvance(name) <= width_px or width_px <= 0:
        return [name]
    layout = QTextLayout(name, font)
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WordWrap)
    layout.setTextOption(option)
    layout.beginLayout()
    first = layout.createLine()
    first.setLineWidth(width_px)
    layout.endLayout()
    cut = first.textLength()
    lines = [name[:cut].strip(), name[cut:].strip()]
    shown = (metrics.elidedText(line, Qt.TextElideMode.ElideRight, width_px) for line in lines if line)
    return list(shown)[:_MOST_LINES]


def _small_font(font: QFont) -> QFont:
    small = QFont(font)
    small.setPointSizeF(max(7.0, font.pointSizeF() * 0.88))
    return small
