"""Which way a port points in the nose, and through which lines of a view its axis runs."""

from __future__ import annotations

import math
from dataclasses import dataclass

from grillestack.geometry.projection import placed_point
from grillestack.model.parts import Facing, Part, Port, PortPurpose

# Steps in the part's own frame: u to the vehicle's right, v up, w rearward.
_STEP = {
    Facing.LEFT: (-1.0, 0.0, 0.0),
    Facing.RIGHT: (1.0, 0.0, 0.0),
    Facing.UP: (0.0, 1.0, 0.0),
    Facing.DOWN: (0.0, -1.0, 0.0),
    Facing.FRONT: (0.0, 0.0, -1.0),
    Facing.REAR: (0.0, 0.0, 1.0),
}
# A step along a coordinate by less than this leaves the axis on one line of that coordinate.
_ALONG = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class PortAxis:
    """The axis of one port: the coordinate is None along which it runs, as it then lies on no single line there."""

    purpose: PortPurpose
    x_mm: float | None
    y_mm: float | None
    z_mm: float | None


def port_step(part: Part, port: Port) -> tuple[float, float, float]:
    """Return the unit step (x, y, z) in the nose along which the port points out of the part, its spout turned as it is."""
    du, dv, dw = _STEP[port.facing]
    turn = math.radians(port.clock_deg)
    # Clockwise as seen from ahead takes the vehicle's right to up, as a quarter turn of the part does.
    du, dv = du * math.cos(turn) - dv * math.sin(turn), du * math.sin(turn) + dv * math.cos(turn)
    at = placed_point(part, port.u_mm, port.v_mm, port.w_mm)
    beyond = placed_point(part, port.u_mm + du, port.v_mm + dv, port.w_mm + dw)
    return (beyond[0] - at[0], beyond[1] - at[1], beyond[2] - at[2])


def port_axes(part: Part) -> tuple[PortAxis, ...]:
    """Return the axes of the part's ports in their order."""
    found = []
    for port in part.ports:
        x_mm, y_mm, z_mm = placed_point(part, port.u_mm, port.v_mm, port.w_mm)
        dx, dy, dz = port_step(part, port)
        found.append(
            PortAxis(
                purpose=port.purpose,
                x_mm=x_mm if abs(dx) < _ALONG else None,
                y_mm=y_mm if abs(dy) < _ALONG else None,
                z_mm=z_mm if abs(dz) < _ALONG else None,
            )
        )
    return tuple(found)
