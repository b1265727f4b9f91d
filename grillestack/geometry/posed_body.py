"""How does a part look to what surrounds it, one way round: its pieces, the boxes round them, how it grows when hot."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass

from grillestack.geometry.projection import Box
from grillestack.geometry.taken_space import BODIES, Piece, Pose, posed_pieces, turned_point
from grillestack.model.outline import Rect
from grillestack.model.parts import Core, CoreRole, Part, TubeDirection

_NO_GROWTH = Box(0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Body:
    """A part in one way round: its pieces, the box round core and tanks, its core, and how far each side may grow.

    All from the part's place, the centre of its front face.
    """

    pieces: tuple[Piece, ...]
    outline: Box
    core: Box | None
    growth: Box
    front_mm: float
    rear_mm: float

    @property
    def beyond_core_mm(self) -> float:
        """Return how much higher the part is than its core; 0 for what has none."""
        if self.core is None:
            return 0.0
        return (self.outline.z1_mm - self.outline.z0_mm) - (self.core.z1_mm - self.core.z0_mm)


@functools.lru_cache(maxsize=8192)
def body_of(part: Part, pose: Pose, tilt_deg: float = 0.0, growth_mm: float = 0.0) -> Body:
    """Return the part in that pose; `growth_mm` is what a charge-air cooler grows along its tubes, to either side."""
    pieces = posed_pieces(part, pose, tilt_deg)
    cos = math.cos(math.radians(tilt_deg))
    boxes = [piece for piece in pieces if piece.matter in BODIES]
    outline = _turned(part.overall, pose, cos) if isinstance(part, Core) else boxes[0].box
    return Body(
        pieces=pieces,
        outline=outline,
        core=boxes[0].box if isinstance(part, Core) else None,
        growth=_growth(part, pose, growth_mm),
        front_mm=min(piece.front_mm for piece in boxes),
        rear_mm=max(piece.rear_mm for piece in boxes),
    )


def tubes_run_across(core: Core, pose: Pose) -> bool:
    """Return whether the tubes run from side to side in that pose, not up and down."""
    return (core.tubes is TubeDirection.CROSS_FLOW) == (pose.quarter_turns % 2 == 0)


def _growth(part: Part, pose: Pose, growth_mm: float) -> Box:
    if growth_mm == 0.0 or not isinstance(part, Core) or part.role is not CoreRole.CHARGE_AIR_COOLER:
        return _NO_GROWTH
    # Which end is fixed is the builder's choice, so either may grow.
    if tubes_run_across(part, pose):
        return Box(-growth_mm, 0.0, growth_mm, 0.0)
    return Box(0.0, -growth_mm, 0.0, growth_mm)


def _turned(rect: Rect, pose: Pose, cos: float) -> Box:
    (ya, za), (yb, zb) = (
        turned_point((u, v), pose) for u, v in ((rect.u_min_mm, rect.v_min_mm), (rect.u_max_mm, rect.v_max_mm))
    )
    return Box(min(ya, yb), min(za, zb) * cos, max(ya, yb), max(za, zb) * cos)
