"""The border between mm and SI."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from grillestack.units import convert


@pytest.mark.parametrize(
    ("function", "given_value", "expected"),
    [
        (convert.m_from_mm, 665.0, 0.665),
        (convert.mm_from_m, 0.665, 665.0),
        (convert.m2_from_mm2, 350_000.0, 0.35),
        (convert.mm2_from_m2, 0.35, 350_000.0),
        (convert.m3_from_mm3, 12_500_000.0, 0.0125),
        (convert.mm3_from_m3, 0.0125, 12_500_000.0),
        (convert.k_from_degc, 100.0, 373.15),
        (convert.degc_from_k, 373.15, 100.0),
        (convert.rad_from_deg, 180.0, math.pi),
        (convert.deg_from_rad, math.pi, 180.0),
    ],
)
def test_a_float_and_an_array_are_changed_alike(function, given_value, expected):
    assert function(given_value) == expected
    changed = function(np.array([[given_value, 0.0]]))
    assert changed.shape == (1, 2)
    assert changed[0, 0] == expected
    assert changed[0, 1] == function(0.0)


@given(st.floats(-1e6, 1e6))
def test_there_and_back_is_where_it_began(value):
    pairs = [
        (convert.m_from_mm, convert.mm_from_m),
        (convert.m2_from_mm2, convert.mm2_from_m2),
        (convert.m3_from_mm3, convert.mm3_from_m3),
        (convert.rad_from_deg, convert.deg_from_rad),
    ]
    for there, back in pairs:
        assert back(there(value)) == pytest.approx(value, rel=1e-15, abs=1e-300)
    assert convert.degc_from_k(convert.k_from_degc(value)) == pytest.approx(value, abs=1e-9)


def test_the_array_given_is_left_as_it_was():
    lengths_mm = np.array([1.0, 2.0])
    convert.m_from_mm(lengths_mm)
    assert lengths_mm.tolist() == [1.0, 2.0]
