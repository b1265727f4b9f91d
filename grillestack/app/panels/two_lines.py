"""How a row of a list is painted: a number, a name, and a faint line of sizes under it."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from grillestack.app.palette import Palette

DETAIL_ROLE = Qt.ItemDataRole.UserRole + 1
ABOVE_ROLE = Qt.ItemDataRole.UserRole + 2
NUMBER_ROLE = Qt.ItemDataRole.UserRole + 3
WARN_ROLE = Qt.ItemDataRole.UserRole + 4

_MARGIN = 8
_NUMBER_WIDTH = 22

Index = QModelIndex | QPersistentModelIndex


class TwoLines(QStyledItemDelegate):
    """Paints rows that carry a detail; others, such as group headings, as the style does."""

    def __init__(self, palette: Palette) -> None:
        super().__init__()
        self._palette = palette

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """Return the room a row takes."""
        if index.data(DETAIL_ROLE) is None:
            hint = super().sizeHint(option, index)
            return QSize(hint.width(), max(hint.height(), 26))
        name, detail = option.fontMetrics.height(), QFontMetrics(_small_font(option.font)).height()
        above = detail + 2 if index.data(ABOVE_ROLE) else 0
        return QSize(120, name + detail + 8 + above)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one row."""
        if index.data(DETAIL_ROLE) is None:
            super().paint(painter, option, index)
            return
        painter.save()
        small_font = _small_font(option.font)
        small = QFontMetrics(small_font)
        rect = QRect(option.rect)
        above = index.data(ABOVE_ROLE)
        if above:
            painter.setFont(small_font)
            painter.setPen(QPen(self._palette.warning if index.data(WARN_ROLE) else self._palette.faint_ink))
            gap = QRect(rect.left() + _MARGIN + _NUMBER_WIDTH, rect.top() + 1, rect.width(), small.height())
            painter.drawText(gap, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, above)
            rect.setTop(rect.top() + small.height() + 2)
        self._paint_state(painter, option, rect)
        left = rect.left() + _MARGIN
        number = index.data(NUMBER_ROLE)
        if number:
            painter.setFont(option.font)
            painter.setPen(QPen(self._palette.faint_ink))
            painter.drawText(
                QRect(left, rect.top(), _NUMBER_WIDTH, rect.height()), Qt.AlignmentFlag.AlignVCenter, number
            )
            left += _NUMBER_WIDTH
        width = rect.right() - left - 4
        painter.setFont(option.font)
        painter.setPen(QPen(self._palette.ink))
        name = option.fontMetrics.elidedText(index.data(), Qt.TextElideMode.ElideRight, width)
        painter.drawText(
            QRect(left, rect.top() + 3, width, option.fontMetrics.height()), Qt.AlignmentFlag.AlignLeft, name
        )
        painter.setFont(small_font)
        painter.setPen(QPen(self._palette.faint_ink))
        detail = small.elidedText(index.data(DETAIL_ROLE), Qt.TextElideMode.ElideRight, width)
        painter.drawText(
            QRect(left, rect.top() + 4 + option.fontMetrics.height(), width, small.height()),
            Qt.AlignmentFlag.AlignLeft,
            detail,
        )
        painter.restore()

    def _paint_state(self, painter: QPainter, option: QStyleOptionViewItem, rect: QRect) -> None:
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, self._palette.accent_wash)
            painter.fillRect(QRect(rect.left(), rect.top(), 3, rect.height()), self._palette.accent)
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(self._palette.accent, 1))
            painter.drawRect(rect.adjusted(0, 0, -1, -1))


def _small_font(font: QFont) -> QFont:
    small = QFont(font)
    small.setPointSizeF(max(7.0, font.pointSizeF() * 0.88))
    return small
