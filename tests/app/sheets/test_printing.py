"""A print is as large as the drawing says, and shows the same marks as the other writers."""

from __future__ import annotations

import numpy as np
import pypdfium2
import pytest
from PySide6.QtCore import QByteArray, QRectF
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtSvg import QSvgRenderer

from grillestack.app.sheets.paint import Letters, draw, inked
from grillestack.app.sheets.printing import page_layout, prepare, print_sheets
from grillestack.sheets.dimension_marks import text_area
from grillestack.sheets.draw_list import Line, Point, Polyline, Text
from grillestack.sheets.write_svg import svg_bytes
from tests.app.sheets.made import a_sheet

_PX_PER_MM = 6
_DPI = 600


def printed(sheets, path):
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(path))
    prepare(printer, sheets)
    assert print_sheets(printer, sheets)
    return pypdfium2.PdfDocument(path)


def dark_columns_mm(page, at_mm, top_mm):
    """Return where along a level strip of the page ink begins and ends."""
    picture = page.render(scale=_DPI / 72, grayscale=True).to_numpy()
    row = round((top_mm - at_mm) * _DPI / 25.4)
    inked_at = np.flatnonzero((picture[row - 4 : row + 5] < 128).any(axis=0))
    return inked_at[0] * 25.4 / _DPI, (inked_at[-1] + 1) * 25.4 / _DPI


def test_a_bar_of_100_mm_measures_100_mm_on_the_print(qapp, tmp_path):
    bar = Line(start=Point(40, 20), end=Point(140, 20))
    document = printed([a_sheet(marks=(bar,))], tmp_path / "bar.pdf")
    start, end = dark_columns_mm(document[0], 20.0, 210.0)
    # 0.2 mm in 300 mm is what a print may be out by.
    assert end - start == pytest.approx(100.0, abs=0.2 / 3)
    assert start == pytest.approx(40.0, abs=0.1)
    document.close()


def test_each_page_has_the_size_of_its_sheet(qapp, tmp_path):
    sheets = [
        a_sheet(),
        a_sheet("tall", width_mm=210.0, height_mm=297.0),
        a_sheet("a3", width_mm=420.0, height_mm=297.0),
    ]
    document = printed(sheets, tmp_path / "sizes.pdf")
    sizes = [(page.get_width() * 25.4 / 72, page.get_height() * 25.4 / 72) for page in document]
    # A page of this writer is whole points: 0.35 mm.
    assert sizes == [pytest.approx((one.width_mm, one.height_mm), abs=0.36) for one in sheets]
    document.close()


@pytest.mark.parametrize(("width", "height"), [(297.0, 210.0), (210.0, 297.0), (431.8, 279.4), (863.6, 558.8)])
def test_the_page_is_the_sheet_without_margins(qapp, width, height):
    layout = page_layout(a_sheet(width_mm=width, height_mm=height))
    full = layout.fullRect(layout.Unit.Millimeter)
    assert (full.width(), full.height()) == (pytest.approx(width, abs=0.2), pytest.approx(height, abs=0.2))
    assert layout.margins().isNull()


def test_lines_lie_where_the_svg_has_them(qapp):
    marks = tuple(mark for mark in a_sheet().marks if not hasattr(mark, "text") and not hasattr(mark, "lines"))
    assert len(marks) == 9
    sheet = a_sheet(marks=marks)
    ours, theirs = blank(sheet), blank(sheet)
    painter = QPainter(ours)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(_PX_PER_MM, _PX_PER_MM)
    draw(painter, inked(sheet.marks, sheet.height_mm, Letters()), sheet.line_group, QColor("black"))
    painter.end()
    painter = QPainter(theirs)
    QSvgRenderer(QByteArray(svg_bytes(sheet))).render(painter, QRectF(theirs.rect()))
    painter.end()
    here, there = dark(ours), dark(theirs)
    assert here.sum() > 5000
    assert not (here & ~grown(there)).any()
    assert not (there & ~grown(here)).any()


def test_letters_fill_the_room_that_the_sheet_keeps_for_them(qapp):
    for turn in (0.0, 90.0, 30.0):
        text = Text(at=Point(100, 100), text="Hg 812 ×", height_mm=5.0, angle_deg=turn)
        bounds = Letters().outline(text, 210.0).boundingRect()
        area = text_area(text)
        assert bounds.left() >= area.x0_mm - 0.1
        assert bounds.right() <= area.x1_mm + 0.1
        assert 210.0 - bounds.bottom() >= area.y0_mm - 0.1
        assert 210.0 - bounds.top() <= area.y1_mm + 0.1
    level = Letters().outline(Text(at=Point(100, 100), text="H", height_mm=5.0), 210.0).boundingRect()
    assert level.height() == pytest.approx(5.0, abs=0.02)  # ISO 3098: the height of letters is that of capitals


def test_a_closed_line_is_closed(qapp):
    corners = (Point(10, 10), Point(30, 10), Point(30, 30))
    ((_, path),) = inked([Polyline(points=corners, is_closed=True)], 210.0, Letters()).lines
    assert path.elementAt(path.elementCount() - 1).x == 10.0


def blank(sheet):
    picture = QImage(
        round(sheet.width_mm * _PX_PER_MM), round(sheet.height_mm * _PX_PER_MM), QImage.Format.Format_Grayscale8
    )
    picture.fill(255)
    return picture


def dark(picture):
    rows = np.frombuffer(picture.constBits(), dtype=np.uint8).reshape(picture.height(), picture.bytesPerLine())
    return rows[:, : picture.width()] < 128


def grown(mask):
    """Return the mask with two more pixels around all that is dark."""
    out = mask.copy()
    for _ in range(2):
        wide = out.copy()
        for axis in (0, 1):
            for step in (-1, 1):
                wide |= np.roll(out, step, axis)
        out = wide
    return out
