"""Ports and mounts of a part as seen from ahead: stubs with an arrow that says in or out, crosses for holes."""

from __future__ import annotations

import math
from collections.abc import Callable

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPolygonF

from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.palette import Palette
from grillestack.geometry.port_axes import port_step
from grillestack.geometry.projection import placed_point
from grillestack.model.parts import Part, Port, PortPurpose
from grillestack.model.project import Project

_STUB_MM = 26.0
_ARROW_PX = 8.0
_SMALLEST_PX = 5.0


def paint_connections(painter: QPainter, part: Part, palette: Palette, *, selected: bool) -> None:
    """Draw all ports and mounts of the part."""
    ink = palette.accent if selected else palette.ink
    px_per_mm = abs(painter.worldTransform().m11()) or 1.0
    for port in part.ports:
        _paint_port(painter, part, port, ink, palette.paper)
    painter.setPen(pen(Line.NARROW, faded(ink, 0.8)))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for mount in part.mounts:
        _, y, z = placed_point(part, mount.u_mm, mount.v_mm, mount.w_mm)
        radius = max(mount.hole_mm / 2, 2.5 / px_per_mm)
        painter.drawEllipse(QPointF(y, z), radius, radius)
        arm = radius + 3.0 / px_per_mm
        painter.drawLine(QLineF(y - arm, z, y + arm, z))
        painter.drawLine(QLineF(y, z - arm, y, z + arm))


def connection_strips(project: Project, to_px: Callable[[float, float], QPointF]) -> list[QRectF]:
    """Return the pixels that ports and mounts take, so that no name is written over them."""
    strips = []
    for part in project.parts:
        if part.hidden:
            continue
        for port in part.ports:
            _, y, z = placed_point(part, port.u_mm, port.v_mm, port.w_mm)
            _, dy, dz = port_step(part, port)
            strips.append(QRectF(to_px(y, z), to_px(y + dy * _STUB_MM, z + dz * _STUB_MM)).normalized())
        for mount in part.mounts:
            _, y, z = placed_point(part, mount.u_mm, mount.v_mm, mount.w_mm)
            strips.append(QRectF(to_px(y, z), to_px(y, z)))
    return [strip.adjusted(-8.0, -8.0, 8.0, 8.0) for strip in strips]


def _paint_port(painter: QPainter, part: Part, port: Port, ink: QColor, paper: QColor) -> None:
    px_per_mm = abs(painter.worldTransform().m11()) or 1.0
    _, y, z = placed_point(part, port.u_mm, port.v_mm, port.w_mm)
    dx, dy, dz = port_step(part, port)
    radius = max(port.bore_mm / 2, _SMALLEST_PX / px_per_mm)
    at = QPointF(y, z)
    painter.setPen(pen(Line.NARROW, ink))
    painter.setBrush(paper)
    sideways = math.hypot(dy, dz)
    if sideways < 0.5:
        painter.drawEllipse(at, radius, radius)
        _paint_end_on(painter, at, radius, ink, towards_viewer=(dx < 0) == (port.purpose is not PortPurpose.INLET))
        return
    ey, ez = dy / sideways, dz / sideways
    end = QPointF(y + ey * _STUB_MM, z + ez * _STUB_MM)
    side = QPointF(-ez * radius, ey * radius)
    painter.drawPolygon(QPolygonF([at + side, end + side, end - side, at - side]))
    if port.purpose in (PortPurpose.INLET, PortPurpose.OUTLET):
        way = 1.0 if port.purpose is PortPurpose.OUTLET else -1.0
        _paint_arrow(painter, at + (end - at) * 1.0, QPointF(ey * way, ez * way), px_per_mm, ink)


def _paint_arrow(painter: QPainter, middle: QPointF, way: QPointF, px_per_mm: float, ink: QColor) -> None:
    size = _ARROW_PX / px_per_mm
    tip = middle + way * size
    tail = middle - way * size
    wing = QPointF(-way.y(), way.x()) * (size * 0.55)
    painter.drawLine(QLineF(tail, middle))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ink)
    painter.drawPolygon(QPolygonF([tip, middle + wing, middle - wing]))


def _paint_end_on(painter: QPainter, at: QPointF, radius: float, ink: QColor, *, towards_viewer: bool) -> None:
    """Draw an arrow seen from its end: its point as a dot, its feathers as a cross."""
    if towards_viewer:
        painter.setBrush(ink)
        painter.drawEllipse(at, radius * 0.3, radius * 0.3)
        return
    reach = radius * math.sqrt(0.5)
    painter.drawLine(QLineF(at.x() - reach, at.y() - reach, at.x() + reach, at.y() + reach))
    painter.drawLine(QLineF(at.x() - reach, at.y() + reach, at.x() + reach, at.y() - reach))
