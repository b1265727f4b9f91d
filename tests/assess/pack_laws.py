"""What holds of every assessed pack, whatever it is: numbers are numbers, air and heat are in balance, an answer is settled."""

from __future__ import annotations

import dataclasses
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

import msgspec
import numpy as np

from grillestack.assess.asked import asked_cases
from grillestack.assess.assess import further_heat_w, pack_overlay
from grillestack.assess.case_results import case_results
from grillestack.assess.pack_layout import lay_out
from grillestack.assess.problems import Batch, batch_of
from grillestack.assess.result import CaseResult, Verdict
from grillestack.model.project import Project, cores, radiator
from grillestack.physics.conditions import Ask, Conditions
from grillestack.physics.heat import HIGHEST_DEGC, LOWEST_DEGC
from grillestack.physics.layout import LayerDuty, PackLayout
from grillestack.physics.solve import TOLERANCE_K, Solution, solve
from tests.physics.balances import heat_carried_out_w, heat_gained_w, is_finite_but_for_walls, worst_imbalance_kg_s

# An edge at rest passes a rounding of the pressures, 1e-16 of 80 Pa, over the network's least resistance, 1e-4 Pa·s/kg:
# near 1e-10 kg/s at worst. Where less air than this moves, that is what a node may keep, not 1e-9 of next to nothing.
LEAST_AIR_KG_S = 0.1
FIXED_POINT_K = 0.01
_FOUND = ("node_degc", "ambient_degc", "top_tank_degc")


@dataclass(frozen=True)
class Judged:
    """What was found of one pack: the laws it breaks, its problems with an answer, and which of those did not settle."""

    broken: tuple[str, ...]
    answers: int
    unsettled: tuple[int, ...]
    kinds: frozenset[str]


def judged(project: Project) -> Judged:
    """Return what holds of the pack, solved from cold as the document itself is."""
    asked = [one for one in asked_cases(project) if one.answerable]
    main = radiator(project)
    if not asked or main is None:
        return Judged((), 0, (), frozenset({"not asked"}))
    overlay, stack = pack_overlay(project), cores(project)
    laid_out = lay_out(project, overlay, stack)
    layout = laid_out.layout
    batch = batch_of(project, layout, asked, further_heat_w(stack))
    solution = solve(layout, batch.conditions)
    results = case_results(laid_out, stack, batch, solution, main.core_width_mm * main.core_height_mm)
    broken = [
        *_numbers(layout, solution, results),
        *_air(layout, solution),
        *_heat(layout, batch.conditions, solution),
        *_fixed_point(layout, batch, solution),
        *_says_so(batch, solution, results),
    ]
    answered = [row for row in range(batch.conditions.size) if not _at_a_bound(solution, batch.conditions, row)]
    unsettled = tuple(row for row in answered if not solution.converged[row])
    return Judged(tuple(broken), len(answered), unsettled, _kinds(layout, solution, results))


def _numbers(layout: PackLayout, solution: Solution, results: tuple[CaseResult, ...]) -> Iterator[str]:
    if not is_finite_but_for_walls(solution, layout):
        yield "an array holds what is no number"
    for result in results:
        for where, value in _floats(msgspec.to_builtins(result) if isinstance(result, msgspec.Struct) else result, ""):
            if not math.isfinite(value):
                yield f"the result's {where} is {value}"


def _floats(value: object, where: str) -> Iterator[tuple[str, float]]:
    if isinstance(value, float):
        yield where, value
    elif isinstance(value, dict):
        for name, inner in value.items():
            yield from _floats(inner, f"{where}.{name}")
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from _floats(inner, where)
    elif dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            yield from _floats(getattr(value, field.name), f"{where}.{field.name}")


def _air(layout: PackLayout, solution: Solution) -> Iterator[str]:
    scale = max(float(np.abs(solution.flow.mass_kg_s).max(initial=0.0)), LEAST_AIR_KG_S)
    worst = worst_imbalance_kg_s(layout, solution)
    if worst > 1e-9 * scale:
        yield f"a node keeps {worst:.2g} kg/s of {scale:.2g}"


