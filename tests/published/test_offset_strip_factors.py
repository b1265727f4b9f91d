"""Offset strip fins against an independent computation of Manglik & Bergles."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.physics.construction import InnerFin
from grillestack.physics.offset_strip import colburn_j, fanning_f

FIN = InnerFin(spacing_m=1.9e-3, height_m=6.3e-3, thickness_m=0.12e-3, strip_length_m=3.2e-3)


def test_hydraulic_diameter_counts_the_cut_edges() -> None:
    """Source: Manglik & Bergles 1995, 4shl / [2(sl + hl + th) + ts]; value from a separate program."""
    assert FIN.hydraulic_diameter_m * 1000.0 == pytest.approx(2.825821, abs=6e-7)


def test_j_and_f_are_those_of_an_independent_computation() -> None:
    """Source: Manglik & Bergles 1995; values from a separate program whose formulas equal public transcriptions."""
    reynolds = np.array([150.0, 500.0, 1000.0, 3000.0, 8000.0])
    assert colburn_j(FIN, reynolds) == pytest.approx([0.038949, 0.020955, 0.015010, 0.009210, 0.006108], abs=6e-7)
    assert fanning_f(FIN, reynolds) == pytest.approx([0.223112, 0.091744, 0.058757, 0.039657, 0.029548], abs=6e-7)
