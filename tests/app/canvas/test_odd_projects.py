"""Drawable but bad states are drawn: nothing a document may hold makes the canvas fall over."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtGui import QFont

from grillestack.app.canvas.front_view import FrontView
from grillestack.app.canvas.side_strip import SideStrip
from grillestack.app.palette import high_contrast
from grillestack.model.edits import add_part
from grillestack.model.outline import Point, SidePoint
from grillestack.model.parts import Fan, Placement, Shroud


def tilted(project):
    return replace(
        project, parts=tuple(replace(p, placement=replace(p.placement, tilt_deg=25.0)) for p in project.parts)
    )


def turned_and_flipped(project):
    return replace(
        project,
        parts=tuple(
            replace(p, placement=replace(p.placement, quarter_turns=n % 4, flipped=n % 2 == 1))
            for n, p in enumerate(project.parts)
        ),
    )


def crossing_outline(project):
    bow = (Point(-300, 500), Point(300, 900), Point(300, 500), Point(-300, 900))
    opening = replace(project.nose.openings[0], outline=bow, free_area_frac=None)
    return replace(project, nose=replace(project.nose, openings=(opening,)))


def flat_outline(project):
    line = (Point(0, 500), Point(0, 500), Point(0, 500))
    obstruction = replace(project.nose.obstructions[0], outline=line, x_front_mm=10, x_rear_mm=10)
    return replace(project, nose=replace(project.nose, obstructions=(obstruction,)))


def all_in_one_place(project):
    return replace(project, parts=tuple(replace(p, placement=Placement(z_mm=700)) for p in project.parts))


def crowd(project):
    for _ in range(90):
        project, _name = add_part(project, project.part("fan-1"))
    return project


def specks(project):
    fan = Fan(id="speck", name="Speck", depth_mm=0.1, ring_diameter_mm=0.1, placement=Placement(z_mm=700))
    box = Shroud(id="wide", name="Wide", depth_mm=5000, width_mm=5000, height_mm=0.1, placement=Placement(z_mm=700))
    return replace(project, parts=(fan, box))


def one_point_bonnet(project):
    stations = replace(project.nose.stations, bonnet_line=(SidePoint(0, 900),), pulley_x_mm=None)
    return replace(project, nose=replace(project.nose, stations=stations, support_window=None, openings=()))


ODD = [tilted, turned_and_flipped, crossing_outline, flat_outline, all_in_one_place, crowd, specks, one_point_bonnet]


@pytest.mark.parametrize("change", ODD, ids=lambda change: change.__name__)
def test_odd_projects_are_drawn_fitted_and_zoomed(front: FrontView, side: SideStrip, session, project, change):
    session.open_project(change(project), None)
    front.zoom_to_fit()
    for part in session.project.parts[:3]:
        session.select([part.id])
        assert not front.grab().isNull()
        assert not side.grab().isNull()
    front.zoom_by(1e6)
    assert not front.grab().isNull()
    front.zoom_by(1e-9)
    assert not front.grab().isNull()
    assert not side.grab().isNull()


def test_very_small_views_paint(front: FrontView, side: SideStrip, session):
    session.select(["cac-1"])
    for size in ((1, 1), (60, 30), (30, 500)):
        front.resize(*size)
        side.resize(*size)
        front.zoom_to_fit()
        assert not front.grab().isNull()
        assert not side.grab().isNull()


def test_large_letters_are_not_cut_off_by_the_rulers(front: FrontView, side: SideStrip):
    low, narrow = front.ruler_strips()[0].height(), front.ruler_strips()[1].width()
    front.setFont(QFont(front.font().family(), 22))
    side.setFont(front.font())
    assert front.ruler_strips()[0].height() > low
    assert front.ruler_strips()[1].width() > narrow
    assert not front.grab().isNull()
    assert not side.grab().isNull()


def test_another_palette_reaches_every_item(front: FrontView, side: SideStrip):
    before, before_side = front.grab().toImage(), side.grab().toImage()
    front.show_palette(high_contrast())
    side.show_palette(high_contrast())
    assert front.grab().toImage() != before
    assert side.grab().toImage() != before_side
