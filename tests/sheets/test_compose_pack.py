"""The pack sketch: everything that must be dimensioned is, true to the model, and nothing runs into anything."""

from __future__ import annotations

import pytest
import shapely
from msgspec.structs import replace

from grillestack.geometry.depth import depth_report
from grillestack.geometry.projection import placed_boxes, placed_point
from grillestack.model.parts import Core, Fan, Placement
from grillestack.model.project import Project
from grillestack.model.sheet_choices import DrawingUnits, Paper, Projection
from grillestack.sheets.collisions import all_texts, collisions, simple_marks
from grillestack.sheets.compose_pack import compose_pack
from grillestack.sheets.datum import datum_of
from grillestack.sheets.draw_list import Axis, LinearDimension, OrdinateDimension, dimensions
from grillestack.sheets.paper import ISO_5455
from grillestack.sheets.sheet_body import SheetTooSmallError
from tests.sheets.drawn import demo, demo_sheets, keys, line_shapes, pack_sheets, text_shape
from tests.sheets.random_packs import random_pack

DEMOS = (1, 2, 3)
SAID_MM = 0.05


@pytest.mark.parametrize("number", DEMOS)
def test_nothing_collides_on_a_demo(number):
    assert [collision for sheet in demo_sheets(number) for collision in collisions(sheet.marks)] == []


@pytest.mark.parametrize(
    ("number", "paper", "projection"),
    [(1, Paper.A4, Projection.FIRST_ANGLE), (2, Paper.LETTER, Projection.THIRD_ANGLE)],
)
def test_nothing_collides_on_upright_paper(number, paper, projection):
    assert [c for sheet in demo_sheets(number, paper, projection) for c in collisions(sheet.marks)] == []


@pytest.mark.nightly
@pytest.mark.parametrize("projection", Projection)
@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("number", DEMOS)
def test_nothing_collides_on_a_demo_on_any_paper(number, paper, projection):
    assert [c for sheet in demo_sheets(number, paper, projection) for c in collisions(sheet.marks)] == []


@pytest.mark.parametrize("seed", range(20))
def test_nothing_collides_on_a_pack_drawn_by_lot(seed):
    assert _collisions_or_refusal(random_pack(seed)) == []


@pytest.mark.nightly
@pytest.mark.parametrize("seed", range(20, 200))
def test_nothing_collides_on_any_of_two_hundred_packs_drawn_by_lot(seed):
    assert _collisions_or_refusal(random_pack(seed)) == []


def _collisions_or_refusal(project: Project) -> list:
    try:
        sheets = pack_sheets(project)
    except SheetTooSmallError:
        # Two units on a small sheet may be too much; that is said, and a larger sheet takes them.
        sheets = pack_sheets(replace(project, sheet=replace(project.sheet, paper=Paper.A1)))
    return [collision for sheet in sheets for collision in collisions(sheet.marks)]


@pytest.mark.parametrize("number", DEMOS)
def test_a_second_opinion_finds_no_text_on_a_text_or_a_line(number):
    """Texts measured by reportlab, crossings found by shapely: neither knows how the sheet was laid out."""
    for sheet in demo_sheets(number):
        boxes = [text_shape(text) for text in all_texts(sheet.marks)]
        lines = line_shapes(simple_marks(sheet.marks))
        over_text = shapely.STRtree(boxes).query([b.buffer(-0.05) for b in boxes], predicate="intersects")
        assert [pair for pair in over_text.T.tolist() if pair[0] != pair[1]] == []
        over_line = shapely.STRtree(lines).query([b.buffer(-0.1) for b in boxes], predicate="intersects")
        assert over_line.size == 0


