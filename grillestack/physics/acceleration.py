"""Fewer passes to a fixed point: Anderson mixing of the last few passes, problem by problem.

Source: [ANDERSON]
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

_DEPTH = 5
_REGULARISATION = 1e-10


class Mixer:
    """Remembers the last passes of one batch; `next_start` proposes where the next pass should begin."""

    def __init__(self) -> None:
        self._starts: list[FloatArray] = []
        self._moves: list[FloatArray] = []

    def next_start(self, start: FloatArray, arrived: FloatArray, weight: FloatArray) -> FloatArray:
        """Return a better guess than `arrived`, where the pass that began at `start` ended; shapes (B, n).

        `weight` says how much each temperature counts when past passes are fitted.
        """
        move = arrived - start
        self._starts = [*self._starts[-_DEPTH:], start]
        self._moves = [*self._moves[-_DEPTH:], move]
        if len(self._moves) < 2:
            return arrived
        moves = np.stack(self._moves)
        starts = np.stack(self._starts)
        move_steps = np.diff(moves, axis=0).transpose(1, 0, 2)
        start_steps = np.diff(starts, axis=0).transpose(1, 0, 2)
        weighed = move_steps * weight[:, None, :]
        gram = weighed @ move_steps.transpose(0, 2, 1)
        right = (weighed @ move[:, :, None])[:, :, 0]
        depth = gram.shape[1]
        diagonal = np.arange(depth)
        scale = gram[:, diagonal, diagonal].max(axis=1)
        gram[:, diagonal, diagonal] += (_REGULARISATION * scale + 1e-30)[:, None]
        share = np.linalg.solve(gram, right[:, :, None])
        correction = ((start_steps + move_steps) * share).sum(axis=1)
        return np.asarray(arrived - correction, dtype=np.float64)
