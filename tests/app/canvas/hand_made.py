"""An assessment by hand: plain rectangles in place of overlay, air and heat."""

from __future__ import annotations

from grillestack.assess.result import Assessment, CaseResult, RadiatorFace, Verdict
from grillestack.geometry.depth import depth_report
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import Project, radiator


def hand_made_assessment(project: Project, _previous: Assessment | None) -> Assessment:
    """Areas by plain rectangles: what the CAC covers of the radiator is behind, the rest exposed; 1 K per 100 cm²."""
    face = None
    hottest = None
    core_part = radiator(project)
    if core_part is not None:
        whole = core_part.core_width_mm * core_part.core_height_mm
        behind = sum(
            _shared(core_part, part)
            for part in project.parts
            if isinstance(part, Core) and part.role is CoreRole.CHARGE_AIR_COOLER
        )
        exposed = whole - behind
        hottest = 30.0 + exposed / 1e4
        face = RadiatorFace(
            part_id=core_part.id,
            core_mm2=whole,
            exposed_mm2=exposed,
            behind_mm2=behind,
            blocked_mm2=0.0,
            off_opening_mm2=0.0,
            unshrouded_mm2=0.0,
            unswept_mm2=0.0,
            effective_mm2=None,
            required_mm2=None,
        )
    case = CaseResult(case_id="case-1", name="Grade pull", verdict=Verdict.UNKNOWN, limiting_ambient_degc=hottest)
    return Assessment(
        project=project,
        verdict=Verdict.UNKNOWN,
        deciding_case=case if face else None,
        radiator=face,
        cases=(case,),
        faces={},
        depth=depth_report(project),
        remarks=(),
        basis=(),
    )


def _shared(a: Core, b: Core) -> float:
    y = min(a.placement.y_mm + a.core_width_mm / 2, b.placement.y_mm + b.core_width_mm / 2) - max(
        a.placement.y_mm - a.core_width_mm / 2, b.placement.y_mm - b.core_width_mm / 2
    )
    z = min(a.placement.z_mm + a.core_height_mm / 2, b.placement.z_mm + b.core_height_mm / 2) - max(
        a.placement.z_mm - a.core_height_mm / 2, b.placement.z_mm - b.core_height_mm / 2
    )
    return max(0.0, y) * max(0.0, z)
