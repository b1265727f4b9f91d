"""Typed texts that are taken, by hand sums, and side by side with pint."""

import math
from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import Dimension, QuantityError

JUDGE = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("text", "length_mm"),
    [
        # 26 + 3/16 = 26.1875, times 25.4
        ("26 3/16", 665.1625),
        ("26 3/16 in", 665.1625),
        ("26-3/16", 665.1625),
        ('26-3/16"', 665.1625),
        ('26 3/16"', 665.1625),
        ("26 3/16”", 665.1625),
        ("26\u202f3⁄16\u202f″", 665.1625),
        ("26 3/16 IN.", 665.1625),
        ("26 3/16 inches", 665.1625),
        ("-26 3/16", -665.1625),
        # 26.5 × 25.4
        ("26½", 673.1),
        ("26 ½", 673.1),
        ("26½″", 673.1),
        ("26-½ in", 673.1),
        # 3/8 × 25.4
        ("3/8", 9.525),
        ("⅜", 9.525),
        ("1 5/8 in", 41.275),
        # 27.5 × 25.4
        ("2' 3 1/2\"", 698.5),
        ("2′ 3½″", 698.5),
        ("2' 3 1/2''", 698.5),
        ("2 ft 3 in", 685.8),
        ("2' 2\"", 660.4),
        ("5'", 1524.0),
        ("2 1/2 ft", 762.0),
        ("66.5 cm", 665.0),
        ("66.5cm", 665.0),
        ("665 mm", 665.0),
        ("665\u00a0mm", 665.0),
        ("1e3 mm", 1000.0),
        ("0.665 m", 665.0),
        ("-12.5 mm", -12.5),
        ("−12.5 mm", -12.5),
        ("- 12.5 mm", -12.5),
        ("1 yd", 914.4),
        ("4 thou", 0.1016),
        ("1/2 mm", 0.5),
        ("-0 mm", 0.0),
    ],
)
def test_a_length_off_the_tape_is_taken_in_a_field_in_inches(text, length_mm):
    assert parse_quantity(text, Dimension.LENGTH, "in") == length_mm


@pytest.mark.parametrize(
    ("default_unit", "length_mm"), [("mm", 26.5), ("cm", 265.0), ("in", 673.1), ("ft", 8077.2), ("m", 26500.0)]
)
def test_a_bare_number_takes_the_unit_beside_the_field(default_unit, length_mm):
    assert parse_quantity("26.5", Dimension.LENGTH, default_unit) == length_mm


@pytest.mark.parametrize(
    ("text", "dimension", "in_pint", "kept_in"),
    [
        ("3200 BTU/min", Dimension.POWER, (3200, "british_thermal_unit/minute"), "watt"),
        ("54 kW", Dimension.POWER, (54, "kilowatt"), "watt"),
        ("72 hp", Dimension.POWER, (72, "horsepower"), "watt"),
        ("1/2 hp", Dimension.POWER, (0.5, "horsepower"), "watt"),
        ("98 PS", Dimension.POWER, (98, "metric_horsepower"), "watt"),
        ("36000 BTU/h", Dimension.POWER, (36000, "british_thermal_unit/hour"), "watt"),
        ("210 F", Dimension.TEMPERATURE, (210, "degF"), "degC"),
        ("210 °F", Dimension.TEMPERATURE, (210, "degF"), "degC"),
        ("225 degF", Dimension.TEMPERATURE, (225, "degF"), "degC"),
        ("-40 F", Dimension.TEMPERATURE, (-40, "degF"), "degC"),
        ("99 C", Dimension.TEMPERATURE, (99, "degC"), "degC"),
        ("99 °C", Dimension.TEMPERATURE, (99, "degC"), "degC"),
        ("372 K", Dimension.TEMPERATURE, (372, "kelvin"), "degC"),
        ("18 °F", Dimension.TEMPERATURE_DIFFERENCE, (18, "delta_degF"), "delta_degC"),
        ("18 Δ°F", Dimension.TEMPERATURE_DIFFERENCE, (18, "delta_degF"), "delta_degC"),
        ("10 C", Dimension.TEMPERATURE_DIFFERENCE, (10, "delta_degC"), "delta_degC"),
        ("14.7 psi", Dimension.PRESSURE, (14.7, "psi"), "pascal"),
        ("1.1 bar", Dimension.PRESSURE, (1.1, "bar"), "pascal"),
        ("240 kPa", Dimension.PRESSURE, (240, "kilopascal"), "pascal"),
        ("2.4 kgf/cm²", Dimension.PRESSURE, (2.4, "force_kilogram/centimeter**2"), "pascal"),
        ("29.9 inHg", Dimension.PRESSURE, (29.9, "inHg"), "pascal"),
        ("5.6 L/s", Dimension.COOLANT_FLOW, (5.6, "liter/second"), "meter**3/second"),
        ("336 l/min", Dimension.COOLANT_FLOW, (336, "liter/minute"), "meter**3/second"),
        ("90 gpm", Dimension.COOLANT_FLOW, (90, "gallon/minute"), "meter**3/second"),
        ("90 US gal/min", Dimension.COOLANT_FLOW, (90, "gallon/minute"), "meter**3/second"),
        ("2000 cfm", Dimension.AIR_FLOW, (2000, "foot**3/minute"), "meter**3/second"),
        ("3400 m³/h", Dimension.AIR_FLOW, (3400, "meter**3/hour"), "meter**3/second"),
        ("26 lb/min", Dimension.MASS_FLOW, (26, "pound/minute"), "kilogram/second"),
        ("60 mph", Dimension.SPEED, (60, "mile/hour"), "meter/second"),
        ("90 km/h", Dimension.SPEED, (90, "kilometer/hour"), "meter/second"),
        ("40 kg", Dimension.MASS, (40, "kilogram"), "kilogram"),
        ("88 lb", Dimension.MASS, (88, "pound"), "kilogram"),
        ("3.3 US gal", Dimension.VOLUME, (3.3, "gallon"), "meter**3"),
        ("540 sq in", Dimension.AREA, (540, "inch**2"), "millimeter**2"),
        ("0.35 m²", Dimension.AREA, (0.35, "meter**2"), "millimeter**2"),
        ("5000 ft", Dimension.ALTITUDE, (5000, "foot"), "meter"),
        ("13.5 V", Dimension.VOLTAGE, (13.5, "volt"), "volt"),
        ("20 A", Dimension.CURRENT, (20, "ampere"), "ampere"),
        ("0.5 rad", Dimension.ANGLE, (0.5, "radian"), "degree"),
    ],
)
def test_other_quantities_come_out_as_in_pint(text, dimension, in_pint, kept_in):
    expected = JUDGE.Quantity(*in_pint).to(kept_in).magnitude
    assert parse_quantity(text, dimension, dimension.internal_unit) == pytest.approx(expected, rel=1e-12)


