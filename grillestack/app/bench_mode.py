"""Bench mode: for a touch screen or gloves, all that a hand takes hold of is large."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication

from grillestack.app.canvas.mm_view import MmView

TARGET_PX = 44
"""The least width and height of what is touched; WCAG 2.1, success criterion 2.5.5 (from memory)."""
HAND_FACTOR = 2.2
"""By how much further a hand reaches on the sheets: the smallest handle is then taken within 22 pixels all round."""
TEXT_FACTOR = 1.25


class BenchMode(QObject):
    """Whether the bench mode is on; tells when that changes."""

    changed = Signal(bool)

    def __init__(self, views: Sequence[MmView], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._views = tuple(views)
        self._usual_font = QFont(QApplication.font())
        self.is_on = False

    def switch(self, *, is_on: bool) -> None:
        """Turn it on or off: letters, and what a hand reaches on the sheets; the rest follows the signal."""
        if is_on == self.is_on:
            return
        self.is_on = is_on
        QApplication.setFont(bench_font(self._usual_font) if is_on else self._usual_font)
        for view in self._views:
            view.hand_factor = HAND_FACTOR if is_on else 1.0
            view.viewport().update()
        self.changed.emit(is_on)


def bench_font(usual: QFont) -> QFont:
    """Return the font in its size for the bench."""
    font = QFont(usual)
    if font.pointSizeF() > 0:
        font.setPointSizeF(font.pointSizeF() * TEXT_FACTOR)
    else:
        font.setPixelSize(round(font.pixelSize() * TEXT_FACTOR))
    return font


def bench_style() -> str:
    """Return what the bench mode adds to the style sheet: everything that is pressed is as large as a gloved finger."""
    least = TARGET_PX
    return f"""
QSplitter::handle:horizontal {{ background: palette(window); border: 1px solid palette(mid); border-width: 0 1px; }}
QPushButton, QToolButton, QComboBox, QLineEdit {{ min-height: {least - 8}px; padding: 3px 8px; }}
QToolButton#unit, QToolButton#face {{ min-height: {least - 4}px; min-width: {least - 14}px; padding: 1px 6px; }}
QToolBar {{ spacing: 0; padding: 2px 2px; }}
QToolBar QToolButton {{ min-height: {least - 10}px; padding: 4px 9px; }}
QToolBar QToolButton:focus {{ padding: 3px 8px; }}
QMenuBar::item {{ padding: {least // 4}px 12px; }}
QMenu::item {{ min-height: {least - 16}px; padding: 8px 28px 8px 24px; }}
QCheckBox, QRadioButton {{ min-height: {least}px; }}
QCheckBox::indicator {{ width: 24px; height: 24px; }}
QRadioButton::indicator {{ width: 24px; height: 24px; border-radius: 13px; }}
QRadioButton::indicator:checked {{ border-width: 8px; width: 10px; height: 10px; }}
QComboBox::drop-down {{ width: 26px; }}
QComboBox QAbstractItemView::item {{ min-height: {least}px; }}
QTreeWidget::item {{ min-height: {least}px; }}
QScrollBar:vertical {{ width: {least // 2}px; }}
QScrollBar:horizontal {{ height: {least // 2}px; }}
QScrollBar::handle {{ min-height: {least}px; min-width: {least}px; border-radius: 6px; }}
QSlider {{ min-height: {least}px; }}
QSlider::handle:horizontal {{ width: 28px; margin: -14px 0; }}
"""
