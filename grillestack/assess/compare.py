"""From two layouts of one project to what each does, by how much they differ, and what is different about them."""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Callable, Iterator, Sequence
from typing import TypeAlias

from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.assess.comparison import HOTTEST_DAY, NO_DAY, Amount, Comparison, Figure
from grillestack.assess.part_changes import part_changes
from grillestack.assess.result import Assessment, CaseResult, Verdict
from grillestack.model.parts import CoreRole, Part, Placement
from grillestack.model.project import Project, cores
from grillestack.model.values import ModelError
from grillestack.model.variants import switch_variant
from grillestack.units.quantity import Dimension


def compare(project: Project, other_name: str) -> Comparison:
    """Return the layout in hand beside another one of the same project.

    Raises
    ------
    ModelError
        If there is no other layout of that name.
    """
    if other_name == project.variant_name:
        raise ModelError("variant_name", f"“{other_name}” is the layout in hand: name another one to compare it with.")
    return comparison_of(assess(switch_variant(project, other_name)), assess(project))


def comparison_of(other: Assessment, in_hand: Assessment) -> Comparison:
    """Return two assessed layouts of one project side by side, the one in hand against the other."""
    return Comparison(
        other=other,
        in_hand=in_hand,
        figures=tuple(_figures(other, in_hand)),
        changes=part_changes(other.project.parts, in_hand.project.parts),
    )


_Read: TypeAlias = Callable[[Assessment], Amount]


def _figures(other: Assessment, in_hand: Assessment) -> Iterator[Figure]:
    lines: Sequence[tuple[str, Dimension, _Read]] = (
        ("Verdict", Dimension.COUNT, lambda a: _verdict(a.verdict)),
        ("Decided by", Dimension.COUNT, lambda a: _name(a.deciding_case)),
        (HOTTEST_DAY, Dimension.TEMPERATURE, lambda a: _hottest(a.deciding_case)),
        ("Margin to the design day", Dimension.TEMPERATURE_DIFFERENCE, lambda a: _margin(a.deciding_case)),
        *_face_lines(),
        (
            "Charge air out, hottest case",
            Dimension.TEMPERATURE,
            functools.partial(_charge, "charge_out_degc", "charge_out_limit_degc"),
        ),
        (
            "Charge loss, worst case",
            Dimension.PRESSURE,
            functools.partial(_charge, "charge_loss_pa", "charge_loss_limit_pa"),
        ),
    )
    for label, dimension, read in lines:
        yield _figure(label, dimension, read(other), read(in_hand))
    for theirs, ours in zip(other.cases, in_hand.cases, strict=True):
        tanks = [Amount(value=case.top_tank_degc, limit=case.top_tank_limit_degc) for case in (theirs, ours)]
        yield _figure(f"Top tank, {ours.name}", Dimension.TEMPERATURE, *tanks)
    yield _weight(other.project, in_hand.project)
    yield _figure("Depth of the pack", Dimension.LENGTH, _depth_of(other), _depth_of(in_hand))
    overlaps = [Amount(value=float(len(a.depth.overlaps))) for a in (other, in_hand)]
    yield _figure("Places where parts collide", Dimension.COUNT, *overlaps)


def _face_lines() -> Iterator[tuple[str, Dimension, _Read]]:
    for label, field in (
        ("Effective face", "effective_mm2"),
        ("Required face", "required_mm2"),
        ("Exposed face", "exposed_mm2"),
        ("Behind another core", "behind_mm2"),
        ("Blocked", "blocked_mm2"),
        ("Off the opening", "off_opening_mm2"),
        ("With no shroud behind", "unshrouded_mm2"),
    ):
        yield label, Dimension.AREA, functools.partial(_area, field)


def _figure(label: str, dimension: Dimension, other: Amount, in_hand: Amount) -> Figure:
    known = other.value is not None and in_hand.value is not None
    difference = (in_hand.value or 0.0) - (other.value or 0.0) if known else None
    return Figure(label=label, dimension=dimension, other=other, in_hand=in_hand, difference=difference)


def _word(word: str) -> Amount:
    return Amount(words=word)


def _verdict(verdict: Verdict) -> Amount:
    return Amount() if verdict is Verdict.UNKNOWN else _word(verdict.value)


def _name(case: CaseResult | None) -> Amount:
    return Amount() if case is None else _word(case.name)


def _hottest(case: CaseResult | None) -> Amount:
    if case is None:
        return Amount()
    return _word(NO_DAY) if case.has_no_day else Amount(value=case.limiting_ambient_degc)


def _margin(case: CaseResult | None) -> Amount:
    return Amount(value=None if case is None else case.margin_k)


def _area(field: str, assessment: Assessment) -> Amount:
    face = assessment.radiator
    return _word("no radiator") if face is None else Amount(value=getattr(face, field))


def _charge(field: str, limit_field: str, assessment: Assessment) -> Amount:
    if not cores(assessment.project, CoreRole.CHARGE_AIR_COOLER):
        return _word("no charge-air cooler")
    found = [(getattr(case, field), getattr(case, limit_field)) for case in assessment.cases]
    # The worst of what is known may not be the worst: one case unknown leaves it unknown.
    if not found or any(value is None for value, _ in found):
        return Amount()
    value, limit = max(found, key=lambda pair: pair[0])
    return Amount(value=value, limit=limit)


def _weight(other: Project, in_hand: Project) -> Figure:
    figure = _figure("Weight of the parts", Dimension.MASS, _weight_of(other), _weight_of(in_hand))
    # What is not known cancels out only where the very same parts are not known.
    theirs, ours = ({p.id: _unplaced(p) for p in side.parts if p.weight_kg is None} for side in (other, in_hand))
    return figure if theirs == ours else dataclasses.replace(figure, difference=None)


def _weight_of(project: Project) -> Amount:
    known = [part.weight_kg for part in project.parts if part.weight_kg is not None]
    unknown = len(project.parts) - len(known)
    if unknown and not known:
        return Amount(note=f"({_counted(unknown)})")
    return Amount(value=sum(known), note=f"and {_counted(unknown)} unknown" if unknown else "")


def _unplaced(part: Part) -> Part:
    return replace(part, placement=Placement())


def _depth_of(assessment: Assessment) -> Amount:
    stack = assessment.depth.stack
    if not stack:
        return _word("no parts")
    return Amount(value=max(place.x_rear_mm for place in stack) - min(place.x_front_mm for place in stack))


def _counted(count: int) -> str:
    return "1 part" if count == 1 else f"{count} parts"
