"""Invented noses and parts for tests of the room, and the room by trying every millimetre: no sums of outlines, no regions.

A place is tried as a fitter would: every box of the part, every bend and every bracket is put there and held against every
thing around it. It shares with the program only where a placed part's boxes and points are.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from msgspec.structs import replace

from grillestack.geometry.posed_body import Body, body_of
from grillestack.geometry.projection import Box, placed_boxes, placed_point, project_part
from grillestack.geometry.setting import Clearances, Setting, setting_of
from grillestack.geometry.taken_space import Pose
from grillestack.model.nose import Nose, Obstruction, SupportWindow
from grillestack.model.outline import Point, rectangle_outline
from grillestack.model.parts import Core, CoreRole, Facing, Fan, Mount, Part, Placement, Port, PortPurpose, Shroud
from grillestack.model.project import Project
from tests.geometry.packs import a_core

CLEAR = Clearances(gap_mm=10.0, fan_mm=13.0, obstruction_mm=25.0, bonnet_mm=20.0, pulley_mm=25.0, growth_mm=6.0)
LAMP = tuple(
    Point(200 + 60 * c, 30 + 60 * s) for c, s in ((1, 0), (0.5, 0.8), (-0.5, 0.8), (-1, 0), (-0.4, -0.7), (0.5, -0.9))
)


class Ring(NamedTuple):
    """A fan's ring, as round as it is."""

    y_mm: float
    z_mm: float
    radius_mm: float


def a_window(y0=-300.0, z0=-200.0, y1=300.0, z1=200.0, x_mm=500.0) -> SupportWindow:
    return SupportWindow(outline=rectangle_outline(y0, z0, y1, z1), x_mm=x_mm)


def a_beam(y0, z0, y1, z1, x0=100.0, x1=180.0, beam_id="beam") -> Obstruction:
    return Obstruction(
        id=beam_id, name=f"Invented {beam_id}", outline=rectangle_outline(y0, z0, y1, z1), x_front_mm=x0, x_rear_mm=x1
    )


def a_cooler(size_mm=(300.0, 120.0), depth_mm=60.0, *, ports=True, **fields) -> Core:
    w, h = size_mm[0] / 2 + 40.0, size_mm[1] / 2
    given = {}
    if ports:
        given["ports"] = (
            Port(purpose=PortPurpose.INLET, u_mm=-w, v_mm=0.2 * h, w_mm=30.0, facing=Facing.LEFT, bore_mm=40.0),
            Port(purpose=PortPurpose.OUTLET, u_mm=w - 20.0, v_mm=-h, w_mm=30.0, facing=Facing.DOWN, bore_mm=30.0),
        )
        given["mounts"] = (
            Mount(u_mm=-w + 10, v_mm=h, w_mm=20.0, hole_mm=9.0),
            Mount(u_mm=w - 10, v_mm=h, w_mm=20.0, hole_mm=9.0),
        )
    return a_core(
        "cooler",
        size_mm,
        (0.0, 0.0, 0.0),
        tank_mm=40.0,
        depth_mm=depth_mm,
        role=CoreRole.CHARGE_AIR_COOLER,
        **given,
        **fields,
    )


def a_setting(*obstructions: Obstruction, window=None, parts=(), stations=None) -> Setting:
    nose = Nose(support_window=a_window() if window is None else window, obstructions=obstructions)
    if stations is not None:
        nose = replace(nose, stations=stations)
    return setting_of(Project(nose=nose, parts=tuple(parts)), (), CLEAR)


def posed_body(part: Part, pose: Pose = Pose()) -> Body:  # noqa: B008  a frozen value
    return body_of(part, pose, 0.0, CLEAR.growth_mm)


