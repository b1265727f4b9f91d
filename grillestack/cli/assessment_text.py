"""An assessment as a page of text: the verdict first, then the days, the faces, the duty cases and the findings."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence

from grillestack.assess.result import Assessment, CaseResult, Finding, RadiatorFace, Verdict
from grillestack.cli.detail_text import case_details, face_details
from grillestack.cli.text_table import table
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

NO_PROOF = "Estimate for choosing and building, not a proof: verify by test."
VERDICT_SENTENCES = {
    Verdict.PASS: "PASS: the heat goes away on the design day.",
    Verdict.CLOSE: "CLOSE: the heat goes away on the design day, but only just.",
    Verdict.FAIL: "FAIL: something is over its limit on the design day.",
    Verdict.UNKNOWN: "NOT KNOWN: an input is missing.",
}
_WIDTH = 100


def assessment_text(
    assessment: Assessment,
    findings: Sequence[Finding],
    units: UnitSystem = UnitSystem.METRIC,
    *,
    detail: bool = False,
) -> str:
    """Return the page; `detail` adds every core's face and, per case, what cores, fans and zones do."""
    blocks: list[Iterable[str]] = [
        [assessment.project.title],
        _verdict(assessment, units),
        _cases(assessment.cases, units),
        _reasons(assessment.cases),
        _face(assessment.radiator, units),
    ]
    if detail:
        blocks.append(face_details(assessment, units))
        blocks += [case_details(case, assessment.project, units) for case in assessment.cases]
    blocks += [_findings(findings), _basis(assessment), [NO_PROOF]]
    written = ["\n".join(lines) for block in blocks if (lines := list(block))]
    return "\n\n".join(written)


def _verdict(assessment: Assessment, units: UnitSystem) -> Iterator[str]:
    yield VERDICT_SENTENCES[assessment.verdict]
    case = assessment.deciding_case
    if case is None:
        return
    hottest = _hottest(case, units)
    design = show_quantity(case.design_ambient_degc, Dimension.TEMPERATURE, units)
    margin = _margin(case.margin_k, units)
    yield f"Hottest day {hottest}, design day {design}, margin {margin}; decided by {case.name}."


def _cases(cases: Sequence[CaseResult], units: UnitSystem) -> Iterator[str]:
    if not cases:
        return
    yield "Duty cases"
    rows = [
        [
            case.name,
            _word(case.verdict),
            _hottest(case, units),
            show_quantity(case.design_ambient_degc, Dimension.TEMPERATURE, units),
            _margin(case.margin_k, units),
            show_quantity(case.top_tank_degc, Dimension.TEMPERATURE, units),
            show_quantity(case.top_tank_limit_degc, Dimension.TEMPERATURE, units),
            show_quantity(case.face_velocity_m_s, Dimension.FLOW_SPEED, units),
            show_quantity(case.charge_out_degc, Dimension.TEMPERATURE, units),
        ]
        for case in cases
    ]
    head = ["case", "verdict", "hottest", "design", "margin", "top tank", "limit", "face air", "charge out"]
    yield from table(head, rows, words=2)


def _reasons(cases: Sequence[CaseResult]) -> Iterator[str]:
    for reason in dict.fromkeys(reason for case in cases for reason in case.reasons):
        yield from _wrapped(reason, "Not known: ", "  ")


def _face(face: RadiatorFace | None, units: UnitSystem) -> Iterator[str]:
    if face is None:
        return
    yield "Radiator face, in the deciding case"
    areas = (
        ("core", face.core_mm2),
        ("exposed", face.exposed_mm2),
        ("behind another core", face.behind_mm2),
        ("blocked by tanks or frames", face.blocked_mm2),
        ("off the opening", face.off_opening_mm2),
        ("with no shroud behind", face.unshrouded_mm2),
        ("effective", face.effective_mm2),
        ("required", face.required_mm2),
    )
    rows = [
        [
            name,
            show_quantity(area, Dimension.AREA, units),
            "" if area is None else f"{100 * area / face.core_mm2:.0f} %",
        ]
        for name, area in areas
    ]
    yield from table(None, rows, words=1)


def _findings(findings: Sequence[Finding]) -> Iterator[str]:
    if not findings:
        return
    yield "Findings, worst first"
    for finding in findings:
        source = f" ({finding.source})" if finding.source else ""
        yield from _wrapped(f"{finding.text}{source}", f"  {finding.severity.value:<8} ", " " * 11)


def _basis(assessment: Assessment) -> Iterator[str]:
    if not assessment.basis:
        return
    yield "What the figures rest on"
    for basis in assessment.basis:
        source = f" ({basis.source})" if basis.source else ""
        spread = f"; {basis.spread}" if basis.spread else ""
        yield from _wrapped(f"{basis.figure}: {basis.method}{source}{spread}", "  ", "    ")


def _word(verdict: Verdict) -> str:
    return "not known" if verdict is Verdict.UNKNOWN else verdict.value


def _hottest(case: CaseResult, units: UnitSystem) -> str:
    if case.has_no_day:
        return "no day"
    return show_quantity(case.limiting_ambient_degc, Dimension.TEMPERATURE, units)


def _margin(margin_k: float | None, units: UnitSystem) -> str:
    words = show_quantity(margin_k, Dimension.TEMPERATURE_DIFFERENCE, units)
    return f"+{words}" if margin_k is not None and margin_k > 0 else words


def _wrapped(text: str, first: str, rest: str) -> list[str]:
    return textwrap.wrap(
        text, _WIDTH, initial_indent=first, subsequent_indent=rest, break_long_words=False, break_on_hyphens=False
    )
