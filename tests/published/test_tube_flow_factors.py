"""Nusselt numbers and friction factors in tubes against `ht`, `fluids` and textbook limits."""

from __future__ import annotations

import fluids
import ht
import numpy as np
import pytest
from ht.conv_internal import Nu_laminar_rectangular_Shan_London

from grillestack.physics.tube_flow import (
    laminar_darcy_f_times_re,
    laminar_nusselt,
    nusselt_flat_tube,
    smooth_darcy_f,
)


@pytest.mark.parametrize("reynolds", [1000.0, 2300.0, 4000.0, 1e4, 5e4, 2e5, 1e6])
def test_smooth_friction_is_colebrook_s(reynolds) -> None:
    """Source: `fluids.friction.Colebrook` (exact), side by side; below 4000 nobody knows friction to 1e-4."""
    exact = fluids.friction.Colebrook(reynolds, 0.0)
    assert float(smooth_darcy_f(np.float64(reynolds))) == pytest.approx(
        exact, rel=7e-6 if reynolds >= 4000.0 else 1.4e-4
    )


def test_haaland_is_near_colebrook() -> None:
    """Source: the two formulas at Re 10 000 in a smooth tube: .030886 and .030883."""
    assert fluids.friction.Haaland(1e4, 0.0) == pytest.approx(0.030886, abs=6e-7)
    assert float(smooth_darcy_f(np.float64(1e4))) == pytest.approx(0.030883, abs=6e-7)


@pytest.mark.parametrize(
    ("reynolds", "prandtl", "nusselt"), [(4000.0, 7.0, 30.9439), (1e4, 7.0, 78.4934), (5e4, 0.7, 103.8330)]
)
def test_turbulent_heat_transfer_is_gnielinski_s(reynolds, prandtl, nusselt) -> None:
    """Source: `ht.turbulent_Gnielinski` with Colebrook's friction, side by side and as printed."""
    library = ht.turbulent_Gnielinski(reynolds, prandtl, fluids.friction_factor(reynolds))
    ours = float(nusselt_flat_tube(reynolds, prandtl, 0.1))
    assert ours == pytest.approx(library, rel=1e-5)
    assert ours == pytest.approx(nusselt, rel=1e-5)


@pytest.mark.parametrize(
    ("reynolds", "prandtl", "petukhov", "dittus_boelter"),
    [(1e4, 7.0, 83.1587, 65.3518), (5e4, 0.7, 104.8280, 118.6952)],
)
def test_other_turbulent_relations_lie_within_their_scatter(reynolds, prandtl, petukhov, dittus_boelter) -> None:
    """Source: `ht` Petukhov-Kirillov-Popov and Dittus-Boelter (fluid cooled), side by side; scatter from memory."""
    friction = fluids.friction_factor(reynolds)
    pkp = ht.conv_internal.turbulent_Petukhov_Kirillov_Popov(Re=reynolds, Pr=prandtl, fd=friction)
    db = ht.conv_internal.turbulent_Dittus_Boelter(Re=reynolds, Pr=prandtl, heating=False, revised=True)
    assert (pkp, db) == (pytest.approx(petukhov, rel=1e-5), pytest.approx(dittus_boelter, rel=1e-4))
    ours = float(nusselt_flat_tube(reynolds, prandtl, 0.1))
    assert ours == pytest.approx(pkp, rel=0.06)
    assert ours == pytest.approx(db, rel=0.25)


@pytest.mark.parametrize(("aspect", "nusselt"), [(0.05, 7.4552), (0.1, 6.7879), (0.25, 5.3327), (1.0, 3.6102)])
def test_laminar_heat_transfer_is_shah_and_london_s(aspect, nusselt) -> None:
    """Source: `ht.Nu_laminar_rectangular_Shan_London`, side by side, and the printed values."""
    assert laminar_nusselt(aspect) == pytest.approx(Nu_laminar_rectangular_Shan_London(aspect), rel=1e-12)
    assert laminar_nusselt(aspect) == pytest.approx(nusselt, abs=6e-5)
    assert float(nusselt_flat_tube(1500.0, 7.0, aspect)) == laminar_nusselt(aspect)


def test_between_plates_laminar_heat_transfer_and_friction_are_the_textbook_s() -> None:
    """Source: Nu 8.235 (even flux) and f·Re 96 between plates, 3.61 and 56.9 in a square; any heat transfer textbook."""
    assert laminar_nusselt(0.0) == pytest.approx(8.235, abs=5e-4)
    assert laminar_darcy_f_times_re(0.0) == pytest.approx(96.0)
    assert laminar_nusselt(1.0) == pytest.approx(3.61, abs=5e-3)
    assert laminar_darcy_f_times_re(1.0) == pytest.approx(56.9, abs=0.05)


def test_transition_is_blended_between_2300_and_4000() -> None:
    """Source: Gnielinski 2013 (from memory): at Re 3000, Pr 8, aspect 0.1 Nu is 17.3490; Gnielinski alone 22.8442."""
    assert float(nusselt_flat_tube(3000.0, 8.0, 0.1)) == pytest.approx(17.3490, abs=1e-3)
    assert ht.turbulent_Gnielinski(3000.0, 8.0, fluids.friction_factor(3000.0)) == pytest.approx(22.8442, abs=1e-4)
