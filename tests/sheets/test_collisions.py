"""The count of collisions finds each kind of fault that is put before it."""

from __future__ import annotations

import pytest

from grillestack.sheets.collisions import collisions
from grillestack.sheets.draw_list import (
    OUTLINE,
    Across,
    Circle,
    Line,
    LinearDimension,
    Point,
    Text,
)


def text(x: float, y: float, words: str = "614", **more) -> Text:
    return Text(at=Point(x, y), text=words, **more)


def size(low: float, high: float, y: float) -> LinearDimension:
    return LinearDimension(
        key=f"{low}-{high}-{y}",
        first=Point(low, 0.0),
        second=Point(high, 0.0),
        direction_deg=0.0,
        line_at=Point(low, y),
        text_at=Point((low + high) / 2, y + 2.2),
        text=f"{high - low:g}",
        measured_mm=high - low,
    )


@pytest.mark.parametrize(
    "marks",
    [
        (text(0, 0), text(3, 1)),
        (text(0, 0), Line(start=Point(-5, 1), end=Point(30, 1))),
        (text(0, 0), Circle(centre=Point(0, -5), radius_mm=6.0)),
        (text(0, 0, angle_deg=90.0), Line(start=Point(-9, 3), end=Point(9, 3))),
        (text(0, 0, across=Across.RIGHT), Line(start=Point(-2, -9), end=Point(-2, 9))),
        # A text beyond the line of another dimension
        (size(0, 60, 20.0), text(20, 19)),
        # One dimension line along another
        (size(0, 60, 20.0), size(30, 90, 20.0)),
        # A dimension line through a wide outline
        (size(0, 60, 20.0), Line(start=Point(10, 10), end=Point(10, 30), stroke=OUTLINE)),
    ],
)
def test_each_kind_of_fault_is_found(marks):
    assert collisions(marks)


@pytest.mark.parametrize(
    "marks",
    [
        (),
        (text(0, 0), text(0, 10)),
        (text(0, 0), Line(start=Point(-5, -2), end=Point(30, -2))),
        (size(0, 60, 20.0),),
        # Extension lines may cross an outline.
        (size(0, 60, 20.0), Line(start=Point(-10, 10), end=Point(90, 10), stroke=OUTLINE)),
        (size(10, 40, 20.0), size(0, 60, 30.0)),
    ],
)
def test_what_may_be_is_not_counted(marks):
    assert collisions(marks) == ()
