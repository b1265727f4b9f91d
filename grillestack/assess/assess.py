"""From a project to its assessment."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.assess.asked import AskedCase, asked_cases
from grillestack.assess.basis import basis_of
from grillestack.assess.case_results import case_results, unanswered
from grillestack.assess.defaults import environment_value
from grillestack.assess.pack_layout import lay_out
from grillestack.assess.problems import batch_of
from grillestack.assess.remarks import remarks
from grillestack.assess.result import Assessment, CaseResult, RadiatorFace
from grillestack.assess.verdict import deciding_case, pack_verdict
from grillestack.geometry.depth import depth_report
from grillestack.geometry.exposure import CoreFace, core_faces
from grillestack.geometry.overlay import Overlay, build_overlay
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import Project, cores, radiator
from grillestack.physics.layout import PackLayout
from grillestack.physics.solve import TOLERANCE_K, State, solve
from grillestack.physics.warm_start import carry_over

# On 300 random packs with square and 300 with rounded noses the heat at 80 mm lay within 6e-6 (median) and 0.12 % (worst) of
# that at 10 mm, temperatures within 0.03 K; the overlay sees to finer cells where an outline parts the air.
LARGEST_CELL_MM = 80.0
# A trial position is the real assessment, settled until the last step moved less than this; what is left is about a
# hundredth of it (measured 3e-4 K). The document itself is settled further.
_TRIAL_TOLERANCE_K = 3e-2


@dataclass(frozen=True, slots=True)
class _Warm:
    """Where the last solution stood, for a start nearby."""

    layout: PackLayout
    state: State


def assess(project: Project, previous: Assessment | None = None) -> Assessment:
    """Return what the pack of this project does.

    Parameters
    ----------
    previous
        The assessment of a nearly equal project: a start for the solver, and a looser settling fit for a drag. Without it the
        result depends on the project alone, to the last digit.
    """
    stack = cores(project)
    overlay = pack_overlay(project)
    faces = core_faces(overlay, project)
    asked = asked_cases(project)
    cases, warm = _all_cases(project, overlay, stack, asked, previous)
    deciding = deciding_case(cases)
    return Assessment(
        project=project,
        verdict=pack_verdict(cases),
        deciding_case=deciding,
        radiator=_radiator_face(project, faces, deciding),
        cases=cases,
        faces=faces,
        depth=depth_report(project),
        remarks=remarks(project, stack, asked, cases),
        basis=basis_of(project, stack),
        warm_state=warm,
    )


def pack_overlay(project: Project) -> Overlay:
    """Return the overlay that all figures of a pack rest on."""
    return build_overlay(project, environment_value(project.environment, "jet_spread_deg"), LARGEST_CELL_MM)


def further_heat_w(stack: Sequence[Core]) -> tuple[float | None, ...]:
    """Return what each core is given to shed; nothing for a condenser, whose load the duty case sets."""
    return tuple(None if core.role is CoreRole.CONDENSER else core.given_heat_w or 0.0 for core in stack)


def _all_cases(
    project: Project,
    overlay: Overlay,
    stack: tuple[Core, ...],
    asked: tuple[AskedCase, ...],
    previous: Assessment | None,
) -> tuple[tuple[CaseResult, ...], _Warm | None]:
    answerable = [one for one in asked if one.answerable]
    main = radiator(project)
    if not answerable or main is None:
        return tuple(unanswered(one) for one in asked), None
    laid_out = lay_out(project, overlay, stack)
    batch = batch_of(project, laid_out.layout, answerable, further_heat_w(stack))
    start, tolerance_k = None, TOLERANCE_K
    if previous is not None and isinstance(previous.warm_state, _Warm):
        warm = previous.warm_state
        if warm.state.ambient_degc.size == batch.conditions.size:
            start, tolerance_k = carry_over(warm.layout, warm.state, laid_out.layout), _TRIAL_TOLERANCE_K
    solution = solve(laid_out.layout, batch.conditions, start, tolerance_k)
    found = iter(case_results(laid_out, stack, batch, solution, main.core_width_mm * main.core_height_mm))
    cases = tuple(next(found) if one.answerable else unanswered(one) for one in asked)
    return cases, _Warm(laid_out.layout, solution.state)


def _radiator_face(project: Project, faces: dict[str, CoreFace], deciding: CaseResult | None) -> RadiatorFace | None:
    main = radiator(project)
    if main is None:
        return None
    face = faces[main.id]
    return RadiatorFace(
        part_id=main.id,
        core_mm2=face.core_mm2,
        exposed_mm2=face.exposed_mm2,
        behind_mm2=face.behind_mm2,
        blocked_mm2=face.blocked_mm2,
        off_opening_mm2=face.off_opening_mm2,
        unshrouded_mm2=face.unshrouded_mm2,
        unswept_mm2=face.unswept_mm2,
        effective_mm2=None if deciding is None else deciding.effective_mm2,
        required_mm2=None if deciding is None else deciding.required_mm2,
    )
