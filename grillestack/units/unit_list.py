"""Which units are there, how is each spelled, and what is it worth.

Factors of the units that are shown stand here exactly, so that start, lengths and everything shown need no pint;
the others are looked up by their name in pint.

Choices of the list, where the trade has more than one meaning:

- BTU is the international table BTU, taken as 1055.056 J (its rounding in ISO 31-4; the exact value is
  1055.05585262 J, 0.14 parts in a million less).
- hp is 550 ft lbf/s; PS and metric hp are 75 kgf m/s. kcal is 4184 J.
- gal and gpm are the US gallon; the other one must be spelled out (imp gal).
- inH2O is water at 4 °C (999.972 kg/m³, 249.082 Pa); mmH2O is the conventional 9.80665 Pa.
- A temperature unit in a field for a difference is a difference: 18 °F there is 10 K.
"""

from dataclasses import dataclass
from fractions import Fraction

from grillestack.units.quantity import Kind


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: kind, spellings (the first is ours), its name in pint, exact factor if we hold it ourselves."""

    kind: Kind
    spellings: tuple[str, ...]
    pint_name: str
    exact: Fraction | None = None
    offset: Fraction = Fraction(0)


def _unit(
    kind: Kind, spellings: str, pint_name: str, exact: Fraction | str | None = None, offset: Fraction = Fraction(0)
) -> Unit:
    factor = None if exact is None else Fraction(exact)
    return Unit(kind, tuple(name.strip() for name in spellings.split(",")), pint_name, factor, offset)


_IN_M = Fraction("0.0254")
_FT_M = 12 * _IN_M
_LB_KG = Fraction("0.45359237")
_G_M_S2 = Fraction("9.80665")

# Factors lead to mm, mm2, m3, s, kg, J, W, Pa, degC, K, deg, V, A; a speed to m/s, flows to m3/s and kg/s.
UNITS: tuple[Unit, ...] = (
    _unit(Kind.LENGTH, "mm, millimetre, millimetres, millimeter, millimeters", "millimeter", "1"),
    _unit(Kind.LENGTH, "cm, centimetre, centimetres, centimeter, centimeters", "centimeter", "10"),
    _unit(Kind.LENGTH, "m, metre, metres, meter, meters", "meter", "1000"),
    _unit(Kind.LENGTH, "km, kilometre, kilometres, kilometer, kilometers", "kilometer", "1000000"),
    _unit(Kind.LENGTH, "um, micron, microns", "micrometer", "0.001"),
    _unit(Kind.LENGTH, 'in, ", inch, inches', "inch", "25.4"),
    _unit(Kind.LENGTH, "ft, ', foot, feet", "foot", "304.8"),
    _unit(Kind.LENGTH, "yd, yard, yards", "yard", "914.4"),
    _unit(Kind.LENGTH, "mi, mile, miles", "mile", 5280 * _FT_M * 1000),
    _unit(Kind.LENGTH, "thou", "thou", "0.0254"),
    _unit(Kind.AREA, "mm2, sq mm, square millimetre, square millimetres", "millimeter**2", "1"),
    _unit(Kind.AREA, "cm2, sq cm, square centimetre, square centimetres", "centimeter**2", "100"),
    _unit(Kind.AREA, "dm2, sq dm, square decimetre, square decimetres", "decimeter**2", "10000"),
    _unit(Kind.AREA, "m2, sq m, square metre, square metres, square meter, square meters", "meter**2", "1000000"),
    _unit(Kind.AREA, "in2, sq in, sqin, square inch, square inches", "inch**2", "645.16"),
    _unit(Kind.AREA, "ft2, sq ft, sqft, square foot, square feet", "foot**2", "92903.04"),
    _unit(Kind.VOLUME, "m3, cu m, cubic metre, cubic metres, cubic meter, cubic meters", "meter**3", "1"),
    _unit(Kind.VOLUME, "L, litre, litres, liter, liters, ltr, dm3", "liter", "0.001"),
    _unit(Kind.VOLUME, "mL, millilitre, millilitres, milliliter, milliliters, cc, ccm, cm3", "milliliter"),
    _unit(Kind.VOLUME, "mm3", "millimeter**3"),
    _unit(Kind.VOLUME, "in3, cu in, cuin, cubic inch, cubic inches", "inch**3"),
    _unit(Kind.VOLUME, "ft3, cu ft, cuft, cubic foot, cubic feet", "foot**3", _FT_M**3),
    _unit(Kind.VOLUME, "US gal, US gals, US gallon, US gallons, gal, gals, gallon, gallons", "gallon", 231 * _IN_M**3),
    _unit(
        Kind.VOLUME, "imp gal, imp gallon, imp gallons, imperial gallon, imperial gallons, UK gal", "imperial_gallon"
    ),
    _unit(Kind.VOLUME, "qt, US qt, quart, quarts, US quart, US quarts", "quart"),
    _unit(Kind.TIME, "s, sec, secs, second, seconds", "second", "1"),
    _unit(Kind.TIME, "min, mins, minute, minutes", "minute", "60"),
    _unit(Kind.TIME, "h, hr, hrs, hour, hours", "hour", "3600"),
    _unit(Kind.MASS, "kg, kgs, kilogram, kilograms", "kilogram", "1"),
    _unit(Kind.MASS, "g, gram, grams", "gram"),
    _unit(Kind.MASS, "t, tonne, tonnes", "metric_ton"),
    _unit(Kind.MASS, "lb, lbs, lbm, pound, pounds", "pound", _LB_KG),
    _unit(Kind.MASS, "oz, ounce, ounces", "ounce"),
    _unit(Kind.ENERGY, "J, joule, joules", "joule", "1"),
    _unit(Kind.ENERGY, "kJ", "kilojoule"),
    _unit(Kind.ENERGY, "MJ", "megajoule"),
    _unit(Kind.ENERGY, "kWh", "kilowatt_hour"),
    _unit(Kind.ENERGY, "BTU, BTUs", "british_thermal_unit", "1055.056"),
    _unit(Kind.ENERGY, "kBTU", "kilobritish_thermal_unit"),
    _unit(Kind.ENERGY, "kcal", "kilocalorie"),
    _unit(Kind.ENERGY, "ft lbf, ft-lbf, ft lb, ft-lb", "foot * force_pound"),
    _unit(Kind.POWER, "W, watt, watts", "watt", "1"),
    _unit(Kind.POWER, "kW, kilowatt, kilowatts", "kilowatt", "1000"),
    _unit(Kind.POWER, "MW, megawatt, megawatts", "megawatt"),
    _unit(Kind.POWER, "mW, milliwatt, milliwatts", "milliwatt"),
    _unit(Kind.POWER, "hp, bhp, horsepower", "horsepower"),
    _unit(Kind.POWER, "PS, metric hp, metric horsepower", "metric_horsepower"),
    _unit(Kind.PRESSURE, "Pa, pascal, pascals, N/m2", "pascal", "1"),
    _unit(Kind.PRESSURE, "hPa, hectopascal, hectopascals", "hectopascal"),
    _unit(Kind.PRESSURE, "kPa, kilopascal, kilopascals", "kilopascal", "1000"),
    _unit(Kind.PRESSURE, "MPa, megapascal, megapascals, N/mm2", "megapascal"),
    _unit(Kind.PRESSURE, "mPa, millipascal, millipascals", "millipascal"),
    _unit(Kind.PRESSURE, "bar, bars", "bar"),
    _unit(Kind.PRESSURE, "mbar, millibar, millibars", "millibar"),
    _unit(Kind.PRESSURE, "atm", "standard_atmosphere"),
    _unit(Kind.PRESSURE, "psi, lb/in2, lbf/in2, lb/sq in, lbf/sq in", "psi", _LB_KG * _G_M_S2 / _IN_M**2),
    _unit(Kind.PRESSURE, "kgf/cm2, kg/cm2", "force_kilogram / centimeter**2"),
    _unit(
        Kind.PRESSURE,
        "inH2O, in H2O, inches H2O, inches of water, inch of water, inWC, in WC, inWG, in WG, in W C, in W G",
        "inch * g_0 * (999.972 * kilogram / meter**3)",
        Fraction("999.972") * _G_M_S2 * _IN_M,
    ),
    _unit(Kind.PRESSURE, "mmH2O, mm H2O, mmWC, mm WC, mmWG, mm WG", "0.1 * centimeter_H2O"),
    _unit(Kind.PRESSURE, "inHg, in Hg", "inHg"),
    _unit(Kind.PRESSURE, "mmHg, mm Hg", "mmHg"),
    _unit(Kind.SPEED, "kn, kt, kts, knot, knots", "knot"),
    _unit(Kind.TEMPERATURE, "°C, C, deg C, degC, degree C, degrees C, celsius, degrees celsius", "degree_Celsius", "1"),
    _unit(
        Kind.TEMPERATURE,
        "°F, F, deg F, degF, degree F, degrees F, fahrenheit, degrees fahrenheit",
        "degree_Fahrenheit",
        Fraction(5, 9),
        Fraction(-160, 9),
    ),
    _unit(Kind.TEMPERATURE, "K, kelvin, kelvins", "kelvin", "1", Fraction("-273.15")),
    _unit(Kind.TEMPERATURE_DIFFERENCE, "ΔK, Δ K, delta K, ΔC, Δ°C, Δ °C, delta C, delta °C", "delta_degree_Celsius"),
    _unit(Kind.TEMPERATURE_DIFFERENCE, "ΔF, Δ°F, Δ °F, delta F, delta °F", "delta_degree_Fahrenheit"),
    _unit(Kind.ANGLE, "deg, °, degree, degrees", "degree", "1"),
    _unit(Kind.ANGLE, "rad, radian, radians", "radian"),
    _unit(Kind.VOLTAGE, "V, volt, volts, VDC", "volt", "1"),
    _unit(Kind.CURRENT, "A, amp, amps, ampere, amperes", "ampere", "1"),
    _unit(Kind.SHARE, "%, percent, per cent, pct", "percent", "0.01"),
)
PLAIN_NUMBER = Unit(Kind.NUMBER, ("",), "dimensionless", Fraction(1))
