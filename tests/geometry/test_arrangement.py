"""By how much parts are shifted to stand in line or with equal gaps; sums by hand beside each."""

import itertools

import pytest
from msgspec.structs import replace

from grillestack.geometry.arrangement import Along, LineUp, line_up, spread
from grillestack.geometry.projection import project_part
from grillestack.model.parts import Placement, Shroud


def box(name, y, z, *, width=100, height=60, x=0.0, depth=40.0, **more):
    return Shroud(
        id=name,
        name=name,
        width_mm=width,
        height_mm=height,
        depth_mm=depth,
        placement=Placement(x_mm=x, y_mm=y, z_mm=z, **more),
    )


def moved(parts, shifts):
    found = []
    for part in parts:
        dx, dy, dz = shifts[part.id]
        at = part.placement
        found.append(replace(part, placement=replace(at, x_mm=at.x_mm + dx, y_mm=at.y_mm + dy, z_mm=at.z_mm + dz)))
    return found


def test_tops_go_to_the_highest_and_nothing_else_moves():
    parts = [box("a", 0, 700), box("b", 300, 650, height=100), box("c", -50, 640)]
    # Tops: 730, 700, 670.
    assert line_up(parts, LineUp.TOPS) == {"a": (0, 0, 0), "b": (0, 0, 30), "c": (0, 0, 60)}


@pytest.mark.parametrize(
    ("how", "edge"),
    [
        (LineUp.TOPS, lambda p: p.outline_box.z1_mm),
        (LineUp.BOTTOMS, lambda p: p.outline_box.z0_mm),
        (LineUp.MIDDLES_LEVEL, lambda p: p.outline_box.z0_mm + p.outline_box.z1_mm),
        (LineUp.LEFT_SIDES, lambda p: p.outline_box.y0_mm),
        (LineUp.RIGHT_SIDES, lambda p: p.outline_box.y1_mm),
        (LineUp.MIDDLES_UPRIGHT, lambda p: p.outline_box.y0_mm + p.outline_box.y1_mm),
        (LineUp.FRONTS, lambda p: p.x_front_mm),
        (LineUp.REARS, lambda p: p.x_rear_mm),
    ],
)
def test_afterwards_all_stand_on_one_line_even_turned_and_leaning(how, edge):
    parts = [
        box("a", 0, 700, x=30),
        box("b", 300, 650, quarter_turns=1, x=90),
        box("c", -50, 640, tilt_deg=12.0, x=10, depth=70),
    ]
    after = [edge(project_part(part)) for part in moved(parts, line_up(parts, how))]
    assert after == pytest.approx([after[0]] * 3)


def test_left_is_the_vehicles_left():
    # −y is the vehicle's left: sides at −50 and 250.
    assert line_up([box("a", 0, 0), box("b", 300, 0)], LineUp.LEFT_SIDES) == {"a": (0, 0, 0), "b": (0, -300, 0)}


def test_a_locked_part_is_what_the_others_go_to():
    parts = [box("a", 0, 700), replace(box("b", 0, 600), locked=True)]
    assert line_up(parts, LineUp.TOPS) == {"a": (0, 0, -100), "b": (0, 0, 0)}


def test_nothing_and_one_part_stay():
    assert line_up([], LineUp.TOPS) == {}
    assert line_up([box("a", 0, 0)], LineUp.TOPS) == {"a": (0, 0, 0)}


def test_equal_gaps_keep_the_outermost_two():
    # 0–100, then 130–180, then 400–500: 400 − 100 − 50 = 250 left for two gaps, so the middle one begins at 225.
    parts = [box("c", 450, 0), box("a", 50, 0), box("b", 155, 0, width=50)]
    shifts = spread(parts, Along.ACROSS)
    assert shifts == {"a": (0, 0, 0), "b": (0, 95, 0), "c": (0, 0, 0)}


@pytest.mark.parametrize(("along", "axis"), [(Along.ACROSS, "y"), (Along.UP, "z"), (Along.DEPTH, "x")])
def test_the_gaps_are_equal_along_each_axis(along, axis):
    parts = [box(n, 37 * k * k, 11 * k**3, x=23.0 * k * k, width=20 + k) for k, n in enumerate("abcde")]
    spans = []
    for part in moved(parts, spread(parts, along)):
        seen = project_part(part)
        b = seen.outline_box
        spans.append({"x": (seen.x_front_mm, seen.x_rear_mm), "y": (b.y0_mm, b.y1_mm), "z": (b.z0_mm, b.z1_mm)}[axis])
    spans.sort()
    gaps = [after[0] - before[1] for before, after in itertools.pairwise(spans)]
    assert gaps == pytest.approx([gaps[0]] * 4)


def test_where_there_is_no_room_the_overlaps_are_equal():
    # 0–100, 20–120, 50–150: 150 − 300 = −150 for two gaps.
    parts = [box("a", 50, 0), box("b", 70, 0), box("c", 100, 0)]
    # The middle one begins 75 before the end of the first: at 25 instead of 20.
    assert spread(parts, Along.ACROSS)["b"] == (0, 5, 0)
    after = moved(parts, spread(parts, Along.ACROSS))
    ys = [part.placement.y_mm for part in after]
    assert ys[1] - ys[0] == pytest.approx(ys[2] - ys[1])


def test_two_have_one_gap_and_stay():
    assert spread([box("a", 0, 0), box("b", 300, 0)], Along.ACROSS) == {"a": (0, 0, 0), "b": (0, 0, 0)}
