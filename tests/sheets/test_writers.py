"""What all three files hold, seen from outside: lengths true to scale, letters embedded, the same bytes each time."""

from __future__ import annotations

import base64
import io
import math
import re
import xml.etree.ElementTree as ET
import zlib

import ezdxf
import pytest
from PySide6.QtGui import QColor, QFontDatabase, QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

from grillestack.sheets.draw_list import (
    HIDDEN,
    OUTLINE,
    Arc,
    Axis,
    Circle,
    Fill,
    Hatch,
    Line,
    LinearDimension,
    OrdinateDimension,
    Point,
    Polyline,
    Text,
    dimensions,
)
from grillestack.sheets.lettering import font_file
from grillestack.sheets.output import UnknownEndingError, file_bytes
from grillestack.sheets.write_dxf import dxf_bytes
from grillestack.sheets.write_pdf import pdf_bytes
from grillestack.sheets.write_svg import svg_bytes
from tests.sheets.drawn import a_sheet, demo_sheets

BAR = Line(start=Point(30.0, 40.0), end=Point(130.0, 40.0), stroke=OUTLINE)
UPRIGHT_BAR = Line(start=Point(30.0, 50.0), end=Point(30.0, 150.0), stroke=OUTLINE)
PT_PER_MM = 72 / 25.4


def content_of(pdf: bytes) -> list[str]:
    """Return the drawing commands of each page, unpacked by the standard library."""
    packed = re.findall(rb"/ASCII85Decode /FlateDecode \] /Length \d+\s*>>\s*stream\s+(.*?)~>", pdf, re.DOTALL)
    unpacked = [zlib.decompress(base64.a85decode(one.strip())) for one in packed]
    return [one.decode("latin-1") for one in unpacked if b" l S" in one]


def lines_of_page(content: str) -> list[tuple[float, float, float, float]]:
    """Return every single straight line of a page in points."""
    number = r"(-?[\d.]+)"
    found = re.findall(rf"{number} {number} m {number} {number} l S", content)
    return [tuple(float(n) for n in line) for line in found]


def test_a_bar_of_100_mm_is_100_mm_long_in_the_pdf_on_both_axes_to_a_hundredth():
    (content,) = content_of(pdf_bytes([a_sheet(BAR, UPRIGHT_BAR)]))
    lengths = [math.dist(line[:2], line[2:]) / PT_PER_MM for line in lines_of_page(content)]
    assert lengths == pytest.approx([100.0, 100.0], abs=0.01)


@pytest.mark.parametrize("number", [1, 2, 3])
def test_every_line_of_a_demo_lies_in_the_pdf_where_the_draw_list_has_it(number):
    sheet = demo_sheets(number)[0]
    (content, *_) = content_of(pdf_bytes([sheet]))
    written = {tuple(round(n / PT_PER_MM, 2) for n in line) for line in lines_of_page(content)}
    for mark in sheet.marks:
        if isinstance(mark, Line):
            wanted = (mark.start.x_mm, mark.start.y_mm, mark.end.x_mm, mark.end.y_mm)
            assert any(math.dist(wanted, line) < 0.02 for line in written)


