"""What of an outline is seen and what lies behind something nearer."""

from __future__ import annotations

import math

import pytest

from grillestack.geometry.projection import BodyKind
from grillestack.sheets.hidden_lines import arcs_of, edges_of, is_covered
from grillestack.sheets.view_faces import Face, Seen


def box(name: str, u0: float, v0: float, u1: float, v1: float, depth: float) -> Face:
    corners = (Seen(u0, v0), Seen(u1, v0), Seen(u1, v1), Seen(u0, v1))
    return Face(part_id=name, kind=BodyKind.CORE, corners=corners, depth_mm=depth)


def lengths(faces) -> tuple[float, float]:
    sums = [0.0, 0.0]
    for edge in edges_of(faces):
        sums[edge.is_hidden] += math.dist((edge.start.u_mm, edge.start.v_mm), (edge.end.u_mm, edge.end.v_mm))
    return sums[0], sums[1]


def test_a_box_alone_is_all_seen():
    assert lengths([box("a", 0, 0, 100, 50, 0)]) == pytest.approx((300, 0))


def test_a_box_behind_a_larger_one_is_all_hidden():
    seen, hidden = lengths([box("near", 0, 0, 100, 100, 0), box("far", 20, 20, 60, 60, 10)])
    assert (seen, hidden) == pytest.approx((400, 160))


def test_half_a_box_behind_another_is_half_hidden():
    # The far box reaches from 50 to 150: its left edge of 40 and half of its long edges, 2 × 50, are hidden.
    seen, hidden = lengths([box("near", 0, 0, 100, 100, 0), box("far", 50, 30, 150, 70, 10)])
    assert hidden == pytest.approx(140, abs=0.1)
    assert seen == pytest.approx(400 + 140, abs=0.1)


def test_a_box_that_only_touches_a_nearer_one_is_all_seen():
    assert lengths([box("near", 0, 0, 50, 50, 0), box("far", 50, 0, 100, 50, 10)])[1] == 0


def test_two_boxes_in_one_place_are_drawn_once():
    assert lengths([box("a", 0, 0, 50, 50, 0), box("b", 0, 0, 50, 50, 10)]) == pytest.approx((200, 0))


def test_nothing_gives_nothing():
    assert edges_of([]) == ()


def test_a_ring_half_behind_a_box_is_half_hidden():
    step = 2 * math.pi / 72
    corners = tuple(Seen(100 * math.cos(k * step), 100 * math.sin(k * step)) for k in range(72))
    ring = Face(part_id="fan", kind=BodyKind.FAN, corners=corners, depth_mm=10, centre=Seen(0, 0), radius_mm=100.0)
    arcs = arcs_of([ring, box("near", -200, -200, 200, 0, 0)])
    hidden = sum((arc.end_deg - arc.start_deg) for arc in arcs if arc.is_hidden)
    assert hidden == pytest.approx(180, abs=6)
    assert sum(arc.end_deg - arc.start_deg for arc in arcs) == pytest.approx(360)
    assert is_covered(Seen(0, -50), [box("near", -200, -200, 200, 0, 0)], 10)
