"""How long sheet metal is before it is bent: bend allowance, setback and deduction by the neutral fibre."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """One way to bend: thickness, inside radius, where the fibre lies that keeps its length, and the angle of the bend.

    `neutral_frac` is measured from the inside as a share of the thickness (the K-factor of the trade); the angle is the one
    by which the sheet is turned, 90° for a square corner.
    """

    thickness_mm: float
    radius_mm: float
    neutral_frac: float
    angle_deg: float = 90.0

    @property
    def allowance_mm(self) -> float:
        """Return the length of the neutral fibre in the bend.

        BA = A · (R + K · T), A in radians.

        Valid for
            Bends whose neutral fibre is an arc about the centre of the inside radius.
        Source
            Common handbook formula, from memory.
        """
        return math.radians(self.angle_deg) * (self.radius_mm + self.neutral_frac * self.thickness_mm)

    @property
    def setback_mm(self) -> float:
        """Return the distance from where the bend begins to where the outer faces would meet.

        OSSB = (R + T) · tan(A / 2). Valid for bends below 180°; common handbook formula, from memory.
        """
        return (self.radius_mm + self.thickness_mm) * math.tan(math.radians(self.angle_deg) / 2)

    @property
    def deduction_mm(self) -> float:
        """Return by how much the blank is shorter than the sum of the outer lengths: BD = 2 · OSSB − BA."""
        return 2 * self.setback_mm - self.allowance_mm


def flat_length_mm(outer_mm: tuple[float, ...], bend: Bend) -> float:
    """Return the length of a strip before it is bent between outer lengths that follow each other."""
    return sum(outer_mm) - (len(outer_mm) - 1) * bend.deduction_mm
