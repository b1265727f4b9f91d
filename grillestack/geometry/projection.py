"""Where a placed part is: its outlines on the projection plane, its reach along x, and any point of it in the nose."""

from __future__ import annotations

import enum
import functools
import math
from dataclasses import dataclass

from grillestack.model.outline import Rect
from grillestack.model.parts import Core, CoreRole, Fan, Part, PortPurpose, Shroud, Solid, SolidKind, TubeDirection

# A rectangle in a part's own frame: low u, low v, high u, high v
Sides = tuple[float, float, float, float]


class BodyKind(enum.Enum):
    """What one box of a part is."""

    CORE = "core"
    TANK = "tank"
    SIDE_PLATE = "side plate"
    FRAME = "frame"
    SHROUD = "shroud"
    FAN = "fan"


@dataclass(frozen=True, slots=True)
class Box:
    """An axis-parallel rectangle of the front view."""

    y0_mm: float
    z0_mm: float
    y1_mm: float
    z1_mm: float

    @property
    def area_mm2(self) -> float:
        """Return width times height."""
        return (self.y1_mm - self.y0_mm) * (self.z1_mm - self.z0_mm)

    def holds(self, y_mm: float, z_mm: float) -> bool:
        """Return whether the point lies inside or on the edge."""
        return self.y0_mm <= y_mm <= self.y1_mm and self.z0_mm <= z_mm <= self.z1_mm


@dataclass(frozen=True, slots=True)
class Circle:
    """A fan's ring in the front view, before any tilt flattens it."""

    y_mm: float
    z_mm: float
    radius_mm: float


@dataclass(frozen=True, slots=True)
class Body:
    """One box of a part: its outline on the projection plane and the planes of its front and rear.

    A plane meets the height z at `x = front_mm + lean_frac · (z − lean_z_mm)`; `lean_frac` is the tangent of the tilt.
    """

    kind: BodyKind
    box: Box
    front_mm: float
    rear_mm: float
    lean_frac: float
    lean_z_mm: float


@dataclass(frozen=True, slots=True)
class PlacedBox:
    """One box of a part in the nose, for the side view: the space it takes and its four corners seen from the side."""

    kind: BodyKind
    x0_mm: float
    y0_mm: float
    z0_mm: float
    x1_mm: float
    y1_mm: float
    z1_mm: float
    # (x, z) of front bottom, front top, rear top, rear bottom
    side_corners_mm: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProjectedPart:
    """A part looked at along x: outlines in mm after flip, quarter turns and tilt (heights × cosine of the tilt)."""

    part_id: str
    role: CoreRole | None
    is_core: bool
    is_shroud: bool
    is_fan: bool
    outline_box: Box
    core_box: Box | None
    solid_boxes: tuple[Box, ...]
    solid_kinds: tuple[SolidKind, ...]
    circle: Circle | None
    bodies: tuple[Body, ...]
    boxes: tuple[PlacedBox, ...]
    face_x_mm: float
    x_front_mm: float
    x_rear_mm: float
    core_x_front_mm: float
    core_x_rear_mm: float
    cos_tilt_frac: float
    tube_axis: str | None
    passes: int
    inlet_at_low_end: bool | None
    inlet_at_low_side: bool | None


@functools.lru_cache(maxsize=1024)
def project_part(part: Part) -> ProjectedPart:
    """Return the part as the air meets it.

    `face_x_mm` is where the centre of the front face stands; `x_front_mm`, `x_rear_mm` bound the whole part with its
    solids. On the projection plane a tilt shortens heights only; the small shift of a deep solid is left out, so a
    part's own solids never slide over its own core. `inlet_at_low_end` is along the tubes (towards the vehicle's left
    or down), `inlet_at_low_side` across them, where several passes lie side by side; `None` where no inlet says so.
    """
    overall, core, solids = _own_rects(part)
    main = _body_kind(part)
    spans = [(main, core, 0.0, part.depth_mm)]
    spans += [(BodyKind(s.kind.value), _sides(s.rect), s.front_mm, s.front_mm + s.depth_mm) for s in solids]
    bodies = tuple(_body(part, kind, rect, w0, w1) for kind, rect, w0, w1 in spans)
    boxes = tuple(_placed_box(part, kind, rect, w0, w1) for kind, rect, w0, w1 in spans)
    at = part.placement
    tube_axis, along, across = _tubes(part)
    return ProjectedPart(
        part_id=part.id,
        role=part.role if isinstance(part, Core) else None,
        is_core=isinstance(part, Core),
        is_shroud=isinstance(part, Shroud),
        is_fan=isinstance(part, Fan),
        outline_box=_box(part, overall),
        core_box=bodies[0].box if isinstance(part, Core) else None,
        solid_boxes=tuple(body.box for body in bodies[1:]),
        solid_kinds=tuple(s.kind for s in solids),
        circle=Circle(at.y_mm, at.z_mm, part.ring_diameter_mm / 2) if isinstance(part, Fan) else None,
        bodies=bodies,
        boxes=boxes,
        face_x_mm=at.x_mm,
        x_front_mm=min(box.x0_mm for box in boxes),
        x_rear_mm=max(box.x1_mm for box in boxes),
        core_x_front_mm=boxes[0].x0_mm,
        core_x_rear_mm=boxes[0].x1_mm,
        cos_tilt_frac=math.cos(math.radians(at.tilt_deg)),
        tube_axis=tube_axis,
        passes=part.passes if isinstance(part, Core) else 1,
        inlet_at_low_end=along,
        inlet_at_low_side=across,
    )


