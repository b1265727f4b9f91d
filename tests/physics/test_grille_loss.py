"""Loss of an opening."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.grille_loss import CLEAN_MOUTH_LOSS, opening_loss_coefficient


def test_bars_by_hand() -> None:
    # (0.5·(1 - 0.6) + 1 - 0.36) / 0.36
    assert opening_loss_coefficient(0.6) == pytest.approx(0.84 / 0.36)


def test_an_empty_mouth_still_loses_a_little() -> None:
    assert opening_loss_coefficient(1.0) == CLEAN_MOUTH_LOSS


def test_closing_an_opening_never_lessens_its_loss() -> None:
    losses = [opening_loss_coefficient(float(share)) for share in np.linspace(1.0, 0.05, 96)]
    assert np.all(np.diff(losses) >= 0.0)


@pytest.mark.parametrize("share", [0.0, -0.2, 1.01, 60.0, float("nan")])
def test_a_share_that_is_none_is_refused(share) -> None:
    with pytest.raises(ValueError, match="more than 0 and at most 1"):
        opening_loss_coefficient(share)
