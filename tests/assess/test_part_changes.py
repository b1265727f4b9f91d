"""What differs between the parts of two layouts, part by part, in sentences a fitter can follow."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from grillestack.assess.part_changes import PartChange, changes_in_words, part_changes
from grillestack.model import edits
from grillestack.model.parts import FanPoint, TubeFluid
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem
from tests.assess import packs
from tests.model.random_projects import projects

PACK = packs.half_height_pack()
CAC, RADIATOR, SHROUD, FAN, SECOND_FAN = (part.id for part in PACK.parts)


def said(after: Project, before: Project = PACK, units: UnitSystem = UnitSystem.METRIC) -> tuple[str, ...]:
    changes = part_changes(before.parts, after.parts)
    return changes_in_words(changes, ("A", before.parts), ("B", after.parts), units)


def altered(part_id: str, **fields) -> Project:
    return edits.replace_part(PACK, replace(PACK.part(part_id), **fields))


def placed(part_id: str, **fields) -> Project:
    return altered(part_id, placement=replace(PACK.part(part_id).placement, **fields))


def test_equal_packs_do_not_differ():
    assert said(PACK) == ()


@pytest.mark.parametrize(
    ("move", "words"),
    [
        ({"dz_mm": -160.0}, "160 mm lower"),
        ({"dz_mm": 5.0}, "5 mm higher"),
        ({"dy_mm": 12.0}, "12 mm further to the vehicle's right"),
        ({"dy_mm": -12.0}, "12 mm further to the vehicle's left"),
        ({"dx_mm": 8.5}, "8.5 mm further rearward"),
        ({"dx_mm": -8.5, "dz_mm": 1.0}, "8.5 mm further forward, 1 mm higher"),
    ],
)
def test_a_moved_part_says_which_way_and_how_far(move, words):
    assert said(edits.move_parts(PACK, [CAC], **move)) == (f"“Charge air cooler”: {words}.",)


def test_in_inches_a_move_is_in_inches():
    moved = edits.move_parts(PACK, [CAC], dz_mm=-25.4)
    assert said(moved, units=UnitSystem.INCH) == ("“Charge air cooler”: 1 in lower.",)


def test_a_move_there_and_back_is_none_though_its_sums_are_not_exact():
    there = edits.move_parts(PACK, [CAC], dz_mm=0.1)
    back = edits.move_parts(edits.move_parts(there, [CAC], dz_mm=0.2), [CAC], dz_mm=-0.3)
    assert PACK.part(CAC) != back.part(CAC) or said(back) == ()
    assert all("higher" not in words and "lower" not in words for words in said(back))


@pytest.mark.parametrize(
    ("after", "words"),
    [
        (edits.turn_part(PACK, CAC), "turned a quarter clockwise, seen from ahead"),
        (edits.turn_part(PACK, CAC, 2), "turned half round, seen from ahead"),
        (edits.turn_part(PACK, CAC, 3), "turned a quarter anticlockwise, seen from ahead"),
        (edits.flip_part(PACK, CAC), "flipped front to back"),
        (placed(CAC, tilt_deg=4.0), "leaning 4 deg further rearward at its top"),
        (placed(CAC, tilt_deg=-4.0), "leaning 4 deg further forward at its top"),
    ],
)
def test_a_turned_part_says_how(after, words):
    assert said(after) == (f"“Charge air cooler”: {words}.",)


@pytest.mark.parametrize("turns", [1, 2, 3])
def test_a_flip_of_a_turned_part_is_a_flip_and_no_turn(turns):
    turned = edits.turn_part(PACK, CAC, turns)
    assert said(edits.flip_part(turned, CAC), turned) == ("“Charge air cooler”: flipped front to back.",)


@pytest.mark.parametrize(
    ("after", "sentence"),
    [
        (
            altered(CAC, core_width_mm=500.0, core_height_mm=220.0),
            "“Charge air cooler”: core 500 × 220 mm instead of 560 × 230 mm.",
        ),
        (altered(CAC, depth_mm=76.0), "“Charge air cooler”: depth 76 mm instead of 64 mm."),
        (altered(SHROUD, width_mm=600.0), "“Shroud”: size 600 × 460 mm instead of 700 × 460 mm."),
        (
            altered(FAN, ring_diameter_mm=400.0),
            "“Fan 380” (number 4 from the front): ring 400 mm instead of 380 mm.",
        ),
        (altered(CAC, weight_kg=6.0), "“Charge air cooler”: weight 6 kg instead of not known."),
        (altered(CAC, name="Bar cooler"), "“Bar cooler”: called “Charge air cooler” before."),
        (altered(CAC, passes=2, notes_text="new"), "“Charge air cooler”: differs in notes and passes."),
        (
            altered(CAC, given_heat_w=3e3, tube_fluid=TubeFluid.OIL, tube_inlet_degc=110.0, tube_flow_m3_s=1e-4),
            "“Charge air cooler”: differs in the heat it gives off, what flows through it, how hot that comes in and how much flows.",
        ),
        (
            altered(FAN, curve=(FanPoint(flow_m3_s=0.0, pressure_pa=1.0),)),
            "“Fan 380” (number 4 from the front): differs in fan curve.",
        ),
        (
            altered(CAC, name="Bar cooler", depth_mm=76.0),
            "“Bar cooler”: takes the place of “Charge air cooler”, depth 76 mm instead of 64 mm.",
        ),
    ],
)
def test_what_is_other_about_a_part_is_named_with_both_figures(after, sentence):
    assert said(after) == (sentence,)


def test_a_part_in_one_layout_only_says_in_which():
    without = edits.remove_parts(PACK, [SHROUD])
    assert said(without) == ("“Shroud”: only in “A”.",)
    assert said(PACK, without) == ("“Shroud”: only in “B”.",)


def test_the_only_new_core_of_its_kind_takes_the_place_of_the_one_that_went():
    other = replace(packs.charge_air_cooler(500.0, 230.0), name="Short cooler")
    exchanged = packs.with_part(edits.remove_parts(PACK, [CAC]), other, 115.0, 165.0)
    assert said(exchanged) == (
        "“Short cooler”: takes the place of “Charge air cooler”, 20 mm higher, core 500 × 230 mm instead of 560 × 230 mm, overall 620 × 230 mm instead of 680 × 230 mm.",
    )


def test_of_two_that_went_and_one_that_came_none_is_said_to_take_the_place_of_another():
    fewer = packs.with_part(edits.remove_parts(PACK, [FAN, SECOND_FAN]), replace(packs.fan(), name="Large fan"), 275.0)
    assert said(fewer) == (
        "“Fan 380” (number 4 from the front): only in “A”.",
        "“Fan 380” (number 5 from the front): only in “A”.",
        "“Large fan”: only in “B”.",
    )


def test_the_same_part_fitted_anew_is_told_as_that():
    again = edits.add_part(edits.remove_parts(PACK, [SHROUD]), PACK.part(SHROUD))[0]
    assert said(again) == ("“Shroud”: takes the place of one that is like it.",)


def test_an_id_that_means_another_kind_of_part_is_no_change_of_one_part():
    fan = replace(packs.fan(), id=CAC)
    odd = replace(PACK, parts=(fan, *PACK.parts[1:]))
    assert part_changes(PACK.parts, odd.parts) == (
        PartChange(before=None, after=fan),
        PartChange(before=PACK.part(CAC), after=None),
    )


def test_changes_are_told_from_front_to_back():
    moved = edits.move_parts(PACK, [FAN, RADIATOR, CAC], dz_mm=1.0)
    assert [change.after.id for change in part_changes(PACK.parts, moved.parts)] == [CAC, RADIATOR, FAN]


@settings(max_examples=30, deadline=None)
@given(projects(), st.data())
def test_whatever_differs_is_told_once_and_whatever_does_not_is_not(project, data):
    keep = data.draw(st.lists(st.booleans(), min_size=len(project.parts), max_size=len(project.parts)))
    fewer = replace(project, parts=tuple(p for p, kept in zip(project.parts, keep, strict=True) if kept))
    assert part_changes(project.parts, project.parts) == ()
    changes = part_changes(project.parts, fewer.parts)
    assert {change.before.id for change in changes} == {p.id for p in project.parts} - {p.id for p in fewer.parts}
    assert len(changes) == keep.count(False)
    back = part_changes(fewer.parts, project.parts)
    assert {(c.after, c.before) for c in back} == {(c.before, c.after) for c in changes}
