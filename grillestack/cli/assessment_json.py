"""An assessment as plain values for other programs: what is not known is null."""

from __future__ import annotations

import math
from collections.abc import Sequence

from grillestack.assess.result import (
    Assessment,
    Basis,
    CaseResult,
    CoreFlow,
    FanPointOfWork,
    Finding,
    RadiatorFace,
    ZoneFlow,
)
from grillestack.geometry.exposure import CoreFace

Json = str | float | int | bool | None | list["Json"] | dict[str, "Json"]

_CASE_FIGURES = (
    "heat_target_w",
    "heat_capacity_w",
    "top_tank_degc",
    "top_tank_limit_degc",
    "limiting_ambient_degc",
    "design_ambient_degc",
    "air_kg_s",
    "face_velocity_m_s",
    "effective_mm2",
    "required_mm2",
    "charge_out_degc",
    "charge_out_limit_degc",
    "charge_loss_pa",
    "charge_loss_limit_pa",
    "condensing_degc",
    "recirculated_frac",
    "bypassed_frac",
)
_RADIATOR_FIGURES = (
    "core_mm2",
    "exposed_mm2",
    "behind_mm2",
    "blocked_mm2",
    "off_opening_mm2",
    "unshrouded_mm2",
    "effective_mm2",
    "required_mm2",
)
_FACE_FIGURES = (
    "core_mm2",
    "exposed_mm2",
    "behind_mm2",
    "blocked_mm2",
    "off_opening_mm2",
    "unshrouded_mm2",
    "unswept_mm2",
)
_CORE_FIGURES = (
    "air_kg_s",
    "heat_w",
    "conductance_w_per_k",
    "air_in_degc",
    "air_out_degc",
    "tube_in_degc",
    "tube_out_degc",
    "tube_flow_kg_s",
)


def assessment_dict(assessment: Assessment, findings: Sequence[Finding], *, detail: bool = False) -> dict[str, Json]:
    """Return the assessment and its findings; `detail` adds the zones of every face and, per case, zones, cores and fans."""
    deciding = assessment.deciding_case
    answer: dict[str, Json] = {
        "verdict": assessment.verdict.value,
        "radiator": _radiator(assessment.radiator),
        "cases": [_case(case, detail=detail) for case in assessment.cases],
        "deciding_case": None if deciding is None else deciding.name,
        "findings": [_finding(finding) for finding in findings],
        "basis": [_basis(basis) for basis in assessment.basis],
    }
    if detail:
        answer["zones"] = [_face(face) for face in assessment.faces.values()]
    return answer


def _radiator(face: RadiatorFace | None) -> Json:
    return None if face is None else _figures(face, _RADIATOR_FIGURES)


def _case(case: CaseResult, *, detail: bool) -> Json:
    answer: dict[str, Json] = {"name": case.name, "verdict": case.verdict.value, **_figures(case, _CASE_FIGURES)}
    if detail:
        answer["cores"] = [_core(core) for core in case.cores]
        answer["zones"] = [_zone(zone) for zone in case.zones]
        answer["fans"] = [_fan(fan) for fan in case.fans]
    return answer


def _core(core: CoreFlow) -> Json:
    return {"part_id": core.part_id, **_figures(core, _CORE_FIGURES)}


def _face(face: CoreFace) -> Json:
    return {
        "part_id": face.part_id,
        **_figures(face, _FACE_FIGURES),
        "zones": [
            {
                "state": zone.state.value,
                "area_mm2": _number(zone.area_mm2),
                "behind": list(zone.behind),
                "blocked_by": list(zone.blocked_by),
                "off_because": list(zone.off_because),
            }
            for zone in face.zones
        ],
    }


def _zone(zone: ZoneFlow) -> Json:
    return {
        "cores": list(zone.cores),
        **_figures(zone, ("area_mm2", "air_kg_s", "air_in_degc", "air_out_degc")),
        "in_jet": zone.in_jet,
        "into": zone.into,
    }


def _fan(fan: FanPointOfWork) -> Json:
    return {"part_id": fan.part_id, **_figures(fan, ("flow_m3_s", "pressure_pa"))}


def _finding(finding: Finding) -> Json:
    return {
        "severity": finding.severity.value,
        "text": finding.text,
        "parts": list(finding.parts),
        "source": finding.source,
    }


def _basis(basis: Basis) -> Json:
    return {
        "figure": basis.figure,
        "method": basis.method,
        "source": basis.source,
        "inputs": list(basis.inputs),
        "spread": basis.spread,
    }


def _figures(of: object, names: tuple[str, ...]) -> dict[str, Json]:
    return {name: _number(getattr(of, name)) for name in names}


def _number(value: float | None) -> float | None:
    """Return the number, or nothing for what no one can compute with: JSON has no word for it."""
    return value if value is not None and math.isfinite(value) else None
