"""Cores moved, turned, flipped and swapped."""

from __future__ import annotations

import itertools

import pytest
from msgspec.structs import replace

from grillestack.advice.change_places import (
    flip_the_charge_air_cooler,
    move_the_charge_air_cooler,
    swap_neighbours,
    turn_the_charge_air_cooler,
)
from grillestack.model import edits
from grillestack.model.nose import Obstruction, SupportWindow
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores
from tests.advice.situations import candidates
from tests.assess import packs


def _cooler(project: Project):
    return cores(project, CoreRole.CHARGE_AIR_COOLER)[0]


def _shifts_mm(project: Project) -> dict[str, list[float]]:
    at = _cooler(project).placement
    shifts: dict[str, list[float]] = {"up": [], "down": [], "left": [], "right": []}
    for one in candidates(move_the_charge_air_cooler, project):
        moved = _cooler(one.project).placement
        dy, dz = moved.y_mm - at.y_mm, moved.z_mm - at.z_mm
        assert (dy == 0) != (dz == 0)
        way = ("up" if dz > 0 else "down") if dy == 0 else ("right" if dy > 0 else "left")
        assert way in one.title
        assert f"{abs(dy + dz):g} mm" in one.title
        shifts[way].append(abs(dy + dz))
    return shifts


def _with_beam(low_mm: float, high_mm: float) -> Project:
    project = packs.half_height_pack()
    beam = Obstruction(
        id="obstruction-1",
        name="Beam",
        outline=rectangle_outline(-500.0, low_mm, 500.0, high_mm),
        x_front_mm=100.0,
        x_rear_mm=170.0,
    )
    return edits.set_nose(project, replace(project.nose, obstructions=(beam,)))


def test_the_cooler_goes_each_way_as_far_as_its_core_stays_in_the_window():
    # By hand: window y ±420, z -30 to 550; core 560 × 230 at z 145 from 30 to 260: 60 down, 290 up, 140 to either side. It
    # stands ahead of the window at x 115 to 179, so its tanks may pass before the plate.
    shifts = _shifts_mm(packs.half_height_pack())
    assert {way: max(distances) for way, distances in shifts.items()} == {
        "up": 290.0,
        "down": 60.0,
        "left": 140.0,
        "right": 140.0,
    }


def test_a_cooler_in_the_plane_of_the_window_takes_its_tanks_along():
    project = packs.half_height_pack()
    window = project.nose.support_window
    project = edits.set_nose(project, replace(project.nose, support_window=replace(window, x_mm=150.0)))
    # By hand: 680 mm overall in 840 mm leaves 80 on either side.
    assert max(_shifts_mm(project)["left"]) == 80.0


def test_a_beam_below_stops_the_cooler_where_it_begins():
    # By hand: the cooler's lower edge is at z 30 and the beam's top at 0, both at x 115 to 170: 30 mm, and 60 without the beam.
    assert max(_shifts_mm(_with_beam(-80.0, 0.0))["down"]) == 30.0


def test_no_step_is_shorter_than_a_move_worth_the_drill_and_each_is_whole_on_the_tape():
    for distances in _shifts_mm(packs.half_height_pack()).values():
        assert all(distance >= 10.0 and distance % 5.0 == 0.0 for distance in distances)
        assert 2 <= len(distances) <= 6


def test_without_a_window_the_cooler_stays_before_the_radiator():
    project = packs.half_height_pack()
    project = edits.set_nose(project, replace(project.nose, support_window=None))
    # By hand: the radiator's outline is 810 × 460 at z 255 (25 to 485), the cooler's 680 × 230 at z 145 (30 to 260).
    shifts = _shifts_mm(project)
    assert max(shifts["up"]) == 225.0
    assert max(shifts["left"]) == 65.0
    assert shifts["down"] == []


def test_a_cooler_that_fills_the_window_stays():
    project = packs.half_height_pack()
    tight = SupportWindow(outline=rectangle_outline(-280.0, 30.0, 280.0, 260.0), x_mm=190.0)
    project = edits.set_nose(project, replace(project.nose, support_window=tight))
    assert candidates(move_the_charge_air_cooler, project) == []


def test_a_pack_without_cooler_has_nothing_to_move_turn_or_flip():
    bare = packs.behind(packs.project())
    for change in (
        move_the_charge_air_cooler,
        turn_the_charge_air_cooler,
        flip_the_charge_air_cooler,
        swap_neighbours,
    ):
        assert candidates(change, bare) == []


def test_a_cooler_is_turned_both_ways_where_it_then_fits():
    both = candidates(turn_the_charge_air_cooler, packs.full_height_pack())
    assert [_cooler(one.project).placement.quarter_turns for one in both] == [1, 3]
    assert "clockwise" in both[0].title
    assert "anticlockwise" in both[1].title
    # By hand: turned, the half-height cooler is 560 mm high about z 145: from -135, below the window's -30.
    assert candidates(turn_the_charge_air_cooler, packs.half_height_pack()) == []


def test_flipping_twice_is_no_change():
    project = packs.half_height_pack()
    (once,) = candidates(flip_the_charge_air_cooler, project)
    (twice,) = candidates(flip_the_charge_air_cooler, once.project)
    assert twice.project == project


@pytest.mark.parametrize("number", [0, 1])
def test_neighbours_change_places_and_keep_the_gaps(number):
    whole = packs.with_part(packs.half_height_pack(), packs.condenser(), 80.0, 400.0)
    before = [core.id for core in cores(whole)]
    made = candidates(swap_neighbours, whole)[number]
    after = [core.id for core in cores(made.project)]
    before[number], before[number + 1] = before[number + 1], before[number]
    assert after == before
    ends = [(core.placement.x_mm, core.placement.x_mm + core.depth_mm) for core in cores(made.project)]
    # By hand: condenser 80 to 96, cooler 115 to 179, radiator from 195: gaps of 19 and 16 mm.
    assert [rear[0] - front[1] for front, rear in itertools.pairwise(ends)] == pytest.approx([19.0, 16.0])
