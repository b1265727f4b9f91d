"""What is around a part that is to be put in: everything that may be in its way, as it stands along a plane of that lean."""

from __future__ import annotations

import functools
import math
from collections.abc import Collection, Iterable
from dataclasses import dataclass

import shapely

from grillestack.geometry.bodies import TOUCH_MM
from grillestack.geometry.minkowski import convex_pieces
from grillestack.geometry.outlines import SLIVER_MM2, Floats, Shape, box_shape, outline_shape, polygon_shape
from grillestack.geometry.projection import Box, project_part
from grillestack.geometry.taken_space import BODIES, Matter, Piece, Pose, posed_pieces
from grillestack.model.nose import Nose, Obstruction
from grillestack.model.outline import SidePoint
from grillestack.model.parts import Part
from grillestack.model.project import Project

# Where nothing is drawn, the room ends where the places of a document do.
END_MM = 10_000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearances:
    """How near things may come to each other; `growth_mm` is what a charge-air cooler grows along its tubes when hot.

    `are_brackets_on_core` says that the part's own brackets are bolted to the core it covers, as a shroud's are.
    """

    gap_mm: float
    fan_mm: float
    obstruction_mm: float
    bonnet_mm: float
    pulley_mm: float
    growth_mm: float
    are_brackets_on_core: bool = False

    def between(self, one: Matter, other: Matter) -> float | None:
        """Return the room to keep between a piece that is there and one of the part, or nothing where they may share space."""
        # Told apart by identity: this is asked some hundred thousand times for a large catalogue.
        if self.are_brackets_on_core and one is Matter.CORE and other is Matter.MOUNT:
            return None
        small = one is Matter.PORT or one is Matter.MOUNT
        if other is Matter.PORT or other is Matter.MOUNT:
            if small:
                return None  # bends and brackets are made to suit each other
            one, other, small = other, one, True
        if other is Matter.SHROUD and one in (Matter.FAN, Matter.MOUNT):
            return None  # a fan stands in its shroud and is bolted to it
        if one is Matter.SHROUD and other is Matter.FAN:
            return None
        if small:
            return 0.0
        if one is Matter.NOSE or other is Matter.NOSE:
            return self.obstruction_mm
        if one is Matter.CORE and other is Matter.CORE:
            return self.gap_mm
        either_is_core = one is Matter.CORE or other is Matter.CORE
        return self.fan_mm if either_is_core and (one is Matter.FAN or other is Matter.FAN) else 0.0

    @property
    def most_mm(self) -> float:
        """Return the largest room that any two things keep."""
        return max(self.gap_mm, self.fan_mm, self.obstruction_mm)


@dataclass(frozen=True, slots=True, eq=False)
class Obstacle:
    """One piece of the vehicle or of another part; its reach along x is measured from the plane of the lean."""

    thing_id: str
    matter: Matter
    name: str
    shape: Shape
    bounds: Box
    front_mm: float
    rear_mm: float

    @property
    def pieces(self) -> tuple[Floats, ...]:
        """Return its convex pieces."""
        return _pieces_of(self.shape)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Setting:
    """All that bounds the room of a part: obstacles, the support window, bonnet, grille and pulley.

    A part slides in the plane through (x, `lean_z_mm`) that leans by `tilt_deg`. `limits` bound its outline where no
    window does. `inside` must hold it (a fan in its shroud), `covered` must lie within it (the core under a shroud).
    """

    obstacles: tuple[Obstacle, ...]
    hole: Shape | None
    hole_x_mm: float
    limits: Box | None
    bonnet_line: tuple[SidePoint, ...]
    grille_x_mm: float
    pulley_x_mm: float | None
    tilt_deg: float
    lean_z_mm: float
    clearances: Clearances
    inside: Box | None = None
    covered: Box | None = None

    @property
    def lean_frac(self) -> float:
        """Return how far the plane runs rearward for each millimetre up."""
        return math.tan(math.radians(self.tilt_deg))

    def lean_shifts_mm(self, beyond_mm: float) -> tuple[float, float]:
        """Return how far at most the plane runs ahead of its place at `lean_z_mm`, and behind it, over the heights in reach.

        `beyond_mm` is how far a part may reach above and below what bounds its core. Where a part will stand is not known
        beforehand, so what leans is taken to reach as far as it may anywhere.
        """
        around = bounds_of(self.hole) if self.hole is not None else self.limits
        if self.lean_frac == 0.0 or around is None:
            return 0.0, 0.0
        shifts = [self.lean_frac * (z - self.lean_z_mm) for z in (around.z0_mm - beyond_mm, around.z1_mm + beyond_mm)]
        return min(shifts), max(shifts)


