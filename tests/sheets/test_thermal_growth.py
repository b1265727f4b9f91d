"""Growth of hot aluminium: against handbook tables, and what a slot lets move."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.model.project import Project
from grillestack.sheets.thermal_growth import ALUMINIUM_PER_K_FACTOR, charge_rise_k, growth_mm, slot_length_mm


def test_the_coefficient_is_that_of_aluminium():
    # Handbook tables give 23 to 24 · 10⁻⁶ per K for aluminium and its common alloys from 20 to 100 °C; from memory.
    assert 23e-6 <= ALUMINIUM_PER_K_FACTOR <= 24e-6


def test_a_metre_that_gets_a_hundred_kelvin_warmer_grows_two_point_three_millimetres():
    assert growth_mm(1000.0, 100.0) == pytest.approx(2.3)


def test_a_cooler_grows_no_more_than_the_trade_says():
    # "A CAC grows up to 6 mm hot": the longest that fits a nose, with the hottest charge air the model takes.
    assert growth_mm(1000.0, 230.0) < 6.0


def test_the_rise_is_that_of_the_charge_air_over_the_bench():
    project = Project()
    # The default of the charge air is 170 °C, the bench has 20 °C.
    assert charge_rise_k(project) == pytest.approx(150.0)
    hot = replace(project, engine=replace(project.engine, charge_inlet_degc=220.0))
    assert charge_rise_k(hot) == pytest.approx(200.0)


def test_a_slot_lets_a_bolt_move_either_way_by_six_millimetres_or_by_the_growth():
    assert slot_length_mm(9.0, 2.3) == pytest.approx(21.0)
    assert slot_length_mm(9.0, 8.0) == pytest.approx(25.0)
