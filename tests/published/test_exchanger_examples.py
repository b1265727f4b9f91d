"""Worked examples of heat exchangers from books, run through the march with the conductance the book gives.

Each example is held to its recomputed figures, to 1e-6 where the march is exact and to its stated grid error elsewhere, and to
the figures the book prints, read from charts, within 3 %.
"""

from __future__ import annotations

import math

import ht
import pytest
from scipy.optimize import brentq

from tests.physics.crossed_streams import cross, unmixed_effectiveness

BOOK = 0.03


def _log_mean(hot: tuple[float, float], cold: tuple[float, float]) -> float:
    """Return the log mean of the end differences of counterflow."""
    first, last = hot[0] - cold[1], hot[1] - cold[0]
    return (first - last) / math.log(first / last)


def test_incropera_11_3_finned_tubes_gas_heats_water():
    """Incropera & DeWitt, *Fundamentals of Heat and Mass Transfer*, 6th ed., example 11.3: inputs from public notebooks, result from memory.

    Gas 300 to 100 °C, U 100 on the gas side, water 1 kg/s from 35 to 125 °C, cp 4197: ε 0.75, NTU about 2.1, 39.7 m².
    Recomputed: 377 730 W, C_h 1888.65 W/K, ε 0.7547, NTU 2.0808, 39.30 m².
    """
    heat = 1.0 * 4197.0 * 90.0
    gas = heat / 200.0
    assert heat == pytest.approx(377_730.0, rel=1e-6)
    assert gas == pytest.approx(1888.65, rel=1e-6)
    wanted = heat / (gas * (300.0 - 35.0))
    assert wanted == pytest.approx(0.7547, abs=5e-5)
    ratio = gas / 4197.0
    ntu = brentq(lambda n: unmixed_effectiveness(n, ratio) - wanted, 1.0, 4.0, xtol=1e-9)
    assert ntu == pytest.approx(ht.NTU_from_effectiveness(wanted, ratio, subtype="crossflow"), rel=1e-6)
    assert ntu == pytest.approx(2.0808, abs=5e-5)
    assert ntu * gas / 100.0 == pytest.approx(39.30, abs=5e-3)
    assert ntu == pytest.approx(2.1, rel=BOOK)
    assert ntu * gas / 100.0 == pytest.approx(39.7, rel=BOOK)


def test_incropera_11_4_the_same_exchanger_with_other_flows():
    """Same book, example 11.4, from memory: 40 m², C_h 1500 W/K, gas 250 °C, water 35 °C: ε 0.82, 2.65e5 W, 73.3 and 98.1 °C.

    Recomputed: ε 0.8358, 2.6954e5 W, 70.3 and 99.2 °C. The outlet read from the book's chart lies 3 K above.
    """
    ntu, ratio = 100.0 * 40.0 / 1500.0, 1500.0 / 4197.0
    found = unmixed_effectiveness(ntu, ratio)
    assert found == pytest.approx(ht.effectiveness_from_NTU(ntu, ratio, subtype="crossflow"), rel=1e-6)
    heat = found * 1500.0 * 215.0
    assert found == pytest.approx(0.8358, abs=5e-5)
    assert heat == pytest.approx(2.6954e5, rel=2e-5)
    assert 250.0 - heat / 1500.0 == pytest.approx(70.3, abs=0.05)
    assert 35.0 + heat / 4197.0 == pytest.approx(99.2, abs=0.05)
    assert found == pytest.approx(0.82, rel=BOOK)
    assert heat == pytest.approx(2.65e5, rel=BOOK)
    assert 250.0 - heat / 1500.0 == pytest.approx(73.3, abs=BOOK * 215.0)
    assert 35.0 + heat / 4197.0 == pytest.approx(98.1, rel=BOOK)


def test_holman_10_9_oil_heated_by_steam_in_cross_flow():
    """Holman, *Heat Transfer*, 10th ed., example 10-9, as worked in the docstring of `ht.effectiveness_NTU_method`.

    Steam 5.2 kg/s, 1860 J/kgK, 130 °C, mixed; oil 0.725 kg/s, 1900 J/kgK, 15 °C, unmixed; U 275, 10.82 m².
    Book: NTU 2.16, ε 0.831, 131 675 W, 110.59 and 116.39 °C. The mixed steam plays the tube fluid, the oil the air: exact.
    """
    steam, oil, conductance = 5.2 * 1860.0, 0.725 * 1900.0, 275.0 * 10.82
    assert conductance / oil == pytest.approx(2.16007, abs=6e-6)
    oil_out, steam_out = cross(conductance, oil, steam, 15.0, 130.0, steps=6)
    heat = steam * (130.0 - steam_out)
    reference = ht.effectiveness_NTU_method(
        mh=5.2, mc=0.725, Cph=1860.0, Cpc=1900.0, subtype="crossflow, mixed Cmax", Thi=130.0, Tci=15.0, UA=conductance
    )
    assert heat == pytest.approx(reference["Q"], rel=1e-9)
    assert heat == pytest.approx(131_675.33, rel=1e-7)
    assert heat / (oil * 115.0) == pytest.approx(0.831218, abs=6e-7)
    assert oil_out == pytest.approx(110.590, abs=6e-4)
    assert steam_out == pytest.approx(116.386, abs=6e-4)
    assert heat == pytest.approx(131_675.0, rel=BOOK)
    assert (oil_out, steam_out) == pytest.approx((110.59, 116.39), rel=BOOK)


