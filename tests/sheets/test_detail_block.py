"""Details on paper: figures are those of the piece, names find room, pictures wrap where the paper is narrow."""

from __future__ import annotations

import pytest

from grillestack.model.sheet_choices import DrawingUnits, WeldSymbols
from grillestack.sheets.bend import Bend
from grillestack.sheets.brackets import Angle, angle_flat, arm
from grillestack.sheets.collisions import all_texts, collisions
from grillestack.sheets.detail_block import Detail, Lettering, detail_block
from grillestack.sheets.draw_list import Axis, OrdinateDimension, Point
from grillestack.sheets.flat_part import Hole
from grillestack.sheets.flat_picture import angle_picture, flat_picture
from grillestack.sheets.paper import Area
from grillestack.sheets.say_length import said_hole
from grillestack.sheets.shelves import shelved

BEND = Bend(thickness_mm=3.0, radius_mm=3.0, neutral_frac=0.44)
LETTERS = Lettering(text_mm=2.5, units=DrawingUnits.MILLIMETRES, welds=WeldSymbols.ISO_2553)


def _detail(key: str = "B1", reach_mm: float = 60.0) -> Detail:
    angle, flat = arm(reach_mm, Hole(at=Point(0.0, 0.0), diameter_mm=9.0, slot_mm=21.0), BEND)
    return Detail(
        key=key,
        title=f"{key} arm",
        lines=("steel",),
        pictures=(
            angle_picture(key, angle.seat_mm, angle.leg_mm, BEND),
            flat_picture(key, flat, DrawingUnits.MILLIMETRES),
        ),
    )


@pytest.mark.parametrize("scale", [1.0, 2.0, 5.0, 10.0])
def test_nothing_collides_at_any_scale_and_every_name_is_there(scale):
    block = detail_block(_detail(), scale, LETTERS)
    assert block is not None
    assert collisions(block.marks) == ()
    said = [text.text for text in all_texts(block.marks)]
    assert "9 × 21 slot" in said
    assert f"M8: 2 × {said_hole(9.0, DrawingUnits.MILLIMETRES)}" in said


def test_ordinates_are_those_of_the_blank():
    block = detail_block(_detail(), 2.0, LETTERS)
    up = {
        round(m.measured_mm, 2)
        for m in block.marks
        if isinstance(m, OrdinateDimension) and m.axis is Axis.UP and ":profile" not in m.key
    }
    # Leg 45, bolts 28 from the seat's outer face: 17; deduction 2·6 − π/2·4.32 = 5.214; hole 60 from the leg: 99.79.
    assert {0.0, 17.0, 99.79} <= up


def test_pictures_stand_under_each_other_where_paper_is_narrow():
    wide, narrow = detail_block(_detail(), 1.0, LETTERS), detail_block(_detail(), 1.0, LETTERS, 110.0)
    assert narrow.width_mm < wide.width_mm
    assert narrow.height_mm > wide.height_mm


def test_marks_stay_within_the_block():
    block = detail_block(_detail(), 2.0, LETTERS)
    for text in all_texts(block.marks):
        assert -1e-6 <= text.at.x_mm <= block.width_mm
        assert -1e-6 <= text.at.y_mm <= block.height_mm


def test_an_angle_bent_back_has_its_holes_where_they_were_asked():
    angle = Angle(seat_mm=50.0, leg_mm=40.0, length_mm=300.0, bend=BEND)
    flat = angle_flat(
        angle, (Hole(at=Point(20.0, 25.0), diameter_mm=22.0),), (Hole(at=Point(20.0, 30.0), diameter_mm=9.0),)
    )
    seat, leg = flat.holes
    # Over the outer faces: the blank is 90 − BD long; the seat's hole 50 − 25 from its end, the leg's 40 − 30 from its.
    assert flat.area.height_mm - seat.at.y_mm == pytest.approx(25.0)
    assert leg.at.y_mm == pytest.approx(10.0)


def test_shelves_take_the_largest_scale_that_keeps_to_the_sheets():
    details = [_detail(f"B{n}", 50.0 + 10 * n) for n in range(1, 5)]
    area = Area(20.0, 50.0, 400.0, 280.0)
    one, two = shelved(details, area, LETTERS, 1), shelved(details, area, LETTERS, 2)
    assert len(one) == 1
    assert len(two) <= 2
    assert two[0].scale_factor <= one[0].scale_factor
    for sheet in (*one, *two):
        assert collisions(sheet.marks) == ()
        for view in sheet.views:
            assert area.grown(1e-6).holds(Area(view.x0_mm, view.y0_mm, view.x1_mm, view.y1_mm))


def test_what_fits_at_no_scale_is_not_shelved():
    assert shelved([_detail()], Area(0.0, 0.0, 40.0, 30.0), LETTERS, 2) is None
