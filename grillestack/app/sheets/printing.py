"""Sheets on a printer at their true size: a millimetre of the drawing is a millimetre of paper, whatever the paper is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QPageLayout, QPageSize, QPainter

from grillestack.app.sheets.paint import Letters, draw, inked
from grillestack.sheets.draw_list import Sheet

if TYPE_CHECKING:  # printing is loaded when somebody prints
    from PySide6.QtGui import QPagedPaintDevice
    from PySide6.QtPrintSupport import QPrinter

_MM_PER_INCH = 25.4
NOT_PRINTED = (
    "The printer took nothing: see that it is switched on and has paper, or export a PDF and print that at 100 %."
)


def new_printer() -> QPrinter:
    """Return the system's printer, drawing from corner to corner of the paper."""
    from PySide6.QtPrintSupport import QPrinter

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setCreator("grillestack")
    return printer


def prepare(printer: QPrinter, sheets: Sequence[Sheet]) -> None:
    """Have the printer offer the paper of the first sheet, at full size."""
    printer.setFullPage(True)
    printer.setPageLayout(page_layout(sheets[0]))


def print_sheets(device: QPagedPaintDevice, sheets: Sequence[Sheet]) -> bool:
    """Print each sheet on a page of its own size, never fitted to another; return whether the printer took it."""
    device.setPageLayout(page_layout(sheets[0]))
    painter = QPainter()
    if not painter.begin(device):
        return False
    letters = Letters()
    try:
        for number, sheet in enumerate(sheets):
            if number:
                device.setPageLayout(page_layout(sheet))
                if not device.newPage():
                    return False
            painter.save()
            painter.scale(device.logicalDpiX() / _MM_PER_INCH, device.logicalDpiY() / _MM_PER_INCH)
            painter.setClipRect(QRectF(0.0, 0.0, sheet.width_mm, sheet.height_mm))
            draw(painter, inked(sheet.marks, sheet.height_mm, letters), sheet.line_group, QColor(Qt.GlobalColor.black))
            painter.restore()
    finally:
        painter.end()
    return True


def page_layout(sheet: Sheet) -> QPageLayout:
    """Return the sheet's paper, which way round it lies, without margins."""
    short, long = sorted((sheet.width_mm, sheet.height_mm))
    size = QPageSize(QSizeF(short, long), QPageSize.Unit.Millimeter, "", QPageSize.SizeMatchPolicy.FuzzyMatch)
    lies = sheet.width_mm > sheet.height_mm
    orientation = QPageLayout.Orientation.Landscape if lies else QPageLayout.Orientation.Portrait
    layout = QPageLayout(size, orientation, QMarginsF(), QPageLayout.Unit.Millimeter)
    layout.setMode(QPageLayout.Mode.FullPageMode)
    return layout
