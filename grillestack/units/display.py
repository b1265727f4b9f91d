"""In which unit and how finely is each dimension shown."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from grillestack.units.quantity import Dimension


class DecimalMark(Enum):
    """What stands between the whole and the rest of a number."""

    POINT = "."
    COMMA = ","


class UnitSystem(Enum):
    """How figures are written: in which units, and with which decimal mark.

    Files, the terminal and drawing sheets keep to the point; only what is read on the screen may have the comma.
    """

    METRIC = "metric"
    INCH = "inch"
    METRIC_COMMA = "metric, decimal comma"
    INCH_COMMA = "inch, decimal comma"

    @property
    def base(self) -> "UnitSystem":
        """Return the same units with the decimal point."""
        return UnitSystem.INCH if self in (UnitSystem.INCH, UnitSystem.INCH_COMMA) else UnitSystem.METRIC

    @property
    def mark(self) -> DecimalMark:
        """Return the decimal mark."""
        comma = self in (UnitSystem.METRIC_COMMA, UnitSystem.INCH_COMMA)
        return DecimalMark.COMMA if comma else DecimalMark.POINT

    def with_mark(self, mark: DecimalMark) -> "UnitSystem":
        """Return the same units with that decimal mark."""
        if mark is DecimalMark.POINT:
            return self.base
        return UnitSystem.INCH_COMMA if self.base is UnitSystem.INCH else UnitSystem.METRIC_COMMA


class InchStyle(Enum):
    """How lengths in inches are written."""

    FRACTIONS = "fractions"
    DECIMALS = "decimals"


@dataclass(frozen=True, slots=True)
class Display:
    """Unit, decimals where a value is shown and where it is edited; whether noughts at the end stay when shown.

    A value that would have fewer than two figures is given up to two decimals more, unless its nought is arbitrary
    as that of °C is.
    """

    unit: str
    decimals: int
    field_decimals: int
    keeps_noughts: bool = False
    widens_when_small: bool = True


_DISPLAYS: Mapping[Dimension, tuple[Display, Display]] = {
    Dimension.LENGTH: (Display("mm", 1, 2), Display("in", 3, 3)),
    Dimension.ALTITUDE: (Display("m", 0, 0, widens_when_small=False), Display("ft", 0, 0, widens_when_small=False)),
    Dimension.AREA: (Display("cm²", 0, 1), Display("in²", 0, 1)),
    Dimension.VOLUME: (Display("L", 1, 2), Display("US gal", 1, 2)),
    Dimension.MASS: (Display("kg", 1, 2), Display("lb", 1, 2)),
    Dimension.ANGLE: (Display("deg", 1, 2), Display("deg", 1, 2)),
    Dimension.TEMPERATURE: (
        Display("°C", 0, 1, widens_when_small=False),
        Display("°F", 0, 1, widens_when_small=False),
    ),
    Dimension.TEMPERATURE_DIFFERENCE: (Display("K", 1, 2, keeps_noughts=True), Display("°F", 1, 2, keeps_noughts=True)),
    Dimension.POWER: (Display("kW", 1, 3, keeps_noughts=True), Display("BTU/min", 0, 1)),
    Dimension.PRESSURE: (Display("kPa", 1, 2), Display("psi", 1, 2)),
    Dimension.AIR_PRESSURE: (Display("Pa", 0, 1), Display("inH2O", 2, 3, keeps_noughts=True)),
    Dimension.COOLANT_FLOW: (Display("L/min", 0, 1), Display("US gal/min", 1, 2)),
    Dimension.AIR_FLOW: (Display("m³/s", 2, 3, keeps_noughts=True), Display("cfm", 0, 1)),
    Dimension.MASS_FLOW: (Display("kg/s", 3, 4, keeps_noughts=True), Display("lb/min", 1, 2, keeps_noughts=True)),
    Dimension.SPEED: (Display("km/h", 0, 1), Display("mph", 0, 1)),
    Dimension.FLOW_SPEED: (Display("m/s", 1, 2, keeps_noughts=True), Display("ft/s", 1, 2, keeps_noughts=True)),
    Dimension.VOLTAGE: (Display("V", 1, 2), Display("V", 1, 2)),
    Dimension.CURRENT: (Display("A", 1, 2), Display("A", 1, 2)),
    Dimension.FRACTION: (Display("%", 0, 2), Display("%", 0, 2)),
    Dimension.COUNT: (Display("", 2, 4), Display("", 2, 4)),
}


def display_of(dimension: Dimension, system: UnitSystem) -> Display:
    """How a dimension is shown in a system of units."""
    metric, inch = _DISPLAYS[dimension]
    return inch if system.base is UnitSystem.INCH else metric
