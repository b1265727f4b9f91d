"""Tube fluid marching along its tubes while air crosses them: closed-form cells, exact for one row [SS2003].

Within one cell every air stream s has the effectiveness e_s = 1 − exp(−UA_s/C_s), so with K = Σ C_s·e_s and the K-weighted
inlet temperature T_mix the tube fluid follows T' = T_mix + (T − T_mix)·exp(−K/C_t): affine in T, hence a whole strip is a
cumulative product. Moving m·cp·T per stream keeps energy to round-off.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.layout import TubePass

FloatArray = NDArray[np.float64]

# Beyond this exponent the cumulative product would underflow; such strips are marched cell by cell.
_LARGEST_EXPONENT = 600.0
_SMALLEST_CAPACITY_W_PER_K = 1e-9
# Less than a milligram of air a second is none: no wall sheds its heat to that.
_LEAST_EXCHANGE_W_PER_K = 1e-6


def march_rows(
    tube_pass: TubePass,
    exchange_w_per_k: FloatArray,
    effectiveness: FloatArray,
    air_in_degc: FloatArray,
    tube_capacity_w_per_k: FloatArray,
    tube_in_degc: FloatArray,
    sub_rows: int,
) -> tuple[FloatArray, FloatArray]:
    """Return the air temperature behind the core and the mixed tube outlet temperature of one pass.

    Parameters
    ----------
    tube_pass
        The cells of the pass; P pieces.
    exchange_w_per_k
        C_a·e of every piece in one sub-row; shape (B, P), in the order of `tube_pass.pieces`.
    effectiveness
        e of every piece in one sub-row; shape (B, P).
    air_in_degc
        Air ahead of the core; shape (B, P).
    tube_capacity_w_per_k
        m·cp of the whole tube flow; shape (B,).
    tube_in_degc
        Shape (B,).
    sub_rows
        Rows in depth, each with an equal share of the tube flow, all entered at the same temperature.
    """
    shape = (exchange_w_per_k.shape[0], tube_pass.strips, tube_pass.steps)
    capacity = np.maximum(tube_capacity_w_per_k, _SMALLEST_CAPACITY_W_PER_K)[:, None, None]
    capacity = capacity * (tube_pass.strip_share / sub_rows)[None, :, None]
    per_cell = np.add.reduceat(exchange_w_per_k, tube_pass.cell_starts, axis=1).reshape(shape)
    exponent = per_cell / capacity
    lost = -np.expm1(-exponent)
    # (1 − e^−x)/x, the mean of the decay over the cell; 1 for a cell without exchange.
    mean_kept = np.where(exponent > 1e-200, lost / np.maximum(exponent, 1e-200), 1.0)
    per_cell_floor = np.maximum(per_cell, 1e-300)
    decay = np.cumsum(exponent, axis=2)
    air = air_in_degc
    outlet = np.zeros(shape[0])
    for _ in range(sub_rows):
        weighted = np.add.reduceat(exchange_w_per_k * air, tube_pass.cell_starts, axis=1).reshape(shape)
        mix = weighted / per_cell_floor
        entering, leaving = _along_strips(mix, lost, decay, tube_in_degc)
        mean = mix + (entering - mix) * mean_kept
        outlet = outlet + (leaving @ tube_pass.strip_share) / sub_rows
        tube_at_piece = mean.reshape(shape[0], -1)[:, tube_pass.cell_of_piece]
        air = air + effectiveness * (tube_at_piece - air)
    return air, outlet


def wall_temperature_degc(
    heat_w: FloatArray, exchange_w_per_k: FloatArray, air_in_degc: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return the one wall temperature that sheds a given heat, and ΣC·e; shapes (B,).

    Where no air passes the temperature is infinite, ΣC·e is 0, and it must not be used.
    """
    total = exchange_w_per_k.sum(axis=1)
    total = np.where(total > _LEAST_EXCHANGE_W_PER_K, total, 0.0)
    carried = (exchange_w_per_k * air_in_degc).sum(axis=1)
    with np.errstate(divide="ignore", invalid="ignore"):
        wall = np.where(total > 0.0, (heat_w + carried) / total, np.inf)
    return wall, total


def _along_strips(
    mix: FloatArray, lost: FloatArray, decay: FloatArray, tube_in_degc: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return the tube temperature entering each cell (B, strips, steps) and leaving each strip (B, strips)."""
    start = tube_in_degc[:, None, None]
    if decay[:, :, -1].max(initial=0.0) > _LARGEST_EXPONENT:
        return _along_strips_cell_by_cell(mix, lost, tube_in_degc)
    shrink = np.exp(-decay)
    # Counted from the inlet temperature, so that a cell of the same temperature adds exactly nothing.
    after = shrink * np.cumsum(lost * (mix - start) / shrink, axis=2) + start
    entering = np.empty_like(after)
    entering[:, :, 0] = start[:, :, 0]
    entering[:, :, 1:] = after[:, :, :-1]
    return entering, after[:, :, -1]


def _along_strips_cell_by_cell(
    mix: FloatArray, lost: FloatArray, tube_in_degc: FloatArray
) -> tuple[FloatArray, FloatArray]:
    entering = np.empty_like(mix)
    now = np.broadcast_to(tube_in_degc[:, None], mix.shape[:2])
    for step in range(mix.shape[2]):
        entering[:, :, step] = now
        now = now + (mix[:, :, step] - now) * lost[:, :, step]
    return entering, now
