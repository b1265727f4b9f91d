"""All parts looked at together: the same rooms as one by one."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from grillestack.geometry.piece_table import posed_table, table_of
from grillestack.geometry.room import room_of
from grillestack.geometry.room_table import free_boxes, room_table
from grillestack.geometry.setting import setting_of
from grillestack.model.nose import DepthStations
from grillestack.model.outline import SidePoint
from grillestack.model.project import Project
from tests.geometry.packs import a_core, a_shroud
from tests.geometry.rooms import CLEAR, a_cooler, posed_body
from tests.geometry.test_room import POSES, coolers, noses, region_of

POSE = st.sampled_from(POSES)
DEPTHS = st.lists(st.floats(-20, 320), min_size=3, max_size=3)


def free_at(rooms, place):
    rows = [tuple(row) for row in rooms.taken_mm[rooms.taken_part == place].tolist()]
    return free_boxes(tuple(rooms.limits_mm[place]), rows) if rooms.has_limits[place] else []


@settings(max_examples=60, deadline=None)
@given(noses(), st.lists(coolers, min_size=3, max_size=3), DEPTHS, POSE)
def test_many_parts_at_once_have_the_rooms_that_each_has_alone(nose, parts, x_mm, pose):
    line = (SidePoint(0.0, 210.0), SidePoint(150.0, 150.0), SidePoint(400.0, 230.0))
    nose = replace(nose, stations=DepthStations(bonnet_line=line, pulley_x_mm=330.0))
    others = (a_shroud("shroud", (120.0, 90.0), (220.0, 100.0, -60.0), 40.0), a_cooler((90.0, 60.0)))
    setting = setting_of(Project(nose=nose, parts=others), (), CLEAR)
    rooms = room_table(setting, posed_table(table_of(parts, CLEAR.growth_mm), pose), np.array(x_mm))
    for place, (part, x) in enumerate(zip(parts, x_mm, strict=True)):
        alone = room_of(setting, posed_body(part, pose), x)
        boxes = free_at(rooms, place)
        together = shapely.union_all([shapely.box(*box) for box in boxes])
        assert bool(boxes) is not alone.is_empty
        assert shapely.area(shapely.symmetric_difference(region_of(alone), together)) < 1e-3


def test_a_depth_that_is_no_number_is_no_depth():
    setting = setting_of(Project(), (), CLEAR)
    rooms = room_table(setting, table_of([a_core()], 0.0), np.array([np.nan]))
    assert not rooms.in_depth.any()


@pytest.mark.parametrize(
    ("taken", "area_mm2"),
    [
        ([], 100 * 50),
        ([(20, 10, 40, 30)], 100 * 50 - 20 * 20),
        ([(-10, -10, 110, 60)], 0),
        ([(-10, 20, 110, 30), (40, -10, 60, 60)], 100 * 50 - 100 * 10 - 20 * 40),
    ],
)
def test_what_is_left_of_a_box_by_hand(taken, area_mm2):
    left = free_boxes((0.0, 0.0, 100.0, 50.0), [tuple(map(float, box)) for box in taken])
    assert sum((y1 - y0) * (z1 - z0) for y0, z0, y1, z1 in left) == pytest.approx(area_mm2, abs=1e-3)