def test_som_10_7_air_cooled_by_water_in_cross_flow():
    """Som, *Introduction to Heat Transfer*, chapter 10 example 7, as worked in a public collection of solved examples.

    Water 7 kg/s, 20 °C, 4180 J/kgK; air 10 kg/s, 125 °C, 1010 J/kgK; U 220, 250 m², both unmixed.
    Book: about 1e6 W, hot outlet 26 °C, rounded. Recomputed: NTU 5.4455, Cr 0.3452, ε 0.94859, 1.0060e6 W, 25.40 °C.
    """
    air, water = 10.0 * 1010.0, 7.0 * 4180.0
    ntu, ratio = 220.0 * 250.0 / air, air / water
    assert (ntu, ratio) == pytest.approx((5.4455, 0.3452), abs=6e-5)
    found = unmixed_effectiveness(ntu, ratio, 64)
    assert found == pytest.approx(ht.effectiveness_from_NTU(ntu, ratio, subtype="crossflow"), rel=1e-6)
    assert found == pytest.approx(0.94859, abs=6e-6)
    heat = found * air * 105.0
    assert heat == pytest.approx(1.0060e6, rel=5e-5)
    assert 125.0 - heat / air == pytest.approx(25.40, abs=5e-3)
    assert heat == pytest.approx(1e6, rel=BOOK)
    assert 125.0 - heat / air == pytest.approx(26.0, rel=BOOK)


def test_cengel_radiator_correction_factor_and_conductance():
    """Çengel, *Heat Transfer*, the automotive radiator of the chapter on heat exchangers, from memory.

    40 tubes of 5 mm, 0.65 m long; water 0.6 kg/s from 90 to 65 °C, 4195 J/kgK; air 20 to 40 °C: 62.93 kW, F about 0.97, U 3347.
    Recomputed: 62 925 W, 0.4084 m², log mean 47.46 K; F 0.9704 and U 3346 both unmixed, 0.9663 and 3360 water mixed over depth.
    """
    water = 0.6 * 4195.0
    heat = water * 25.0
    air = heat / 20.0
    area = 40.0 * math.pi * 0.005 * 0.65
    log_mean = _log_mean((90.0, 65.0), (20.0, 40.0))
    assert heat == pytest.approx(62_925.0, rel=1e-9)
    assert (area, log_mean) == pytest.approx((0.4084, 47.46), abs=5e-3)

    def too_warm(conductance: float) -> float:
        return cross(conductance, air, water, 20.0, 90.0, steps=4)[1] - 65.0

    mixed = brentq(too_warm, 100.0, 1e4, xtol=1e-9)
    assert cross(mixed, air, water, 20.0, 90.0)[0] == pytest.approx(40.0, abs=1e-8)
    ratio, wanted = water / air, 25.0 / 70.0
    unmixed = water * brentq(lambda n: unmixed_effectiveness(n, ratio) - wanted, 0.1, 2.0, xtol=1e-10)
    assert heat / (mixed * log_mean) == pytest.approx(0.9663, abs=5e-5)
    assert heat / (unmixed * log_mean) == pytest.approx(0.9704, abs=5e-5)
    assert mixed / area == pytest.approx(3360.0, abs=0.6)
    assert unmixed / area == pytest.approx(3346.0, abs=0.6)
    assert unmixed / area == pytest.approx(3347.0, rel=BOOK)
    assert heat / (unmixed * log_mean) == pytest.approx(0.97, rel=BOOK)


def test_incropera_11_6_compact_core_needs_this_ntu():
    """Incropera & DeWitt, example 11.6, a compact core of finned tubes, inputs from memory: Cr 0.321, ε 0.466, NTU 0.6986 recomputed.

    Gas 825 K and 1.25 kg/s, water 1 kg/s from 290 to 370 K; the volume the book ends with is not trusted and not checked.
    """
    assert unmixed_effectiveness(0.6986, 0.321) == pytest.approx(0.466, abs=5e-4)
    assert unmixed_effectiveness(0.6986, 0.321) == pytest.approx(
        ht.effectiveness_from_NTU(0.6986, 0.321, subtype="crossflow"), rel=1e-6
    )
