"""Which edges are dashed."""

from __future__ import annotations

import pytest

from grillestack.app.canvas.items.hidden_edges import is_covered, split_edges
from grillestack.geometry.projection import Box


def length(edges) -> float:
    return sum(abs(y1 - y0) + abs(z1 - z0) for y0, z0, y1, z1 in edges)


def test_nothing_ahead_hides_nothing():
    edges = split_edges(Box(0, 0, 10, 5), [])
    assert edges.hidden_mm == ()
    assert length(edges.seen_mm) == 30


def test_a_larger_box_ahead_hides_all():
    edges = split_edges(Box(0, 0, 10, 5), [Box(-1, -1, 11, 6)])
    assert edges.seen_mm == ()
    assert length(edges.hidden_mm) == 30


def test_an_equal_box_ahead_leaves_the_common_outline_seen():
    assert split_edges(Box(0, 0, 10, 5), [Box(0, 0, 10, 5)]).hidden_mm == ()


def test_a_box_over_one_corner_hides_the_two_edges_under_it():
    edges = split_edges(Box(0, 0, 10, 5), [Box(6, 3, 20, 20)])
    assert length(edges.hidden_mm) == pytest.approx(4 + 2)
    assert length(edges.seen_mm) == pytest.approx(30 - 6)


def test_overlapping_boxes_ahead_hide_a_stretch_once():
    edges = split_edges(Box(0, 0, 10, 5), [Box(1, -1, 5, 2), Box(3, -1, 8, 2)])
    assert length(edges.hidden_mm) == pytest.approx(7)


def test_covered_is_what_has_its_middle_behind_another():
    assert is_covered(Box(0, 0, 2, 2), [Box(0.5, 0.5, 9, 9)])
    assert not is_covered(Box(0, 0, 2, 2), [Box(1.5, 0, 9, 9)])
