"""Tube fluid marching along its tubes while air crosses them: closed-form cells, exact for one row [SS2003].

Within one cell every air stream s has the effectiveness e_s = 1 − exp(−UA_s/C_s), so with K = Σ C_s·e_s and the K-weighted
inlet temperature T_mix the tube fluid follows T' = T_mix + (T − T_mix)·exp(−K/C_t): affine in T, hence a whole strip is a
cumulative product. Moving m·cp·T per stream keeps energy to round-off.

A second row meets air that the first has warmed unevenly along the cell: hot where the tube fluid was hot. Its mean alone
would be an error of second order in the cell's length, so the air's slope along the tube goes with it from row to row: with
air A + s·(x − ½) over the cell's length, 0 ≤ x ≤ 1, and κ = K/C_t, the tube fluid leaves by s·g higher, and its mean is lower by
s·g/κ, where g = ∫ κ·exp(−κ·(1 − x))·(x − ½) dx = 1 − (1 − exp(−κ))/2 − (1 − exp(−κ))/κ. What is left is of fourth order.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.layout import IntArray, TubePass

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
    again: IntArray | None = None,
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
    again
        Which problems are marched once more, with other temperatures: `air_in_degc`, `tube_in_degc` and what is returned
        then hold the rows of these behind those of all B.
    """
    cells = _cells(tube_pass, exchange_w_per_k, effectiveness, tube_capacity_w_per_k, sub_rows)
    if again is not None and again.size:
        rows = np.concatenate((np.arange(exchange_w_per_k.shape[0]), again))
        cells, exchange_w_per_k, effectiveness = cells.taken(rows), exchange_w_per_k[rows], effectiveness[rows]
    shape = cells.lost.shape
    air = air_in_degc
    outlet = np.zeros(shape[0])
    slope_k: FloatArray | None = None
    for row in range(sub_rows):
        mix = np.add.reduceat(exchange_w_per_k * air, tube_pass.cell_starts, axis=1).reshape(shape) / cells.exchange
        tilt = cells.tilt
        gain_k = None if tilt is None or slope_k is None else slope_k * tilt.gain_frac
        entering, leaving = _along_strips(mix, cells, gain_k, tube_in_degc)
        mean = mix + (entering - mix) * cells.mean_kept_frac
        outlet = outlet + (leaving[:, :, -1] @ tube_pass.strip_share) / sub_rows
        if tilt is not None and slope_k is not None:
            mean -= slope_k * tilt.mean_loss_frac
        if tilt is not None and row < sub_rows - 1:
            straight_k = tilt.straight_frac * (leaving - entering)
            slope_k = (
                tilt.taken_frac * straight_k if slope_k is None else slope_k + tilt.taken_frac * (straight_k - slope_k)
            )
        tube_at_piece = mean.reshape(shape[0], -1).take(tube_pass.cell_of_piece, axis=1)
        air = air + effectiveness * (tube_at_piece - air)
    return air, outlet


@dataclass(frozen=True, slots=True)
class _Tilt:
    """What air that changes along the tube does in each cell, per kelvin of its slope; shapes (B, strips, steps).

    The fluid leaves warmer by `gain_frac`, its mean is lower by `mean_loss_frac`; of the fluid's own fall along the cell the
    air behind takes over `taken_frac` of what counts as straight.
    """

    gain_frac: FloatArray
    mean_loss_frac: FloatArray
    straight_frac: FloatArray
    taken_frac: FloatArray


