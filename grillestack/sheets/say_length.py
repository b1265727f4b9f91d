"""How a length, a hole and an angle are written on a sheet."""

from __future__ import annotations

from fractions import Fraction

from grillestack.model.sheet_choices import DrawingUnits

_INCH_MM = 25.4
_SIXTEENTHS = 16
# Two sizes that are written alike are one.
SAME_MM = 0.05


def said_length(length_mm: float, units: DrawingUnits) -> str:
    """Return a length as a dimension says it, without its unit: millimetres to 0.1, inches to 1/16 or to 0.001.

    Where both are asked for, inches stand in brackets behind the millimetres.
    """
    if units is DrawingUnits.MILLIMETRES:
        return _millimetres(length_mm)
    if units is DrawingUnits.INCH_FRACTIONS:
        return _fractions(length_mm)
    if units is DrawingUnits.INCH_DECIMALS:
        return _decimals(length_mm)
    return f"{_millimetres(length_mm)} [{_fractions(length_mm)}]"


def said_hole(diameter_mm: float, units: DrawingUnits) -> str:
    """Return the diameter of a hole or a tube with its sign."""
    return f"Ø{said_length(diameter_mm, units)}"


def said_angle(angle_deg: float) -> str:
    """Return an angle to 0.1°, without noughts behind the point."""
    return f"{_trimmed(angle_deg, 1)}°"


def units_note(units: DrawingUnits) -> str:
    """Return the sentence that says in what the sheet is dimensioned."""
    return {
        DrawingUnits.MILLIMETRES: "All sizes in mm.",
        DrawingUnits.INCH_FRACTIONS: "All sizes in inches, rounded to 1/16 in.",
        DrawingUnits.INCH_DECIMALS: "All sizes in inches.",
        DrawingUnits.BOTH: "All sizes in mm; in brackets inches, rounded to 1/16 in.",
    }[units]


def _millimetres(length_mm: float) -> str:
    return _trimmed(length_mm, 1)


def _decimals(length_mm: float) -> str:
    return _trimmed(length_mm / _INCH_MM, 3)


def _fractions(length_mm: float) -> str:
    # A rule at the bench has sixteenths below a quarter inch too, where the screen goes over to decimals.
    sixteenths = round(abs(length_mm) / _INCH_MM * _SIXTEENTHS)
    whole, over = divmod(Fraction(sixteenths, _SIXTEENTHS), 1)
    words = [str(whole)] if whole or not over else []
    if over:
        words.append(f"{over.numerator}/{over.denominator}")
    return ("−" if length_mm < 0 and sixteenths else "") + " ".join(words)


def _trimmed(number: float, decimals: int) -> str:
    said = f"{number:.{decimals}f}"
    if "." in said:
        said = said.rstrip("0").rstrip(".")
    # A true minus sign is as wide as a figure and is not taken for a hyphen.
    return "0" if said in ("-0", "") else said.replace("-", "−")
