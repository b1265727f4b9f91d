"""The batch that answers all duty cases at once: four problems each.

In this order over all cases: the top tank temperature that sheds the heat target; the heat at the limit; the same for the
radiator alone; the ambient at which the heat at the limit is just the target.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from grillestack.assess.asked import AskedCase, coolant_of
from grillestack.assess.defaults import environment_value
from grillestack.assess.fan_figures import speed_ratio
from grillestack.assess.further_liquids import tube_flow_kg_s
from grillestack.model.project import Project, cores, fans
from grillestack.physics.air import pressure_at_altitude_pa
from grillestack.physics.conditions import Ask, Conditions
from grillestack.physics.layout import LayerDuty, PackLayout

FloatArray = NDArray[np.float64]

SHED, AT_LIMIT, ALONE, AMBIENT = range(4)
_ASKS: Final = (Ask.TOP_TANK, Ask.HEAT, Ask.HEAT, Ask.AMBIENT)


@dataclass(frozen=True, slots=True)
class Problem:
    """One question: a duty case, its unknown, and which layers are there with their tanks; all of them if not said."""

    asked: AskedCase
    ask: Ask
    present: tuple[bool, ...] | None = None


@dataclass(frozen=True, slots=True)
class Batch:
    """The problems of all answerable cases; `index(case, problem)` is a problem's row."""

    asked: tuple[AskedCase, ...]
    conditions: Conditions

    def index(self, case: int, problem: int) -> int:
        """Return the row of one problem of the case with that number."""
        return problem * len(self.asked) + case


def batch_of(
    project: Project, layout: PackLayout, asked: Sequence[AskedCase], further_heat_w: Sequence[float | None]
) -> Batch:
    """Return the batch of these answerable cases; `further_heat_w` as in `conditions_of`."""
    alone = tuple(number == layout.radiator for number in range(len(layout.layers)))
    problems = [Problem(one, ask, alone if kind == ALONE else None) for kind, ask in enumerate(_ASKS) for one in asked]
    return Batch(tuple(asked), conditions_of(project, layout, problems, further_heat_w))


def conditions_of(
    project: Project, layout: PackLayout, problems: Sequence[Problem], further_heat_w: Sequence[float | None]
) -> Conditions:
    """Return these problems as one batch.

    Parameters
    ----------
    further_heat_w
        For each layer the heat it is given, `None` for the condenser's, which the duty case sets.
    """
    size, layers = len(problems), len(layout.layers)
    asked = [problem.asked for problem in problems]

    def each(values: Sequence[float]) -> FloatArray:
        return np.array(values, dtype=float)

    def same(value: float) -> FloatArray:
        return np.full(size, value)

    everything = (True,) * layers
    present = np.array([problem.present or everything for problem in problems], dtype=bool).reshape(size, layers)
    given = np.zeros((size, layers))
    for number, layer in enumerate(layout.layers):
        if layer.duty is LayerDuty.GIVEN_HEAT:
            heat = further_heat_w[number]
            given[:, number] = each([one.condenser_heat_w for one in asked]) if heat is None else heat
    given[~present] = 0.0
    inlet, flow = _what_flows_in(project, layout)
    environment = project.environment
    return Conditions(
        ask=np.array([int(problem.ask) for problem in problems]),
        present=present,
        ambient_degc=each([one.ambient_degc for one in asked]),
        air_pressure_pa=each([pressure_at_altitude_pa(one.altitude_m) for one in asked]),
        road_speed_m_s=each([one.case.road_speed_m_s for one in asked]),
        ram_recovery_frac=same(environment_value(environment, "ram_recovery_frac")),
        exit_pressure_factor=same(environment_value(environment, "exit_pressure_factor")),
        bay_loss_factor=same(environment_value(environment, "bay_loss_factor")),
        fan_speed_ratio=_fan_speeds(project, layout, asked),
        surface_heat_w=same(environment_value(environment, "surface_heat_w")),
        top_tank_degc=each([one.top_tank_limit_degc for one in asked]),
        heat_target_w=each([one.heat_target_w or 0.0 for one in asked]),
        coolant=coolant_of(project),
        coolant_flow_kg_s=each([one.coolant_flow_kg_s or 0.0 for one in asked]),
        charge_flow_kg_s=each([one.charge_flow_kg_s or 0.0 for one in asked]),
        charge_inlet_degc=each([one.charge_inlet_degc for one in asked]),
        charge_reference_degc=each([one.charge_reference_degc for one in asked]),
        charge_pressure_pa=each([one.charge_pressure_pa for one in asked]),
        given_heat_w=given,
        given_inlet_degc=None if inlet is None else np.tile(inlet, (size, 1)),
        given_flow_kg_s=None if flow is None else np.tile(flow, (size, 1)),
    )


def _what_flows_in(project: Project, layout: PackLayout) -> tuple[FloatArray | None, FloatArray | None]:
    """Return inlet temperature and mass flow of each layer that is given both, the same in all duty cases; else nothing."""
    marched = [layer.duty is LayerDuty.GIVEN_INLET for layer in layout.layers]
    if not any(marched):
        return None, None
    coolant, stack = coolant_of(project), cores(project)
    inlet, flow = np.zeros(len(stack)), np.zeros(len(stack))
    for number, core in enumerate(stack):
        if marched[number] and core.tube_inlet_degc is not None:
            inlet[number], flow[number] = core.tube_inlet_degc, tube_flow_kg_s(core, coolant)
    return inlet, flow


def _fan_speeds(project: Project, layout: PackLayout, asked: Sequence[AskedCase]) -> FloatArray:
    """Return the speed ratio of every fan of the layout in every problem; one that nobody knows stands still."""
    mine = fans(project)
    speeds = [
        [speed_ratio(mine[path.number], one.case, project.environment) or 0.0 for path in layout.fans] for one in asked
    ]
    return np.array(speeds, dtype=float).reshape(len(asked), len(layout.fans))
