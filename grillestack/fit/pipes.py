"""How do a part's ports stand to the engine's connections: on which side, how far away, how much the pipes must turn."""

from __future__ import annotations

import math
from typing import Final

from grillestack.fit.result import PortMatch
from grillestack.geometry.projection import placed_point
from grillestack.geometry.taken_space import Pose, port_direction
from grillestack.model.engine import ConnectionPurpose, EngineConnection, EngineSheet, EngineSide
from grillestack.model.parts import Core, CoreRole, Part, Port, PortPurpose

# Nearer than this to the vehicle's centre line a port is on neither side (from memory).
_MIDDLE_MM: Final = 60.0

_PAIRS: Final = {
    CoreRole.CHARGE_AIR_COOLER: (
        (PortPurpose.INLET, ConnectionPurpose.CHARGE_OUT),
        (PortPurpose.OUTLET, ConnectionPurpose.CHARGE_IN),
    ),
    CoreRole.RADIATOR: (
        (PortPurpose.INLET, ConnectionPurpose.COOLANT_OUT),
        (PortPurpose.OUTLET, ConnectionPurpose.COOLANT_IN),
    ),
}

Step = tuple[float, float, float]


def port_match(part: Part, engine: EngineSheet) -> PortMatch | None:
    """Return how a placed part's ports stand to the engine; nothing if the engine sheet names no connection for them.

    Notes
    -----
    Each pipe is taken as straight from mouth to mouth. It turns at the part's port and once more into the engine's
    connection; where that can be clocked, it is clocked so that the pipe turns least.
    """
    if not isinstance(part, Core):
        return None
    met: list[tuple[Port, EngineConnection]] = []
    for purpose, wanted in _PAIRS.get(part.role, ()):
        port = next((one for one in part.ports if one.purpose is purpose), None)
        connection = next((one for one in engine.connections if one.purpose is wanted), None)
        if port is not None and connection is not None:
            met.append((port, connection))
    if not met:
        return None
    turns = [_turn_deg(part, port, connection) for port, connection in met]
    ways = [_way_mm(part, port, connection) for port, connection in met]
    return PortMatch(
        on_side_count=sum(_on_its_side(part, port, connection) for port, connection in met),
        of_count=len(met),
        bend_deg=None if None in turns else sum(turn for turn in turns if turn is not None),
        pipe_mm=None if None in ways else sum(way for way in ways if way is not None),
    )


def clock_step(clock_deg: float) -> Step:
    """Return the unit step (x, y, z) that a connection points to at that clock angle, 0 up, clockwise as seen from ahead."""
    angle = math.radians(clock_deg)
    return 0.0, -math.sin(angle), math.cos(angle)


def side_of(y_mm: float) -> EngineSide:
    """Return on which side of the vehicle a place is."""
    if abs(y_mm) <= _MIDDLE_MM:
        return EngineSide.MIDDLE
    return EngineSide.LEFT if y_mm < 0 else EngineSide.RIGHT


def _on_its_side(part: Part, port: Port, connection: EngineConnection) -> bool:
    side = connection.side if connection.y_mm is None else side_of(connection.y_mm)
    return side is EngineSide.MIDDLE or side_of(placed_point(part, port.u_mm, port.v_mm, port.w_mm)[1]) is side


def _straight(part: Part, port: Port, connection: EngineConnection) -> Step | None:
    """Return the way from the port's mouth to the engine's, if its place is known."""
    x, y, z = connection.x_mm, connection.y_mm, connection.z_mm
    if x is None or y is None or z is None:
        return None
    mouth = placed_point(part, port.u_mm, port.v_mm, port.w_mm)
    return x - mouth[0], y - mouth[1], z - mouth[2]


def _way_mm(part: Part, port: Port, connection: EngineConnection) -> float | None:
    straight = _straight(part, port, connection)
    return None if straight is None else math.hypot(*straight)


def _turn_deg(part: Part, port: Port, connection: EngineConnection) -> float | None:
    straight = _straight(part, port, connection)
    if straight is None:
        return None
    pose = Pose(part.placement.quarter_turns, part.placement.flipped)
    out = _angle_deg(port_direction(port, pose), straight)
    into = [_angle_deg(straight, _back(clock_step(clock))) for clock in connection.clock_angles_deg]
    return out + min(into, default=0.0)


def _back(step: Step) -> Step:
    return -step[0], -step[1], -step[2]


def _angle_deg(one: Step, other: Step) -> float:
    lengths = math.hypot(*one) * math.hypot(*other)
    if lengths == 0.0:
        return 0.0
    along = sum(a * b for a, b in zip(one, other, strict=True)) / lengths
    return math.degrees(math.acos(max(-1.0, min(1.0, along))))
