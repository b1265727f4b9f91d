"""Spellings of units: a closed list."""

import pytest

from grillestack.units.quantity import Kind
from grillestack.units.unit_list import UNITS
from grillestack.units.unit_names import refusal_of_doubtful_unit, spellings_by_capitals, tidy_unit, unit_named


def named(spelling):
    unit = unit_named(spelling)
    assert unit is not None, spelling
    return unit.kind, unit.over.spellings[0] + ("/" + unit.under.spellings[0] if unit.under else "")


@pytest.mark.parametrize(
    ("spelling", "kind", "meant"),
    [
        ("MM", Kind.LENGTH, "mm"),
        ("Inches", Kind.LENGTH, "in"),
        ("in.", Kind.LENGTH, "in"),
        ('"', Kind.LENGTH, "in"),
        ("'", Kind.LENGTH, "ft"),
        ("sq. in.", Kind.AREA, "in2"),
        ("sq.in.", Kind.AREA, "in2"),
        ("in^2", Kind.AREA, "in2"),
        ("m**2", Kind.AREA, "m2"),
        ("btu / min", Kind.POWER, "BTU/min"),
        ("BTU per minute", Kind.POWER, "BTU/min"),
        ("Btu/hr", Kind.POWER, "BTU/h"),
        ("kw", Kind.POWER, "kW"),
        ("KW", Kind.POWER, "kW"),
        ("MW", Kind.POWER, "MW"),
        ("mW", Kind.POWER, "mW"),
        ("ft lbf/s", Kind.POWER, "ft lbf/s"),
        ("HP", Kind.POWER, "hp"),
        ("ps", Kind.POWER, "PS"),
        ("PSI", Kind.PRESSURE, "psi"),
        ("lb/in2", Kind.PRESSURE, "psi"),
        ("in. w.g.", Kind.PRESSURE, "inH2O"),
        ("in.H2O", Kind.PRESSURE, "inH2O"),
        ("inches of water", Kind.PRESSURE, "inH2O"),
        ("MBAR", Kind.PRESSURE, "mbar"),
        ("gpm", Kind.VOLUME_FLOW, "US gal/min"),
        ("GPM", Kind.VOLUME_FLOW, "US gal/min"),
        ("gal/min", Kind.VOLUME_FLOW, "US gal/min"),
        ("imp gal/min", Kind.VOLUME_FLOW, "imp gal/min"),
        ("CFM", Kind.VOLUME_FLOW, "ft3/min"),
        ("l/s", Kind.VOLUME_FLOW, "L/s"),
        ("litres per minute", Kind.VOLUME_FLOW, "L/min"),
        ("m3/h", Kind.VOLUME_FLOW, "m3/h"),
        ("lb/min", Kind.MASS_FLOW, "lb/min"),
        ("Mph", Kind.SPEED, "mi/h"),
        ("km/h", Kind.SPEED, "km/h"),
        ("kph", Kind.SPEED, "km/h"),
        ("°c", Kind.TEMPERATURE, "°C"),
        ("F", Kind.TEMPERATURE, "°F"),
        ("Δ°F", Kind.TEMPERATURE_DIFFERENCE, "ΔF"),
        ("deg", Kind.ANGLE, "deg"),
        ("per cent", Kind.SHARE, "%"),
        ("", Kind.NUMBER, ""),
    ],
)
def test_a_usual_spelling_names_its_unit(spelling, kind, meant):
    assert named(spelling) == (kind, meant)


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.spellings[0])
def test_every_spelling_on_the_list_names_its_own_unit(unit):
    for spelling in unit.spellings:
        found = unit_named(spelling)
        assert found is not None, spelling
        assert found.over is unit


def test_no_spelling_stands_twice_on_the_list():
    spellings = [spelling for unit in UNITS for spelling in unit.spellings]
    assert len(spellings) == len(set(spellings))


@pytest.mark.parametrize(
    "spelling",
    ["mmm", "gal/m", "m.m", "k W", "mm/", "/min", "per min", "mm/mm", "min/gal", "kW/s", "L/min/min", "furlong", "."],
)
def test_what_is_not_on_the_list_is_no_unit(spelling):
    assert unit_named(spelling) is None


@pytest.mark.parametrize(
    ("spelling", "possible"),
    [("Mpa", {"MPa", "mPa"}), ("MPA", {"MPa", "mPa"}), ("Mw", {"MW", "mW"}), ("Mbar", {"mbar"}), ("Ml", {"mL"})],
)
def test_a_thousandth_is_not_taken_for_a_million(spelling, possible):
    assert unit_named(spelling) is None
    assert set(spellings_by_capitals(spelling)) == possible


@pytest.mark.parametrize("spelling", ["psig", "PSIA", "barg", "bara", "ton", "Tons", "MBTU/h", "MBH"])
def test_a_spelling_with_several_meanings_has_its_own_sentence(spelling):
    assert unit_named(spelling) is None
    sentence = refusal_of_doubtful_unit(spelling)
    assert sentence is not None
    assert f"“{spelling}”" in sentence


def test_a_known_spelling_is_not_doubtful():
    assert refusal_of_doubtful_unit("psi") is None


def test_gaps_and_full_stops_around_a_unit_mean_nothing():
    assert tidy_unit("  BTU  /  min. ") == "BTU/min"
