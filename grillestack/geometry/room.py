"""Where may a part stand: the exact set of places in the front view at one depth, one way round."""

from __future__ import annotations

import functools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from grillestack.geometry.bodies import TOUCH_MM
from grillestack.geometry.bonnet import lowest_between
from grillestack.geometry.minkowski import corners_of, forbidden
from grillestack.geometry.outlines import Floats, Geometry, areas_of
from grillestack.geometry.posed_body import Body
from grillestack.geometry.projection import Box
from grillestack.geometry.setting import END_MM, Obstacle, Setting, bounds_of, frame_of
from grillestack.geometry.taken_space import BODIES, Corners, Matter, Piece

# A region with less area than a touching part's is nothing but rounding.
_NOTHING_MM2 = 1e-12


@dataclass(frozen=True, slots=True)
class Room:
    """The places (y, z) at which a part may stand at depth `x_mm`; each of its polygons is an outline and then its holes.

    Touching is allowed: a part that fits exactly has a room no wider than a rounding.
    """

    x_mm: float
    polygons_mm: tuple[tuple[Corners, ...], ...]
    bounds: Box | None
    area_mm2: float

    @property
    def is_empty(self) -> bool:
        """Return whether there is no such place."""
        return not self.polygons_mm


@dataclass(frozen=True, slots=True)
class Travel:
    """How far a part may be moved each way; left and right are the vehicle's."""

    left_mm: float
    right_mm: float
    down_mm: float
    up_mm: float

    @property
    def least_mm(self) -> float:
        """Return the smallest of the four."""
        return min(self.left_mm, self.right_mm, self.down_mm, self.up_mm)


def room_of(setting: Setting, body: Body, x_mm: float) -> Room:
    """Return the exact set of places at which the part fits at that depth.

    Notes
    -----
    The box that window, bonnet, shroud and core leave, less the Minkowski sum of each obstacle with the mirrored piece,
    grown by the clearance across and up. Only what the piece meets along x, clearance included, is in its way.
    """
    bounds = limits_at(setting, body, x_mm)
    if not stands_in_depth(setting, body, x_mm) or is_nothing(bounds):
        return Room(x_mm, (), None, 0.0)
    b = _eased(bounds)
    free = shapely.box(b.y0_mm, b.z0_mm, b.y1_mm, b.z1_mm)
    taken = _taken(setting, body, x_mm, b)
    if taken:
        free = areas_of(shapely.difference(free, shapely.union_all(taken)))
    return room_from(free, x_mm)


def limits_at(setting: Setting, body: Body, x_mm: float) -> Box:
    """Return the box of places that everything but obstacles leaves; one that ends before it begins is a lack of room."""
    y0, z0, y1, z1 = -END_MM, -END_MM, END_MM, END_MM
    for inner, outer in _holders(setting, body, x_mm):
        y0, y1 = max(y0, outer.y0_mm - inner.y0_mm), min(y1, outer.y1_mm - inner.y1_mm)
        z0, z1 = max(z0, outer.z0_mm - inner.z0_mm), min(z1, outer.z1_mm - inner.z1_mm)
    z1 = min(z1, under_bonnet_mm(setting, body, x_mm))
    return Box(float(y0), float(z0), float(y1), float(z1))


def under_bonnet_mm(setting: Setting, body: Body, x_mm: float) -> float:
    """Return the highest place under the bonnet line, infinite where no line is given."""
    if not setting.bonnet_line:
        return float("inf")
    ahead, behind = setting.lean_shifts_mm(body.beyond_core_mm)
    best = float("inf")
    for piece in body.pieces:
        low = lowest_between(setting.bonnet_line, x_mm + piece.front_mm + ahead, x_mm + piece.rear_mm + behind)
        if low is not None:
            keep = setting.clearances.bonnet_mm if piece.matter in BODIES else 0.0
            best = min(best, low - keep - piece.box.z1_mm)
    return best


def stands_in_depth(setting: Setting, body: Body, x_mm: float) -> bool:
    """Return whether the part stands behind the grille plane and far enough ahead of the pulley."""
    ahead, behind = setting.lean_shifts_mm(body.beyond_core_mm)
    if x_mm + body.front_mm + ahead < setting.grille_x_mm - TOUCH_MM:
        return False
    pulley = setting.pulley_x_mm
    return pulley is None or x_mm + body.rear_mm + behind <= pulley - setting.clearances.pulley_mm + TOUCH_MM