@pytest.mark.parametrize("number", DEMOS)
def test_every_core_tank_and_fan_centre_stands_at_its_place_from_the_datum(number):
    project = demo(number)
    datum = datum_of(project)
    across, up = _values(number, Axis.ACROSS, "front"), _values(number, Axis.UP, "front")
    for part in project.parts:
        if isinstance(part, Fan):
            wanted_across = [datum.y_mm - part.placement.y_mm]
            wanted_up = [part.placement.z_mm - datum.z_mm]
        else:
            boxes = placed_boxes(part)
            wanted_across = [datum.y_mm - y for box in boxes for y in (box.y0_mm, box.y1_mm)]
            wanted_up = [z - datum.z_mm for box in boxes for z in (box.z0_mm, box.z1_mm)]
        for wanted, found in ((wanted_across, across), (wanted_up, up)):
            for value in wanted:
                assert min(abs(value - one) for one in found) < SAID_MM, part.id


@pytest.mark.parametrize("number", DEMOS)
def test_every_hole_and_port_stands_at_its_place_from_the_datum(number):
    project = demo(number)
    datum = datum_of(project)
    across, up = _values(number, Axis.ACROSS, "holes"), _values(number, Axis.UP, "holes")
    for part in project.parts:
        for thing in (*part.mounts, *part.ports):
            _, y, z = placed_point(part, thing.u_mm, thing.v_mm, thing.w_mm)
            assert min(abs(datum.y_mm - y - one) for one in across) < SAID_MM
            assert min(abs(z - datum.z_mm - one) for one in up) < SAID_MM


def test_the_datum_is_the_lower_corner_of_the_radiator_at_the_left_of_the_front_view():
    # Demo 2 by hand: radiator at z 700, overall 644 × 636 mm about its middle, core's front at x 192.
    datum = datum_of(demo(2))
    assert (datum.x_mm, datum.y_mm, datum.z_mm) == (192.0, 322.0, 382.0)


@pytest.mark.parametrize("number", DEMOS)
def test_what_is_written_at_an_ordinate_is_what_it_measures(number):
    for sheet in demo_sheets(number):
        for one in dimensions(sheet):
            if isinstance(one, OrdinateDimension):
                said = float(one.text.split()[0].replace("−", "-"))
                assert said == pytest.approx(one.measured_mm, abs=SAID_MM)


@pytest.mark.parametrize("number", DEMOS)
def test_an_ordinate_measures_what_lies_between_its_points_on_paper(number):
    for sheet in demo_sheets(number):
        for one in dimensions(sheet):
            if isinstance(one, OrdinateDimension):
                drawn = one.feature.x_mm - one.datum.x_mm
                drawn = drawn if one.axis is Axis.ACROSS else one.feature.y_mm - one.datum.y_mm
                assert drawn * sheet.scale_factor == pytest.approx(one.measured_mm, abs=1e-6)


@pytest.mark.parametrize("number", DEMOS)
def test_each_gap_is_dimensioned_or_said_and_is_marked_as_computed(number):
    project, sheet = demo(number), demo_sheets(number)[0]
    drawn = {one.key: one for one in dimensions(sheet) if isinstance(one, LinearDimension)}
    said = " ".join(text.text for text in all_texts(sheet.marks))
    for gap in depth_report(project).gaps:
        one = drawn.get(f"plan:{gap.front_id}:gap-to-{gap.rear_id}")
        if one is None:
            assert f"{gap.gap_mm:g} REF" in said
        else:
            assert one.measured_mm == pytest.approx(gap.gap_mm, abs=1e-9)
            assert one.text.endswith("REF")


def test_overall_sizes_are_those_of_the_pack():
    # Demo 2 by hand: the charge-air cooler is the widest, 736; the radiator the highest, 636; from the condenser's tank
    # 3 mm ahead of x 70 to the fan's rear at x 406 is 339.
    drawn = {one.key: one.measured_mm for one in dimensions(demo_sheets(2)[0]) if isinstance(one, LinearDimension)}
    assert drawn["plan:pack:overall-width"] == pytest.approx(736.0)
    assert drawn["side:pack:overall-height"] == pytest.approx(636.0)
    assert drawn["side:pack:overall-depth"] == pytest.approx(339.0)


