"""The small drawing of a layout: all of it in sight, to one scale with the other, and only to be looked at."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication

from grillestack.app import palette as palettes
from grillestack.app.canvas.face_reading import patches_of
from grillestack.app.canvas.front_sheet import drawn_bounds
from grillestack.app.layouts.drawing import LayoutDrawing, common_bounds
from grillestack.model import edits
from grillestack.model.project import Project
from tests.advice import example_assessments as example

PALETTE = palettes.light()
NONE = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def drawing(qtbot):
    made = LayoutDrawing(PALETTE)
    qtbot.addWidget(made)
    made.resize(300, 260)
    made.show()
    return made


def show(drawing, project, marked=()):
    drawing.show_layout(project, patches_of(example.passing()), marked, common_bounds(project, project), PALETTE)


@pytest.mark.parametrize("size", [(300, 260), (600, 200), (180, 400)])
def test_all_of_the_pack_is_in_sight_whatever_the_shape(drawing, size):
    drawing.resize(*size)
    show(drawing, example.project())
    seen = drawing.mapToScene(drawing.viewport().rect()).boundingRect()
    assert seen.contains(drawn_bounds(example.project()))


def test_the_vehicles_right_is_at_the_viewers_left_and_up_is_up(drawing):
    show(drawing, example.project())
    right, left = (drawing.mapFromScene(QPointF(y_mm, 640.0)) for y_mm in (100.0, -100.0))
    assert right.x() < left.x()
    assert drawing.mapFromScene(QPointF(0.0, 700.0)).y() < right.y()
    # True to scale: as many pixels across as upwards.
    lower = drawing.mapFromScene(QPointF(100.0, 440.0))
    assert left.x() - right.x() == pytest.approx(lower.y() - right.y(), abs=1)


def test_what_is_marked_is_painted_in_the_accent_and_nothing_else_is(drawing):
    def accents():
        image = drawing.grab().toImage()
        colours = (image.pixelColor(x, y) for x in range(image.width()) for y in range(image.height()))
        return sum(colour == PALETTE.accent for colour in colours)

    show(drawing, example.project())
    assert accents() == 0
    show(drawing, example.project(), ["charge-air-cooler-1"])
    assert accents() > 50


def test_both_layouts_are_drawn_to_the_bounds_that_show_both():
    project = example.project()
    lower = edits.move_parts(project, ["charge-air-cooler-1"], dz_mm=-500.0)
    bounds = common_bounds(project, lower)
    assert bounds == common_bounds(lower, project)
    assert bounds.contains(drawn_bounds(project))
    assert bounds.contains(drawn_bounds(lower))
    assert common_bounds(project, Project()) == drawn_bounds(project)
    assert not common_bounds(Project(), Project()).isEmpty()


def test_the_wheel_leaves_it_where_it_is(drawing):
    show(drawing, example.project())
    before = drawing.viewportTransform()
    middle = QPointF(drawing.viewport().rect().center())
    turn = QWheelEvent(
        middle, drawing.viewport().mapToGlobal(middle), QPoint(), QPoint(0, 240), Qt.MouseButton.NoButton, NONE,
        Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(drawing.viewport(), turn)
    assert drawing.viewportTransform() == before


def test_it_is_told_to_those_who_hear_the_screen(drawing):
    show(drawing, example.project())
    assert drawing.accessibleName() == "Layout A, seen from ahead"
    assert drawing.accessibleDescription().startswith("From front to back: 1 Condenser 600")