def setting_of(
    project: Project,
    taken_out: Collection[str],
    clearances: Clearances,
    *,
    tilt_deg: float = 0.0,
    lean_z_mm: float = 0.0,
) -> Setting:
    """Return the surroundings of a part that is put into the pack, without the parts that are taken out for it.

    What a neighbour's bends have no room for today, because a part that is taken out stands there, is not kept free for them.
    """
    lean = math.tan(math.radians(tilt_deg))
    gone = [piece for part in project.parts if part.id in taken_out for piece in _placed(part, lean, lean_z_mm)]
    obstacles = [_nose_obstacle(thing, lean, lean_z_mm) for thing in project.nose.obstructions]
    for part in project.parts:
        if part.id not in taken_out:
            obstacles += [o for o in _placed(part, lean, lean_z_mm) if not _is_in_the_way_today(o, gone)]
    nose = project.nose
    window = nose.support_window
    hole = outline_shape(window.outline, window.corner_radii_mm) if window else None
    if hole is not None and hole.area_mm2 <= SLIVER_MM2:
        hole = None
    return Setting(
        obstacles=tuple(o for o in obstacles if o.shape.area_mm2 > SLIVER_MM2),
        hole=hole,
        hole_x_mm=window.x_mm if window else 0.0,
        limits=_drawn(project, hole),
        bonnet_line=nose.stations.bonnet_line,
        grille_x_mm=nose.stations.grille_x_mm,
        pulley_x_mm=nose.stations.pulley_x_mm,
        tilt_deg=tilt_deg,
        lean_z_mm=lean_z_mm,
        clearances=clearances,
    )


def bounds_of(shape: Shape) -> Box:
    """Return the box around a shape."""
    if shape.box is not None:
        return shape.box
    y0, z0, y1, z1 = (float(v) for v in shapely.bounds(shape.polygon))
    return Box(y0, z0, y1, z1)


@functools.lru_cache(maxsize=512)
def frame_of(hole: Shape) -> tuple[Floats, ...]:
    """Return convex pieces of what a window's outline leaves of the box around it; none for a rectangle."""
    if hole.box is not None:
        return ()
    around = box_shape(bounds_of(hole))
    return convex_pieces(polygon_shape(shapely.difference(around.polygon, hole.polygon)))


@functools.lru_cache(maxsize=512)
def _pieces_of(shape: Shape) -> tuple[Floats, ...]:
    return convex_pieces(shape)


def _nose_obstacle(thing: Obstruction, lean: float, z_mm: float) -> Obstacle:
    shape = outline_shape(thing.outline, thing.corner_radii_mm)
    bounds = bounds_of(shape) if shape.area_mm2 > SLIVER_MM2 else Box(0.0, 0.0, 0.0, 0.0)
    shifts = [lean * (z - z_mm) for z in (bounds.z0_mm, bounds.z1_mm)]
    return Obstacle(
        thing.id,
        Matter.NOSE,
        "obstruction",
        shape,
        bounds,
        thing.x_front_mm - max(shifts),
        thing.x_rear_mm - min(shifts),
    )


def _placed(part: Part, lean: float, z_mm: float) -> list[Obstacle]:
    """Return the pieces of a placed part; its reach is exact where it leans as the plane does, else never too small."""
    at = part.placement
    own_lean = math.tan(math.radians(at.tilt_deg))
    found = []
    for piece in posed_pieces(part, Pose(at.quarter_turns, at.flipped), at.tilt_deg):
        b = piece.box
        bounds = Box(b.y0_mm + at.y_mm, b.z0_mm + at.z_mm, b.y1_mm + at.y_mm, b.z1_mm + at.z_mm)
        shifts = [at.x_mm + own_lean * (z - at.z_mm) - lean * (z - z_mm) for z in (bounds.z0_mm, bounds.z1_mm)]
        front, rear = piece.front_mm + min(shifts), piece.rear_mm + max(shifts)
        found.append(Obstacle(part.id, piece.matter, piece.name, _shape(piece, bounds, part), bounds, front, rear))
    return found


def _shape(piece: Piece, bounds: Box, part: Part) -> Shape:
    if not piece.corners_mm:
        return box_shape(bounds)
    at = part.placement
    return polygon_shape(shapely.Polygon([(y + at.y_mm, z + at.z_mm) for y, z in piece.corners_mm]))


def _is_in_the_way_today(obstacle: Obstacle, gone: Iterable[Obstacle]) -> bool:
    """Return whether a bend or bracket of a neighbour meets what is taken out."""
    if obstacle.matter not in (Matter.PORT, Matter.MOUNT):
        return False
    b = obstacle.bounds
    return any(
        other.matter in BODIES
        and min(b.y1_mm, other.bounds.y1_mm) - max(b.y0_mm, other.bounds.y0_mm) > TOUCH_MM
        and min(b.z1_mm, other.bounds.z1_mm) - max(b.z0_mm, other.bounds.z0_mm) > TOUCH_MM
        and min(obstacle.rear_mm, other.rear_mm) - max(obstacle.front_mm, other.front_mm) > TOUCH_MM
        for other in gone
    )


def _drawn(project: Project, hole: Shape | None) -> Box | None:
    """Return the box around window, openings and pack, which bounds the room of what need not go through the window."""
    boxes = [project_part(part).outline_box for part in project.parts] + _openings(project.nose)
    boxes += [] if hole is None else [bounds_of(hole)]
    if not boxes:
        return None
    return Box(
        min(b.y0_mm for b in boxes),
        min(b.z0_mm for b in boxes),
        max(b.y1_mm for b in boxes),
        max(b.z1_mm for b in boxes),
    )


def _openings(nose: Nose) -> list[Box]:
    shapes = [outline_shape(opening.outline, opening.corner_radii_mm) for opening in nose.openings]
    return [bounds_of(shape) for shape in shapes if shape.area_mm2 > SLIVER_MM2]
