"""The march through crossed streams against the `ht` library and against digits computed apart from this program.

Formulas: Shah & Sekulić, *Fundamentals of Heat Exchanger Design*, Wiley 2003, tables 3.3 to 3.6 (table numbers from memory).
The library: `ht`, effectiveness-NTU functions; its both-unmixed form integrates after Triboix, Int. Comm. Heat Mass Transfer
36 (2009) 121-124.
"""

from __future__ import annotations

import itertools
import math

import ht
import pytest

from tests.physics.crossed_streams import cross, effectiveness, unmixed_effectiveness

# NTU, capacity ratio, then ε: both unmixed, Cmax mixed, Cmin mixed. Computed with scipy and `ht`, not with this program.
TRIPLES = [
    (0.5, 1.0, 0.3263299771, 0.32528800, 0.32528800),
    (1.0, 1.0, 0.4762223882, 0.46853639, 0.46853639),
    (1.0, 0.5, 0.5474898339, 0.54196899, 0.54476371),
    (2.0, 0.5, 0.7324092525, 0.70201272, 0.71754644),
    (2.0, 1.0, 0.6142472393, 0.57880725, 0.57880725),
    (3.0, 0.25, 0.8884574758, 0.84578035, 0.87882673),
    (5.0, 0.7, 0.8444821800, 0.71580998, 0.74978439),
    (10.0, 1.0, 0.8227134659, 0.63210386, 0.63210386),
    (0.8, 0.15, 0.5296129974, 0.52854161, 0.52945503),
    (20.0, 0.9, 0.9122761065, 0.65936704, 0.67080701),
]
EXCHANGES = [triple[:2] for triple in TRIPLES]


@pytest.mark.parametrize("steps", [1, 2, 7, 50])
@pytest.mark.parametrize(("ntu", "ratio"), EXCHANGES)
def test_one_row_is_the_formula_on_any_grid(ntu, ratio, steps):
    """One tube row: the tube fluid is mixed over the depth, the air is not."""
    air_least = ht.effectiveness_from_NTU(NTU=ntu, Cr=ratio, subtype="crossflow, mixed Cmax")
    tube_least = ht.effectiveness_from_NTU(NTU=ntu, Cr=ratio, subtype="crossflow, mixed Cmin")
    assert effectiveness(ntu, ratio, steps=steps) == pytest.approx(air_least, rel=1e-12)
    assert effectiveness(ntu, ratio, steps=steps, strips=3) == pytest.approx(air_least, rel=1e-12)
    assert effectiveness(ntu, ratio, steps=steps, air_is_least=False) == pytest.approx(tube_least, rel=1e-12)


@pytest.mark.parametrize(("ntu", "ratio", "unmixed", "mixed_most", "mixed_least"), TRIPLES)
def test_the_printed_digits_are_met(ntu, ratio, unmixed, mixed_most, mixed_least):
    assert effectiveness(ntu, ratio) == pytest.approx(mixed_most, abs=6e-9)
    assert effectiveness(ntu, ratio, air_is_least=False) == pytest.approx(mixed_least, abs=6e-9)
    # Two grids of 64 and 128 cells each way; what is left of their error grows with NTU.
    left = 5e-8 if ntu <= 3.0 else 3e-7 if ntu <= 5.0 else 1.2e-5
    assert unmixed_effectiveness(ntu, ratio, 64) == pytest.approx(unmixed, abs=left)


@pytest.mark.parametrize(("ntu", "ratio"), [pair for pair in EXCHANGES if pair[0] <= 3.0])
def test_sub_rows_lead_to_both_streams_unmixed_with_an_error_of_second_order(ntu, ratio):
    exact = ht.effectiveness_from_NTU(NTU=ntu, Cr=ratio, subtype="crossflow")
    errors = [abs(effectiveness(ntu, ratio, sub_rows=n, steps=n) - exact) for n in (8, 16, 32, 64)]
    orders = [math.log2(a / b) for a, b in itertools.pairwise(errors)]
    assert orders[0] > 1.85
    assert orders[1:] == pytest.approx([1.97, 2.0], abs=0.05)


