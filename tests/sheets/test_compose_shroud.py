"""The sheets of the shroud: nothing collides, the cut is closed and single in the file, sizes are those of the blank."""

from __future__ import annotations

import functools
import io

import ezdxf
import pytest
import shapely
from msgspec.structs import replace

from grillestack.model.sheet_choices import DrawingUnits, MakingChoices, Paper, Projection, WeldSymbols
from grillestack.sheets.collisions import all_texts, collisions
from grillestack.sheets.compose_shroud import compose_shroud
from grillestack.sheets.draw_list import OrdinateDimension, dimensions
from grillestack.sheets.sheet_body import SheetTooSmallError
from grillestack.sheets.title_block import finished_sheets
from grillestack.sheets.write_dxf import dxf_bytes
from tests.sheets.drawn import demo


@functools.cache
def _sheets(project):
    return finished_sheets(project, compose_shroud(project, None))


@pytest.mark.parametrize("paper", [Paper.A3, Paper.LETTER, Paper.A1])
@pytest.mark.parametrize("number", [1, 2, 3])
def test_nothing_collides(number, paper):
    for sheet in _sheets(demo(number, paper)):
        assert collisions(sheet.marks) == ()


@pytest.mark.parametrize("units", list(DrawingUnits))
def test_nothing_collides_in_any_units(units):
    project = demo(1)
    project = replace(project, sheet=replace(project.sheet, units=units, weld_symbols=WeldSymbols.AWS_A2_4))
    for sheet in _sheets(project):
        assert collisions(sheet.marks) == ()


def _space(sheet):
    return ezdxf.read(io.StringIO(dxf_bytes(sheet).decode())).modelspace()


@pytest.mark.parametrize("number", [1, 2, 3])
def test_the_file_cuts_one_closed_outline_at_full_size_and_each_hole_once(number):
    sheet = _sheets(demo(number))[0]
    space = _space(sheet)
    (outline,) = space.query('LWPOLYLINE[layer=="CUT"]')
    assert outline.closed
    polygon = shapely.Polygon([(x, y) for x, y, *_ in outline.get_points()])
    assert polygon.is_valid
    circles = [(round(c.dxf.center.x, 3), round(c.dxf.center.y, 3)) for c in space.query('CIRCLE[layer=="CUT"]')]
    assert len(circles) == len(set(circles)) > 4
    assert all(polygon.contains(shapely.Point(at)) for at in circles)
    x0, y0, x1, y1 = polygon.bounds
    # Demo sizes: width + 2 · (75 or 85 deep + 28 flange) less four deductions of 2.607 mm (T = R = 1.5, K = 0.44)
    width, height, depth = {1: (660, 460, 75), 2: (620, 520, 85), 3: (700, 480, 75)}[number]
    assert x1 - x0 == pytest.approx(width + 2 * (depth + 28) - 4 * 2.607, abs=0.02)
    assert y1 - y0 == pytest.approx(height + 2 * (depth + 28) - 4 * 2.607, abs=0.02)
    assert not space.query('LINE[layer=="CUT"]')


def test_bend_lines_are_on_a_layer_of_their_own():
    space = _space(_sheets(demo(2))[0])
    assert len(space.query('LINE[layer=="BEND"]')) == 8


def test_ordinates_say_how_far_each_hole_is_from_the_corner():
    sheet = _sheets(demo(2))[0]
    for dimension in dimensions(sheet):
        if isinstance(dimension, OrdinateDimension):
            drawn = dimension.feature.x_mm - dimension.datum.x_mm
            if dimension.axis.value == "up":
                drawn = dimension.feature.y_mm - dimension.datum.y_mm
            assert drawn * sheet.scale_factor == pytest.approx(dimension.measured_mm, abs=1e-6)


def test_keys_of_dimensions_are_stable_and_unlike():
    first, again = _sheets(demo(1)), _sheets(demo(1, Paper.A1))
    for sheet in first:
        found = [d.key for d in dimensions(sheet)]
        assert len(found) == len(set(found))
    keys = {d.key for sheet in first for d in dimensions(sheet)}
    assert keys == {d.key for sheet in again for d in dimensions(sheet)}


def test_defaults_are_marked_and_choices_are_not():
    project = demo(1)
    said = " ".join(text.text for text in all_texts(_sheets(project)[0].marks))
    assert "aluminium EN AW-5754 H111 (default)" in said
    making = MakingChoices(
        shroud_material_text="steel DC01", shroud_thickness_mm=1.0, bend_radius_mm=1.2, bend_neutral_frac=0.4
    )
    said = " ".join(
        text.text for text in all_texts(_sheets(replace(project, sheet=replace(project.sheet, making=making)))[0].marks)
    )
    assert "(default)" not in said
    assert "steel DC01, 1 thick" in said


def test_a_shroud_too_large_for_the_paper_is_refused():
    project = demo(2, Paper.A4, Projection.FIRST_ANGLE)
    shroud = next(p for p in project.parts if p.id == "shroud-4")
    huge = replace(shroud, width_mm=4900.0, height_mm=4900.0, mounts=())
    project = replace(project, parts=tuple(huge if p.id == shroud.id else p for p in project.parts))
    with pytest.raises(SheetTooSmallError, match="does not fit A4 at any scale: choose a larger sheet"):
        compose_shroud(project, None)


@pytest.mark.parametrize("is_inward", [True, False])
def test_the_section_is_of_the_sheets_thickness_all_along(is_inward):
    project = demo(2)
    if not is_inward:
        shroud = next(p for p in project.parts if p.id == "shroud-4")
        bare = replace(shroud, mounts=())
        project = replace(project, parts=tuple(bare if p.id == shroud.id else p for p in project.parts))
    (sheet,) = [s for s in _sheets(project) if any(v.name.endswith(":section") for v in s.views)]
    (view,) = [v for v in sheet.views if v.name.endswith(":section")]
    box = shapely.box(view.x0_mm, view.y0_mm, view.x1_mm, view.y1_mm)
    rings = [
        shapely.Polygon([(p.x_mm * 5, p.y_mm * 5) for p in m.points])
        for m in sheet.marks
        if type(m).__name__ == "Polyline"
        and m.is_closed
        and box.contains(shapely.Point(m.points[0].x_mm, m.points[0].y_mm))
    ]
    (ring,) = rings
    assert ring.is_valid
    # 85 deep, 520 high, sheet 1.5; flanges 28 inwards or 20 outwards: areas of the straight pieces, corners counted once
    flanges = 2 * (28.0 - 1.5) * 1.5 if is_inward else 2 * 20.0 * 1.5
    assert ring.area == pytest.approx(2 * 85 * 1.5 + (520 - 3.0) * 1.5 + flanges, rel=1e-6)
