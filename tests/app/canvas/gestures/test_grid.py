"""The grid in the unit in use: what a hand moves comes to rest on it where no named line is nearer."""

from __future__ import annotations

import pytest

from grillestack.app.canvas.gestures.grid import on_grid
from grillestack.app.canvas.gestures.snap import Axis
from grillestack.geometry.projection import project_part
from grillestack.model.edits import move_parts
from grillestack.units.display import UnitSystem


def test_the_lower_edge_the_middle_and_the_front_are_caught():
    assert on_grid((543.0, 700.0), Axis.Z, 0.0, UnitSystem.METRIC).shift_mm == pytest.approx(-3)
    # The middle stands at 12: 10 is nearer than 20.
    assert on_grid((2.0, 22.0), Axis.Y, 0.0, UnitSystem.METRIC).shift_mm == pytest.approx(-2)
    assert on_grid((48.0, 70.0), Axis.X, 5.0, UnitSystem.METRIC).shift_mm == pytest.approx(-3)


def test_in_inches_it_is_half_an_inch():
    found = on_grid((25.0, 60.0), Axis.Z, 0.0, UnitSystem.INCH)
    assert found.shift_mm == pytest.approx(0.4)
    assert "1/2 in" in found.line.words


def test_a_drag_comes_to_rest_on_it_only_while_it_is_on(front, hand, session):
    session.apply("off", move_parts(session.project, ["fan-1"], dy_mm=3.3, dz_mm=1.7))
    session.select(["fan-1"])
    front.grid.switch(on=True)
    hand.press(158, 702)
    hand.move(150, 690)
    hand.move(121, 651)
    assert [line.words for line in front.marks.snaps] == [
        "middle on the grid of 10 mm",
        "lower edge on the grid of 10 mm",
    ]
    assert not front.grab().isNull()
    hand.release(121, 651)
    box = project_part(session.project.part("fan-1")).outline_box
    assert (box.y0_mm + box.y1_mm) / 2 % 10 == pytest.approx(0)
    assert box.z0_mm % 10 == pytest.approx(0)
    front.grid.switch(on=False)
    hand.press(120, 650)
    hand.move(110, 650)
    hand.move(87, 633)
    assert not any("grid" in line.words for line in front.marks.snaps)
    hand.release(87, 633)
