"""Two layouts side by side: every figure is that of the assessment of each alone, and what is unknown stays unknown."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.assess.compare import compare, comparison_of
from grillestack.assess.result import Verdict
from grillestack.model import edits, variants
from grillestack.model.engine import EngineSheet
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores
from grillestack.model.values import ModelError
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example
from tests.assess import packs

METRIC = UnitSystem.METRIC


def lowered(base: Project, by_mm: float = 115.0) -> Project:
    """Return the project with a copy of its layout in hand whose charge-air cooler stands lower."""
    project = variants.duplicate_variant(base, "Low cooler")
    cooler = cores(project, CoreRole.CHARGE_AIR_COOLER)[0]
    return edits.move_parts(project, [cooler.id], dz_mm=-by_mm)


def figure(comparison, label):
    (found,) = [f for f in comparison.figures if f.label == label]
    return found


@pytest.fixture(scope="module")
def pair():
    return lowered(
        packs.full_height_pack(packs.warm_day(), packs.warm_day(id="case-2", name="Cool", ambient_degc=10.0))
    )


@pytest.fixture(scope="module")
def compared(pair):
    return compare(pair, "Layout A")


def test_each_side_is_to_the_last_digit_what_its_layout_alone_is_assessed_as(pair, compared):
    assert compared.in_hand == assess(pair)
    alone = variants.adopt_variant(pair, "Layout A")
    for one, other in zip(compared.other.cases, assess(alone).cases, strict=True):
        assert one == other
    assert compared.other.radiator == assess(alone).radiator


def test_turned_about_every_difference_changes_its_sign(pair, compared):
    back = compare(variants.switch_variant(pair, "Layout A"), "Low cooler")
    assert back.names == compared.names[::-1]
    for one, other in zip(compared.figures, back.figures, strict=True):
        assert (one.other, one.in_hand) == (other.in_hand, other.other)
        assert (one.difference is None) == (other.difference is None)
        assert one.difference is None or one.difference == -other.difference


def test_a_layout_beside_its_own_copy_does_not_differ():
    copied = variants.duplicate_variant(_weighing(packs.half_height_pack(), 6.0, 9.0, 2.0, 1.5, 1.5))
    same = compare(copied, "Layout A")
    assert same.changes == ()
    assert {f.difference for f in same.figures} <= {0.0, None}
    assert {f.difference_words(METRIC) for f in same.figures} == {"same"}


def test_lowering_the_cooler_uncovers_some_of_the_radiator_and_the_table_says_how_much(compared):
    exposed = figure(compared, "Exposed face")
    assert exposed.difference > 0
    assert exposed.in_hand.value == compared.in_hand.radiator.exposed_mm2
    assert exposed.difference == exposed.in_hand.value - exposed.other.value
    assert compared.headline(METRIC).startswith("“Low cooler” stands a day ")
    assert "hotter than “Layout A”" in compared.headline(METRIC)


def test_hottest_day_and_margin_are_those_of_the_deciding_case(compared):
    case = compared.in_hand.deciding_case
    assert figure(compared, "Decided by").in_hand.words == case.name
    assert figure(compared, "Hottest day").in_hand.value == case.limiting_ambient_degc
    assert figure(compared, "Margin to the design day").in_hand.value == case.margin_k


def test_every_duty_case_has_its_top_tank(compared):
    for number, case in enumerate(compared.in_hand.cases):
        line = figure(compared, f"Top tank, {case.name}")
        assert line.in_hand.value == case.top_tank_degc
        assert line.other.value == compared.other.cases[number].top_tank_degc


def test_charge_air_is_that_of_the_worst_case(compared):
    cases = compared.in_hand.cases
    assert figure(compared, "Charge air out, hottest case").in_hand.value == max(c.charge_out_degc for c in cases)
    loss = figure(compared, "Charge loss, worst case")
    assert loss.in_hand.value == max(c.charge_loss_pa for c in cases)


def test_depth_of_the_pack_reaches_from_the_front_of_the_first_to_the_rear_of_the_last(compared):
    # By hand: the cooler begins at 115, the fans end at 275 + 60 mm.
    assert figure(compared, "Depth of the pack").in_hand.value == pytest.approx(335.0 - 115.0)


def test_parts_in_the_same_space_are_counted(pair):
    cooler = cores(pair, CoreRole.CHARGE_AIR_COOLER)[0]
    pushed = edits.move_parts(pair, [cooler.id], dx_mm=60.0)
    assert figure(compare(pushed, "Layout A"), "Places where parts collide").difference >= 1


def _weighing(project: Project, *weights_kg: float | None) -> Project:
    return replace(
        project,
        parts=tuple(replace(p, weight_kg=kg) for p, kg in zip(project.parts, weights_kg, strict=True)),
    )


def test_known_weights_are_added_up():
    first = _weighing(packs.half_height_pack(), 6.0, 9.0, 2.0, 1.5, 1.5)
    copy = _weighing(variants.duplicate_variant(first), 4.0, 9.0, 2.0, 1.5, 1.5)
    line = figure(compare(copy, "Layout A"), "Weight of the parts")
    assert (line.other_words(METRIC), line.in_hand_words(METRIC)) == ("20 kg", "18 kg")
    assert line.difference_words(METRIC) == "-2 kg"


def test_a_weight_unknown_on_both_sides_cancels_out_only_for_the_very_same_part():
    first = _weighing(packs.half_height_pack(), 6.0, None, 2.0, 1.5, 1.5)
    copy = _weighing(variants.duplicate_variant(first), 4.0, None, 2.0, 1.5, 1.5)
    line = figure(compare(copy, "Layout A"), "Weight of the parts")
    assert line.other_words(METRIC) == "11 kg and 1 part unknown"
    assert line.difference == pytest.approx(-2.0)
    wider = edits.replace_part(copy, replace(copy.parts[1], depth_mm=50.0))
    line = figure(compare(wider, "Layout A"), "Weight of the parts")
    assert line.difference is None
    assert line.difference_words(METRIC) == ""


def test_where_no_weight_is_known_the_sum_is_not_known():
    line = figure(compare(variants.duplicate_variant(packs.half_height_pack()), "Layout A"), "Weight of the parts")
    assert line.in_hand.value is None
    assert line.in_hand_words(METRIC) == "not known (5 parts)"
    assert line.difference is None


def test_an_empty_layout_beside_a_pack_says_what_is_missing_instead_of_noughts():
    project = variants.duplicate_variant(packs.half_height_pack())
    emptied = replace(project, parts=())
    compared = compare(emptied, "Layout A")
    assert figure(compared, "Exposed face").in_hand.words == "no radiator"
    assert figure(compared, "Charge air out, hottest case").in_hand.words == "no charge-air cooler"
    assert figure(compared, "Depth of the pack").in_hand.words == "no parts"
    assert figure(compared, "Hottest day").in_hand_words(METRIC) == "not known"
    assert figure(compared, "Exposed face").difference is None
    assert compared.in_hand.verdict is Verdict.UNKNOWN
    assert "as the hottest day of “Layout B” is not" in compared.headline(METRIC)


def test_one_case_unknown_leaves_the_worst_charge_air_unknown():
    good = example.passing()
    partly = example.with_case(good, 3, charge_out_degc=None)
    line = figure(comparison_of(good, partly), "Charge air out, hottest case")
    assert line.other.value == 61.0
    assert line.in_hand_words(METRIC) == "not known"
    assert line.difference_words(METRIC) == ""


def test_without_heat_nothing_is_known_of_days_and_tanks_but_the_faces_are():
    project = lowered(packs.half_height_pack(sheet=EngineSheet()))
    compared = compare(project, "Layout A")
    assert compared.headline(METRIC) == "Neither layout's hottest day is known; neither can be judged yet."
    assert figure(compared, "Top tank, Warm day").in_hand_words(METRIC) == "not known"
    assert figure(compared, "Exposed face").in_hand.value is not None


def test_the_layout_in_hand_and_one_that_is_not_there_cannot_be_compared_with(pair):
    with pytest.raises(ModelError, match="“Low cooler” is the layout in hand: name another one"):
        compare(pair, "Low cooler")
    with pytest.raises(ModelError, match="There is no layout “Z”"):
        compare(pair, "Z")
