"""What share of an opening do bars or a mesh leave open, from what a tape says: width and pitch."""

from __future__ import annotations

import enum


class Screen(enum.Enum):
    """What crosses the opening."""

    BARS = "bars one way"
    MESH = "square mesh"


def free_area_frac(screen: Screen, bar_mm: float, pitch_mm: float) -> float:
    """Return the share that stays open.

    Parameters
    ----------
    screen
        Bars that all run one way, or a mesh of equal wires both ways.
    bar_mm
        Width of a bar or wire as seen from ahead [mm].
    pitch_mm
        From the middle of one to the middle of the next [mm].

    Notes
    -----
    Bars: (pitch − bar) / pitch. Square mesh: ((pitch − wire) / pitch)².

    Raises
    ------
    ValueError
        If nothing stays open or nothing crosses; the message is for the person at the field.
    """
    if bar_mm <= 0:
        raise ValueError(
            "The width of a bar must be above 0: measure it as seen from ahead, or leave it out without bars."
        )
    if pitch_mm <= bar_mm:
        raise ValueError(
            "The pitch must be above the width of a bar: measure from the middle of one bar to that of the next."
        )
    share = (pitch_mm - bar_mm) / pitch_mm
    return share if screen is Screen.BARS else share**2
