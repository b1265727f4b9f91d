"""What lies under the pointer, and in which order it is offered."""

from __future__ import annotations

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.pick import handle_under, inside, next_in_cycle, under_front, under_side
from grillestack.model.outline import Point


def at(across: float, z: float, px_per_mm: float = 1.0) -> Pointer:
    return Pointer(across_mm=across, z_mm=z, px_per_mm=px_per_mm)


def test_parts_come_from_front_to_back(project):
    assert under_front(project, at(150, 680)) == ("condenser-1", "cac-1", "radiator-1", "shroud-1", "fan-1")


def test_the_beam_ahead_of_the_pack_comes_first(project):
    assert under_front(project, at(0, 560))[0] == "beam"


def test_the_corner_of_a_fans_square_is_not_the_fan(project):
    assert "fan-1" not in under_front(project, at(155 + 120, 700 + 120))
    assert "fan-1" in under_front(project, at(155 + 100, 700 + 100))


def test_an_outline_is_found_within_a_few_pixels_at_any_zoom(project):
    assert "opening-1" in under_front(project, at(353, 700))
    assert "opening-1" not in under_front(project, at(353, 700, px_per_mm=10))
    assert "opening-1" not in under_front(project, at(0, 700))


def test_the_cycle_goes_round():
    assert next_in_cycle(("a", "b", "c"), ("a",)) == "b"
    assert next_in_cycle(("a", "b", "c"), ("c",)) == "a"
    assert next_in_cycle(("a", "b", "c"), ("z",)) == "a"


def test_a_thin_core_is_easy_to_hit_from_the_side(project):
    assert under_side(project, at(62, 700)) == ("condenser-1",)
    assert under_side(project, at(30, 700)) == ()


def test_handles_leave_room_to_take_hold_of_a_part_that_looks_small(project):
    part = project.part("cac-1")
    assert handle_under(part, at(0, 700)) is not None
    assert handle_under(part, at(0, 640, px_per_mm=0.05)) is None


def test_inside_an_outline_with_a_notch():
    notch = (Point(0, 0), Point(10, 0), Point(10, 10), Point(5, 4), Point(0, 10))
    assert inside(notch, 5, 3)
    assert not inside(notch, 5, 6)
    assert not inside(notch, 11, 3)
