"""Entrance and exit of narrow passages."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.passage_ends import entrance_and_recovery


def test_exit_alone_loses_what_a_sudden_widening_does() -> None:
    # Borda and Carnot: (1 - σ)² of the head in the passages
    for open_frac in (0.1, 0.5, 0.75):
        _, recovery = entrance_and_recovery(open_frac)
        assert 1.0 - open_frac**2 - recovery == pytest.approx((1.0 - open_frac) ** 2)


def test_entrance_from_a_wide_tank_is_a_sharp_pipe_entrance() -> None:
    """From memory: about half a head for a sharp entrance, 0.57 in the newer sources, besides the head itself."""
    entrance, _ = entrance_and_recovery(1e-6)
    assert 0.49 < entrance - 1.0 < 0.58


def test_the_more_open_the_less_is_lost() -> None:
    lost = [np.subtract(*entrance_and_recovery(float(share))) for share in np.linspace(0.05, 1.0, 39)]
    assert np.all(np.diff(lost) < 0.0)
    assert lost[-1] == pytest.approx(0.0, abs=2e-3)