def free_by_trying(nose: Nose, others: tuple[Part, ...], part: Part, x_mm: float, grid, slack_mm: float) -> np.ndarray:
    """Return, for each place (y, z) of the grid, whether the part may stand there; every room asked for is less by the slack."""
    y, z = grid
    free = np.ones(y.shape, dtype=bool)
    placed = replace(part, placement=replace(part.placement, x_mm=x_mm, y_mm=0.0, z_mm=0.0))
    mine = _things(placed)
    its = [thing for other in others for thing in _things(other)]
    its += [
        ("nose", o.x_front_mm, o.x_rear_mm, np.array([(p.y_mm, p.z_mm) for p in o.outline])) for o in nose.obstructions
    ]
    for kind, front, rear, outline in its:
        for own, x0, x1, shape in mine:
            keep = _keep_mm(own, kind)
            if keep is None:
                continue
            keep -= slack_mm
            if max(front - x1, x0 - rear) < keep:
                free &= _apart(outline, shape, y, z, keep)
    free &= _in_the_window(nose, placed, mine, y, z, slack_mm)
    return free & _under_the_bonnet(nose, mine, z, slack_mm)


def _things(part: Part) -> list[tuple[str, float, float, np.ndarray]]:
    kind = "core" if isinstance(part, Core) else "shroud" if isinstance(part, Shroud) else "fan"
    found = [(kind, b.x0_mm, b.x1_mm, _corners(b.y0_mm, b.z0_mm, b.y1_mm, b.z1_mm)) for b in placed_boxes(part)]
    if isinstance(part, Fan):
        at = part.placement
        found = [(kind, x0, x1, Ring(at.y_mm, at.z_mm, part.ring_diameter_mm / 2)) for _, x0, x1, _ in found]
    for port in part.ports:
        step = {
            "left": (-1, 0, 0),
            "right": (1, 0, 0),
            "up": (0, 1, 0),
            "down": (0, -1, 0),
            "front": (0, 0, -1),
            "rear": (0, 0, 1),
        }
        du, dv, dw = step[port.facing.value]
        reach = (1 if port.purpose is PortPurpose.DRAIN else 2) * port.bore_mm
        half = (port.outside_mm or port.bore_mm + 6.0) / 2
        mouth = np.array(placed_point(part, port.u_mm, port.v_mm, port.w_mm))
        out = np.array(placed_point(part, port.u_mm + du, port.v_mm + dv, port.w_mm + dw)) - mouth
        ends = np.stack((mouth, mouth + reach * out))
        wide = half * (np.abs(out) < 0.5)
        low, high = ends.min(axis=0) - wide, ends.max(axis=0) + wide
        found.append(("port", low[0], high[0], _corners(low[1], low[2], high[1], high[2])))
    for mount in part.mounts:
        x, y, z = placed_point(part, mount.u_mm, mount.v_mm, mount.w_mm)
        h = mount.hole_mm
        found.append(("mount", x - h / 2, x + h / 2, _corners(y - h, z - h, y + h, z + h)))
    return found


def _keep_mm(own: str, other: str) -> float | None:
    small = {"port", "mount"}
    if {own, other} <= small or {own, other} == {"fan", "shroud"} or {own, other} == {"mount", "shroud"}:
        return None
    if small & {own, other}:
        return 0.0
    if other == "nose":
        return CLEAR.obstruction_mm
    return {("core", "core"): CLEAR.gap_mm, ("core", "fan"): CLEAR.fan_mm, ("fan", "core"): CLEAR.fan_mm}.get(
        (own, other), 0.0
    )


def _apart(fixed, shape, y, z, keep) -> np.ndarray:
    """Return where two convex outlines have a line between them with the room to keep on it, both across and up."""
    if isinstance(fixed, Ring):
        return _ring_apart(fixed, shape.min(axis=0), shape.max(axis=0), (y, z), keep)
    if isinstance(shape, Ring):
        return _ring_apart(shape, fixed.min(axis=0), fixed.max(axis=0), (-y, -z), keep)
    axes = np.vstack((_normals(fixed), _normals(shape), [(1.0, 0.0), (0.0, 1.0)]))
    clear = np.zeros(y.shape, dtype=bool)
    for n in axes:
        room = keep * np.abs(n).sum()
        moved = y * n[0] + z * n[1]
        clear |= (shape @ n).min() + moved >= (fixed @ n).max() + room
        clear |= (shape @ n).max() + moved <= (fixed @ n).min() - room
    return clear


