"""Which sizes stand at a selected part."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFont, QImage, QPainter

from grillestack.app.canvas.gestures.snap import Axis
from grillestack.app.canvas.items.live_sizes import live_sizes
from grillestack.app.canvas.items.overlay import Over, paint_live_sizes
from grillestack.app.palette import light
from grillestack.model.edits import move_parts, remove_parts, replace_part
from grillestack.units.display import UnitSystem


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
    alone = remove_parts(project, [part.id for part in project.parts if part.id != "cac-1"])
    alone = replace(alone, nose=replace(alone.nose, openings=()))
    assert live_sizes(alone, "cac-1") == ()


def test_a_hidden_core_is_no_edge_to_measure_to(project):
    hidden = replace_part(project, replace(project.part("condenser-1"), hidden=True))
    found = by_side(live_sizes(hidden, "cac-1"))
    # Over the cooler then stands the opening's upper edge at 840.
    assert found[Axis.Z, 710] == (pytest.approx(130), "opening")


def test_a_size_moves_along_its_side_until_its_text_stands_free(project, qapp):
    over = Over(
        to_px=lambda y, z: QPointF(400.0 - y, 1000.0 - z),
        area=QRectF(0.0, 0.0, 800.0, 1000.0),
        palette=light(),
        units=UnitSystem.METRIC,
        font=QFont(),
    )
    image = QImage(800, 1000, QImage.Format.Format_RGB32)
    sizes = live_sizes(project, "cac-1")
    with QPainter(image) as painter:
        free = paint_live_sizes(painter, over, sizes)
        moved = paint_live_sizes(painter, over, sizes, [free[0]])
    assert not moved[0].intersects(free[0])
    assert moved[0].center().x() == pytest.approx(free[0].center().x())
    assert free[1:] == moved[1:]
