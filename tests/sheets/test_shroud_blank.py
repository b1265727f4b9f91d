"""The shroud's blank: rings, ears and fixings where fans and radiator want them, and a sentence for what cannot be made."""

from __future__ import annotations

import itertools

import pytest
import shapely
from msgspec.structs import replace

from grillestack.model.parts import Fan, FanDrive, Placement, Shroud
from grillestack.model.project import Project, fans, shrouds
from grillestack.sheets.making import shroud_making
from grillestack.sheets.shroud_blank import RING_CLEAR_MM, shroud_blanks
from grillestack.sheets.trouble import NothingToDrawError
from tests.sheets.drawn import demo


def _blanks(project: Project):
    return shroud_blanks(project, shroud_making(project.sheet.making, project.sheet.units))


def _changed(project: Project, part_id: str, **changes) -> Project:
    parts = tuple(replace(p, **changes) if p.id == part_id else p for p in project.parts)
    return replace(project, parts=parts)


def _moved(project: Project, part, **places) -> Project:
    return _changed(project, part.id, placement=replace(part.placement, **places))


@pytest.mark.parametrize("number", [1, 2, 3])
def test_ring_holes_stand_where_the_fans_are_as_seen_from_ahead(number):
    project = demo(number)
    (blank,) = _blanks(project)
    shroud = shrouds(project)[0].placement
    rings = {(round(h.at.x_mm, 6), round(h.at.y_mm, 6)): h.diameter_mm for h in blank.flat.holes if h.diameter_mm > 50}
    for fan in fans(project):
        # Seen from ahead the vehicle's right (+y) lies at the left.
        at = (
            round(blank.middle.x_mm - (fan.placement.y_mm - shroud.y_mm), 6),
            round(blank.middle.y_mm + fan.placement.z_mm - shroud.z_mm, 6),
        )
        assert rings[at] == pytest.approx(fan.ring_diameter_mm + 2 * RING_CLEAR_MM)
    assert len(rings) == len(fans(project))


@pytest.mark.parametrize("number", [1, 2, 3])
def test_every_hole_lies_in_the_metal_and_none_over_another(number):
    (blank,) = _blanks(demo(number))
    metal = shapely.Polygon([(p.x_mm, p.y_mm) for p in blank.flat.contour])
    assert metal.is_valid
    holes = [shapely.Point(h.at.x_mm, h.at.y_mm).buffer(h.diameter_mm / 2, quad_segs=64) for h in blank.flat.holes]
    assert all(metal.contains(hole) for hole in holes)
    assert all(one.disjoint(other) for one, other in itertools.combinations(holes, 2))


def test_the_lower_left_corner_of_the_blank_is_its_datum():
    (blank,) = _blanks(demo(2))
    assert (blank.flat.area.x0_mm, blank.flat.area.y0_mm) == (pytest.approx(0.0), pytest.approx(0.0))


def test_holes_inside_the_outline_turn_the_flange_in_and_stand_in_its_middle():
    (blank,) = _blanks(demo(1))
    # The holes of this shroud stand 14 mm inside its outline.
    assert (blank.shape.flange_is_inward, blank.shape.flange_mm) == (True, 28.0)
    fixings = [h for h in blank.flat.holes if h.name == "fixing"]
    right = [h for h in fixings if h.at.x_mm > blank.middle.x_mm]
    assert [blank.flat.area.x1_mm - h.at.x_mm for h in right] == pytest.approx([14.0, 14.0])


def test_a_shroud_without_holes_gets_an_outward_flange_that_is_said_to_be_assumed():
    project = demo(2)
    project = _changed(project, shrouds(project)[0].id, mounts=())
    (blank,) = _blanks(project)
    assert (blank.shape.flange_is_inward, blank.shape.flange_mm) == (False, 20.0)
    assert any("the flange is assumed" in warning for warning in blank.warnings)


def test_a_pack_without_a_shroud_is_told_so():
    project = demo(1)
    project = replace(project, parts=tuple(p for p in project.parts if not isinstance(p, Shroud)))
    with pytest.raises(NothingToDrawError, match="There is no shroud in this pack"):
        _blanks(project)