def test_the_order_shows_without_knowing_the_exact_value():
    """Source: Richardson's ratio of successive differences, (e_8 − e_16)/(e_16 − e_32) → 4 for second order."""
    found = [effectiveness(2.0, 0.5, sub_rows=n, steps=n) for n in (16, 32, 64)]
    assert (found[1] - found[0]) / (found[2] - found[1]) == pytest.approx(4.0, abs=0.1)


def test_a_coarse_march_errs_to_the_same_side_as_another_program_and_by_less():
    """NTU 2, Cr 0.5: another program, whose cells mix one stream, erred by −6.47e-4, −1.71e-4, −4.40e-5 and −1.11e-5.

    Its cells pass on means alone, ours the air's slope along the tube as well; what is left is that of the rows in depth.
    """
    for cells, error in ((8, -6.47e-4), (16, -1.71e-4), (32, -4.40e-5), (64, -1.11e-5)):
        ours = effectiveness(2.0, 0.5, sub_rows=cells, steps=cells) - 0.7324092525
        assert error < ours < 0.0


@pytest.mark.parametrize(("ntu", "ratio"), [pair for pair in EXCHANGES if pair[0] <= 3.0])
def test_four_sub_rows_are_within_0_4_percent_of_unmixed_where_charge_air_coolers_work(ntu, ratio):
    """Up to NTU 2, or 3 at a small capacity ratio. Beyond, four rows give too little: 1.4 % at NTU 5, Cr 0.7."""
    exact = ht.effectiveness_from_NTU(NTU=ntu, Cr=ratio, subtype="crossflow")
    for air_is_least in (True, False):
        found = effectiveness(ntu, ratio, air_is_least=air_is_least, sub_rows=4, steps=200)
        assert 0.996 * exact < found < exact


@pytest.mark.parametrize("rows", [1, 2, 3, 4])
@pytest.mark.parametrize(("ratio", "ntu"), [(0.5, 2.0), (0.2, 3.0), (0.9, 1.0)])
def test_rows_in_depth_are_those_of_an_air_cooler_with_one_pass(rows, ratio, ntu):
    """`ht.temperature_effectiveness_air_cooler`: its stream 1 is the air (R1 = C_air/C_tube), whatever its docstring says."""
    expected = ht.temperature_effectiveness_air_cooler(R1=ratio, NTU1=ntu, rows=rows, passes=1, coerce=False)
    assert effectiveness(ntu, ratio, sub_rows=rows, steps=100) == pytest.approx(expected, rel=1e-9)
    assert effectiveness(ntu, ratio, sub_rows=rows, steps=8) == pytest.approx(expected, rel=3e-5)


def test_two_rows_printed():
    """R 0.5, NTU 2: 0.7247125, computed by a march apart from this program."""
    assert effectiveness(2.0, 0.5, sub_rows=2, steps=200) == pytest.approx(0.7247125, abs=3e-7)


@pytest.mark.parametrize("ntu", [0.1, 1.0, 4.0])
def test_a_tube_fluid_that_keeps_its_temperature_makes_every_arrangement_the_same(ntu):
    """Condensing: ε = 1 − exp(−NTU) whatever the arrangement (any textbook)."""
    for sub_rows in (1, 4):
        air_out, _ = cross(ntu, 1.0, 1e12, 0.0, 1.0, sub_rows=sub_rows, steps=5)
        assert air_out == pytest.approx(1.0 - math.exp(-ntu), rel=1e-11)


# NTU, then ε at Cr 0.25, 0.5, 0.75, 1. Kays & London, *Compact Heat Exchangers*, table of crossed streams, both unmixed: the book
# prints three to four digits (from memory); these are recomputed.
KAYS_LONDON = [
    (1.0, (0.5880, 0.5475, 0.5103, 0.4762)),
    (2.0, (0.7974, 0.7324, 0.6711, 0.6142)),
    (3.0, (0.8885, 0.8197, 0.7494, 0.6813)),
    (5.0, (0.9591, 0.9017, 0.8293, 0.7509)),
]


@pytest.mark.parametrize(("ntu", "row"), KAYS_LONDON)
def test_the_table_of_crossed_streams_is_met_to_its_last_digit(ntu, row):
    for ratio, expected in zip((0.25, 0.5, 0.75, 1.0), row, strict=True):
        assert unmixed_effectiveness(ntu, ratio, 32) == pytest.approx(expected, abs=5.1e-5)
