"""How low the metal is over a stretch along the vehicle."""

from __future__ import annotations

import pytest

from grillestack.geometry.bonnet import lowest_between
from grillestack.model.outline import SidePoint

LINE = (SidePoint(0.0, 100.0), SidePoint(100.0, 60.0), SidePoint(200.0, 120.0))


@pytest.mark.parametrize(
    ("x0_mm", "x1_mm", "lowest_mm"),
    [(0, 50, 80.0), (50, 150, 60.0), (150, 400, 90.0), (-50, 0, 100.0), (100, 100, 60.0)],
)
def test_the_lowest_point_over_a_stretch(x0_mm, x1_mm, lowest_mm):
    assert lowest_between(LINE, x0_mm, x1_mm) == pytest.approx(lowest_mm)


def test_where_the_line_does_not_run_nothing_is_known():
    assert lowest_between(LINE, 201.0, 300.0) is None
    assert lowest_between((), 0.0, 10.0) is None


def test_a_line_drawn_from_rear_to_front_is_the_same_line():
    assert lowest_between(tuple(reversed(LINE)), 50.0, 150.0) == 60.0
