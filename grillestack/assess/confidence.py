"""How sure the hottest day is: a seeded Latin hypercube over all uncertain inputs of one duty case."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from grillestack.assess.asked import asked_cases
from grillestack.assess.assess import further_heat_w, pack_overlay
from grillestack.assess.case_results import limiting_ambient_degc
from grillestack.assess.core_spread import core_spread
from grillestack.assess.pack_layout import lay_out
from grillestack.assess.problems import Problem, conditions_of
from grillestack.assess.uncertain import Kind, Uncertain, uncertain_inputs
from grillestack.model.parts import Core
from grillestack.model.project import Project, cores
from grillestack.physics.conditions import Ask, Conditions
from grillestack.physics.layout import PackLayout
from grillestack.physics.solve import State, solve

FloatArray = NDArray[np.float64]

SAMPLES: Final = 1000
_SEED: Final = 20_240_611
_CHUNK: Final = 125
_TOLERANCE_K: Final = 0.02
_MOST_TELLING: Final = 5
# A sample whose heat never goes away counts as colder than any day.
_NEVER_DEGC: Final = -273.15


@dataclass(frozen=True, slots=True)
class Driver:
    """One uncertain input and its share of the spread of the hottest day."""

    name: str
    share_frac: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Confidence:
    """The hottest day as a band; a percentile is `None` where the heat never goes away in that share of the samples."""

    case_name: str
    p10_degc: float | None
    p50_degc: float | None
    p90_degc: float | None
    meets_design_day_frac: float
    drivers: tuple[Driver, ...]
    samples: int


def confidence(
    project: Project,
    case_id: str,
    *,
    samples: int = SAMPLES,
    heat_spread: Callable[[Core], tuple[float, float, str]] = core_spread,
    progress: Callable[[float], bool] = lambda _share: True,
) -> Confidence | None:
    """Return how sure the hottest day of one duty case is, or nothing if it cannot be judged or was cancelled.

    Parameters
    ----------
    heat_spread
        5th and 95th percentile of true over computed heat of a core, and the source.
    progress
        Told the share done; answers whether to go on.
    """
    asked = next((one for one in asked_cases(project) if one.case.id == case_id), None)
    stack = cores(project)
    if asked is None or not asked.answerable:
        return None
    overlay = pack_overlay(project)
    layout = lay_out(project, overlay, stack).layout
    further = further_heat_w(stack)
    base = conditions_of(project, layout, [Problem(asked, Ask.AMBIENT)], further)
    centre = solve(layout, base).state
    inputs = uncertain_inputs(project, stack, [heat_spread(core) for core in stack])
    values = latin_hypercube(inputs, samples, _SEED)
    days = np.empty(samples)
    for begin in range(0, samples, _CHUNK):
        rows = slice(begin, min(begin + _CHUNK, samples))
        conditions = _sampled(base, layout, inputs, values[rows])
        solution = solve(layout, conditions, _spread_out(centre, conditions.size), _TOLERANCE_K)
        found = [limiting_ambient_degc(solution, conditions, row) for row in range(conditions.size)]
        days[rows] = [_NEVER_DEGC if day is None else day for day in found]
        if not progress(rows.stop / samples):
            return None
    return Confidence(
        case_name=asked.case.name,
        p10_degc=_percentile(days, 10.0),
        p50_degc=_percentile(days, 50.0),
        p90_degc=_percentile(days, 90.0),
        meets_design_day_frac=float((days >= asked.ambient_degc).mean()),
        drivers=_drivers(inputs, values, days),
        samples=samples,
    )


def latin_hypercube(inputs: Sequence[Uncertain], samples: int, seed: int) -> FloatArray:
    """Return sampled factors and shifts; shape (samples, inputs). Every input's strata are all hit once."""
    random = np.random.default_rng(seed)
    columns = []
    for one in inputs:
        quantiles = (random.permutation(samples) + random.uniform(0.02, 0.98, samples)) / samples
        columns.append([one.value_at(float(quantile)) for quantile in quantiles])
    return np.array(columns, dtype=float).reshape(len(inputs), samples).T


