"""Which sizes stand at a selected part."""

from __future__ import annotations

import pytest

from grillestack.app.canvas.gestures.snap import Axis
from grillestack.app.canvas.items.live_sizes import live_sizes
from grillestack.model.edits import move_parts, remove_parts


def by_side(sizes):
    return {(size.axis, size.from_mm): (size.length_mm, size.to_words) for size in sizes}


def test_each_side_is_measured_to_the_nearest_edge(project):
    # CAC with tanks: y −360…360, z 550…710; opening −350…350, 540…840; condenser 610…880; radiator −360…360, 480…920.
    found = by_side(live_sizes(project, "cac-1"))
    assert found[Axis.Y, 360] == (pytest.approx(10), "opening")
    assert found[Axis.Y, -360] == (pytest.approx(10), "opening")
    assert found[Axis.Z, 550] == (pytest.approx(10), "opening")
    assert found[Axis.Z, 710] == (pytest.approx(100), "condenser")


def test_an_edge_already_met_is_not_measured(project):
    met = move_parts(project, ["cac-1"], dz_mm=-10)
    found = by_side(live_sizes(met, "cac-1"))
    assert found[Axis.Z, 540] == (pytest.approx(60), "radiator")


def test_a_lone_part_without_an_opening_has_no_sizes(project):
    from msgspec.structs import replace

    alone = remove_parts(project, [part.id for part in project.parts if part.id != "cac-1"])
    alone = replace(alone, nose=replace(alone.nose, openings=()))
    assert live_sizes(alone, "cac-1") == ()