@pytest.mark.parametrize("number", DEMOS)
def test_each_dimension_has_a_name_of_its_own(number):
    for sheet in demo_sheets(number):
        assert len(set(keys(sheet))) == len(keys(sheet))


def test_names_of_dimensions_stay_when_a_part_is_moved():
    project = demo(3)
    moved = [
        replace(part, placement=replace(part.placement, z_mm=part.placement.z_mm + 7.0))
        if isinstance(part, Core)
        else part
        for part in project.parts
    ]
    before, after = set(keys(demo_sheets(3)[0])), set(keys(pack_sheets(replace(project, parts=tuple(moved)))[0]))
    assert {key for key in before if ":core:" in key} <= after | before
    assert "front:radiator-2:core:left" in before & after or any(":core:left" in key for key in before & after)


@pytest.mark.parametrize("projection", Projection)
def test_the_side_of_the_vehicle_and_its_front_are_named(projection):
    said = " ".join(text.text for text in all_texts(demo_sheets(1, Paper.A3, projection)[0].marks))
    for words in ("RIGHT of vehicle", "LEFT of vehicle", "FRONT", "VERIFY ON VEHICLE", "DATUM", "CAUTION"):
        assert words in said


def test_views_stand_as_the_projection_says():
    """ISO 5456-2: third angle puts the plan above the front view, first angle below it; the side view is at its right."""
    for projection, above in ((Projection.THIRD_ANGLE, True), (Projection.FIRST_ANGLE, False)):
        views = {view.name: view for view in demo_sheets(1, Paper.A3, projection)[0].views}
        assert (views["plan"].y0_mm >= views["front"].y1_mm) is above
        assert (views["plan"].y1_mm <= views["front"].y0_mm) is not above
        assert views["side"].x0_mm > views["front"].x0_mm


@pytest.mark.parametrize("number", DEMOS)
def test_the_scale_is_one_of_the_standard_and_the_next_larger_one_does_not_fit(number):
    project, sheet = demo(number), demo_sheets(number)[0]
    assert sheet.scale_factor in ISO_5455
    larger = ISO_5455[ISO_5455.index(sheet.scale_factor) - 1]
    with pytest.raises(SheetTooSmallError, match="does not fit A3 at 1:"):
        compose_pack(replace(project, sheet=replace(project.sheet, scale_factor=larger)), depth_report(project))


def test_a_sheet_that_is_too_small_is_refused_with_the_way_out():
    project = demo(1, Paper.A4)
    project = replace(project, sheet=replace(project.sheet, scale_factor=1.0))
    with pytest.raises(SheetTooSmallError, match="does not fit A4 at 1:1: choose a larger sheet, or leave the scale"):
        compose_pack(project, depth_report(project))


def test_an_empty_pack_gives_no_sheet():
    project = Project()
    assert compose_pack(project, depth_report(project)) == ()


def test_a_pack_without_a_radiator_is_measured_from_its_largest_part():
    fan = Fan(id="fan-1", name="Fan", depth_mm=60, ring_diameter_mm=300, placement=Placement(z_mm=500.0))
    project = Project(parts=(fan,))
    sheet = pack_sheets(project)[0]
    assert datum_of(project).z_mm == 350.0
    assert collisions(sheet.marks) == ()


@pytest.mark.parametrize("units", DrawingUnits)
def test_a_demo_can_be_drawn_in_any_unit_without_a_collision(units):
    project = demo(3)
    sheets = pack_sheets(replace(project, sheet=replace(project.sheet, units=units, paper=Paper.A2)))
    assert [c for sheet in sheets for c in collisions(sheet.marks)] == []


def test_equal_projects_give_equal_sheets():
    project = demo(3)
    assert pack_sheets(project) == pack_sheets(project)


def _values(number: int, axis: Axis, view: str) -> list[float]:
    return [
        one.measured_mm
        for sheet in demo_sheets(number)
        for one in dimensions(sheet)
        if isinstance(one, OrdinateDimension) and one.axis is axis and one.key.startswith(f"{view}:")
    ]
