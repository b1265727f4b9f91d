"""Units against published factors and facts of the trade.

NIST SP 811 is the "Guide for the Use of the International System of Units", appendix B; its figures here are
from memory.
"""

from decimal import Decimal

import pytest

from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import Dimension
from grillestack.units.show import UnitSystem, show_quantity


# Source: NIST SP 811, appendix B.8 and B.9, from memory, with as many digits as remembered: each holds to half its
# last digit. Figures that are exact by definition are in the list after it.
@pytest.mark.parametrize(
    ("text", "dimension", "published"),
    [
        ("1 ft³", Dimension.VOLUME, "2.831685E-2"),
        ("1 in³", Dimension.VOLUME, "1.638706E-5"),
        ("1 US qt", Dimension.VOLUME, "9.463529E-4"),
        ("1 oz", Dimension.MASS, "2.834952E-2"),
        ("1 hp", Dimension.POWER, "745.69987"),
        ("1 metric hp", Dimension.POWER, "735.4988"),
        ("1 BTU/h", Dimension.POWER, "0.2930711"),
        ("1 ft lbf/s", Dimension.POWER, "1.355818"),
        ("1 psi", Dimension.PRESSURE, "6894.757"),
        ("1 mmHg", Dimension.PRESSURE, "133.3224"),
        ("1 inHg", Dimension.PRESSURE, "3386.389"),
        ("1 inH2O", Dimension.AIR_PRESSURE, "249.082"),
        ("1 cfm", Dimension.AIR_FLOW, "4.719474E-4"),
        ("1 gpm", Dimension.COOLANT_FLOW, "6.309020E-5"),
        ("1 km/h", Dimension.SPEED, "0.2777778"),
        ("1 knot", Dimension.SPEED, "0.5144444"),
        ("1 lb/min", Dimension.MASS_FLOW, "7.559873E-3"),
        ("1 °F", Dimension.TEMPERATURE_DIFFERENCE, "0.5555556"),
        # "Ton of refrigeration" there, 12 000 BTU an hour.
        ("12000 BTU/h", Dimension.POWER, "3516.853"),
    ],
)
def test_one_of_a_unit_is_the_published_factor_to_its_last_digit(text, dimension, published):
    _, _, exponent = Decimal(published).as_tuple()
    half_a_digit = 0.5 * 10.0**exponent
    found = parse_quantity(text, dimension, dimension.internal_unit)
    assert abs(found - float(published)) <= half_a_digit * (1 + 1e-6)


# Source: NIST SP 811, appendix B.8 and B.9, from memory; exact there by definition.
@pytest.mark.parametrize(
    ("text", "dimension", "exact"),
    [
        ("1 in", Dimension.LENGTH, 25.4),
        ("1 ft", Dimension.LENGTH, 304.8),
        ("1 yd", Dimension.LENGTH, 914.4),
        ("1 mile", Dimension.LENGTH, 1_609_344.0),
        ("1 in²", Dimension.AREA, 645.16),
        ("1 ft²", Dimension.AREA, 92_903.04),
        ("1 US gal", Dimension.VOLUME, 3.785411784e-3),
        ("1 imp gal", Dimension.VOLUME, 4.54609e-3),
        ("1 lb", Dimension.MASS, 0.45359237),
        ("1 bar", Dimension.PRESSURE, 1e5),
        ("1 atm", Dimension.PRESSURE, 101_325.0),
        ("1 kgf/cm²", Dimension.PRESSURE, 98_066.5),
        ("1 mmH2O", Dimension.AIR_PRESSURE, 9.80665),
        ("1 mph", Dimension.SPEED, 0.44704),
        ("1 ft/min", Dimension.FLOW_SPEED, 5.08e-3),
        ("3600 kcal/h", Dimension.POWER, 4184.0),
        ("32 °F", Dimension.TEMPERATURE, 0.0),
        ("212 °F", Dimension.TEMPERATURE, 100.0),
        ("-40 °F", Dimension.TEMPERATURE, -40.0),
        ("273.15 K", Dimension.TEMPERATURE, 0.0),
    ],
)
def test_a_factor_exact_by_definition_is_the_nearest_float(text, dimension, exact):
    assert parse_quantity(text, dimension, dimension.internal_unit) == exact


def test_the_heat_unit_is_the_international_table_one_and_not_its_neighbours():
    # From memory, NIST SP 811: international table 1055.056 J, thermochemical 1054.350 J, at 59 °F 1054.80 J.
    joule = 60 * parse_quantity("1 BTU/min", Dimension.POWER, "W")
    assert joule == pytest.approx(1055.056, rel=1e-9)
    assert abs(joule - 1055.05585262) / 1055.05585262 < 2e-7


def test_3400_heat_units_a_minute_are_59_8_kw():
    # Common practice, no source.
    assert show_quantity(parse_quantity("3400 BTU/min", Dimension.POWER, "kW"), Dimension.POWER, UnitSystem.METRIC) == (
        "59.8 kW"
    )


def test_the_usual_top_tank_limit_of_225_f_is_107_2_c():
    # Common practice, no source: the two figures stand side by side on cooling sheets.
    assert round(parse_quantity("225 °F", Dimension.TEMPERATURE, "°C"), 1) == 107.2


def test_42_mm_is_sold_as_one_and_five_eighths():
    # Common practice, no source: hose bores.
    assert show_quantity(42.0, Dimension.LENGTH, UnitSystem.INCH) == "1 5/8 in"


def test_50_mm_is_just_under_two_inches():
    # Common practice, no source.
    two_inches_mm = parse_quantity("2 in", Dimension.LENGTH, "in")
    assert 0 < two_inches_mm - 50.0 < parse_quantity("1/16 in", Dimension.LENGTH, "in")
    assert show_quantity(50.0, Dimension.LENGTH, UnitSystem.INCH) == "1 15/16 in"


@pytest.mark.parametrize(
    ("inches", "mm"), [("1/16", 1.5875), ("1/8", 3.175), ("1/4", 6.35), ("1/2", 12.7), ("1", 25.4)]
)
def test_tape_marks_are_the_millimetres_on_every_workshop_chart(inches, mm):
    # Common practice, no source: fraction to millimetre charts.
    assert parse_quantity(inches, Dimension.LENGTH, "in") == mm