def test_a_shroud_without_a_fan_is_drawn_with_a_warning():
    project = demo(1)
    project = replace(project, parts=tuple(p for p in project.parts if not isinstance(p, Fan)))
    (blank,) = _blanks(project)
    assert any("No fan stands in “Shroud”" in warning for warning in blank.warnings)
    assert not [h for h in blank.flat.holes if h.diameter_mm > 50]


def test_a_ring_that_reaches_outside_the_panel_is_refused_with_both_names():
    project = demo(2)
    fan = fans(project)[0]
    with pytest.raises(NothingToDrawError, match=r"“Fan” .* reaches outside the rear panel of “Shroud”"):
        _blanks(_moved(project, fan, y_mm=150.0))


def test_rings_that_meet_are_refused():
    project = demo(1)
    left, right = fans(project)
    with pytest.raises(NothingToDrawError, match="“Left fan” and “Right fan” meet in “Shroud”"):
        _blanks(_moved(_moved(project, left, y_mm=-150.0), right, y_mm=150.0))


def test_a_fan_that_leans_otherwise_than_its_shroud_is_refused():
    project = demo(2)
    with pytest.raises(NothingToDrawError, match="leans otherwise than “Shroud”"):
        _blanks(_moved(project, fans(project)[0], tilt_deg=10.0))


def test_shroud_and_fan_that_lean_alike_give_the_same_blank():
    project = demo(2)
    shroud, fan = shrouds(project)[0], fans(project)[0]
    upright = _blanks(project)[0]
    # The fan's place turned with the shroud about the shroud's: 78 mm behind it.
    dx, tilt = fan.placement.x_mm - shroud.placement.x_mm, 15.0
    turned = _moved(project, shroud, tilt_deg=tilt)
    turned = _changed(
        turned,
        fan.id,
        placement=Placement(
            x_mm=shroud.placement.x_mm + dx * 0.9659258262890683,
            y_mm=fan.placement.y_mm,
            z_mm=shroud.placement.z_mm - dx * 0.25881904510252074,
            tilt_deg=tilt,
        ),
    )
    leaning = _blanks(turned)[0]
    assert leaning.flat.contour == upright.flat.contour
    for one, other in zip(leaning.flat.holes, upright.flat.holes, strict=True):
        assert (one.at.x_mm, one.at.y_mm) == (pytest.approx(other.at.x_mm), pytest.approx(other.at.y_mm))


def test_flaps_are_cut_out_of_the_panel_with_their_area():
    project = demo(2)
    project = _changed(project, shrouds(project)[0].id, flap_area_mm2=20_000.0)
    (blank,) = _blanks(project)
    areas = [shapely.Polygon([(p.x_mm, p.y_mm) for p in outline]).area for outline in blank.flat.openings]
    assert sum(areas) == pytest.approx(20_000.0)


def test_flaps_without_room_are_left_out_with_a_warning():
    project = demo(2)
    project = _changed(project, shrouds(project)[0].id, flap_area_mm2=250_000.0)
    (blank,) = _blanks(project)
    assert blank.flat.openings == ()
    assert any("find no room beside its rings" in warning for warning in blank.warnings)


def test_ears_off_the_panel_are_spoken_of_with_the_spacer():
    # Demo 1: the ears stand at x = 302, the panel's inner face at 247 + 75 − 1.5 = 320.5.
    (blank,) = _blanks(demo(1))
    assert any("FAN 1: ears 18.5 mm ahead of the panel" in warning for warning in blank.warnings)


def test_a_fan_on_the_engine_gets_room_to_move_with_it():
    # Published practice, seen in summary: 19 mm at the tips where engine and shroud move against each other.
    project = demo(2)
    project = _changed(project, fans(project)[0].id, drive=FanDrive.BELT, mounts=())
    (blank,) = _blanks(project)
    assert max(h.diameter_mm for h in blank.flat.holes) == pytest.approx(430.0 + 2 * 19.0)
    assert any("turns with the engine" in warning for warning in blank.warnings)
