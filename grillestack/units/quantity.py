"""Which kinds of quantity there are, in which unit each is kept, and how a refusal names it."""

from enum import Enum


class QuantityError(ValueError):
    """A typed text that cannot be taken; its message says to a fitter what is wrong and what to type."""


class CommaQuestionError(QuantityError):
    """A number with a comma whose meaning is asked about; `answers` are what may be meant, typed without doubt."""

    def __init__(self, sentence: str, answers: tuple[str, ...]) -> None:
        super().__init__(sentence)
        self.answers = answers


class Kind(Enum):
    """What a unit measures; the value is how a sentence names it."""

    LENGTH = "a length"
    AREA = "an area"
    VOLUME = "a volume"
    TIME = "a time"
    MASS = "a weight"
    ENERGY = "an amount of heat"
    POWER = "a power"
    PRESSURE = "a pressure"
    SPEED = "a speed"
    VOLUME_FLOW = "a volume flow"
    MASS_FLOW = "a mass flow"
    TEMPERATURE = "a temperature"
    TEMPERATURE_DIFFERENCE = "a temperature difference"
    ANGLE = "an angle"
    VOLTAGE = "a voltage"
    CURRENT = "a current"
    SHARE = "a share in percent"
    NUMBER = "a plain number"


class Dimension(Enum):
    """What a field holds: the kinds of unit it takes, the unit its value is kept in, words and an example.

    Several dimensions may measure the same thing in the same internal unit and differ only in the units the trade
    shows them in: coolant flow and air flow, pressure and air pressure, road speed and speed of a flow.
    """

    LENGTH = ("a length", "mm", "26 3/16 in or 665 mm", Kind.LENGTH)
    ALTITUDE = ("a height above sea level", "m", "1500 m or 5000 ft", Kind.LENGTH)
    AREA = ("an area", "mm2", "3500 cm² or 540 in²", Kind.AREA)
    VOLUME = ("a volume", "m3", "12.5 L or 3.3 US gal", Kind.VOLUME)
    MASS = ("a weight", "kg", "40 kg or 88 lb", Kind.MASS)
    ANGLE = ("an angle", "deg", "15 deg", Kind.ANGLE)
    TEMPERATURE = ("a temperature", "degC", "99 °C or 210 °F", Kind.TEMPERATURE)
    TEMPERATURE_DIFFERENCE = (
        "a temperature difference",
        "K",
        "10 K or 18 °F",
        Kind.TEMPERATURE_DIFFERENCE,
        Kind.TEMPERATURE,
    )
    POWER = ("a power", "W", "54 kW or 3200 BTU/min", Kind.POWER)
    PRESSURE = ("a pressure", "Pa", "240 kPa or 35 psi", Kind.PRESSURE)
    AIR_PRESSURE = ("an air pressure", "Pa", "100 Pa or 0.4 inH2O", Kind.PRESSURE)
    COOLANT_FLOW = ("a flow of coolant or oil", "m3/s", "340 L/min or 90 US gal/min", Kind.VOLUME_FLOW)
    AIR_FLOW = ("an air flow", "m3/s", "0.95 m³/s or 2000 cfm", Kind.VOLUME_FLOW)
    MASS_FLOW = ("a mass flow", "kg/s", "0.2 kg/s or 26 lb/min", Kind.MASS_FLOW)
    SPEED = ("a road speed", "m/s", "90 km/h or 55 mph", Kind.SPEED)
    FLOW_SPEED = ("a speed of air or coolant", "m/s", "2.5 m/s or 8 ft/s", Kind.SPEED)
    VOLTAGE = ("a voltage", "V", "13.5 V", Kind.VOLTAGE)
    CURRENT = ("a current", "A", "20 A", Kind.CURRENT)
    FRACTION = ("a share", "", "60 %", Kind.SHARE, Kind.NUMBER)
    COUNT = ("a plain number", "", "14", Kind.NUMBER)

    def __init__(self, words: str, internal_unit: str, example: str, *kinds: Kind) -> None:
        self.words = words
        self.internal_unit = internal_unit
        self.example = example
        self.kinds = kinds
