"""Lining up and equal gaps through keys and menus: one step, locked parts stay, too few parts are told."""

import itertools

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.arrange_acts import ArrangeActs
from grillestack.geometry.arrangement import Along, LineUp
from grillestack.geometry.projection import project_part
from grillestack.model.edits import move_parts, replace_part
from grillestack.model.states import set_locked

CTRL_SHIFT = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
CORES = ["radiator-3", "charge-air-cooler-4", "condenser-5"]


@pytest.fixture
def acts(session):
    return ArrangeActs(session)


@pytest.fixture
def said(session):
    heard = []
    session.message.connect(heard.append)
    return heard


def tops(session):
    return [project_part(session.project.part(name)).outline_box.z1_mm for name in CORES]


def test_lining_up_is_one_step_and_undo_brings_all_back(session, acts):
    before = session.project
    session.select(CORES)
    acts.line_up(LineUp.TOPS)
    assert tops(session) == pytest.approx([max(tops(session))] * 3)
    assert session.undo_stack.count() == 1
    session.undo_stack.undo()
    assert session.project is before


def test_a_locked_part_stays_and_the_others_go_to_it(session, acts):
    session.apply("lock", set_locked(session.project, ["condenser-5"], locked=True))
    at = session.project.part("condenser-5").placement
    top = tops(session)[2]
    session.select(CORES)
    acts.line_up(LineUp.TOPS)
    assert session.project.part("condenser-5").placement == at
    assert tops(session) == pytest.approx([top] * 3)


def test_equal_gaps_fore_and_aft(session, acts):
    session.apply("push", move_parts(session.project, ["radiator-3"], dx_mm=90))
    session.select(CORES)
    acts.spread(Along.DEPTH)
    seen = sorted((project_part(session.project.part(name)) for name in CORES), key=lambda part: part.x_front_mm)
    gaps = [b.x_front_mm - a.x_rear_mm for a, b in itertools.pairwise(seen)]
    assert gaps[0] == pytest.approx(gaps[1])
    assert session.undo_stack.count() == 2


def test_a_locked_part_in_between_is_not_moved_and_is_told_of(session, acts):
    session.apply("push", move_parts(session.project, ["radiator-3"], dx_mm=90))
    session.apply("lock", set_locked(session.project, ["charge-air-cooler-4"], locked=True))
    before, stayed = session.project, []
    session.stayed.connect(stayed.append)
    session.select(CORES)
    acts.spread(Along.DEPTH)
    assert session.project is before
    assert stayed == [("charge-air-cooler-4",)]


def test_too_few_parts_are_told(session, acts, said):
    session.select(["radiator-3"])
    acts.line_up(LineUp.TOPS)
    session.select(CORES[:2])
    acts.spread(Along.UP)
    assert ["two parts" in said[0], "three parts" in said[1]] == [True, True]
    assert session.undo_stack.count() == 0


def test_what_stands_so_already_leaves_no_step(session, acts, said):
    session.select(CORES)
    acts.line_up(LineUp.BOTTOMS)
    count = session.undo_stack.count()
    acts.line_up(LineUp.BOTTOMS)
    assert session.undo_stack.count() == count
    assert said == ["They stand so already."]


def test_a_part_that_would_leave_the_world_stays_with_a_sentence(session, acts, said):
    # The fan's lower edge comes to 9 790; a radiator of 466 mm standing on it has its centre over the 10 000 mm there are.
    far = session.project.part("fan-7")
    far = replace(far, placement=replace(far.placement, z_mm=9_980))
    session.apply("far", replace_part(session.project, far))
    before = session.project
    session.select(["fan-7", "radiator-3"])
    acts.line_up(LineUp.TOPS)
    height = project_part(before.part("radiator-3")).outline_box
    expected = 9_980 + 190 - (height.z1_mm - height.z0_mm) / 2
    assert session.project.part("radiator-3").placement.z_mm == pytest.approx(expected)
    session.undo_stack.undo()
    session.select(["fan-7", "radiator-3", "condenser-5"])
    heard_before = len(said)
    small = replace(session.project.part("fan-7"), ring_diameter_mm=900)
    session.apply("large", replace_part(session.project, small))
    now = session.project
    acts.line_up(LineUp.TOPS)
    assert session.project is now
    assert "height" in said[heard_before]


@pytest.mark.parametrize(
    ("key", "edge"),
    [
        (Qt.Key.Key_Up, lambda box: box.z1_mm),
        (Qt.Key.Key_Down, lambda box: box.z0_mm),
        # From ahead the vehicle's right lies at the left: the arrow points to the sides that come in line.
        (Qt.Key.Key_Left, lambda box: box.y1_mm),
        (Qt.Key.Key_Right, lambda box: box.y0_mm),
    ],
)
def test_the_arrow_keys_line_up_the_sides_they_point_to(window, key, edge):
    session = window.session
    session.apply("apart", move_parts(session.project, ["condenser-5"], dy_mm=31, dz_mm=17))
    session.select(CORES)
    QTest.keyClick(window.front, key, CTRL_SHIFT)
    edges = [edge(project_part(session.project.part(name)).outline_box) for name in CORES]
    assert edges == pytest.approx([edges[0]] * 3)
    assert session.undo_stack.count() == 2