@given(
    number=st.decimals(min_value=-(10**6), max_value=10**6, places=4),
    unit=st.sampled_from(
        [
            (Dimension.LENGTH, "in", "inch", "millimeter"),
            (Dimension.AREA, "ft²", "foot**2", "millimeter**2"),
            (Dimension.VOLUME, "qt", "quart", "meter**3"),
            (Dimension.POWER, "BTU/min", "british_thermal_unit/minute", "watt"),
            (Dimension.PRESSURE, "psi", "psi", "pascal"),
            (Dimension.PRESSURE, "mbar", "millibar", "pascal"),
            (Dimension.COOLANT_FLOW, "gpm", "gallon/minute", "meter**3/second"),
            (Dimension.MASS_FLOW, "lb/h", "pound/hour", "kilogram/second"),
            (Dimension.SPEED, "mph", "mile/hour", "meter/second"),
            (Dimension.MASS, "oz", "ounce", "kilogram"),
        ]
    ),
)
@settings(deadline=None)
def test_any_decimal_in_any_unit_comes_out_as_in_pint(number, unit):
    dimension, spelling, in_pint, kept_in = unit
    expected = JUDGE.Quantity(float(number), in_pint).to(kept_in).magnitude
    found = parse_quantity(f"{number:f} {spelling}", dimension, dimension.internal_unit)
    assert math.isclose(found, expected, rel_tol=1e-12, abs_tol=1e-15)


@given(st.integers(-1000, 1000), st.integers(0, 63))
def test_every_sixty_fourth_of_an_inch_is_the_nearest_float_to_the_exact_length(whole, sixty_fourths):
    magnitude = (abs(whole) + Fraction(sixty_fourths, 64)) * Fraction("25.4")
    text = f"{whole} {sixty_fourths}/64 in"
    assert parse_quantity(text, Dimension.LENGTH, "mm") == float(-magnitude if whole < 0 else magnitude)


def test_a_share_is_taken_with_its_sign_or_as_a_part_of_one():
    assert parse_quantity("60 %", Dimension.FRACTION, "%") == 0.6
    assert parse_quantity("60%", Dimension.FRACTION, "") == 0.6
    assert parse_quantity("60", Dimension.FRACTION, "%") == 0.6
    assert parse_quantity("0.6", Dimension.FRACTION, "") == 0.6
    assert parse_quantity("0.6 %", Dimension.FRACTION, "%") == 0.006
    assert parse_quantity("110 %", Dimension.FRACTION, "%") == 1.1
    assert parse_quantity("0", Dimension.FRACTION, "%") == 0.0
    assert parse_quantity("1", Dimension.FRACTION, "") == 1.0


def test_a_plain_number_needs_no_unit():
    assert parse_quantity("14", Dimension.COUNT, "") == 14.0
    assert parse_quantity("-0.1", Dimension.COUNT, "") == -0.1


def test_absolute_zero_itself_is_a_temperature():
    assert parse_quantity("0 K", Dimension.TEMPERATURE, "°C") == -273.15


# What pint itself makes of these texts without a word, as measured before: 0.625 in, 4.875, 3.0, 265 mm, 1.
@pytest.mark.parametrize(
    ("text", "length_mm"),
    [("1 5/8 in", 41.275), ('26 3/16"', 665.1625), ("2' 3 1/2\"", 698.5), ("26,5 mm", None), ("", None)],
)
def test_no_trap_of_a_general_unit_parser_comes_through(text, length_mm):
    if length_mm is None:
        with pytest.raises(QuantityError):
            parse_quantity(text, Dimension.LENGTH, "in")
    else:
        assert parse_quantity(text, Dimension.LENGTH, "in") == length_mm


def test_a_wrong_default_unit_is_a_mistake_in_the_program_and_no_refusal():
    with pytest.raises(ValueError, match="is no unit for a length") as raised:
        parse_quantity("5", Dimension.LENGTH, "kW")
    assert not isinstance(raised.value, QuantityError)
