"""What the assessment has to say of further coolers: what is missing, what is not used, and where they warm what they should cool."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from grillestack.assess.further_coolers import Known, is_marched, known_of, runs_oil, what_is_missing
from grillestack.assess.result import CaseResult, Finding, Severity
from grillestack.model.parts import Core, CoreRole
from grillestack.physics.coolant import COOLANT_HIGHEST_DEGC, COOLANT_LOWEST_DEGC
from grillestack.physics.oil import OIL_HIGHEST_DEGC, OIL_LOWEST_DEGC

_MODEL: Final = "model of the pack"
_ALL_MISSING: Final = 3


def further_cooler_remarks(stack: Sequence[Core], cases: Sequence[CaseResult]) -> Iterator[Finding]:
    """Return the remarks on the pack's further coolers."""
    for core in stack:
        if core.role is not CoreRole.COOLER:
            continue
        for severity, text in (*_as_typed(core), *_as_computed(core, cases)):
            yield Finding(severity=severity, text=text, parts=(core.id,), source=_MODEL)


def _as_typed(core: Core) -> Iterator[tuple[Severity, str]]:
    known, missing = known_of(core), what_is_missing(core)
    if known is Known.NOTHING:
        remedy = (
            "what flows through it, how hot it comes in and how much"
            if len(missing) == _ALL_MISSING
            else _all_of(missing)
        )
        yield (
            Severity.NOTE,
            f"What “{core.name}” gives off is not known, so it warms no air here: type its heat, or {remedy}.",
        )
    elif known is Known.HEAT and core.tube_inlet_degc is not None:
        yield (
            Severity.NOTE,
            (
                f"Of “{core.name}” both heat and inlet temperature are typed: the heat is used. "
                "Remove the heat to have it follow from what flows in."
            ),
        )
    if is_marched(core) and core.tube_inlet_degc is not None:
        what, low, high = (
            ("oil", OIL_LOWEST_DEGC, OIL_HIGHEST_DEGC)
            if runs_oil(core)
            else ("coolant", COOLANT_LOWEST_DEGC, COOLANT_HIGHEST_DEGC)
        )
        if not low <= core.tube_inlet_degc <= high:
            yield (
                Severity.WARNING,
                (
                    f"What enters “{core.name}” has {core.tube_inlet_degc:g} °C. Properties of {what} are known from {low:g} to {high:g} °C; "
                    "those of the nearer end are used: check the inlet temperature."
                ),
            )


def _as_computed(core: Core, cases: Sequence[CaseResult]) -> Iterator[tuple[Severity, str]]:
    if not is_marched(core):
        return
    warmed = [
        f"“{case.name}”"
        for case in cases
        for flow in case.cores
        if flow.part_id == core.id and flow.heat_w is not None and flow.heat_w < 0.0
    ]
    if warmed:
        yield (
            Severity.WARNING,
            (
                f"In {', '.join(warmed)} the air at “{core.name}” is hotter than what flows in, which is warmed, not cooled: "
                "move it ahead of what heats its air, or check its inlet temperature."
            ),
        )


def _all_of(words: tuple[str, ...]) -> str:
    return " and ".join(words)