def _heat(layout: PackLayout, conditions: Conditions, solution: Solution) -> Iterator[str]:
    """In the last pass what a tube loses its air gains, to round-off; what all gain goes out, to what is left unsettled."""
    sweep, fluids = solution.sweep, solution.fluids
    for number, layer in enumerate(layout.layers):
        gained = sweep.heat_w[:, number]
        if layer.duty is LayerDuty.GIVEN_HEAT:
            lost = np.where(np.isfinite(sweep.tube_in_degc[:, number]), conditions.given_heat_w[:, number], 0.0)
            scale = np.maximum(np.abs(lost), 1.0)
        else:
            capacity = {
                LayerDuty.RADIATOR: fluids.coolant_capacity_w_per_k,
                LayerDuty.CHARGE_AIR: fluids.charge_capacity_w_per_k,
                LayerDuty.GIVEN_INLET: fluids.given_capacity_w_per_k[:, number],
            }[layer.duty]
            lost = capacity * (sweep.tube_in_degc[:, number] - sweep.tube_out_degc[:, number])
            scale = np.maximum(np.abs(capacity) * np.maximum(np.abs(sweep.tube_in_degc[:, number]), 100.0), 1.0)
        off = np.abs(np.where(conditions.present[:, number], gained - lost, gained)) / scale
        if off.max() > 1e-9:
            yield f"layer {number} ({layer.duty.name}) gives its air other heat than it loses: {off.max():.2g} of it"
    for row in np.flatnonzero(solution.converged).tolist():
        if abs(solution.flow.mass_kg_s[row, solution.ranges.exit]) <= 1e-6:
            continue
        moved = float(np.abs(sweep.heat_w[row]).sum() + abs(conditions.surface_heat_w[row]))
        off_w = abs(heat_carried_out_w(layout, solution, row) - heat_gained_w(solution, conditions, row))
        if off_w > 1e-3 * moved + 0.5:
            yield f"problem {row}: {off_w:.3g} W of {moved:.3g} W do not leave the pack"


def _fixed_point(layout: PackLayout, batch: Batch, solution: Solution) -> Iterator[str]:
    """One more pass moves no node and no unknown; at a bound there is no answer, and nodes that nothing cools may be anywhere.

    Where air goes round, a pass may lead away from its own fixed point a hundred times faster than the state is off it. What
    moves there is held against the fixed point itself, found a hundred times closer.
    """
    free = np.array([not _at_a_bound(solution, batch.conditions, row) for row in range(batch.conditions.size)])
    again = solve(layout, batch.conditions, solution.state, np.inf)
    assert again.passes == 1
    judge = solution.converged & free
    if max(_apart_k(solution, again, name)[judge].max(initial=0.0) for name in _FOUND) > FIXED_POINT_K:
        again = solve(layout, batch.conditions, solution.state, 0.01 * TOLERANCE_K)
        judge &= again.converged  # round-off, as much faster, may keep one from being found any closer
    for name in _FOUND:
        apart = _apart_k(solution, again, name)[judge]
        if apart.max(initial=0.0) > FIXED_POINT_K:
            yield f"{name} is {apart.max():.2g} K off its fixed point"


def _apart_k(one: Solution, other: Solution, name: str) -> np.ndarray:
    here, there = getattr(one.state, name), getattr(other.state, name)
    return np.abs(there - here).reshape(here.shape[0], -1).max(axis=1)


def _says_so(batch: Batch, solution: Solution, results: tuple[CaseResult, ...]) -> Iterator[str]:
    for number, result in enumerate(results):
        rows = [batch.index(number, problem) for problem in range(4)]
        if not solution.converged[rows].all() and not result.reasons:
            yield "what did not settle, or has no answer, is not said"
        if not solution.converged[rows].all() and result.verdict is Verdict.PASS:
            yield "what did not settle passes"
        of_the_radiator = [reason for reason in result.reasons if not re.search("charge air|condenser", reason)]
        if len(of_the_radiator) > 2:
            yield f"the same is said {len(of_the_radiator)} times: {of_the_radiator}"
        for row in rows:
            asks = batch.conditions.ask[row] != Ask.HEAT and not _at_a_bound(solution, batch.conditions, row)
            target, heat = float(batch.conditions.heat_target_w[row]), float(solution.heat_w[row])
            if solution.converged[row] and asks and abs(heat - target) > 1e-3 * target + 0.5:
                yield f"problem {row} found {heat:.5g} W for {target:.5g} W"


def _at_a_bound(solution: Solution, conditions: Conditions, row: int) -> bool:
    """Return whether there is no answer: a node would be beyond 400 °C, or the unknown ends where its search ends."""
    ask = conditions.ask[row]
    return bool(
        solution.hopeless[row]
        or solution.state.node_degc[row].max() >= HIGHEST_DEGC
        or (ask == Ask.TOP_TANK and solution.top_tank_degc[row] >= HIGHEST_DEGC)
        or (ask == Ask.AMBIENT and solution.ambient_degc[row] <= LOWEST_DEGC)
        or (ask == Ask.AMBIENT and solution.ambient_degc[row] >= conditions.top_tank_degc[row])
    )


def _kinds(layout: PackLayout, solution: Solution, results: tuple[CaseResult, ...]) -> frozenset[str]:
    found = {result.verdict.name.lower() for result in results}
    mass = solution.flow.mass_kg_s
    if (mass[:, solution.ranges.zones] < -1e-6).any():
        found.add("reversed air")
    if np.abs(mass).max(initial=0.0) < 1e-6:
        found.add("no air")
    if any(layer.duty is LayerDuty.GIVEN_INLET for layer in layout.layers):
        found.add("further cooler marched")
    return frozenset(found)
