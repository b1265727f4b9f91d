"""Lines through the axes of ports, for ports to be set against: a pipe between two on one line needs no bend."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from grillestack.app.canvas.gestures.snap import Axis, SnapLine
from grillestack.app.canvas.trade_names import clear_words
from grillestack.geometry.port_axes import PortAxis, port_axes
from grillestack.geometry.projection import project_part
from grillestack.model.engine import EngineConnection
from grillestack.model.parts import Part
from grillestack.model.project import Project

_WORDS = {Axis.X: "in line along the vehicle with", Axis.Y: "in line with", Axis.Z: "level with"}


def port_lines(project: Project, held: Collection[str], axes: Iterable[Axis]) -> tuple[SnapLine, ...]:
    """Return the lines along those axes through the ports of all parts that stay, and through the engine's connections."""
    words = clear_words(project.parts)
    lines = []
    for axis in axes:
        for part in project.parts:
            if part.id in held or part.hidden:
                continue
            box = project_part(part).outline_box
            reach = (box.z0_mm, box.z1_mm) if axis is Axis.Y else (box.y0_mm, box.y1_mm)
            for port in port_axes(part):
                at = along(port, axis)
                if at is not None:
                    name = f"{_WORDS[axis]} {words[part.id]} {port.purpose.value}"
                    lines.append(_line(axis, at, reach, name))
        for connection in project.engine.connections:
            at = _of_engine(connection, axis)
            if at is not None:
                name = f"{_WORDS[axis]} {connection.purpose.value} of the engine"
                lines.append(_line(axis, at, (0.0, 0.0), name))
    return tuple(lines)


def ports_along(parts: Iterable[Part], axis: Axis) -> tuple[float, ...]:
    """Return where the axes of the parts' ports lie along that axis."""
    found = (along(port, axis) for part in parts for port in port_axes(part))
    return tuple(at for at in found if at is not None)


def along(port: PortAxis, axis: Axis) -> float | None:
    """Return the coordinate of a port's axis, or nothing where it runs along that axis."""
    return {Axis.X: port.x_mm, Axis.Y: port.y_mm, Axis.Z: port.z_mm}[axis]


def _of_engine(connection: EngineConnection, axis: Axis) -> float | None:
    return {Axis.X: connection.x_mm, Axis.Y: connection.y_mm, Axis.Z: connection.z_mm}[axis]


def _line(axis: Axis, at_mm: float, reach_mm: tuple[float, float], words: str) -> SnapLine:
    return SnapLine(axis=axis, at_mm=at_mm, from_mm=reach_mm[0], to_mm=reach_mm[1], words=words, for_port=True)
