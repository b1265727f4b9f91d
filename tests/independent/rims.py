"""The way beside the fans' rings under a shroud, walked in small steps."""

from __future__ import annotations

import math

from grillestack.model.parts import Core, Fan, Shroud
from tests.independent.picture import Rectangle, circle, core_rectangle, shroud_rectangle, solid_rectangles

STEPS = 10_000


def passage_mm2(shroud: Shroud, fans: list[Fan], cores: list[Core]) -> float:
    """Return the sum over all rims of step × clear depth, where a step lies under the shroud and in no other ring.

    The depth runs along x: from the rear of what stands rearmost there of the cores placed ahead of the ring and their tanks
    (else from the shroud's front) to the ring's front or the shroud's rear, whichever comes first.
    """
    return sum(_rim_mm2(shroud, fan, [other for other in fans if other is not fan], cores) for fan in fans)


def _rim_mm2(shroud: Shroud, fan: Fan, others: list[Fan], cores: list[Core]) -> float:
    y0, z0, radius = circle(fan)
    total = 0.0
    for step in range(STEPS):
        angle = 2.0 * math.pi * (step + 0.5) / STEPS
        y, z = y0 + radius * math.cos(angle), z0 + radius * math.sin(angle)
        if not _within(shroud_rectangle(shroud), y, z) or any(_swept(other, y, z) for other in others):
            continue
        total += _depth_mm(shroud, fan, cores, y, z) * 2.0 * math.pi * radius / STEPS
    return total


def _depth_mm(shroud: Shroud, fan: Fan, cores: list[Core], y: float, z: float) -> float:
    ring = _plane(fan, z, 0.0)
    rears = []
    for core in cores:
        if core.placement.x_mm >= fan.placement.x_mm:
            continue
        spans = [(core_rectangle(core), core.depth_mm)]
        for rectangle, solid in zip(solid_rectangles(core), core.solids, strict=True):
            flipped = core.placement.flipped
            rear = core.depth_mm - solid.front_mm if flipped else solid.front_mm + solid.depth_mm
            spans.append((rectangle, rear))
        rears += [_plane(core, z, rear) for rectangle, rear in spans if _within(rectangle, y, z)]
    begins = max(rears) if rears else _plane(shroud, z, 0.0)
    return max(min(ring, _plane(shroud, z, shroud.depth_mm)) - begins, 0.0)


def _plane(part: Core | Fan | Shroud, z: float, behind_mm: float) -> float:
    """Return where along x a plane of the part that lies so far behind its front face meets this height."""
    at, tilt = part.placement, math.radians(part.placement.tilt_deg)
    return at.x_mm + behind_mm / math.cos(tilt) + (z - at.z_mm) * math.tan(tilt)


def _within(rectangle: Rectangle, y: float, z: float) -> bool:
    return rectangle[0] <= y <= rectangle[2] and rectangle[1] <= z <= rectangle[3]


def _swept(fan: Fan, y: float, z: float) -> bool:
    y0, z0, radius = circle(fan)
    return math.hypot(y - y0, z - z0) < radius