def _ring_apart(ring, low, high, moved, keep) -> np.ndarray:
    """Return where a ring keeps out of a box that is moved and grown by the room to keep."""
    aside = np.maximum(np.maximum(low[0] + moved[0] - keep - ring.y_mm, ring.y_mm - high[0] - moved[0] - keep), 0.0)
    up = np.maximum(np.maximum(low[1] + moved[1] - keep - ring.z_mm, ring.z_mm - high[1] - moved[1] - keep), 0.0)
    return np.hypot(aside, up) >= ring.radius_mm


def _normals(corners) -> np.ndarray:
    edge = np.roll(corners, -1, axis=0) - corners
    return np.column_stack((edge[:, 1], -edge[:, 0])) / np.hypot(*edge.T)[:, None]


def _corners(y0, z0, y1, z1) -> np.ndarray:
    return np.array([(y0, z0), (y1, z0), (y1, z1), (y0, z1)])


def _in_the_window(nose, placed, mine, y, z, slack_mm) -> np.ndarray:
    window = nose.support_window
    hole = np.array([(p.y_mm, p.z_mm) for p in window.outline])
    held = []
    if isinstance(placed, Core):
        seen = project_part(placed)
        if seen.x_rear_mm <= window.x_mm:
            held.append(seen.core_box)
        else:
            box, grows = seen.outline_box, CLEAR.growth_mm if placed.role is CoreRole.CHARGE_AIR_COOLER else 0.0
            across = seen.tube_axis == "y"
            held.append(_grown(box, grows if across else 0.0, 0.0 if across else grows))
    for kind, x0, x1, shape in mine:
        if x0 < window.x_mm < x1 and kind != "mount" and (kind == "port" or not isinstance(placed, Core)):
            held.append(_box_round(shape))
    inside = np.ones(y.shape, dtype=bool)
    normals = _normals(hole)  # outward, as the hole runs anticlockwise
    for b in held:
        corners = _corners(b.y0_mm, b.z0_mm, b.y1_mm, b.z1_mm)
        for corner, n in zip(hole, normals, strict=True):
            inside &= (corners @ n).max() + y * n[0] + z * n[1] <= corner @ n + slack_mm
    return inside


def _grown(box, aside, up):
    return type(box)(box.y0_mm - aside, box.z0_mm - up, box.y1_mm + aside, box.z1_mm + up)


def _box_round(shape):
    if isinstance(shape, Ring):
        r = shape.radius_mm
        return Box(shape.y_mm - r, shape.z_mm - r, shape.y_mm + r, shape.z_mm + r)
    return Box(*shape.min(axis=0), *shape.max(axis=0))


def _under_the_bonnet(nose, mine, z, slack_mm) -> np.ndarray:
    line = nose.stations.bonnet_line
    free = np.ones(z.shape, dtype=bool)
    if not line:
        return free
    xs, zs = [p.x_mm for p in line], [p.z_mm for p in line]
    for kind, x0, x1, shape in mine:
        over = np.array([x for x in (x0, x1, *xs) if max(x0, xs[0]) <= x <= min(x1, xs[-1])])
        if len(over):
            keep = 0.0 if kind in ("port", "mount") else CLEAR.bonnet_mm
            free &= _top(shape) + z <= np.interp(over, xs, zs).min() - keep + slack_mm
    return free


def _top(shape):
    return shape.z_mm + shape.radius_mm if isinstance(shape, Ring) else shape[:, 1].max()


def grid_over(y0, z0, y1, z1, step_mm=1.0):
    return np.meshgrid(np.arange(y0, y1 + 0.5, step_mm), np.arange(z0, z1 + 0.5, step_mm))


def at_origin(part: Part, pose: Pose) -> Part:
    return replace(part, placement=Placement(quarter_turns=pose.quarter_turns, flipped=pose.flipped))