def _sampled(base: Conditions, layout: PackLayout, inputs: Sequence[Uncertain], values: FloatArray) -> Conditions:
    """Return one problem per row of values."""
    size, layers = values.shape[0], len(layout.layers)
    changed: dict[str, Any] = {}
    for field in dataclasses.fields(base):
        value = getattr(base, field.name)
        if isinstance(value, np.ndarray):
            changed[field.name] = np.repeat(value, size, axis=0)
    heat, loss = np.ones((size, layers)), np.ones((size, layers))
    for column, one in enumerate(inputs):
        sample = values[:, column]
        if one.kind is Kind.RADIATOR_HEAT:
            # The computed heat is the true one over the factor; so is the target that the computed heat must meet.
            changed["heat_target_w"] = changed["heat_target_w"] / sample
        elif one.kind is Kind.CORE_HEAT:
            heat[:, one.layer] *= sample
        elif one.kind is Kind.AIR_RESISTANCE:
            loss[:, one.layer] *= sample
        elif one.layer is not None:
            _apply_to_layer(changed, one.kind, one.layer, sample)
        else:
            _apply(changed, one.kind, sample)
    changed["heat_factor"], changed["air_loss_factor"] = heat, loss
    return dataclasses.replace(base, **changed)


def _apply(changed: dict[str, Any], kind: Kind, sample: FloatArray) -> None:
    if kind is Kind.RAM:
        changed["ram_recovery_frac"] = np.clip(changed["ram_recovery_frac"] + sample, 0.0, 1.0)
    elif kind is Kind.EXIT:
        changed["exit_pressure_factor"] = changed["exit_pressure_factor"] + sample
    elif kind is Kind.CHARGE_INLET:
        changed["charge_inlet_degc"] = changed["charge_inlet_degc"] + sample
    elif kind is Kind.GRILLE:
        changed["opening_loss_factor"] = sample
    elif kind is Kind.PASSAGE:
        changed["passage_loss_factor"] = sample
    elif kind is Kind.LEAK:
        changed["leak_factor"] = sample
    elif kind is Kind.FAN:
        changed["fan_factor"] = sample
    else:
        name = {
            Kind.BAY: "bay_loss_factor",
            Kind.HEAT_TARGET: "heat_target_w",
            Kind.COOLANT_FLOW: "coolant_flow_kg_s",
            Kind.CHARGE_FLOW: "charge_flow_kg_s",
        }[kind]
        changed[name] = changed[name] * sample


def _apply_to_layer(changed: dict[str, Any], kind: Kind, layer: int, sample: FloatArray) -> None:
    """Change what one core is given; the arrays are this sample's own."""
    if kind in (Kind.CONDENSER, Kind.COOLER_HEAT):
        changed["given_heat_w"][:, layer] *= sample
    elif kind is Kind.COOLER_INLET:
        changed["given_inlet_degc"][:, layer] += sample
    elif kind is Kind.COOLER_FLOW:
        changed["given_flow_kg_s"][:, layer] *= sample


def _spread_out(state: State, size: int) -> State:
    """Return a start for `size` problems near one solved problem."""

    def rows(values: FloatArray, axis: int = 0) -> FloatArray:
        return np.repeat(values, size, axis=axis)

    return State(
        rows(state.ambient_degc),
        rows(state.top_tank_degc),
        rows(state.node_degc),
        rows(state.zone_in_degc),
        rows(state.zone_out_degc),
        rows(state.tube_mean_degc),
        rows(state.reversed_in_degc, 1),
        rows(state.pressure_pa),
    )


def _percentile(days: FloatArray, percent: float) -> float | None:
    value = float(np.percentile(days, percent, method="lower"))
    return value if value > _NEVER_DEGC else None


def _drivers(inputs: Sequence[Uncertain], values: FloatArray, days: FloatArray) -> tuple[Driver, ...]:
    """Return the inputs that matter most: squared rank correlations with the hottest day, as shares of their sum."""
    ranks = np.argsort(np.argsort(np.column_stack([values, days]), axis=0), axis=0).astype(float)
    ranks -= ranks.mean(axis=0)
    lengths = np.sqrt((ranks**2).sum(axis=0))
    correlation = (ranks[:, :-1] * ranks[:, -1:]).sum(axis=0) / np.maximum(lengths[:-1] * lengths[-1], 1e-300)
    weight = correlation**2
    share = weight / max(float(weight.sum()), 1e-300)
    order = np.argsort(-share, kind="stable")[:_MOST_TELLING]
    return tuple(Driver(inputs[i].name, float(share[i]), inputs[i].source) for i in order.tolist())