def placed_point(part: Part, u_mm: float, v_mm: float, w_mm: float = 0.0) -> tuple[float, float, float]:
    """Return (x, y, z) in the nose of a point given in the part's own frame, such as a port or a mount."""
    across, up, w = _turned(part, u_mm, v_mm, w_mm)
    at = part.placement
    tilt = math.radians(at.tilt_deg)
    cos, sin = math.cos(tilt), math.sin(tilt)
    return (at.x_mm + w * cos + up * sin, at.y_mm + across, at.z_mm + up * cos - w * sin)


def placed_boxes(part: Part) -> tuple[PlacedBox, ...]:
    """Return the boxes of the part in the nose: the core (or shroud, or fan) first, then its solids in their order."""
    return project_part(part).boxes


def _turned(part: Part, u_mm: float, v_mm: float, w_mm: float) -> tuple[float, float, float]:
    at = part.placement
    if at.flipped:
        # After the half turn the rear face looks forward; the origin stays at the centre of what is now the front.
        u_mm, w_mm = -u_mm, part.depth_mm - w_mm
    for _ in range(at.quarter_turns):
        u_mm, v_mm = -v_mm, u_mm
    return u_mm, v_mm, w_mm


def _sides(rect: Rect) -> Sides:
    return rect.u_min_mm, rect.v_min_mm, rect.u_max_mm, rect.v_max_mm


def _own_rects(part: Part) -> tuple[Sides, Sides, tuple[Solid, ...]]:
    if isinstance(part, Core):
        w, h = part.core_width_mm / 2, part.core_height_mm / 2
        return _sides(part.overall), (-w, -h, w, h), part.solids
    if isinstance(part, Shroud):
        w, h = part.width_mm / 2, part.height_mm / 2
    else:
        w = h = part.ring_diameter_mm / 2
    own = (-w, -h, w, h)
    return own, own, ()


def _body_kind(part: Part) -> BodyKind:
    if isinstance(part, Core):
        return BodyKind.CORE
    return BodyKind.SHROUD if isinstance(part, Shroud) else BodyKind.FAN


def _turned_rect(part: Part, rect: Sides) -> tuple[float, float, float, float]:
    a0, b0, _ = _turned(part, rect[0], rect[1], 0.0)
    a1, b1, _ = _turned(part, rect[2], rect[3], 0.0)
    return min(a0, a1), min(b0, b1), max(a0, a1), max(b0, b1)


def _box(part: Part, rect: Sides) -> Box:
    a0, b0, a1, b1 = _turned_rect(part, rect)
    at = part.placement
    cos = math.cos(math.radians(at.tilt_deg))
    return Box(at.y_mm + a0, at.z_mm + b0 * cos, at.y_mm + a1, at.z_mm + b1 * cos)


def _depth_span(part: Part, w0_mm: float, w1_mm: float) -> tuple[float, float]:
    _, _, first = _turned(part, 0.0, 0.0, w0_mm)
    _, _, last = _turned(part, 0.0, 0.0, w1_mm)
    return min(first, last), max(first, last)


def _body(part: Part, kind: BodyKind, rect: Sides, w0_mm: float, w1_mm: float) -> Body:
    w0, w1 = _depth_span(part, w0_mm, w1_mm)
    at = part.placement
    tilt = math.radians(at.tilt_deg)
    return Body(
        kind=kind,
        box=_box(part, rect),
        front_mm=at.x_mm + w0 / math.cos(tilt),
        rear_mm=at.x_mm + w1 / math.cos(tilt),
        lean_frac=math.tan(tilt),
        lean_z_mm=at.z_mm,
    )


def _placed_box(part: Part, kind: BodyKind, rect: Sides, w0_mm: float, w1_mm: float) -> PlacedBox:
    a0, b0, a1, b1 = _turned_rect(part, rect)
    w0, w1 = _depth_span(part, w0_mm, w1_mm)
    at = part.placement
    tilt = math.radians(at.tilt_deg)
    cos, sin = math.cos(tilt), math.sin(tilt)
    corners = tuple(
        (at.x_mm + w * cos + b * sin, at.z_mm + b * cos - w * sin) for w, b in ((w0, b0), (w0, b1), (w1, b1), (w1, b0))
    )
    xs = [x for x, _ in corners]
    zs = [z for _, z in corners]
    return PlacedBox(kind, min(xs), at.y_mm + a0, min(zs), max(xs), at.y_mm + a1, max(zs), corners)


def _tubes(part: Part) -> tuple[str | None, bool | None, bool | None]:
    if not isinstance(part, Core):
        return None, None, None
    along_u = (part.tubes is TubeDirection.CROSS_FLOW) == (part.placement.quarter_turns % 2 == 0)
    axis = "y" if along_u else "z"
    inlet = next((port for port in part.ports if port.purpose is PortPurpose.INLET), None)
    if inlet is None:
        return axis, None, None
    across, up, _ = _turned(part, inlet.u_mm, inlet.v_mm, inlet.w_mm)
    along, aside = (across, up) if axis == "y" else (up, across)
    return axis, _low(along), _low(aside)


def _low(place_mm: float) -> bool | None:
    return None if place_mm == 0 else place_mm < 0
