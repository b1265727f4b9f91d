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
from grillestack.model.project import Project
from grillestack.physics.air import pressure_at_altitude_pa
from grillestack.physics.conditions import Ask, Conditions
from grillestack.physics.layout import LayerDuty, PackLayout

FloatArray = NDArray[np.float64]

SHED, AT_LIMIT, ALONE, AMBIENT = range(4)
_ASKS: Final = (Ask.TOP_TANK, Ask.HEAT, Ask.HEAT, Ask.AMBIENT)


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
    """Return the batch of these answerable cases.

    Parameters
    ----------
    further_heat_w
        For each layer the heat it is given, `None` for the condenser's, which the duty case sets.
    """
    cases = len(asked)
    size = len(_ASKS) * cases
    layers = len(layout.layers)

    def each(values: Sequence[float]) -> FloatArray:
        return np.tile(np.array(values, dtype=float), len(_ASKS))

    def same(value: float) -> FloatArray:
        return np.full(size, value)

    present = np.ones((size, layers), dtype=bool)
    alone = slice(ALONE * cases, (ALONE + 1) * cases)
    present[alone] = False
    if layout.radiator is not None:
        present[alone, layout.radiator] = True
    given = np.zeros((size, layers))
    for number, layer in enumerate(layout.layers):
        if layer.duty is LayerDuty.GIVEN_HEAT:
            heat = further_heat_w[number]
            given[:, number] = each([one.condenser_heat_w for one in asked]) if heat is None else heat
    given[~present] = 0.0
    environment = project.environment
    conditions = Conditions(
        ask=np.repeat(np.array([int(ask) for ask in _ASKS]), cases),
        present=present,
        ambient_degc=each([one.ambient_degc for one in asked]),
        air_pressure_pa=each([pressure_at_altitude_pa(one.altitude_m) for one in asked]),
        road_speed_m_s=each([one.case.road_speed_m_s for one in asked]),
        ram_recovery_frac=same(environment_value(environment, "ram_recovery_frac")),
        exit_pressure_factor=same(environment_value(environment, "exit_pressure_factor")),
        bay_loss_factor=same(environment_value(environment, "bay_loss_factor")),
        fan_speed_ratio=each([1.0 if one.case.fans_on else 0.0 for one in asked]),
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
    )
    return Batch(tuple(asked), conditions)