def test_pages_are_as_large_as_the_paper():
    pdf = pdf_bytes(demo_sheets(1))
    boxes = re.findall(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", pdf)
    assert len(boxes) == len(demo_sheets(1))
    for box in boxes:
        # ISO 216: A3 is 297 × 420 mm.
        assert [float(n) / PT_PER_MM for n in box] == pytest.approx([420.0, 297.0], abs=0.01)


def test_the_font_travels_in_the_pdf():
    pdf = pdf_bytes([a_sheet(Text(at=Point(20.0, 20.0), text="Ø9 core → tank"))])
    assert b"/FontFile2" in pdf
    assert b"DejaVuSans" in pdf


def test_line_widths_in_the_pdf_are_those_of_the_line_group():
    (content,) = content_of(pdf_bytes([a_sheet(BAR)]))
    widths = [float(w) / PT_PER_MM for w in re.findall(r"([\d.]+) w\b", content)]
    assert 0.5 in [pytest.approx(w, abs=0.001) for w in widths]


@pytest.mark.parametrize("ending", [".pdf", ".svg", ".dxf"])
def test_the_same_sheets_give_the_same_bytes(ending):
    sheets = demo_sheets(3)
    assert file_bytes(sheets, ending) == file_bytes(sheets, ending)


def test_svg_is_xml_in_millimetres_with_each_line_as_long_as_on_the_sheet():
    root = ET.fromstring(svg_bytes(a_sheet(BAR, UPRIGHT_BAR)))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("210mm", "297mm", "0 0 210 297")
    lines = root.findall(".//{*}line")
    lengths = [
        math.hypot(float(e.get("x2")) - float(e.get("x1")), float(e.get("y2")) - float(e.get("y1"))) for e in lines
    ]
    assert lengths == pytest.approx([100.0, 100.0], abs=0.001)
    assert float(lines[0].get("y1")) == 297.0 - 40.0


@pytest.mark.parametrize("number", [1, 2, 3])
def test_svg_of_a_demo_is_drawn_by_a_renderer_with_all_its_texts(qapp, number):
    QFontDatabase.addApplicationFont(str(font_file()))
    for sheet in demo_sheets(number):
        content = svg_bytes(sheet)
        renderer = QSvgRenderer(content)
        assert renderer.isValid()
        picture = QImage(840, 594, QImage.Format.Format_RGB32)
        picture.fill(QColor("white"))
        painter = QPainter(picture)
        renderer.render(painter)
        painter.end()
        dark = sum(picture.pixelColor(x, y).lightness() < 128 for x in range(0, 840, 3) for y in range(0, 594, 3))
        assert dark > 200
        said = {element.text for element in ET.fromstring(content).iter("{*}text")} | {
            element.text for element in ET.fromstring(content).findall(".//{*}text")
        }
        assert "VERIFY ON VEHICLE" in " ".join(word for word in said if word)


def test_markup_in_a_text_stays_a_text():
    root = ET.fromstring(svg_bytes(a_sheet(Text(at=Point(10.0, 10.0), text='a < b & "c"'))))
    assert [element.text for element in root.findall(".//{*}text")] == ['a < b & "c"']


def read_back(content: bytes):
    """Return the DXF document as another reading gives it."""
    return ezdxf.read(io.StringIO(content.decode("utf-8")))


@pytest.mark.parametrize("number", [1, 2, 3])
def test_dxf_of_a_demo_is_sound_and_in_millimetres(number):
    for sheet in demo_sheets(number):
        doc = read_back(dxf_bytes(sheet))
        auditor = doc.audit()
        assert (auditor.errors, auditor.fixes) == ([], [])
        assert doc.header["$INSUNITS"] == 4
        assert doc.dxfversion == "AC1024"


@pytest.mark.parametrize("number", [1, 2, 3])
def test_dimensions_read_back_from_dxf_measure_what_the_model_has(number):
    for sheet in demo_sheets(number):
        drawn = [one for one in dimensions(sheet) if isinstance(one, LinearDimension | OrdinateDimension)]
        entities = list(read_back(dxf_bytes(sheet)).modelspace().query("DIMENSION"))
        assert len(entities) == len(drawn)
        for entity, one in zip(entities, drawn, strict=True):
            measured = entity.get_measurement()
            if isinstance(one, OrdinateDimension):
                # The library gives the place from the datum as a point or a number, by its version.
                value = measured if isinstance(measured, float) else measured[0 if one.axis is Axis.ACROSS else 1]
                assert abs(value) == pytest.approx(abs(one.measured_mm), abs=1e-6)
            else:
                assert measured == pytest.approx(one.measured_mm, abs=1e-6)
            assert entity.dxf.actual_measurement == pytest.approx(one.measured_mm, abs=1e-9)
            assert entity.dxf.text == one.text.replace("\n", "\\P")


def test_a_dxf_holds_the_pack_at_full_size():
    sheet = a_sheet(BAR, scale=5.0)
    (line,) = read_back(dxf_bytes(sheet)).modelspace().query("LINE")
    assert line.dxf.start.distance(line.dxf.end) == pytest.approx(500.0)


def test_a_dimension_of_a_view_in_another_scale_carries_the_factor_between_them():
    bar = LinearDimension(
        key="detail",
        first=Point(20.0, 20.0),
        second=Point(60.0, 20.0),
        direction_deg=0.0,
        line_at=Point(20.0, 30.0),
        text_at=Point(40.0, 31.0),
        text="40",
        measured_mm=40.0,
    )
    (entity,) = read_back(dxf_bytes(a_sheet(bar, scale=5.0))).modelspace().query("DIMENSION")
    assert entity.get_measurement() * entity.override().get("dimlfac") == pytest.approx(40.0)


def test_every_kind_of_mark_can_be_written_in_every_format():
    corners = (Point(10.0, 10.0), Point(40.0, 10.0), Point(40.0, 30.0), Point(10.0, 30.0))
    sheet = a_sheet(
        BAR,
        Polyline(points=corners, is_closed=True, stroke=HIDDEN),
        Circle(centre=Point(60.0, 60.0), radius_mm=10.0),
        Arc(centre=Point(60.0, 90.0), radius_mm=10.0, start_deg=300.0, end_deg=60.0),
        Text(at=Point(20.0, 100.0), text="100 %% and ±1°", angle_deg=90.0, is_bold=True),
        Fill(points=corners[:3]),
        Fill(points=corners),
        Hatch(points=corners),
    )
    for ending in (".pdf", ".svg", ".dxf"):
        assert file_bytes([sheet], ending)[""]
    doc = read_back(dxf_bytes(sheet))
    assert doc.audit().errors == []
    assert {e.dxftype() for e in doc.modelspace()} == {"LINE", "LWPOLYLINE", "CIRCLE", "ARC", "TEXT", "SOLID", "HATCH"}


def test_an_arc_ends_where_it_should_in_svg():
    arc = Arc(centre=Point(100.0, 100.0), radius_mm=10.0, start_deg=0.0, end_deg=90.0)
    path = ET.fromstring(svg_bytes(a_sheet(arc))).find(".//{*}path").get("d")
    assert path == "M 110 197 A 10 10 0 0 0 100 187"


def test_hatching_covers_an_area_with_lines_as_far_apart_as_asked():
    # A 30 × 20 mm rectangle, level lines 2.5 mm apart from y = 10 to 30: at 10, 12.5 … 27.5, all 30 mm long.
    corners = (Point(10.0, 10.0), Point(40.0, 10.0), Point(40.0, 30.0), Point(10.0, 30.0))
    lines = ET.fromstring(svg_bytes(a_sheet(Hatch(points=corners, angle_deg=0.0)))).findall(".//{*}line")
    assert len(lines) == 8
    assert {abs(float(e.get("x2")) - float(e.get("x1"))) for e in lines} == {30.0}


def test_several_sheets_are_pages_of_one_pdf_but_files_of_their_own_otherwise():
    sheets = demo_sheets(1)
    assert list(file_bytes(sheets, ".PDF")) == [""]
    assert list(file_bytes(sheets, ".svg")) == [f"-{n}" for n in range(1, len(sheets) + 1)]
    assert list(file_bytes(sheets[:1], ".dxf")) == [""]


def test_an_unknown_ending_is_refused():
    with pytest.raises(UnknownEndingError, match=r"end in \.pdf, \.svg or \.dxf"):
        file_bytes(demo_sheets(1), ".bmp")
