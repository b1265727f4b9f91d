"""What room does a part take up: its boxes, the first bend at each of its ports, the pads of its mounts."""

from __future__ import annotations

import enum
import functools
import math
from dataclasses import dataclass

from grillestack.geometry.projection import Box
from grillestack.model.outline import Rect
from grillestack.model.parts import Core, Facing, Fan, Mount, Part, Port, PortPurpose, Shroud

# Corners (y, z) of a convex outline, in order
Corners = tuple[tuple[float, float], ...]

# A bend of radius 1.5 bores begins at the port's mouth: its outer edge stands 1.5 + 0.5 bores ahead of it.
ELBOW_BORES_FACTOR = 2.0
# A drain asks for a hand, or for a short hose straight on.
DRAIN_BORES_FACTOR = 1.0
# A hose or pipe is this much larger than its bore where no outside size was measured (from memory).
_WALL_MM = 3.0
# A hole keeps one diameter from its middle to the edge of its ear, and the ear is as thick (from memory).
_EAR_HOLES_FACTOR = 1.0
_RING_CORNERS = 64

_FACES = {
    Facing.LEFT: (-1.0, 0.0, 0.0),
    Facing.RIGHT: (1.0, 0.0, 0.0),
    Facing.UP: (0.0, 1.0, 0.0),
    Facing.DOWN: (0.0, -1.0, 0.0),
    Facing.FRONT: (0.0, 0.0, -1.0),
    Facing.REAR: (0.0, 0.0, 1.0),
}


class Matter(enum.Enum):
    """What a piece is made of, as far as it matters for how near others may come."""

    CORE = "core"
    SHROUD = "shroud"
    FAN = "fan"
    PORT = "port"
    MOUNT = "mount"
    NOSE = "nose"
    PLATE = "support plate"


# What is of the part itself, not the bend of a hose or a bracket
BODIES = frozenset({Matter.CORE, Matter.SHROUD, Matter.FAN})


@dataclass(frozen=True, slots=True)
class Pose:
    """Which way round a part stands: flip first, then quarter turns clockwise as seen from ahead."""

    quarter_turns: int = 0
    flipped: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """One convex piece of a part: its outline seen from ahead and its reach in depth, from the part's place.

    `corners_mm` is empty for a rectangle; `place` is the number of the port or mount it belongs to.
    """

    matter: Matter
    name: str
    box: Box
    front_mm: float
    rear_mm: float
    corners_mm: Corners = ()
    place: int = -1


@functools.lru_cache(maxsize=4096)
def own_pieces(part: Part) -> tuple[Piece, ...]:
    """Return the pieces of a part in its own frame: u, v for y, z, and w for the depth; neither turned nor leant."""
    found = list(_boxes(part))
    found += [_elbow(port, place) for place, port in enumerate(part.ports)]
    found += [_pad(mount, place) for place, mount in enumerate(part.mounts)]
    return tuple(found)


def posed(piece: Piece, pose: Pose, depth_mm: float, cos_tilt_frac: float = 1.0) -> Piece:
    """Return a piece of a part's own frame as it stands in that pose, heights and depths as its lean leaves them."""
    b = piece.box
    ends = turned_point((b.y0_mm, b.z0_mm), pose), turned_point((b.y1_mm, b.z1_mm), pose)
    (ya, yb), (za, zb) = (sorted(end[axis] for end in ends) for axis in (0, 1))
    front, rear = piece.front_mm, piece.rear_mm
    if pose.flipped:
        front, rear = depth_mm - rear, depth_mm - front
    corners = tuple(turned_point(corner, pose) for corner in piece.corners_mm)
    return Piece(
        matter=piece.matter,
        name=piece.name,
        box=Box(ya, za * cos_tilt_frac, yb, zb * cos_tilt_frac),
        front_mm=front / cos_tilt_frac,
        rear_mm=rear / cos_tilt_frac,
        corners_mm=tuple((y, z * cos_tilt_frac) for y, z in corners),
        place=piece.place,
    )


def posed_pieces(part: Part, pose: Pose, tilt_deg: float = 0.0) -> tuple[Piece, ...]:
    """Return all pieces of a part as it stands in that pose."""
    cos = math.cos(math.radians(tilt_deg))
    return tuple(posed(piece, pose, part.depth_mm, cos) for piece in own_pieces(part))


