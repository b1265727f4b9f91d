"""What air meets each piece of one core's face in one duty case: how warm it is and how fast it goes in."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from grillestack.assess.asked import AskedCase, asked_cases
from grillestack.assess.assess import further_heat_w
from grillestack.assess.pack_layout import lay_out
from grillestack.assess.problems import Problem, conditions_of
from grillestack.assess.result import Assessment
from grillestack.geometry.cell_shapes import CellRing, cell_rings
from grillestack.geometry.overlay import Overlay
from grillestack.model.project import cores
from grillestack.physics.air import density_kg_m3
from grillestack.physics.conditions import Ask, Conditions
from grillestack.physics.heat import sweep_layers
from grillestack.physics.layout import PackLayout
from grillestack.physics.solve import TOLERANCE_K, Solution, State, solve
from grillestack.physics.warm_start import carry_over

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]
IntArray = NDArray[np.intp]

# As in an assessment of a trial: settled until the last step moved less than this.
_TRIAL_TOLERANCE_K = 3e-2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FaceAir:
    """The pieces of one core's face in one duty case at its design day; N pieces.

    Attributes
    ----------
    air_in_degc
        Temperature of the air as it enters the core; NaN where none does; shape (N,).
    speed_m_s
        Speed with which it enters the true face, at its own density, never negative; 0 where none does; shape (N,).
    runs_forward
        Where the air comes back from behind; shape (N,).
    outside_degc
        The design day of the case.
    warm_state
        What the map of a nearly equal pack may start from; opaque to all others.
    """

    part_id: str
    case_id: str
    case_name: str
    outside_degc: float
    air_in_degc: FloatArray
    speed_m_s: FloatArray
    runs_forward: BoolArray
    overlay: Overlay
    pieces: IntArray
    warm_state: Any = None

    def rings(self) -> tuple[tuple[CellRing, ...], ...]:
        """Return the closed rings (y, z in mm) of each piece."""
        return cell_rings(self.overlay.frame, self.pieces)


@dataclass(frozen=True, slots=True)
class _Warm:
    layout: PackLayout
    state: State


def face_air(assessment: Assessment, case_id: str, part_id: str, previous: FaceAir | None = None) -> FaceAir | None:
    """Return the air over the face of that core, or nothing where the case has no answer.

    The duty case is solved as in the assessment: for the top tank temperature that sheds the heat, else at its limit.

    Parameters
    ----------
    previous
        The map of a nearly equal pack in the same case: a start for the solver, and a looser settling fit for a drag. Without
        it the map depends on the project alone.
    """
    project = assessment.project
    result = next((case for case in assessment.cases if case.case_id == case_id), None)
    one = next((asked for asked in asked_cases(project) if asked.case.id == case_id and asked.answerable), None)
    face = assessment.faces.get(part_id)
    if result is None or one is None or face is None or not result.zones:
        return None
    stack = cores(project)
    layout = lay_out(project, face.overlay, stack).layout
    ask = Ask.HEAT if result.top_tank_degc is None else Ask.TOP_TANK
    conditions = conditions_of(project, layout, [Problem(one, ask)], further_heat_w(stack))
    solution = _solved(layout, conditions, case_id, previous)
    number = face.overlay.core_ids.index(part_id)
    air_in, mass = _by_piece(layout, conditions, solution, number)
    pieces = np.flatnonzero(face.overlay.core_hit[:, number])
    return _face_air(one, face.overlay, number, pieces, (air_in, mass), (layout, conditions, solution))


def _solved(layout: PackLayout, conditions: Conditions, case_id: str, previous: FaceAir | None) -> Solution:
    start, tolerance_k = None, TOLERANCE_K
    if previous is not None and previous.case_id == case_id and isinstance(previous.warm_state, _Warm):
        start = carry_over(previous.warm_state.layout, previous.warm_state.state, layout)
        tolerance_k = TOLERANCE_K if start is None else _TRIAL_TOLERANCE_K
    return solve(layout, conditions, start, tolerance_k)


def _by_piece(
    layout: PackLayout, conditions: Conditions, solution: Solution, number: int
) -> tuple[FloatArray, FloatArray]:
    """Return the air's temperature into one layer and its mass flow, piece by piece; shapes (N,).

    The solver tells means over zones. One more sweep at its fixed point, in which each piece is a zone of its own, tells the
    pieces apart: within a zone the air spreads by area, so nothing else changes.
    """
    zone, state = layout.piece_zone, solution.state
    apart = dataclasses.replace(
        layout,
        piece_zone=np.arange(zone.size),
        piece_share=np.ones(zone.size),
        zone_area_m2=layout.zone_area_m2[zone] * layout.piece_share,
        zone_hit=layout.zone_hit[zone],
        zone_blocked_by=layout.zone_blocked_by[zone],
        zone_upstream=layout.zone_upstream[zone],
        zone_downstream=layout.zone_downstream[zone],
    )
    mass = solution.flow.mass_kg_s[:, solution.ranges.zones][:, zone] * layout.piece_share
    mean = 0.5 * (state.zone_in_degc + state.zone_out_degc)
    sweep = sweep_layers(
        apart, conditions, solution.fluids, mass, state.node_degc, mean[:, zone, :], state.reversed_in_degc
    )
    return sweep.zone_in_degc[0, :, number], mass[0]


def _face_air(
    one: AskedCase,
    overlay: Overlay,
    number: int,
    pieces: IntArray,
    by_piece: tuple[FloatArray, FloatArray],
    solved: tuple[PackLayout, Conditions, Solution],
) -> FaceAir:
    layout, conditions, solution = solved
    air_in, mass = by_piece[0][pieces], by_piece[1][pieces]
    area_m2 = (layout.zone_area_m2[layout.piece_zone] * layout.piece_share)[pieces] * layout.layers[number].area_factor
    moves = mass != 0.0
    density = density_kg_m3(air_in, conditions.air_pressure_pa[0])
    return FaceAir(
        part_id=overlay.core_ids[number],
        case_id=one.case.id,
        case_name=one.case.name,
        outside_degc=one.ambient_degc,
        air_in_degc=np.where(moves, air_in, np.nan),
        speed_m_s=np.where(moves, np.abs(mass) / (density * area_m2), 0.0),
        runs_forward=mass < 0.0,
        overlay=overlay,
        pieces=pieces,
        warm_state=_Warm(layout, solution.state),
    )
