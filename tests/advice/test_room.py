"""Whether a changed pack can be built."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.advice.room import has_room, window_margins
from grillestack.geometry.depth import depth_report
from grillestack.model import edits
from grillestack.model.nose import DepthStations
from grillestack.model.outline import SidePoint
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores, fans
from tests.assess import packs

PACK = packs.half_height_pack()
COOLER = cores(PACK, CoreRole.CHARGE_AIR_COOLER)[0].id


def _fits(after: Project, before: Project = PACK) -> bool:
    return has_room(before, depth_report(before), after)


def _stations(**stations: object) -> Project:
    return edits.set_nose(PACK, replace(PACK.nose, stations=DepthStations(**stations)))


def test_an_unchanged_pack_has_room_even_if_it_is_crowded():
    crowded = edits.move_parts(PACK, [COOLER], dx_mm=40.0)
    assert depth_report(crowded).overlaps
    assert _fits(crowded, crowded)


def test_a_new_overlap_has_no_room_and_one_that_is_undone_has():
    crowded = edits.move_parts(PACK, [COOLER], dx_mm=40.0)
    assert not _fits(crowded)
    assert not _fits(edits.move_parts(crowded, [COOLER], dx_mm=5.0), crowded)
    assert _fits(PACK, crowded)


@pytest.mark.parametrize(("closer_mm", "room"), [(5.0, True), (7.0, False)])
def test_ten_millimetres_stay_between_cores(closer_mm, room):
    # By hand: the cooler ends at 179, the radiator begins at 195: 16 mm.
    assert _fits(edits.move_parts(PACK, [COOLER], dx_mm=closer_mm)) == room


def test_a_gap_that_is_too_small_already_may_stay_but_not_shrink():
    tight = edits.move_parts(PACK, [COOLER], dx_mm=10.0)
    assert _fits(edits.move_parts(tight, [COOLER], dz_mm=10.0), tight)
    assert not _fits(edits.move_parts(tight, [COOLER], dx_mm=2.0), tight)


@pytest.mark.parametrize(("back_mm", "room"), [(4.0, True), (6.0, False)])
def test_twenty_five_millimetres_stay_to_the_pulley(back_mm, room):
    # By hand: the fans end at 335, the pulley stands at 365.
    before = _stations(pulley_x_mm=365.0)
    assert _fits(edits.move_parts(before, [fan.id for fan in fans(before)], dx_mm=back_mm), before) == room


@pytest.mark.parametrize(("up_mm", "room"), [(70.0, True), (80.0, False)])
def test_twenty_millimetres_stay_under_the_bonnet(up_mm, room):
    # By hand: the cooler's upper edge is at z 260, the bonnet at 355.
    before = _stations(bonnet_line=(SidePoint(0.0, 355.0), SidePoint(190.0, 355.0)))
    assert _fits(edits.move_parts(before, [COOLER], dz_mm=up_mm), before) == room


def test_nothing_comes_out_of_the_grille():
    assert _fits(edits.move_parts(PACK, [COOLER], dx_mm=-115.0))
    assert not _fits(edits.move_parts(PACK, [COOLER], dx_mm=-116.0))


def test_the_core_stays_before_the_window_and_what_stands_out_already_may_not_stand_out_more():
    assert _fits(edits.move_parts(PACK, [COOLER], dz_mm=-60.0))
    low = edits.move_parts(PACK, [COOLER], dz_mm=-80.0)
    assert not _fits(low)
    assert _fits(edits.move_parts(low, [COOLER], dy_mm=20.0), low)
    assert not _fits(edits.move_parts(low, [COOLER], dz_mm=-5.0), low)


def test_margins_ahead_of_the_plate_are_those_of_the_core_and_else_those_of_the_whole_part():
    window = PACK.nose.support_window
    cooler = PACK.part(COOLER)
    # By hand: the window is y ±420, z -30 to 550; the core 560 × 230 about z 145, 680 mm wide with its tanks.
    ahead = window_margins(window, cooler)
    assert (ahead.left_mm, ahead.right_mm, ahead.down_mm, ahead.up_mm) == (140.0, 140.0, 60.0, 290.0)
    through = window_margins(replace(window, x_mm=150.0), cooler)
    assert (through.left_mm, through.right_mm, through.down_mm, through.up_mm) == (80.0, 80.0, 60.0, 290.0)
