"""Fewer passes to a fixed point: Anderson mixing of the last few passes, problem by problem.

A problem that has come no nearer for a while forgets its past and goes on with shorter steps: passes that jump to and fro
settle that way, and a past from another regime of the flow misleads no longer.

Source: [ANDERSON]
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

_DEPTH = 5
_REGULARISATION = 1e-10
# Passes without coming nearer by a tenth until a problem begins anew, with steps half as long.
_PATIENCE = 7
_NEARER = 0.9
_SHORTEST_STEP = 0.1


class Mixer:
    """Remembers the last passes of one batch; `next_start` proposes where the next pass should begin."""

    def __init__(self) -> None:
        self._starts: list[FloatArray] = []
        self._moves: list[FloatArray] = []
        self._nearest: FloatArray = np.zeros(0)
        self._waited = np.zeros(0, dtype=np.intp)
        self._known = np.zeros(0, dtype=np.intp)
        self._step: FloatArray = np.zeros(0)

    def next_start(self, start: FloatArray, arrived: FloatArray, weight: FloatArray) -> FloatArray:
        """Return a better guess than `arrived`, where the pass that began at `start` ended; shapes (B, n).

        `weight` says how much each temperature counts when past passes are fitted.
        """
        move = arrived - start
        self._starts = [*self._starts[-_DEPTH:], start]
        self._moves = [*self._moves[-_DEPTH:], move]
        self._watch(np.abs(move * weight).max(axis=1))
        plain = start + self._step[:, None] * move
        if len(self._moves) < 2:
            return plain
        moves = np.stack(self._moves)
        starts = np.stack(self._starts)
        move_steps = np.diff(moves, axis=0).transpose(1, 0, 2)
        start_steps = np.diff(starts, axis=0).transpose(1, 0, 2)
        age = np.arange(move_steps.shape[1], 0, -1)
        forgotten = age >= self._known[:, None]
        weighed = np.where(forgotten[:, :, None], 0.0, move_steps * weight[:, None, :])
        gram = weighed @ move_steps.transpose(0, 2, 1)
        right = (weighed @ move[:, :, None])[:, :, 0]
        depth = gram.shape[1]
        diagonal = np.arange(depth)
        scale = gram[:, diagonal, diagonal].max(axis=1)
        gram[:, diagonal, diagonal] += (_REGULARISATION * scale + 1e-30)[:, None]
        share = np.linalg.solve(gram, right[:, :, None])
        correction = ((start_steps + self._step[:, None, None] * move_steps) * share).sum(axis=1)
        return np.asarray(plain - correction, dtype=np.float64)

    def _watch(self, size: FloatArray) -> None:
        """Take note of how far each problem still moves, and let those begin anew that come no nearer."""
        if not self._known.size:
            self._nearest, self._step = np.full(size.shape, np.inf), np.ones(size.shape)
            self._waited, self._known = np.zeros(size.shape, dtype=np.intp), np.zeros(size.shape, dtype=np.intp)
        nearer = size < _NEARER * self._nearest
        self._nearest = np.where(nearer, size, self._nearest)
        self._waited = np.where(nearer, 0, self._waited + 1)
        anew = self._waited > _PATIENCE
        self._step = np.where(anew, np.maximum(0.5 * self._step, _SHORTEST_STEP), self._step)
        self._nearest = np.where(anew, size, self._nearest)
        self._waited = np.where(anew, 0, self._waited)
        self._known = np.where(anew, 1, np.minimum(self._known + 1, _DEPTH + 1))