def meets_in_depth(setting: Setting, obstacle: Obstacle, piece: Piece, x_mm: float) -> float | None:
    """Return the room to keep between obstacle and piece if they come that near along x, else nothing."""
    apart = max(obstacle.front_mm - (x_mm + piece.rear_mm), x_mm + piece.front_mm - obstacle.rear_mm)
    room = setting.clearances.between(obstacle.matter, piece.matter)
    return room if room is not None and apart < room - TOUCH_MM else None


def is_nothing(bounds: Box) -> bool:
    """Return whether a box of places holds none, not even one where the part touches on both sides."""
    return bounds.y1_mm - bounds.y0_mm < -TOUCH_MM or bounds.z1_mm - bounds.z0_mm < -TOUCH_MM


def room_from(free: Geometry, x_mm: float) -> Room:
    """Return a region of places as a room."""
    parts = [part for part in shapely.get_parts(free) if shapely.area(part) > _NOTHING_MM2]
    polygons = tuple(
        tuple(
            tuple((float(y), float(z)) for y, z in np.asarray(shapely.get_coordinates(ring))[:-1])
            for ring in (part.exterior, *part.interiors)
        )
        for part in sorted(parts, key=lambda one: tuple(shapely.bounds(one)))
    )
    if not polygons:
        return Room(x_mm, (), None, 0.0)
    y0, z0, y1, z1 = (float(v) for v in shapely.bounds(shapely.union_all(parts)))
    return Room(x_mm, polygons, Box(y0, z0, y1, z1), float(sum(shapely.area(part) for part in parts)))


def holds(room: Room, y_mm: float, z_mm: float) -> bool:
    """Return whether the part may stand there."""
    return bool(shapely.intersects(_region(room), shapely.Point(y_mm, z_mm)))


def nearest_place(room: Room, y_mm: float, z_mm: float) -> tuple[float, float] | None:
    """Return the place of the room nearest to a point, the point itself if it lies within."""
    if room.is_empty:
        return None
    region, wanted = _region(room), shapely.Point(y_mm, z_mm)
    if shapely.intersects(region, wanted):
        return y_mm, z_mm
    on_edge = shapely.get_coordinates(shapely.shortest_line(region, wanted))[0]
    return float(on_edge[0]), float(on_edge[1])


def travel_at(room: Room, y_mm: float, z_mm: float) -> Travel:
    """Return how far the part may be moved each way from a place of the room before it meets something."""
    if room.bounds is None:
        return Travel(0.0, 0.0, 0.0, 0.0)
    b, region = room.bounds, _region(room)
    across = _stretch(region, [(b.y0_mm - 1, z_mm), (b.y1_mm + 1, z_mm)], y_mm, 0)
    up = _stretch(region, [(y_mm, b.z0_mm - 1), (y_mm, b.z1_mm + 1)], z_mm, 1)
    return Travel(y_mm - across[0], across[1] - y_mm, z_mm - up[0], up[1] - z_mm)


def _stretch(region: Geometry, ends: Sequence[tuple[float, float]], at_mm: float, axis: int) -> tuple[float, float]:
    """Return where the free stretch of a line through the region begins and ends round a place on it."""
    for piece in shapely.get_parts(shapely.intersection(region, shapely.LineString(ends))):
        along = shapely.get_coordinates(piece)[:, axis]
        if along.min() - TOUCH_MM <= at_mm <= along.max() + TOUCH_MM:
            return min(at_mm, float(along.min())), max(at_mm, float(along.max()))
    return at_mm, at_mm


@functools.lru_cache(maxsize=256)
def _region(room: Room) -> Geometry:
    return shapely.union_all([shapely.Polygon(rings[0], rings[1:]) for rings in room.polygons_mm])


