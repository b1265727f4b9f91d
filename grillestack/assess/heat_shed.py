"""What the pack sheds as the coolant warms: one line of straight pieces for each duty case, solved at a dozen temperatures."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.assess.asked import AskedCase
from grillestack.assess.assess import further_heat_w, pack_overlay
from grillestack.assess.case_results import top_tank_degc
from grillestack.assess.defaults import engine_value
from grillestack.assess.pack_layout import lay_out
from grillestack.assess.problems import Problem, conditions_of
from grillestack.model.project import Project, cores
from grillestack.physics.conditions import Ask
from grillestack.physics.solve import Solution, solve

ABOVE_LIMIT_K: Final = 15.0
"""How far above the limit the heat shed is computed; further up coolant is near boiling under the usual cap."""
CORNERS: Final = 12
"""Evenly spaced temperatures from the thermostat's opening up, some 3 K apart: where the flow in the tubes turns turbulent the
heat bends, elsewhere it is nearly a straight line."""
# A solved steady state takes the place of a corner nearer than this: what the solver leaves open must not set a slope.
_CORNERS_APART_K: Final = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatShed:
    """What one duty case sheds at rising top tank temperatures, from the thermostat's opening up.

    `steady_degc` is where it sheds the engine's heat with the thermostat open, `None` if nowhere; if it lies in the range it is one
    of the corners.
    """

    steady_degc: float | None
    corner_degc: tuple[float, ...]
    corner_heat_w: tuple[float, ...]


def heat_shed(project: Project, asked: Sequence[AskedCase]) -> tuple[HeatShed | None, ...]:
    """Return what the pack sheds in each of these answerable cases, nothing where air and heat did not settle."""
    grid = _grid_degc(project, asked)
    hotter = [[dataclasses.replace(one, top_tank_limit_degc=at_degc) for at_degc in grid] for one in asked]
    problems = [Problem(one, Ask.TOP_TANK) for one in asked]
    problems += [Problem(one, Ask.HEAT) for row in hotter for one in row]
    stack = cores(project)
    overlay = pack_overlay(project)
    layout = lay_out(project, overlay, stack).layout
    solution = solve(layout, conditions_of(project, layout, problems, further_heat_w(stack)))
    return tuple(_shed(solution, one, number, len(asked), grid) for number, one in enumerate(asked))


def _grid_degc(project: Project, asked: Sequence[AskedCase]) -> tuple[float, ...]:
    opening_degc = engine_value(project.engine, "thermostat_degc")
    limit_degc = max(one.top_tank_limit_degc for one in asked)
    return tuple(np.linspace(opening_degc, max(limit_degc, opening_degc) + ABOVE_LIMIT_K, CORNERS).tolist())


def _shed(solution: Solution, asked: AskedCase, number: int, count: int, grid: tuple[float, ...]) -> HeatShed | None:
    rows = slice(count + number * len(grid), count + (number + 1) * len(grid))
    if not solution.converged[rows].all():
        return None
    corners = dict(zip(grid, solution.heat_w[rows].tolist(), strict=True))
    steady_degc, target_w = top_tank_degc(solution, number), asked.heat_target_w
    if steady_degc is not None and target_w is not None and grid[0] < steady_degc < grid[-1]:
        inner = [at_degc for at_degc in grid[1:-1] if abs(at_degc - steady_degc) >= _CORNERS_APART_K]
        corners = {at_degc: corners[at_degc] for at_degc in (grid[0], *inner, grid[-1])} | {steady_degc: target_w}
    line = sorted(corners.items())
    return HeatShed(
        steady_degc=steady_degc,
        corner_degc=tuple(at_degc for at_degc, _ in line),
        corner_heat_w=tuple(heat_w for _, heat_w in line),
    )