def port_direction(port: Port, pose: Pose) -> tuple[float, float, float]:
    """Return the unit step (x, y, z) out of a port's mouth in that pose."""
    u, v, w = _spout(port)
    y, z = turned_point((u, v), pose)
    return (-w if pose.flipped else w), y, z


def turned_point(point: tuple[float, float], pose: Pose) -> tuple[float, float]:
    """Return a point (u, v) of a part's own frame after flip and quarter turns."""
    u, v = point
    if pose.flipped:
        u = -u
    for _ in range(pose.quarter_turns):
        u, v = -v, u
    return u, v


def _boxes(part: Part) -> tuple[Piece, ...]:
    if isinstance(part, Core):
        core = _piece(Matter.CORE, "core", part.core, 0.0, part.depth_mm)
        return (
            core,
            *(
                _piece(Matter.CORE, s.kind.value, s.rect, s.front_mm, s.front_mm + s.depth_mm, place)
                for place, s in enumerate(part.solids)
            ),
        )
    if isinstance(part, Shroud):
        w, h = part.width_mm / 2, part.height_mm / 2
        return (Piece(Matter.SHROUD, "shroud", Box(-w, -h, w, h), 0.0, part.depth_mm),)
    return (_ring(part),)


def _ring(fan: Fan) -> Piece:
    radius = fan.ring_diameter_mm / 2
    step = 2 * math.pi / _RING_CORNERS
    # Corners outside the ring, so that no part of it sticks out of its outline.
    reach = radius / math.cos(step / 2)
    corners = tuple(
        (reach * math.cos((k + 0.5) * step), reach * math.sin((k + 0.5) * step)) for k in range(_RING_CORNERS)
    )
    return Piece(Matter.FAN, "ring", Box(-radius, -radius, radius, radius), 0.0, fan.depth_mm, corners)


def _piece(matter: Matter, name: str, rect: Rect, front_mm: float, rear_mm: float, place: int = -1) -> Piece:
    box = Box(rect.u_min_mm, rect.v_min_mm, rect.u_max_mm, rect.v_max_mm)
    return Piece(matter, name, box, front_mm, rear_mm, (), place)


def _elbow(port: Port, place: int) -> Piece:
    """Return what the first bend of hose or pipe takes up ahead of the port's mouth."""
    du, dv, dw = _spout(port)
    bores = DRAIN_BORES_FACTOR if port.purpose is PortPurpose.DRAIN else ELBOW_BORES_FACTOR
    length, half = bores * port.bore_mm, outside_mm(port) / 2
    name = f"{port.purpose.value} port"
    u, v, w = port.u_mm, port.v_mm, port.w_mm
    if dw:
        box = Box(u - half, v - half, u + half, v + half)
        front, rear = sorted((w, w + dw * length))
        return Piece(Matter.PORT, name, box, front, rear, (), place)
    corners = tuple(
        (u + along * du - aside * dv, v + along * dv + aside * du)
        for along, aside in ((0.0, -half), (length, -half), (length, half), (0.0, half))
    )
    us, vs = [c[0] for c in corners], [c[1] for c in corners]
    box = Box(min(us), min(vs), max(us), max(vs))
    upright = min(abs(du), abs(dv)) < 1e-9
    return Piece(Matter.PORT, name, box, w - half, w + half, () if upright else corners, place)


def outside_mm(port: Port) -> float:
    """Return the outside diameter of the port, or of the hose over it where it was not measured."""
    return port.outside_mm if port.outside_mm is not None else port.bore_mm + 2 * _WALL_MM


def _spout(port: Port) -> tuple[float, float, float]:
    u, v, w = _FACES[port.facing]
    if not port.clock_deg:
        return u, v, w
    angle = math.radians(port.clock_deg)
    cos, sin = math.cos(angle), math.sin(angle)
    return u * cos - v * sin, u * sin + v * cos, w


def _pad(mount: Mount, place: int) -> Piece:
    half = _EAR_HOLES_FACTOR * mount.hole_mm
    box = Box(mount.u_mm - half, mount.v_mm - half, mount.u_mm + half, mount.v_mm + half)
    thick = mount.hole_mm / 2
    return Piece(Matter.MOUNT, "bracket", box, mount.w_mm - thick, mount.w_mm + thick, (), place)
