"""By which places is a selected outline held: its corners, the middles of its sides, and the round of one corner."""

from __future__ import annotations

import enum
import math
from dataclasses import dataclass

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.geometry.corners import arc_centre, corner_of, fitted_radii
from grillestack.model.nose import NoseThing
from grillestack.model.outline import Point
from grillestack.model.outline_edits import radii_of

# The one size that a coarse hand or a gloved finger needs larger: how far from a handle it still takes hold.
HANDLE_REACH_PX = 14.0
# The round handle of a sharp corner stands this far inside, so that it is off the corner's own.
_ROUND_AWAY_PX = 2.4 * HANDLE_REACH_PX
# Sides that look shorter than this have no middle handle: it would lie under those of their corners.
_LEAST_SIDE_PX = 3.0 * HANDLE_REACH_PX


class Held(enum.Enum):
    """Which kind of handle."""

    CORNER = "corner"
    SIDE = "side"
    ROUND = "round"


@dataclass(frozen=True, slots=True)
class OutlineHandle:
    """A handle of an outline: its kind and the number of the corner, or of the corner where the side begins."""

    held: Held
    place: int


def handles_of(thing: NoseThing, chosen: int | None, px_per_mm: float) -> dict[OutlineHandle, tuple[float, float]]:
    """Return all handles with their places (y, z) in mm; only the chosen corner has a round handle."""
    outline = thing.outline
    found = {OutlineHandle(Held.CORNER, n): (p.y_mm, p.z_mm) for n, p in enumerate(outline)}
    for place, (a, b) in enumerate(zip(outline, (*outline[1:], outline[0]), strict=True)):
        if math.hypot(b.y_mm - a.y_mm, b.z_mm - a.z_mm) * px_per_mm >= _LEAST_SIDE_PX:
            found[OutlineHandle(Held.SIDE, place)] = ((a.y_mm + b.y_mm) / 2, (a.z_mm + b.z_mm) / 2)
    if chosen is not None and chosen < len(outline) and corner_of(outline, chosen).can_be_round:
        at = round_handle_place(thing, chosen, px_per_mm)
        found[OutlineHandle(Held.ROUND, chosen)] = (at.y_mm, at.z_mm)
    return found


def handle_at(thing: NoseThing, chosen: int | None, at: Pointer) -> OutlineHandle | None:
    """Return the nearest handle within reach, corners before all others at the same distance."""
    best, nearest = None, HANDLE_REACH_PX / at.px_per_mm
    for handle, (y, z) in handles_of(thing, chosen, at.px_per_mm).items():
        away = math.hypot(at.across_mm - y, at.z_mm - z)
        if away < nearest:
            best, nearest = handle, away
    return best


def round_handle_place(thing: NoseThing, place: int, px_per_mm: float) -> Point:
    """Return where a corner's round handle stands: in the middle of its arc's circle, or a little inside a sharp corner."""
    corner = corner_of(thing.outline, place)
    centre = arc_centre(corner, fitted_radii(thing.outline, radii_of(thing))[place])
    away = math.hypot(centre.y_mm - corner.at.y_mm, centre.z_mm - corner.at.z_mm)
    least = _ROUND_AWAY_PX / px_per_mm
    if away >= least:
        return centre
    y, z = corner.inward_frac
    return Point(corner.at.y_mm + least * y, corner.at.z_mm + least * z)


def side_under(thing: NoseThing, at: Pointer) -> tuple[int, Point] | None:
    """Return the nearest side within reach and the place on it, or nothing."""
    outline, best, nearest = thing.outline, None, HANDLE_REACH_PX / at.px_per_mm
    for place, (a, b) in enumerate(zip(outline, (*outline[1:], outline[0]), strict=True)):
        dy, dz = b.y_mm - a.y_mm, b.z_mm - a.z_mm
        length2 = dy * dy + dz * dz
        if length2 == 0:
            continue
        share = min(1.0, max(0.0, ((at.across_mm - a.y_mm) * dy + (at.z_mm - a.z_mm) * dz) / length2))
        on = Point(a.y_mm + share * dy, a.z_mm + share * dz)
        away = math.hypot(at.across_mm - on.y_mm, at.z_mm - on.z_mm)
        if away < nearest:
            best, nearest = (place, on), away
    return best
