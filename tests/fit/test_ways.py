"""Ways round: which are tried, and that no radiator stands with its vent below."""

from __future__ import annotations

import pytest

from grillestack.fit.slots import Kind
from grillestack.fit.ways import pose_words, poses_of, stays_ventable
from grillestack.geometry.taken_space import Pose
from grillestack.model.parts import Facing, Port, PortPurpose
from tests.geometry.packs import a_core

VENT = Port(purpose=PortPurpose.VENT, u_mm=200.0, v_mm=200.0, facing=Facing.UP, bore_mm=6.0)


def test_a_core_has_eight_ways_a_shroud_two_and_a_fan_one():
    assert [len(poses_of(kind)) for kind in (Kind.RADIATOR, Kind.SHROUD, Kind.FAN)] == [8, 2, 1]


@pytest.mark.parametrize(("turns", "stays"), [(0, True), (1, False), (2, False), (3, False)])
def test_a_vent_stays_highest(turns, stays):
    radiator = a_core(ports=(VENT,))
    assert stays_ventable(radiator, Pose(turns)) is stays
    assert stays_ventable(radiator, Pose(turns, flipped=True)) is stays


def test_a_part_without_vent_may_stand_any_way_round():
    assert all(stays_ventable(a_core(), pose) for pose in poses_of(Kind.CONDENSER))


def test_ways_round_in_words():
    assert pose_words(Pose()) == "as listed"
    assert pose_words(Pose(0, flipped=True)) == "front to back"
    assert pose_words(Pose(1, flipped=True)) == "front to back, a quarter clockwise"
    assert pose_words(Pose(2)) == "upside down"
