"""Two streams that cross, marched with given conductance: the face is even, one piece to a cell."""

from __future__ import annotations

import numpy as np

from grillestack.physics.layout import TubePass
from grillestack.physics.march import march_rows


def even_pass(strips: int, steps: int, strip_share: np.ndarray | None = None) -> TubePass:
    """Return a pass of equal cells, one piece to each."""
    cells = np.arange(strips * steps)
    share = np.full(strips, 1.0 / strips) if strip_share is None else strip_share
    return TubePass(pieces=cells, cell_starts=cells, strip_share=share)


def cross(
    conductance_w_per_k: float,
    air_w_per_k: float,
    tube_w_per_k: float,
    air_in_degc: float,
    tube_in_degc: float,
    *,
    sub_rows: int = 1,
    steps: int = 1,
    strips: int = 1,
) -> tuple[float, float]:
    """Return the mean air and tube outlet temperatures of an evenly swept face."""
    tube_pass = even_pass(strips, steps)
    cells = strips * steps
    e = -np.expm1(-conductance_w_per_k / (sub_rows * air_w_per_k))
    air, tube = march_rows(
        tube_pass,
        np.full((1, cells), air_w_per_k * e / cells),
        np.full((1, cells), e),
        np.full((1, cells), air_in_degc),
        np.array([tube_w_per_k]),
        np.array([tube_in_degc]),
        sub_rows,
    )
    return float(air.mean()), float(tube[0])


def effectiveness(ntu: float, ratio: float, *, air_is_least: bool = True, **grid: int) -> float:
    """Return the marched effectiveness; with `air_is_least` the air has the smaller capacity, else the tube fluid."""
    air, tube = (1.0, 1.0 / ratio) if air_is_least else (1.0 / ratio, 1.0)
    _, tube_out = cross(ntu, air, tube, 0.0, 1.0, **grid)
    return tube * (1.0 - tube_out)


def unmixed_effectiveness(ntu: float, ratio: float, cells: int = 32) -> float:
    """Return the effectiveness with both streams unmixed, from two grids: their errors of second order cancel [RICHARDSON].

    Source: L. F. Richardson, Phil. Trans. A 210 (1911) 307-357; from memory.
    """
    coarse = effectiveness(ntu, ratio, sub_rows=cells, steps=cells)
    fine = effectiveness(ntu, ratio, sub_rows=2 * cells, steps=2 * cells)
    return (4.0 * fine - coarse) / 3.0