def _holders(setting: Setting, body: Body, x_mm: float) -> Iterable[tuple[Box, Box]]:
    """Yield what must lie within what."""
    if setting.inside is not None:
        yield body.outline, setting.inside
    if setting.covered is not None:
        # The other way round: what is covered must lie within the part.
        yield _inside_out(body.outline), _inside_out(setting.covered)
    if setting.limits is not None and (setting.hole is None or body.core is None):
        yield body.outline, setting.limits
    if setting.hole is None:
        return
    hole = bounds_of(setting.hole)
    for inner in through_the_hole(setting, body, x_mm):
        yield inner, hole


def _inside_out(box: Box) -> Box:
    return Box(box.y1_mm, box.z1_mm, box.y0_mm, box.z0_mm)


def through_the_hole(setting: Setting, body: Body, x_mm: float) -> list[Box]:
    """Return what of the part must lie within the support window's outline.

    What stands wholly ahead of the plate needs only its core before the hole, and bends that lead through it; any other
    core must go through it whole, as it grows when hot. Fans and shrouds only where they cross the plate.
    """
    found = []
    if body.core is not None:
        _, behind = setting.lean_shifts_mm(body.beyond_core_mm)
        ahead = x_mm + body.rear_mm + behind <= setting.hole_x_mm + TOUCH_MM
        found.append(body.core if ahead else grown(body.outline, body.growth))
    for piece in body.pieces:
        crosses = x_mm + piece.front_mm < setting.hole_x_mm - TOUCH_MM < x_mm + piece.rear_mm - 2 * TOUCH_MM
        if crosses and piece.matter is not Matter.MOUNT and (body.core is None or piece.matter is Matter.PORT):
            found.append(piece.box)
    return found


def grown(box: Box, by: Box) -> Box:
    """Return the box grown on each side by what the other says for that side (negative for low sides)."""
    return Box(box.y0_mm + by.y0_mm, box.z0_mm + by.z0_mm, box.y1_mm + by.y1_mm, box.z1_mm + by.z1_mm)


def _taken(setting: Setting, body: Body, x_mm: float, within: Box) -> list[Geometry]:
    """Return what is taken away from the box of places, rectangles by their sides and all else by Minkowski sums."""
    boxes: list[tuple[float, float, float, float]] = []
    found: list[Geometry] = []
    most = setting.clearances.most_mm
    first = x_mm + min(piece.front_mm for piece in body.pieces) - most
    last = x_mm + max(piece.rear_mm for piece in body.pieces) + most
    for obstacle in setting.obstacles:
        o, is_box = obstacle.bounds, obstacle.shape.box is not None
        if obstacle.front_mm >= last or obstacle.rear_mm <= first:
            continue
        for piece in body.pieces:
            if obstacle.front_mm - most >= x_mm + piece.rear_mm or obstacle.rear_mm + most <= x_mm + piece.front_mm:
                continue
            room = meets_in_depth(setting, obstacle, piece, x_mm)
            if room is None:
                continue
            b, keep = piece.box, room - TOUCH_MM
            y0, y1 = o.y0_mm - keep - b.y1_mm, o.y1_mm + keep - b.y0_mm
            z0, z1 = o.z0_mm - keep - b.z1_mm, o.z1_mm + keep - b.z0_mm
            if y0 >= within.y1_mm or y1 <= within.y0_mm or z0 >= within.z1_mm or z1 <= within.z0_mm:
                continue
            if is_box and not piece.corners_mm:
                boxes.append((y0, z0, y1, z1))
            else:
                found.append(forbidden(obstacle.pieces, outline_of(piece), room, TOUCH_MM))
    if boxes:
        found += list(shapely.box(*np.array(boxes).T))
    if setting.hole is not None and (frame := frame_of(setting.hole)):
        found += [forbidden(frame, corners_of(inner), 0.0, TOUCH_MM) for inner in through_the_hole(setting, body, x_mm)]
    return found


def outline_of(piece: Piece) -> Floats:
    """Return the corners of a piece, rows (y, z) [mm]."""
    return np.array(piece.corners_mm) if piece.corners_mm else corners_of(piece.box)


def _eased(box: Box) -> Box:
    return Box(box.y0_mm - TOUCH_MM, box.z0_mm - TOUCH_MM, box.y1_mm + TOUCH_MM, box.z1_mm + TOUCH_MM)
