"""Many parts as rows of numbers: the same pieces as part by part, in every pose."""

from __future__ import annotations

import numpy as np

from grillestack.geometry.piece_table import posed_table, some_of, table_of
from tests.geometry.packs import a_core
from tests.geometry.rooms import CLEAR, a_cooler, posed_body
from tests.geometry.test_room import POSES


def test_an_empty_catalogue_is_an_empty_table():
    assert len(table_of([], 6.0)) == 0


def test_a_pose_of_many_parts_is_the_pose_of_each():
    parts = [a_cooler(), a_core(size_mm=(200.0, 90.0), tank_mm=20.0)]
    for pose in POSES:
        table = posed_table(table_of(parts, CLEAR.growth_mm), pose)
        for place, part in enumerate(parts):
            body = posed_body(part, pose)
            rows = slice(*np.append(table.starts, len(table.matter))[place : place + 2])
            boxes = [(p.box.y0_mm, p.box.z0_mm, p.box.y1_mm, p.box.z1_mm) for p in body.pieces]
            assert table.boxes_mm[rows].tolist() == [list(box) for box in boxes]
            assert table.front_mm[rows].tolist() == [p.front_mm for p in body.pieces]
            assert (table.body_front_mm[place], table.body_rear_mm[place]) == (body.front_mm, body.rear_mm)


def test_some_of_the_parts_are_those_parts():
    parts = [a_cooler(), a_core(size_mm=(200.0, 90.0), tank_mm=20.0), a_cooler((100.0, 50.0))]
    table = table_of(parts, CLEAR.growth_mm)
    chosen = some_of(table, np.array([2, 0]))
    other = table_of([parts[2], parts[0]], CLEAR.growth_mm)
    for name in (
        "boxes_mm",
        "front_mm",
        "matter",
        "starts",
        "owner",
        "outlines_mm",
        "growth_mm",
        "body_rear_mm",
        "is_odd",
    ):
        assert np.array_equal(getattr(chosen, name), getattr(other, name))
