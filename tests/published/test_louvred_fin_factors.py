"""Louvred-fin j and f against tables computed independently and a second published correlation."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from grillestack.physics.louvred_fin import LouvredSurface, colburn_j, fanning_f, surface_colburn_j, surface_fanning_f
from grillestack.physics.typical_cores import TypicalCore, typical_construction

# In millimetres. The table was made with a hydraulic diameter rounded to 2.02; that of this core is 2.07.
SET_S = LouvredSurface(
    tube_pitch=8.8,
    tube_thickness=1.8,
    flow_depth=26.0,
    fin_height=7.0,
    fin_pitch=1.3,
    louvre_pitch=1.1,
    louvre_length=6.0,
    louvre_angle_deg=27.0,
    fin_thickness=0.07,
    hydraulic_diameter=2.02,
)
REYNOLDS = np.array([100.0, 130.0, 180.0, 230.0, 300.0, 500.0, 800.0])
J_CHANG_WANG = np.array([0.042424, 0.037306, 0.031807, 0.028208, 0.024764, 0.019280, 0.015314])
F_CHANG = np.array([0.286644, 0.226701, 0.193406, 0.153032, 0.129621, 0.096886, 0.076189])
J_KIM_BULLARD = np.array([0.043169, 0.037991, 0.032423, 0.028775, 0.025282, 0.019714, 0.015681])
F_KIM_BULLARD = np.array([0.476754, 0.388423, 0.301250, 0.248763, 0.202145, 0.135643, 0.093968])


def test_j_is_that_of_an_independent_computation() -> None:
    """Source: Chang & Wang 1997; values from a separate program whose formula equals public transcriptions."""
    assert surface_colburn_j(SET_S, REYNOLDS) == pytest.approx(J_CHANG_WANG, abs=6e-7)


def test_f_is_that_of_an_independent_computation_on_all_three_branches() -> None:
    """Source: Chang et al. 2000 with the amendment of 2006; values as above."""
    assert surface_fanning_f(SET_S, REYNOLDS) == pytest.approx(F_CHANG, abs=6e-7)


def test_j_formula_written_out_a_second_time() -> None:
    """Source: Chang & Wang 1997, equation for corrugated louvred fins, typed from a transcription once more."""
    lp = 1.1
    exponents = (
        (27 / 90, 0.27),
        (1.3 / lp, -0.14),
        (7 / lp, -0.29),
        (26 / lp, -0.23),
        (6 / lp, 0.68),
        (8.8 / lp, -0.28),
        (0.07 / lp, -0.05),
    )
    product = math.prod(base**power for base, power in exponents)
    assert surface_colburn_j(SET_S, REYNOLDS) == pytest.approx(product * REYNOLDS**-0.49)


def test_second_correlation_gives_nearly_the_same_heat_and_much_more_friction() -> None:
    """Source: Kim & Bullard 2002 (j: transcription, f: from memory). This is how far geometry alone can be trusted."""
    fp, lp, height, depth, cut, pitch, thick, angle = 1.3, 1.1, 7.0, 26.0, 6.0, 8.8, 0.07, 27.0 / 90.0
    j = (
        REYNOLDS**-0.487
        * (angle**0.257 * (fp / lp) ** -0.13 * (height / lp) ** -0.29 * (depth / lp) ** -0.235)
        * ((cut / lp) ** 0.68 * (pitch / lp) ** -0.279 * (thick / lp) ** -0.05)
    )
    f = (
        REYNOLDS**-0.781
        * (angle**0.444 * (fp / lp) ** -1.682 * (height / lp) ** -1.22)
        * ((depth / lp) ** 0.818 * (cut / lp) ** 1.97)
    )
    assert j == pytest.approx(J_KIM_BULLARD, abs=6e-7)
    assert f == pytest.approx(F_KIM_BULLARD, abs=6e-6)
    assert np.all(np.abs(j / surface_colburn_j(SET_S, REYNOLDS) - 1.0) < 0.025)
    above = f / surface_fanning_f(SET_S, REYNOLDS) - 1.0
    assert 0.23 < above.min() < above.max() < 0.72


def test_a_construction_passes_its_own_lengths_on() -> None:
    core = typical_construction(TypicalCore.ALUMINIUM_26_MM)
    own = replace(SET_S, hydraulic_diameter=core.air_hydraulic_diameter_m * 1000.0)
    assert colburn_j(core, REYNOLDS) == pytest.approx(surface_colburn_j(own, REYNOLDS))
    assert fanning_f(core, REYNOLDS) == pytest.approx(surface_fanning_f(own, REYNOLDS))


def test_j_over_f_is_what_louvres_reach() -> None:
    """Common practice, no source: j/f of louvred fins is 0.15 to 0.20."""
    ratio = surface_colburn_j(SET_S, REYNOLDS) / surface_fanning_f(SET_S, REYNOLDS)
    assert 0.145 < ratio.min() < ratio.max() < 0.205