@dataclass(frozen=True, slots=True)
class _Cells:
    """What the cells do to a tube fluid of any temperature, the same in every row; shapes (B, strips, steps).

    `exchange` is Σ C·e, never 0; `lost` what the fluid loses of its difference to the air within a cell, `mean_kept_frac` what
    it keeps in the mean; `shrink` what is left of the difference at the inlet, nothing where it would be too little to divide by.
    """

    exchange: FloatArray
    lost: FloatArray
    mean_kept_frac: FloatArray
    shrink: FloatArray | None
    tilt: _Tilt | None

    def taken(self, rows: IntArray) -> _Cells:
        """Return the cells of these problems."""
        tilt = self.tilt
        return _Cells(
            self.exchange[rows],
            self.lost[rows],
            self.mean_kept_frac[rows],
            None if self.shrink is None else self.shrink[rows],
            None
            if tilt is None
            else _Tilt(
                tilt.gain_frac[rows], tilt.mean_loss_frac[rows], tilt.straight_frac[rows], tilt.taken_frac[rows]
            ),
        )


def _cells(
    tube_pass: TubePass,
    exchange_w_per_k: FloatArray,
    effectiveness: FloatArray,
    tube_capacity_w_per_k: FloatArray,
    sub_rows: int,
) -> _Cells:
    shape = (exchange_w_per_k.shape[0], tube_pass.strips, tube_pass.steps)
    capacity = np.maximum(tube_capacity_w_per_k, _SMALLEST_CAPACITY_W_PER_K)[:, None, None]
    capacity = capacity * (tube_pass.strip_share / sub_rows)[None, :, None]
    per_cell = np.add.reduceat(exchange_w_per_k, tube_pass.cell_starts, axis=1).reshape(shape)
    exponent = per_cell / capacity
    lost = -np.expm1(-exponent)
    some = np.maximum(exponent, 1e-200)
    # (1 − e^−x)/x, the mean of the decay over the cell; 1 for a cell without exchange.
    mean_kept = np.where(exponent > 1e-200, lost / some, 1.0)
    per_cell = np.maximum(per_cell, 1e-300)
    decay = np.cumsum(exponent, axis=2)
    shrink = None if decay[:, :, -1].max(initial=0.0) > _LARGEST_EXPONENT else np.exp(-decay)
    if sub_rows == 1:
        return _Cells(per_cell, lost, mean_kept, shrink, None)
    taken = np.add.reduceat(exchange_w_per_k * effectiveness, tube_pass.cell_starts, axis=1).reshape(shape)
    gain = 1.0 - 0.5 * lost - mean_kept
    # The fluid of a cell that takes nearly all falls at its near end only: a line as steep as its ends would leave the range.
    tilt = _Tilt(gain, gain / some, np.minimum(1.0, 2.0 / some), taken / per_cell)
    return _Cells(per_cell, lost, mean_kept, shrink, tilt)


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
    mix: FloatArray, cells: _Cells, gain_k: FloatArray | None, tube_in_degc: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Return the tube temperature entering and leaving each cell; shapes (B, strips, steps)."""
    if cells.shrink is None:
        return _along_strips_cell_by_cell(mix, cells.lost, gain_k, tube_in_degc)
    start = tube_in_degc[:, None, None]
    # Counted from the inlet temperature, so that a cell of the same temperature adds exactly nothing.
    added = cells.lost * (mix - start)
    if gain_k is not None:
        added += gain_k
    after = np.cumsum(added / cells.shrink, axis=2)
    after *= cells.shrink
    after += start
    entering = np.empty_like(after)
    entering[:, :, 0] = start[:, :, 0]
    entering[:, :, 1:] = after[:, :, :-1]
    return entering, after


def _along_strips_cell_by_cell(
    mix: FloatArray, lost: FloatArray, gain_k: FloatArray | None, tube_in_degc: FloatArray
) -> tuple[FloatArray, FloatArray]:
    entering, leaving = np.empty_like(mix), np.empty_like(mix)
    now = np.broadcast_to(tube_in_degc[:, None], mix.shape[:2])
    for step in range(mix.shape[2]):
        entering[:, :, step] = now
        now = now + (mix[:, :, step] - now) * lost[:, :, step]
        if gain_k is not None:
            now = now + gain_k[:, :, step]
        leaving[:, :, step] = now
    return entering, leaving
