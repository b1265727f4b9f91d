"""Parts from the shelf land where the trade puts them (stack order: common practice, no source)."""

import itertools

import pytest
from msgspec.structs import replace

from grillestack.app.landing import CORE_TO_FAN_MM, USUAL_GAP_MM, land_part, nose_centre
from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.edits import flip_part, move_parts, turn_part
from grillestack.model.nose import Nose, Opening
from grillestack.model.outline import centred_rect, rectangle_outline
from grillestack.model.parts import Core, CoreRole, Fan, Shroud
from grillestack.model.project import Project, stack

DESCRIPTION = CoreDescription(core_type=CoreType.ALUMINIUM_ONE_ROW)


def core(role, depth_mm=50.0):
    return Core(
        id="shelf",
        name=f"Invented {role.value}",
        role=role,
        overall=centred_rect(600, 400),
        core_width_mm=600,
        core_height_mm=400,
        depth_mm=depth_mm,
        description=DESCRIPTION,
    )


RADIATOR = core(CoreRole.RADIATOR, 56)
CAC = core(CoreRole.CHARGE_AIR_COOLER, 64)
CONDENSER = core(CoreRole.CONDENSER, 20)
SHROUD = Shroud(id="shelf", name="Invented shroud", width_mm=820, height_mm=420, depth_mm=90)
FAN = Fan(id="shelf", name="Invented fan", ring_diameter_mm=400, depth_mm=60)
GRILLE = Opening(id="opening-1", name="Grille", outline=rectangle_outline(-300, 500, 340, 900))
NOSE = Project(nose=Nose(openings=(GRILLE,)))


def landed(*parts, project=NOSE):
    for part in parts:
        project, _ = land_part(project, part)
    return project


def gaps(project):
    order = stack(project)
    return [b.placement.x_mm - a.placement.x_mm - a.depth_mm for a, b in itertools.pairwise(order)]


@pytest.mark.parametrize(
    "order",
    [(RADIATOR, CAC, CONDENSER), (CONDENSER, CAC, RADIATOR), (CAC, CONDENSER, RADIATOR), (RADIATOR, CONDENSER, CAC)],
)
def test_whatever_comes_first_the_condenser_leads_and_the_radiator_closes_with_a_gap_to_clean(order):
    project = landed(*order)
    assert [p.role for p in stack(project)] == [CoreRole.CONDENSER, CoreRole.CHARGE_AIR_COOLER, CoreRole.RADIATOR]
    assert gaps(project) == pytest.approx([USUAL_GAP_MM, USUAL_GAP_MM])
    assert stack(project)[0].placement.x_mm >= 0


def test_a_core_lands_in_the_middle_of_the_openings():
    placement = landed(RADIATOR).parts[0].placement
    assert (placement.y_mm, placement.z_mm) == (20, 700)


def test_a_core_lands_where_the_hand_let_go_of_it():
    project, part_id = land_part(NOSE, RADIATOR, at=(-50, 610))
    placement = project.part(part_id).placement
    assert (placement.y_mm, placement.z_mm) == (-50, 610)


def test_without_an_opening_a_part_lands_on_the_radiator_or_on_the_axis():
    assert nose_centre(Project()) == (0, 0)
    project = move_parts(landed(RADIATOR, project=Project()), ["radiator-1"], dy_mm=12, dz_mm=640)
    assert nose_centre(project) == (12, 640)


def test_a_shroud_lands_on_the_rear_of_the_radiator():
    project = landed(RADIATOR, CAC, SHROUD)
    radiator, shroud = project.part("radiator-1").placement, project.part("shroud-3").placement
    assert shroud.x_mm == radiator.x_mm + 56
    assert (shroud.y_mm, shroud.z_mm) == (radiator.y_mm, radiator.z_mm)


def test_two_fans_take_a_seat_each_inside_the_shroud_and_end_with_its_rear():
    project = landed(RADIATOR, SHROUD, FAN, FAN)
    shroud = project.part("shroud-2").placement
    seats = [project.part(i).placement for i in ("fan-3", "fan-4")]
    assert sorted(s.y_mm - shroud.y_mm for s in seats) == [-205, 205]  # 820 mm hold two: 820 / 4 from the middle
    assert {s.z_mm for s in seats} == {shroud.z_mm}
    assert {s.x_mm + FAN.depth_mm for s in seats} == {shroud.x_mm + SHROUD.depth_mm}


def test_in_a_shroud_on_its_side_fans_sit_above_each_other():
    project = turn_part(landed(RADIATOR, SHROUD), "shroud-2")
    project = landed(FAN, FAN, project=project)
    assert sorted(project.part(i).placement.z_mm for i in ("fan-3", "fan-4")) == [700 - 205, 700 + 205]


def test_a_fan_without_a_shroud_keeps_its_distance_from_the_radiator():
    project = landed(RADIATOR, FAN)
    assert gaps(project) == [CORE_TO_FAN_MM]


def test_a_late_condenser_pushes_the_whole_pack_back_in_one_piece():
    project = landed(RADIATOR, SHROUD, FAN, CAC)
    before = gaps(project)
    with_condenser = landed(CONDENSER, project=project)
    assert gaps(with_condenser)[1:] == pytest.approx(before)
    assert gaps(with_condenser)[0] == pytest.approx(USUAL_GAP_MM)


def test_an_order_of_the_users_own_is_left_alone():
    project = landed(CONDENSER, RADIATOR)
    project = move_parts(project, ["radiator-2"], dx_mm=-300)
    before = {p.id: p.placement for p in project.parts}
    after = landed(CAC, project=project)
    assert {p.id: p.placement for p in after.parts if p.id in before} == before


def test_the_part_keeps_its_own_turn_and_gets_an_id_of_its_kind():
    turned = replace(RADIATOR, placement=replace(RADIATOR.placement, quarter_turns=1))
    project, part_id = land_part(NOSE, turned)
    assert part_id == "radiator-1"
    assert project.part(part_id).placement.quarter_turns == 1
    assert flip_part(project, part_id).part(part_id).placement.flipped
