"""Where the air of the openings reaches the pack: openings grown by the jet's spread, less what stands in the way."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass

from grillestack.geometry.outlines import Shape, outline_shape, resized, united, united_without
from grillestack.model.nose import Nose


@dataclass(frozen=True, slots=True, eq=False)
class OpeningReach:
    """One opening: its own area, and the outline of its air where it meets the pack."""

    opening_id: str
    x_mm: float
    own_area_mm2: float
    crosses_itself: bool
    reach: Shape


@dataclass(frozen=True, slots=True, eq=False)
class Shadow:
    """The part of the front view that an obstruction keeps from fresh air."""

    obstruction_id: str
    x_front_mm: float
    x_rear_mm: float
    crosses_itself: bool
    shape: Shape

    def falls_on(self, face_x_mm: float) -> bool:
        """Return whether the obstruction stands ahead of a face there, or begins ahead of it and reaches into it."""
        return self.x_rear_mm <= face_x_mm or self.x_front_mm < face_x_mm


@dataclass(frozen=True, slots=True, eq=False)
class Jet:
    """The air of all openings on the plane x = `plane_x_mm` of the foremost part's front face.

    `reach_cut` is the union of the openings' reaches that are no rectangles; `stream` is the union of all reaches less
    the shadows of what stands ahead of the pack.
    """

    plane_x_mm: float
    openings: tuple[OpeningReach, ...]
    shadows: tuple[Shadow, ...]
    reach_cut: Shape | None
    stream: Shape | None


@functools.lru_cache(maxsize=64)
def jet_of(nose: Nose, spread_deg: float, pack_front_mm: float) -> Jet:
    """Return the jet on the plane x = `pack_front_mm`.

    An opening grows by tan(spread) times its own distance to that plane, with mitred corners; none shrinks where the
    pack stands ahead of it. A shadow is the obstruction's outline shrunk by tan(spread) times the distance from the
    obstruction's rear to the plane: the air closes in behind it. What stands behind that plane keeps its whole outline
    and shades only the cores behind it (`Shadow.falls_on`); how the air closes in between the cores is left out.
    """
    spread = math.tan(math.radians(spread_deg))
    openings = tuple(
        _reach(o.id, o.x_mm, outline_shape(o.outline, o.corner_radii_mm), spread * max(0.0, pack_front_mm - o.x_mm))
        for o in nose.openings
    )
    shadows = []
    for obstruction in nose.obstructions:
        own = outline_shape(obstruction.outline, obstruction.corner_radii_mm)
        shape = resized(own, -spread * max(0.0, pack_front_mm - obstruction.x_rear_mm))
        shadows.append(Shadow(obstruction.id, obstruction.x_front_mm, obstruction.x_rear_mm, own.crosses_itself, shape))
    reaches = [opening.reach for opening in openings]
    cut = [reach for reach in reaches if reach.box is None]
    ahead = [shadow.shape for shadow in shadows if shadow.falls_on(pack_front_mm)]
    return Jet(
        plane_x_mm=pack_front_mm,
        openings=openings,
        shadows=tuple(shadows),
        reach_cut=united(cut) if cut else None,
        stream=united_without(reaches, ahead) if reaches else None,
    )


def _reach(opening_id: str, x_mm: float, own: Shape, growth_mm: float) -> OpeningReach:
    return OpeningReach(opening_id, x_mm, own.area_mm2, own.crosses_itself, resized(own, growth_mm))
