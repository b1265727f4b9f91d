"""The frame: every mount is met by a hole, bolts fall together, hot ends slide, and what is unsure is said."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.geometry.projection import placed_point
from grillestack.model.nose import NoseMount
from grillestack.model.parts import CoreRole, Mount
from grillestack.model.project import Project, cores
from grillestack.sheets.brackets import LEG_HOLE_MM, RUBBER_MM, Kind
from grillestack.sheets.frame import BESIDE_MM, held_cores
from grillestack.sheets.frame_rails import frame_of
from grillestack.sheets.making import bracket_making
from grillestack.sheets.part_plane import plane_area
from grillestack.sheets.trouble import NothingToDrawError
from tests.sheets.drawn import demo


def _making(project: Project):
    return bracket_making(project.sheet.making, project.sheet.units)


def _held(project: Project):
    return held_cores(project, _making(project))


def _frame(project: Project):
    return frame_of(project, _making(project))


def _changed(project: Project, part_id: str, **changes) -> Project:
    return replace(project, parts=tuple(replace(p, **changes) if p.id == part_id else p for p in project.parts))


@pytest.mark.parametrize("number", [1, 2, 3])
def test_rails_stand_clear_of_the_widest_part(number):
    project = demo(number)
    held = _held(project)
    widest = max(plane_area(p).x1_mm - p.placement.y_mm for p in project.parts)
    assert held.sides.left_mm == pytest.approx(widest + BESIDE_MM)


@pytest.mark.parametrize("number", [1, 2, 3])
def test_every_mount_of_every_core_is_met_by_a_bolt_pair_or_a_saddle(number):
    """The bolts of an arm stand in the web at the mount's x, a rubber and the leg's hole below or above it."""
    project = demo(number)
    held = _held(project)
    out = RUBBER_MM + LEG_HOLE_MM
    pairs = [
        ((one.x_mm + two.x_mm) / 2, (one.z_mm + two.z_mm) / 2)
        for side in held.sides.holes
        for one, two in zip(side[::2], side[1::2], strict=True)
    ]
    rails = [piece for piece in held.pieces if piece.kind is Kind.CROSS_RAIL]
    saddles = sum(len(piece.flat.holes) for piece in rails)
    met = 0
    for core in cores(project):
        for mount in core.mounts:
            x, _, z = placed_point(core, mount.u_mm, mount.v_mm, mount.w_mm)
            above = mount.v_mm > 0
            wanted = (x, z + out if above else z - out)
            met += any(wanted == pytest.approx(pair) for pair in pairs)
    assert met + saddles == sum(len(core.mounts) for core in cores(project))


@pytest.mark.parametrize("number", [1, 2, 3])
def test_an_arm_folded_back_has_its_hole_over_the_mount(number):
    project = demo(number)
    held = _held(project)
    across = {round(-placed_point(c, m.u_mm, m.v_mm, m.w_mm)[1], 3) for c in cores(project) for m in c.mounts}
    arms = {piece.name: piece for piece in held.pieces if piece.kind is Kind.ARM}
    for place in held.placed:
        if place.kind is not Kind.ARM:
            continue
        piece = arms[place.name]
        bend = piece.angle.bend
        seat = min((h for h in piece.flat.holes if not h.name), key=lambda h: -h.at.y_mm)
        # By hand: over the outer faces a hole stands at its place on the blank, less the leg, plus the deduction.
        reach = seat.at.y_mm - piece.angle.leg_mm + bend.deduction_mm
        is_left = place.space.across1_mm == pytest.approx(held.sides.left_mm)
        at = held.sides.left_mm - reach if is_left else held.sides.right_mm + reach
        assert round(at, 3) in across


def test_a_cross_rail_seen_from_above_has_the_vehicles_left_at_its_left():
    # Demo 3: the charge-air cooler's free end is at u = +299, to the vehicle's right; its slot must lie at the right.
    project = demo(3)
    held = _held(project)
    rail = next(p for p in held.pieces if p.kind is Kind.CROSS_RAIL and p.title.startswith("CAC"))
    slot = next(h for h in rail.flat.holes if h.is_slot)
    plain = next(h for h in rail.flat.holes if not h.is_slot)
    assert slot.at.x_mm > plain.at.x_mm
    assert slot.at.x_mm - plain.at.x_mm == pytest.approx(2 * 299.0)


@pytest.mark.parametrize("number", [1, 2, 3])
def test_one_end_of_a_hot_cooler_is_fixed_and_the_other_slotted_along_its_growth(number):
    project = demo(number)
    held = _held(project)
    cac = [p for p in held.pieces if "CAC" in p.title]
    slotted = [h for p in cac for h in p.flat.holes if h.is_slot]
    # Hole 9 mm, six millimetres either way
    assert {h.slot_mm for h in slotted} == {21.0}
    fixed = [p for p in cac if "fixed end" in p.title]
    assert fixed
    assert all(not h.is_slot for p in fixed for h in p.flat.holes)
    for piece in cac:
        along = 90.0 if piece.kind is Kind.ARM else 0.0
        assert all(h.along_deg == along for h in piece.flat.holes if h.is_slot)
    assert any("REF, hot" in remark for p in cac for remark in p.remarks)


@pytest.mark.parametrize("number", [1, 2, 3])
def test_rails_have_a_hole_for_every_bolt_and_for_pipes_that_pass(number):
    project = demo(number)
    frame = _frame(project)
    for rail in frame.rails:
        names = {hole.name for hole in rail.piece.flat.holes}
        arms = {piece.name for piece in frame.held.pieces if piece.kind is Kind.ARM}
        assert arms & names
        assert all(0 < h.at.x_mm < rail.piece.flat.area.x1_mm for h in rail.piece.flat.holes)
    if number == 2:
        # Its ports point to the sides; each passes 10 mm clear all round, a tube nobody measured being 6 mm over its bore.
        (cac,) = cores(project, CoreRole.CHARGE_AIR_COOLER)
        clear = sorted((port.outside_mm or port.bore_mm + 6.0) + 20.0 for port in cac.ports)
        pipes = [h.diameter_mm for rail in frame.rails for h in rail.piece.flat.holes if "let" in h.name]
        assert sorted(pipes) == pytest.approx(clear)


def test_a_core_without_mounts_gets_assumed_ones_that_are_marked():
    project = demo(2)
    held = _held(_changed(project, "radiator-3", mounts=()))
    assert any("RAD states no mounts" in warning and "verify on part" in warning for warning in held.warnings)
    assert any("assumed: verify on part" in remark for p in held.pieces for remark in p.remarks)


def test_a_charge_air_cooler_whose_mounts_say_nothing_is_fixed_at_one_end():
    project = demo(2)
    cac = cores(project, CoreRole.CHARGE_AIR_COOLER)[0]
    silent = tuple(replace(m, kind_text="") for m in cac.mounts)
    held = _held(_changed(project, cac.id, mounts=silent))
    titles = " ".join(p.title for p in held.pieces)
    assert "CAC, fixed end" in titles
    assert "CAC, free end" in titles


def test_rails_stand_further_out_where_an_arms_bend_would_meet_its_slot():
    project = demo(2)
    (cac,) = cores(project, CoreRole.CHARGE_AIR_COOLER)
    # Ears at the very ends of the widest part: 368 mm from its middle
    ears = tuple(replace(m, u_mm=368.0 if m.u_mm > 0 else -368.0) for m in cac.mounts)
    held = _held(_changed(project, cac.id, mounts=ears))
    slotted = next(p for p in held.pieces if any(h.is_slot for h in p.flat.holes))
    slot = next(h for h in slotted.flat.holes if h.is_slot)
    bend = slotted.angle.bend
    # The end of the slot keeps clear of the round of the bend, and its middle is 368 mm out.
    reach = slot.at.y_mm - slotted.angle.leg_mm + bend.deduction_mm
    assert reach - slot.slot_mm / 2 > bend.setback_mm
    assert held.sides.right_mm + reach == pytest.approx(-368.0)


def test_rails_stand_clear_of_a_flange_that_turns_out():
    project = demo(2)
    wide = _changed(project, "shroud-4", width_mm=760.0, mounts=())
    # Half of 760, the assumed flange of 20 and 10 mm beside it
    assert _held(wide).sides.left_mm == pytest.approx(380.0 + 20.0 + BESIDE_MM)


def test_a_mount_in_the_side_is_bolted_through_the_rail():
    project = demo(2)
    core = cores(project)[0]
    side = Mount(u_mm=-332.0, v_mm=0.0, w_mm=8.0, hole_mm=8.5)
    held = _held(_changed(project, core.id, mounts=(side,)))
    assert [h.diameter_mm for h in held.sides.holes[1] if h.name == "COND side bolt"] == [8.5]
    assert any("spacer" in warning for warning in held.warnings)


def test_a_pack_without_cores_gets_a_sentence():
    with pytest.raises(NothingToDrawError, match="There is no core in this pack"):
        _held(replace(demo(1), parts=()))


def test_without_mounts_of_the_vehicle_no_foot_is_drawn():
    frame = _frame(demo(1))
    assert not frame.has_vehicle_mounts
    assert frame.feet == ()


def _with_mount(y_mm: float, *, is_structure: bool = False) -> Project:
    project = demo(1)
    mount = NoseMount(id="m1", name="Stud", x_mm=250.0, y_mm=y_mm, z_mm=700.0, hole_mm=10.0, is_structure=is_structure)
    return replace(project, nose=replace(project.nose, mounts=(mount,)))


def test_a_foot_reaches_to_a_mount_of_the_vehicle_and_is_bolted_to_the_rail():
    project = _with_mount(-500.0)
    frame = _frame(project)
    (foot,) = frame.feet
    # From the outer face of the left rail, 404 + 3 mm from the middle
    reach = 500.0 - 404.0 - 3.0
    seat = max(foot.flat.holes, key=lambda h: h.at.y_mm)
    assert seat.at.y_mm == pytest.approx(foot.angle.leg_mm + reach - foot.angle.bend.deduction_mm)
    assert seat.slot_mm == pytest.approx(18.0)
    assert len([h for rail in frame.rails for h in rail.piece.flat.holes if h.name == foot.name]) == 2


def test_a_mount_in_the_crash_structure_gets_a_caution():
    frame = _frame(_with_mount(-500.0, is_structure=True))
    assert frame.structure == ("Stud",)
    assert any("CAUTION" in remark and "crash structure" in remark for remark in frame.feet[0].remarks)


def test_a_mount_out_of_reach_is_named():
    assert any("“Stud”" in warning for warning in _frame(_with_mount(-900.0)).warnings)


def test_a_rail_across_in_the_air_of_a_core_behind_is_spoken_of():
    # Demo 3: the charge-air cooler's rail, 40 mm high, before 700 mm of radiator: 280 cm²
    assert any("ahead of RAD, 280 cm²" in warning for warning in _frame(demo(3)).warnings)


def test_a_fan_without_a_shroud_is_told_to_stand_on_the_rails():
    project = replace(demo(2), parts=tuple(p for p in demo(2).parts if p.id != "shroud-4"))
    assert any(
        "FAN stands in no shroud" in warning and "never on a core" in warning for warning in _frame(project).warnings
    )
    assert not any("stands in no shroud" in warning for warning in _frame(demo(2)).warnings)
