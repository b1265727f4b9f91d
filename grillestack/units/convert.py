"""Factors of the border between mm (model, geometry) and SI (physics), for a float or an array alike."""

import math
from typing import Protocol, Self, TypeVar


class Numeric(Protocol):
    """A float or an array of floats: anything that scales and shifts by a float and stays what it is."""

    def __mul__(self, other: float, /) -> Self: ...
    def __truediv__(self, other: float, /) -> Self: ...
    def __add__(self, other: float, /) -> Self: ...
    def __sub__(self, other: float, /) -> Self: ...


Value = TypeVar("Value", bound=Numeric)

MM_PER_M = 1e3
MM2_PER_M2 = 1e6
MM3_PER_M3 = 1e9
ZERO_DEGC_IN_K = 273.15

# Down by a division, not by a product with 0.001: 665 / 1000 is the float nearest to 0.665.


def m_from_mm(length_mm: Value) -> Value:
    """Length [m] of a length [mm]."""
    return length_mm / MM_PER_M


def mm_from_m(length_m: Value) -> Value:
    """Length [mm] of a length [m]."""
    return length_m * MM_PER_M


def m2_from_mm2(area_mm2: Value) -> Value:
    """Area [m²] of an area [mm²]."""
    return area_mm2 / MM2_PER_M2


def mm2_from_m2(area_m2: Value) -> Value:
    """Area [mm²] of an area [m²]."""
    return area_m2 * MM2_PER_M2


def m3_from_mm3(volume_mm3: Value) -> Value:
    """Volume [m³] of a volume [mm³]."""
    return volume_mm3 / MM3_PER_M3


def mm3_from_m3(volume_m3: Value) -> Value:
    """Volume [mm³] of a volume [m³]."""
    return volume_m3 * MM3_PER_M3


def k_from_degc(temperature_degc: Value) -> Value:
    """Absolute temperature [K] of a temperature [°C]; a difference in K is the same in both and needs no change."""
    return temperature_degc + ZERO_DEGC_IN_K


def degc_from_k(temperature_k: Value) -> Value:
    """Temperature [°C] of an absolute temperature [K]."""
    return temperature_k - ZERO_DEGC_IN_K


def rad_from_deg(angle_deg: Value) -> Value:
    """Angle [rad] of an angle [deg]."""
    return angle_deg * (math.pi / 180)


def deg_from_rad(angle_rad: Value) -> Value:
    """Angle [deg] of an angle [rad]."""
    return angle_rad * (180 / math.pi)
