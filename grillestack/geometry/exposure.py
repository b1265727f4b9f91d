"""Which part of which face sees what: every piece of a core has one state, and every zone says what the air met."""

from __future__ import annotations

import enum
from dataclasses import dataclass

OUTSIDE_OPENING = "outside the opening"


class FaceState(enum.Enum):
    """What keeps fresh air from a piece of a face; the first that holds, in this order from the last."""

    EXPOSED = "exposed"
    BEHIND = "behind"
    OFF_OPENING = "off-opening"
    BLOCKED = "blocked"


@dataclass(frozen=True, slots=True)
class CoreFace:
    """The true areas of one core's face; exposed, behind, blocked and off-opening add up to the core."""

    part_id: str
    core_mm2: float
    exposed_mm2: float
    behind_mm2: float
    blocked_mm2: float
    off_opening_mm2: float
    unshrouded_mm2: float
    unswept_mm2: float
