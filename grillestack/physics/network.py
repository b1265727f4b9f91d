"""Pressures and mass flows of a network of monotone edges, many problems at once.

Every edge obeys a·m + b·m|m| = D with D = p(from) − p(to) + head. All edges strictly monotone makes the solution the
minimum of a strictly convex content function: exactly one, and damped Newton finds it from anywhere [CONTENT].
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]

# A purely quadratic edge has an infinite slope at rest; this floor is far below any real laminar term.
LEAST_LINEAR_PA_S_PER_KG = 1e-4
_STEPS_AT_MOST = 60
_HALVINGS_AT_MOST = 30
_TOLERANCE = 1e-11


@dataclass(frozen=True, slots=True)
class Edges:
    """Edges of B networks of one shape: coefficients (B, E); open edges carry air, closed ones none.

    `incidence` has shape (E, N): +1 at the node an edge leaves, −1 at the node it enters; outside air has no column.
    `reverse_quadratic` stands in for `quadratic` where an edge is driven backwards; without it both ways cost the same.
    """

    linear: FloatArray
    quadratic: FloatArray
    head_pa: FloatArray
    open: NDArray[np.bool_]
    incidence: FloatArray
    reverse_quadratic: FloatArray | None = None


@dataclass(frozen=True, slots=True)
class Flow:
    """Pressures (B, N) in Pa, mass flows (B, E) in kg/s, largest nodal imbalance (B,) in kg/s, Newton steps taken."""

    pressure_pa: FloatArray
    mass_kg_s: FloatArray
    imbalance_kg_s: FloatArray
    steps: int


def solve_network(edges: Edges, start_pa: FloatArray) -> Flow:
    """Return the flow that leaves no node with more than round-off.

    Parameters
    ----------
    edges
        The networks; every node that an open edge touches must lead to outside air through open edges.
    start_pa
        Pressures to start from; shape (B, N).

    Notes
    -----
    Newton on the content function with halved steps where it does not fall. Nodes without open edges keep their pressure.
    """
    incidence = edges.incidence
    linear = np.maximum(edges.linear, LEAST_LINEAR_PA_S_PER_KG)
    quadratic = np.where(edges.open, edges.quadratic, 1.0)
    reverse = quadratic if edges.reverse_quadratic is None else np.where(edges.open, edges.reverse_quadratic, 1.0)
    is_open = edges.open.astype(float)
    dead = np.eye(incidence.shape[1]) * ((is_open @ np.abs(incidence)) == 0.0)[:, :, None]
    outer = incidence[:, :, None] * incidence[:, None, :]
    outer = outer.reshape(incidence.shape[0], -1)
    pressure = start_pa
    mass, slope, content, imbalance = _state(pressure, incidence, linear, quadratic, reverse, edges.head_pa, is_open)
    steps = 0
    while steps < _STEPS_AT_MOST:
        tolerance = _TOLERANCE * (1.0 + np.abs(mass).max(axis=1))
        wrong = np.abs(imbalance).max(axis=1)
        if (wrong <= tolerance).all():
            break
        steps += 1
        laplacian = (slope @ outer).reshape(slope.shape[0], incidence.shape[1], -1) + dead
        move = np.linalg.solve(laplacian, imbalance[:, :, None])[:, :, 0]
        length = np.ones((slope.shape[0], 1))
        fall = (move * imbalance).sum(axis=1)
        for _ in range(_HALVINGS_AT_MOST):
            trial = pressure + length * move
            mass_new, slope_new, content_new, imbalance_new = _state(
                trial, incidence, linear, quadratic, reverse, edges.head_pa, is_open
            )
            # On a quadratic edge near rest a full step lands as far beyond the minimum as it began before it: the content
            # then falls by next to nothing, so its slope along the move must not have turned round by more than half.
            turned = (move * imbalance_new).sum(axis=1) < -0.5 * fall
            # Near the minimum the content stands still to round-off; the imbalance then decides.
            better = ((content_new <= content - 1e-4 * length[:, 0] * fall) & ~turned) | (
                np.abs(imbalance_new).max(axis=1) < 0.5 * wrong
            )
            better |= wrong <= tolerance
            if better.all():
                break
            length = np.where(better[:, None], length, 0.5 * length)
        pressure, mass, slope, content, imbalance = trial, mass_new, slope_new, content_new, imbalance_new
    return Flow(pressure, mass, np.abs(imbalance).max(axis=1), steps)


def _state(
    pressure: FloatArray,
    incidence: FloatArray,
    linear: FloatArray,
    quadratic: FloatArray,
    reverse: FloatArray,
    head: FloatArray,
    is_open: FloatArray,
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    drive = pressure @ incidence.T + head
    if reverse is not quadratic:
        # Both branches have the slope of the linear term at rest, so an edge stays smooth where it turns.
        quadratic = np.where(drive < 0.0, reverse, quadratic)
    root = np.sqrt(linear * linear + 4.0 * quadratic * np.abs(drive))
    size = 2.0 * np.abs(drive) / (linear + root) * is_open
    mass = np.copysign(size, drive)
    slope = is_open / root
    content = (size * size * (0.5 * linear + (2.0 / 3.0) * quadratic * size)).sum(axis=1)
    imbalance = -(mass @ incidence)
    return mass, slope, content, imbalance
