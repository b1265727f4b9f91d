"""Values on the screen and in fields."""

import math
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from grillestack.units.display import InchStyle, display_of
from grillestack.units.factors import internal_factor
from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import Dimension
from grillestack.units.show import UnitSystem, display_unit, show_bare, show_quantity

METRIC, INCH = UnitSystem.METRIC, UnitSystem.INCH


# Hand sums from the factors of NIST SP 811 beside each line where the unit changes.
@pytest.mark.parametrize(
    ("value", "dimension", "metric", "inch"),
    [
        (665.0, Dimension.LENGTH, "665 mm", "26 3/16 in"),  # 665/25.4 = 26.181 = 26 + 2.90/16
        (665.1625, Dimension.LENGTH, "665.2 mm", "26 3/16 in"),
        (-665.0, Dimension.LENGTH, "-665 mm", "-26 3/16 in"),
        (0.0, Dimension.LENGTH, "0 mm", "0 in"),
        (-0.0, Dimension.LENGTH, "0 mm", "0 in"),
        (-0.0001, Dimension.LENGTH, "0 mm", "0 in"),
        (3.175, Dimension.LENGTH, "3.2 mm", "1/8 in"),
        (0.1, Dimension.LENGTH, "0.1 mm", "0.0039 in"),  # 0.1/25.4 = 0.003937
        (1500.0, Dimension.ALTITUDE, "1500 m", "4921 ft"),  # /0.3048 = 4921.3
        (350_000.0, Dimension.AREA, "3500 cm²", "543 in²"),  # /645.16 = 542.5
        (0.0125, Dimension.VOLUME, "12.5 L", "3.3 US gal"),  # /0.003785412 = 3.302
        (40.0, Dimension.MASS, "40 kg", "88.2 lb"),  # /0.4535924 = 88.18
        (15.0, Dimension.ANGLE, "15 deg", "15 deg"),
        (107.2, Dimension.TEMPERATURE, "107 °C", "225 °F"),  # 107.2 × 1.8 + 32 = 224.96
        (-40.0, Dimension.TEMPERATURE, "-40 °C", "-40 °F"),
        (10.0, Dimension.TEMPERATURE_DIFFERENCE, "10.0 K", "18.0 °F"),
        (54_000.0, Dimension.POWER, "54.0 kW", "3071 BTU/min"),  # 54000 × 60/1055.056 = 3070.9
        (3200 * 1055.056 / 60, Dimension.POWER, "56.3 kW", "3200 BTU/min"),
        (180.0, Dimension.POWER, "0.18 kW", "10 BTU/min"),  # 180 × 60/1055.056 = 10.24
        (240_000.0, Dimension.PRESSURE, "240 kPa", "34.8 psi"),  # /6894.757 = 34.81
        (100.0, Dimension.AIR_PRESSURE, "100 Pa", "0.40 inH2O"),  # /249.082 = 0.4015
        (0.0056, Dimension.COOLANT_FLOW, "336 L/min", "88.8 US gal/min"),  # × 60/0.003785412 = 88.76
        (0.95, Dimension.AIR_FLOW, "0.95 m³/s", "2013 cfm"),  # /4.719474e-4 = 2012.9
        (0.2, Dimension.MASS_FLOW, "0.200 kg/s", "26.5 lb/min"),  # × 60/0.4535924 = 26.46
        (25.0, Dimension.SPEED, "90 km/h", "56 mph"),  # × 3600/1609.344 = 55.92
        (2.5, Dimension.FLOW_SPEED, "2.5 m/s", "8.2 ft/s"),  # /0.3048 = 8.202
        (13.5, Dimension.VOLTAGE, "13.5 V", "13.5 V"),
        (20.0, Dimension.CURRENT, "20 A", "20 A"),
        (0.6, Dimension.FRACTION, "60 %", "60 %"),
        (0.006, Dimension.FRACTION, "0.6 %", "0.6 %"),
        (14.0, Dimension.COUNT, "14", "14"),
        (2.6, Dimension.COUNT, "2.6", "2.6"),
    ],
)
def test_a_value_is_shown_in_the_unit_of_the_trade(value, dimension, metric, inch):
    assert show_quantity(value, dimension, METRIC) == metric
    assert show_quantity(value, dimension, INCH) == inch


@pytest.mark.parametrize("system", [METRIC, INCH])
@pytest.mark.parametrize("dimension", Dimension)
def test_what_nobody_knows_is_shown_as_not_known_and_edited_as_an_empty_field(dimension, system):
    assert show_quantity(None, dimension, system) == "not known"
    assert show_bare(None, dimension, system) == ""


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_a_value_that_is_no_number_is_never_written_as_one(value):
    with pytest.raises(ValueError, match="no value to show for a power"):
        show_quantity(value, Dimension.POWER, METRIC)
    with pytest.raises(ValueError, match="no value to show for a power"):
        show_bare(value, Dimension.POWER, INCH)


