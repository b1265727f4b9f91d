"""The dimension line of each field is as long as what it measures, at one scale, and inside the picture."""

from __future__ import annotations

from dataclasses import replace

import pytest

from grillestack.app.tape.drawing import Drawing
from grillestack.app.tape.taped import Corner, Taped, TapedPort
from tests.app.tape.test_taped import MEASURED

WHOLE = replace(
    MEASURED,
    core_low_mm=5.0,
    tank_depth_mm=60.0,
    tank_ahead_mm=15.0,
    ports=(TapedPort(corner=Corner.LOWER_LEFT, across_mm=70.0, along_mm=90.0),),
)
LENGTHS = {
    "core_width_mm": 600,
    "core_height_mm": 400,
    "depth_mm": 40,
    "overall_width_mm": 720,
    "overall_height_mm": 416,
    "core_right_mm": 50,
    "core_low_mm": 5,
    "tank_depth_mm": 60,
    "tank_ahead_mm": 15,
    "ports.0.across_mm": 70,
    "ports.0.along_mm": 90,
}


@pytest.fixture
def drawing():
    return Drawing(WHOLE, 520, 300)


@pytest.mark.parametrize(("field", "length_mm"), LENGTHS.items())
def test_a_line_is_as_long_as_what_it_measures(drawing, field, length_mm):
    span = drawing.span(field)
    along = span.end - span.start
    scale = drawing.frame().scale_px_per_mm
    assert (along.x() ** 2 + along.y() ** 2) ** 0.5 == pytest.approx(length_mm * scale)
    for end in (span.start, span.end):
        assert 0 <= end.x() <= 520
        assert 0 <= end.y() <= 300


def test_the_vehicles_right_is_at_the_left(drawing):
    core, overall = (drawing.frame().rect(r) for r in (drawing.front.core, drawing.front.overall))
    scale = drawing.frame().scale_px_per_mm
    # The tank at the vehicle's right is 50 wide, the one at its left 70.
    assert core.left() - overall.left() == pytest.approx(50 * scale)
    assert overall.right() - core.right() == pytest.approx(70 * scale)


def test_a_port_lies_where_it_was_measured_from_its_corner(drawing):
    overall, at = drawing.frame().rect(drawing.front.overall), drawing.place(WHOLE.ports[0])
    scale = drawing.frame().scale_px_per_mm
    assert overall.right() - at.x() == pytest.approx(70 * scale)
    assert overall.bottom() - at.y() == pytest.approx(90 * scale)


def test_tanks_ahead_of_the_core_are_drawn_ahead_of_it(drawing):
    scale = drawing.frame().scale_px_per_mm
    assert drawing.side_box().left() - drawing.tank_box().left() == pytest.approx(15 * scale)


@pytest.mark.parametrize("taped", [Taped(), Taped(core_width_mm=-5), Taped(core_width_mm=600, overall_width_mm=100)])
@pytest.mark.parametrize("size", [(520, 300), (90, 60)])
def test_a_picture_is_there_before_everything_is_measured_or_right(taped, size):
    drawing = Drawing(taped, *size)
    for field in LENGTHS:
        drawing.span(field)
    assert drawing.frame().scale_px_per_mm > 0


def test_what_is_no_length_has_no_line(drawing):
    for field in ("weight_kg", "", "ports.0.bore_mm", "ports.7.across_mm"):
        assert drawing.span(field) is None
