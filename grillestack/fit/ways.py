"""Which ways round a part may stand: quarter turns and flips, but no radiator with its vent below."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from grillestack.fit.slots import Kind
from grillestack.geometry.taken_space import Pose, port_direction, turned_point
from grillestack.model.parts import Part, PortPurpose

_HIGHEST: Final = (PortPurpose.VENT, PortPurpose.FILL)
_AS_LISTED: Final = Pose()


@dataclass(frozen=True, slots=True)
class Way:
    """One way round at one depth; `rank` is the place of that depth among those tried, best first."""

    pose: Pose
    x_mm: float
    rank: int


def poses_of(kind: Kind) -> tuple[Pose, ...]:
    """Return the ways round that a part of that kind may stand, the plainest first."""
    if kind is Kind.FAN:
        return (_AS_LISTED,)
    if kind is Kind.SHROUD:
        return (_AS_LISTED, Pose(1, flipped=False))
    return tuple(Pose(turns, flipped) for turns in (0, 2, 1, 3) for flipped in (False, True))


def stays_ventable(part: Part, pose: Pose) -> bool:
    """Return whether vent and filler still point up, or stand in the upper half and do not point down, in that pose."""
    for port in part.ports:
        if port.purpose in _HIGHEST:
            up = port_direction(port, pose)[2]
            height = turned_point((port.u_mm, port.v_mm), pose)[1]
            if up < -1e-9 or height < 0.0:
                return False
            if port.facing.value in ("up", "down") and up < 1e-9:
                return False
    return True


def pose_words(pose: Pose) -> str:
    """Return a way round in words."""
    turns = ("", "a quarter clockwise", "upside down", "a quarter anticlockwise")[pose.quarter_turns]
    if pose.flipped:
        return f"front to back, {turns}" if turns else "front to back"
    return turns or "as listed"