def test_inches_can_be_asked_for_in_decimals():
    assert show_quantity(665.0, Dimension.LENGTH, INCH, InchStyle.DECIMALS) == "26.181 in"
    assert show_bare(665.0, Dimension.LENGTH, INCH, InchStyle.DECIMALS) == "26.181"
    assert show_quantity(665.0, Dimension.LENGTH, METRIC, InchStyle.DECIMALS) == "665 mm"


def test_a_length_typed_in_32nds_stays_in_32nds():
    typed_mm = parse_quantity("26 5/32", Dimension.LENGTH, "in")
    assert show_bare(typed_mm, Dimension.LENGTH, INCH) == "26 5/32"


@pytest.mark.parametrize("text", ["82.5", "-12.5", "0", "99"])
def test_a_field_keeps_the_half_degree_that_was_typed(text):
    typed_degc = parse_quantity(text, Dimension.TEMPERATURE, "°C")
    assert show_bare(typed_degc, Dimension.TEMPERATURE, METRIC) == text


@pytest.mark.parametrize(
    ("text", "dimension", "system"),
    [
        ("665.25", Dimension.LENGTH, METRIC),
        ("26 3/16", Dimension.LENGTH, INCH),
        ("54.125", Dimension.POWER, METRIC),
        ("3200.5", Dimension.POWER, INCH),
        ("100.5", Dimension.PRESSURE, METRIC),
        ("0.125", Dimension.AIR_PRESSURE, INCH),
        ("0.955", Dimension.AIR_FLOW, METRIC),
        ("0.2125", Dimension.MASS_FLOW, METRIC),
        ("90.25", Dimension.COOLANT_FLOW, INCH),
        ("0.0035", Dimension.COUNT, METRIC),
    ],
)
def test_a_field_keeps_the_digits_that_were_typed(text, dimension, system):
    typed = parse_quantity(text, dimension, display_unit(dimension, system))
    assert show_bare(typed, dimension, system) == text


@pytest.mark.parametrize("text", ["62.5", "60", "100", "0", "0.6 %", "1 %"])
def test_a_field_keeps_the_share_that_was_typed(text):
    typed = parse_quantity(text, Dimension.FRACTION, "%")
    assert show_bare(typed, Dimension.FRACTION, METRIC) == text


@pytest.mark.parametrize("system", [METRIC, INCH])
@pytest.mark.parametrize("dimension", Dimension)
def test_the_unit_beside_a_field_is_taken_as_its_default_unit(dimension, system):
    unit = display_unit(dimension, system)
    with_unit = parse_quantity(f"42 {unit}", dimension, dimension.internal_unit)
    assert parse_quantity("42", dimension, unit) == with_unit
    assert show_quantity(with_unit, dimension, system).endswith(unit)


def in_shown_unit(value, dimension, system):
    factor, offset = internal_factor(display_unit(dimension, system), dimension)
    return (Fraction(value) - offset) / factor


VALUES = st.floats(-200.0, 1e6).map(lambda value: value + 0.0)


@given(VALUES, st.sampled_from(Dimension), st.sampled_from([METRIC, INCH]), st.sampled_from(InchStyle))
@example(6.3475, Dimension.LENGTH, INCH, InchStyle.FRACTIONS)
@example(-6.36, Dimension.LENGTH, INCH, InchStyle.FRACTIONS)
@example(0.01004, Dimension.FRACTION, METRIC, InchStyle.FRACTIONS)
@example(0.01006, Dimension.FRACTION, METRIC, InchStyle.FRACTIONS)
@example(-1e-9, Dimension.POWER, METRIC, InchStyle.FRACTIONS)
def test_a_bare_text_typed_back_gives_the_value_to_half_its_last_digit(value, dimension, system, inches):
    text = show_bare(value, dimension, system, inches)
    back = parse_quantity(text, dimension, display_unit(dimension, system))
    half_a_digit = Fraction(1, 2 * 10 ** display_of(dimension, system).field_decimals)
    if display_unit(dimension, system) == "in" and inches is InchStyle.FRACTIONS:
        half_a_digit = Fraction(1, 32)
    off = abs(in_shown_unit(back, dimension, system) - in_shown_unit(value, dimension, system))
    assert off <= half_a_digit + Fraction(1, 10**9)
    assert not text.startswith("-0") or float(text.split()[0].split("/")[0]) != 0
    again = show_bare(back, dimension, system, inches)
    assert parse_quantity(again, dimension, display_unit(dimension, system)) == back


@given(VALUES, st.sampled_from(Dimension), st.sampled_from([METRIC, INCH]))
def test_a_shown_text_typed_into_the_other_system_means_the_same(value, dimension, system):
    text = show_quantity(value, dimension, system)
    for other in (METRIC, INCH):
        unit = display_unit(dimension, other)
        if dimension in (Dimension.COUNT, Dimension.FRACTION):
            unit = dimension.internal_unit
        back = parse_quantity(text, dimension, unit)
        assert show_quantity(back, dimension, system) == text or display_unit(dimension, system) == "in"
