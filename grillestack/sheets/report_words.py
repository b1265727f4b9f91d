"""What the report says in words and tables: verdict, duty cases, changes, what the figures rest on, defaults, cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grillestack.advice.ladder import Ladder
from grillestack.assess.confidence import Confidence
from grillestack.assess.result import Assessment, Basis, CaseResult, Finding, Severity, Verdict
from grillestack.sheets.report_flow import Words
from grillestack.sheets.tables import Table
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

NOT_WORKED_OUT = "not worked out for this report"
_VERDICTS = {
    Verdict.PASS: "This pack PASSES: the heat goes away on the design day.",
    Verdict.CLOSE: "This pack is CLOSE: the heat goes away on the design day, but only just.",
    Verdict.FAIL: "This pack FAILS: something is over its limit on the design day.",
    Verdict.UNKNOWN: "NOT KNOWN whether this pack passes: an input is missing.",
}


def verdict_words(assessment: Assessment, units: UnitSystem) -> Iterator[Words]:
    """Return the verdict and what decides it."""
    yield Words(text=_VERDICTS[assessment.verdict], is_head=True, is_large=True)
    case = assessment.deciding_case
    if case is not None:
        yield Words(
            text=(
                f"Hottest day {_hottest(case, units)}, design day "
                f"{show_quantity(case.design_ambient_degc, Dimension.TEMPERATURE, units)}, margin "
                f"{_margin(case.margin_k, units)}; decided by {case.name}."
            )
        )
    for reason in dict.fromkeys(reason for one in assessment.cases for reason in one.reasons):
        yield Words(text=f"Not known: {reason}")
    yield Words(
        text=(
            "An estimate for choosing and building, not a proof: verify by test. The engine maker’s installation limits, local "
            "codes and licensed practice decide."
        )
    )


def case_table(cases: Sequence[CaseResult], units: UnitSystem) -> Table:
    """Return the duty cases: verdict, days, temperatures against their limits."""
    rows = []
    for case in cases:
        top, limit, charge = (
            show_quantity(value, Dimension.TEMPERATURE, units)
            for value in (case.top_tank_degc, case.top_tank_limit_degc, case.charge_out_degc)
        )
        rows.append(
            (
                case.name,
                "not known" if case.verdict is Verdict.UNKNOWN else case.verdict.value,
                _hottest(case, units),
                show_quantity(case.design_ambient_degc, Dimension.TEMPERATURE, units),
                _margin(case.margin_k, units),
                f"{top} / {limit}",
                show_quantity(case.face_velocity_m_s, Dimension.FLOW_SPEED, units),
                charge,
            )
        )
    heads = ("Case", "Verdict", "Hottest", "Design", "Margin", "Top tank / limit", "Face air", "Charge out")
    return Table(title="Duty cases", heads=heads, rows=tuple(rows), at_right=frozenset({2, 3, 4, 5, 6, 7}))


def face_table(assessment: Assessment, units: UnitSystem) -> Table | None:
    """Return the radiator's areas, or nothing without a radiator."""
    face = assessment.radiator
    if face is None:
        return None
    areas = (
        ("fresh air", face.exposed_mm2),
        ("behind another core", face.behind_mm2),
        ("off the opening", face.off_opening_mm2),
        ("blocked", face.blocked_mm2),
        ("effective, in the deciding case", face.effective_mm2),
        ("required there", face.required_mm2),
    )
    rows = tuple(
        (
            name,
            show_quantity(area, Dimension.AREA, units),
            "" if area is None or not face.core_mm2 else f"{100 * area / face.core_mm2:.0f} %",
        )
        for name, area in areas
    )
    return Table(
        title=f"Radiator face, of {show_quantity(face.core_mm2, Dimension.AREA, units)}",
        heads=("Part of it", "Area", "Share"),
        rows=rows,
        at_right=frozenset({1, 2}),
    )


def band_words(result: Confidence) -> Iterator[Words | Table]:
    """Return how sure the hottest day is, and what weighs most in that."""
    yield Words(
        text=(
            f"{result.case_name}: band P10 to P90 of {result.samples} samples over all uncertain inputs; chance of meeting the "
            f"design day {100 * result.meets_design_day_frac:.0f}\u00a0%."
        )
    )
    rows = tuple((d.name, f"{100 * d.share_frac:.0f} %", d.source) for d in result.drivers)
    yield Table(
        title="", heads=("What weighs most", "Share", "Its spread rests on"), rows=rows, at_right=frozenset({1})
    )


def ladder_table(result: Ladder, units: UnitSystem) -> Table | Words:
    """Return the changes that buy most, or why there is none."""
    if not result.rungs:
        return Words(text=result.reason)
    rows = tuple(
        (
            rung.title,
            "a hottest day at all"
            if rung.buys_k is None
            else f"+{show_quantity(rung.buys_k, Dimension.TEMPERATURE_DIFFERENCE, units)}",
            show_quantity(rung.hottest_after_degc, Dimension.TEMPERATURE, units),
            " ".join(rung.side_effects) or "–",
        )
        for rung in result.rungs
    )
    heads = ("Change", "Buys", "Hottest day then", "What else it brings")
    return Table(title=f"In {result.case_name}", heads=heads, rows=rows, at_right=frozenset({1, 2}))


def finding_words(findings: Sequence[Finding]) -> tuple[Words, ...]:
    """Return what was found of serious or warning kind, worst first."""
    told = [f for f in findings if f.severity is not Severity.NOTE]
    return tuple(Words(text=f"{f.severity.value.upper()}: {f.text}") for f in told)


def caution_words(findings: Sequence[Finding]) -> tuple[Words, ...]:
    """Return the cautions and where local codes and licensed practice decide."""
    cautions = [Words(text=f"CAUTION {f.danger}: {f.text}") for f in findings if f.danger]
    return (
        *cautions,
        Words(
            text=(
                "Local codes and licensed practice decide: bumper, beam and core support (crash structure), lamps and number "
                "plate, refrigerant, wiring of fans, pressure in coolant and charge air, and what the vehicle’s approval says of "
                "another engine. Have what you change inspected where the law asks for it."
            )
        ),
    )


def basis_table(basis: Sequence[Basis]) -> Table:
    """Return what each figure rests on and how far it may be out."""
    rows = tuple((one.figure, f"{one.method} ({one.source})", one.spread or "not known") for one in basis)
    heads = ("Figure", "How it is found, and the source", "How far it may be out")
    return Table(title="Sources by the short ids of the program’s list", heads=heads, rows=rows)


def default_words(basis: Sequence[Basis]) -> Words:
    """Return the inputs for which a default stands in, each once, with what it is."""
    found = dict.fromkeys(entry for one in basis for entry in one.inputs if "(default" in entry)
    if not found:
        return Words(text="No default stands in: every input was given.")
    return Words(text=f"Defaults stand in for: {'; '.join(found)}. Type your own figures to be surer.")


def _hottest(case: CaseResult, units: UnitSystem) -> str:
    if case.has_no_day:
        return "no day"
    return show_quantity(case.limiting_ambient_degc, Dimension.TEMPERATURE, units)


def _margin(margin_k: float | None, units: UnitSystem) -> str:
    if margin_k is None:
        return "not known"
    said = show_quantity(abs(margin_k), Dimension.TEMPERATURE_DIFFERENCE, units)
    return f"{'−' if margin_k < 0 else '+'}{said}"
