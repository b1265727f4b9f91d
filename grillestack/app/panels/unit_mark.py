"""The unit beside a field; where a default stands in, it is dotted under and can be asked why."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

_LEAST_PX = 38
_ASK = "why?"


class UnitMark(QAbstractButton):
    """Shows the unit; askable, it takes the focus, and a press toggles the answer under the field."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._askable = False
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setEnabled(False)

    @property
    def askable(self) -> bool:
        """Return whether there is something to ask."""
        return self._askable

    def show_unit(self, unit: str, asked_of: str = "") -> None:
        """Show the unit; with the name of a field it can be asked why, and has a word for that where there is no unit."""
        self._askable = bool(asked_of)
        self.setText(unit or (_ASK if asked_of else ""))
        self.setVisible(bool(self.text()))
        self.setEnabled(self._askable)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus if self._askable else Qt.FocusPolicy.NoFocus)
        self.setCursor(Qt.CursorShape.WhatsThisCursor if self._askable else Qt.CursorShape.ArrowCursor)
        self.setAccessibleName(f"{asked_of}: why this default?" if asked_of else unit)
        self.setToolTip("Why this default?" if asked_of else "")
        if not self._askable:
            self.setChecked(False)
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Return a size that holds the unit."""
        metrics = self.fontMetrics()
        return QSize(max(_LEAST_PX, metrics.horizontalAdvance(self.text()) + 2), metrics.height() + 6)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Enter ask too."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the unit, and the dots under it."""
        del event
        painter = QPainter(self)
        colours, box = self.palette(), QRectF(self.rect())
        ink = colours.color(QPalette.ColorGroup.Active, QPalette.ColorRole.WindowText)
        painter.setPen(ink)
        painter.drawText(box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, self.text())
        if self._askable:
            lit = self.hasFocus() or self.underMouse()
            faint = colours.color(QPalette.ColorGroup.Active, QPalette.ColorRole.PlaceholderText)
            pen = QPen(colours.color(QPalette.ColorGroup.Active, QPalette.ColorRole.Link) if lit else faint, 1.0)
            pen.setDashPattern([1.0, 2.0])
            painter.setPen(pen)
            y = box.center().y() + self.fontMetrics().height() / 2 + 1
            width = float(self.fontMetrics().horizontalAdvance(self.text()))
            painter.drawLine(QPointF(0, y), QPointF(width, y))
            if self.hasFocus():
                painter.setPen(QPen(pen.color(), 1.0))
                painter.drawRect(QRectF(0.5, 0.5, width + 1, box.height() - 1.5))
        painter.end()
