"""Dimensions: what a field holds, in which unit it is kept."""

import math

import pytest

from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import Dimension, QuantityError

# Suffixes of stored names are the units values are kept in; a change here would change every stored file.
KEPT_IN = {
    "LENGTH": "mm",
    "ALTITUDE": "m",
    "AREA": "mm2",
    "VOLUME": "m3",
    "MASS": "kg",
    "ANGLE": "deg",
    "TEMPERATURE": "degC",
    "TEMPERATURE_DIFFERENCE": "K",
    "POWER": "W",
    "PRESSURE": "Pa",
    "AIR_PRESSURE": "Pa",
    "COOLANT_FLOW": "m3/s",
    "AIR_FLOW": "m3/s",
    "MASS_FLOW": "kg/s",
    "SPEED": "m/s",
    "FLOW_SPEED": "m/s",
    "VOLTAGE": "V",
    "CURRENT": "A",
    "FRACTION": "",
    "COUNT": "",
}


def test_every_dimension_is_kept_in_the_unit_its_stored_names_end_in():
    assert {dimension.name: dimension.internal_unit for dimension in Dimension} == KEPT_IN


@pytest.mark.parametrize("dimension", Dimension)
def test_a_number_typed_in_the_internal_unit_is_kept_as_it_is(dimension):
    assert parse_quantity("0.8125", dimension, dimension.internal_unit) == 0.8125
    assert parse_quantity(f"0.8125 {dimension.internal_unit}", dimension, dimension.internal_unit) == 0.8125


@pytest.mark.parametrize("dimension", Dimension)
def test_the_examples_in_refusals_can_be_typed_and_say_about_the_same(dimension):
    values = [parse_quantity(text, dimension, dimension.internal_unit) for text in dimension.example.split(" or ")]
    assert all(math.isclose(value, values[0], rel_tol=0.05) for value in values)


def test_a_refusal_is_caught_as_a_value_error():
    with pytest.raises(ValueError, match="Nothing is typed"):
        parse_quantity("", Dimension.LENGTH, "mm")
    assert issubclass(QuantityError, ValueError)
