"""Dimensions that were moved or switched off by hand."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.model.sheet_choices import DimensionShift
from grillestack.sheets.draw_list import LinearDimension, OrdinateDimension, dimensions
from tests.sheets.drawn import demo, demo_sheets, keys, pack_sheets


def with_shifts(*shifts: DimensionShift):
    project = demo(3)
    return pack_sheets(replace(project, sheet=replace(project.sheet, shifts=shifts)))


def test_a_dimension_that_is_switched_off_is_gone_and_no_other():
    off = with_shifts(DimensionShift(key="side:pack:overall-height", is_off=True))
    assert set(keys(demo_sheets(3)[0])) - set(keys(off[0])) == {"side:pack:overall-height"}


@pytest.mark.parametrize("kind", [LinearDimension, OrdinateDimension])
def test_a_moved_dimension_keeps_its_points_and_its_measure(kind):
    before = next(one for one in dimensions(demo_sheets(3)[0]) if isinstance(one, kind))
    sheet = with_shifts(DimensionShift(key=before.key, dx_mm=4.0, dy_mm=-6.0))[0]
    after = next(one for one in dimensions(sheet) if one.key == before.key)
    assert (after.text_at.x_mm - before.text_at.x_mm, after.text_at.y_mm - before.text_at.y_mm) == (
        pytest.approx(4.0),
        pytest.approx(-6.0),
    )
    assert after.measured_mm == before.measured_mm
    if kind is LinearDimension:
        assert (after.first, after.second) == (before.first, before.second)
    else:
        assert (after.feature, after.datum, after.leader[0]) == (before.feature, before.datum, before.leader[0])


def test_a_shift_of_something_that_is_not_there_does_no_harm():
    assert with_shifts(DimensionShift(key="front:gone:core:left", dx_mm=5.0)) == demo_sheets(3)
