"""The frame that carries a pack: which arm or cross rail takes hold of each mount, and the rails that join them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from grillestack.model.parts import Core, Shroud
from grillestack.model.project import Project, cores
from grillestack.sheets.brackets import (
    BOLT_HOLE_MM,
    BOLTS_APART_MM,
    BUSH_WALL_MM,
    LEG_HOLE_MM,
    LEG_MM,
    RUBBER_MM,
    Angle,
    Kind,
    Piece,
    Placed,
    Space,
    angle_flat,
    arm,
    least_reach_mm,
)
from grillestack.sheets.draw_list import Point
from grillestack.sheets.flat_part import FlatPart, Hole
from grillestack.sheets.making import Making
from grillestack.sheets.mount_points import VERIFY, End, MountPoint, Sits, mount_points
from grillestack.sheets.paper import Area
from grillestack.sheets.part_plane import InPlane, in_nose, own_point, plane_area
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.shroud_blank import FLANGE_MM
from grillestack.sheets.thermal_growth import slot_length_mm
from grillestack.sheets.trouble import NothingToDrawError

# Between the widest part and the rails; common practice, no source.
BESIDE_MM = 10.0
# Further from the rail than this no arm carries weight: a rail across does. Common practice, no source.
LONGEST_ARM_MM = 80.0
CROSS_SEAT_MM, CROSS_LEG_MM, WELD_GAP_MM = 50.0, 40.0, 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WebHole:
    """A hole in the web of a side rail, by x rearward and z up; `name` is that of the piece bolted there."""

    x_mm: float
    z_mm: float
    diameter_mm: float
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """Where a cross rail is welded to a web: the middle of its seat and the height of the seat's top."""

    name: str
    x_mm: float
    z_mm: float


@dataclass(slots=True)
class Sides:
    """What the two side rails must take up while the frame is put together; right first."""

    right_mm: float
    left_mm: float
    holes: tuple[list[WebHole], list[WebHole]] = field(default_factory=lambda: ([], []))
    seams: list[Seam] = field(default_factory=list)

    def nearest(self, across_mm: float) -> int:
        """Return which rail a point is nearer to."""
        return 0 if across_mm - self.right_mm < self.left_mm - across_mm else 1

    def reach_mm(self, across_mm: float) -> float:
        """Return how far a point stands from the inner face of the nearer rail."""
        return min(across_mm - self.right_mm, self.left_mm - across_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """Arms and cross rails of all cores, where they are, and what the rails must take up."""

    pieces: tuple[Piece, ...]
    placed: tuple[Placed, ...]
    sides: Sides
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Wanted:
    """One arm before alike ones are counted."""

    angle: Angle
    flat: FlatPart
    what: tuple[str, str]
    remark: str
    point: MountPoint
    across_mm: float


def held_cores(project: Project, making: Making) -> Held:
    """Return what holds the cores.

    Raises
    ------
    NothingToDrawError
        If there is no core.
    """
    if not cores(project):
        raise NothingToDrawError("There is no core in this pack, so no bracket is drawn: put a radiator into the pack.")
    points, warnings = mount_points(project), list[str]()
    sides = _sides(project, points, making)
    tags = part_tags(project)
    wanted: list[_Wanted] = []
    across: dict[str, list[MountPoint]] = {}
    for point in points:
        tag = tags[point.core.id].tag
        if point.is_assumed and point.place == 1:
            warnings.append(f"{tag} states no mounts: pins below and above are {VERIFY}.")
        where = _across(point)
        reach = sides.reach_mm(where)
        hole = _seat_hole(point)
        if point.sits is Sits.SIDE:
            x, _, z = in_nose(point.core, point.at)
            name = f"{tag} side bolt"
            sides.holes[sides.nearest(where)].append(WebHole(x_mm=x, z_mm=z, diameter_mm=point.hole_mm, name=name))
            warnings.append(f"{tag}: a mount in its side is bolted through the rail with a spacer {reach:.0f} mm long.")
        elif point.sits is Sits.BELOW and reach > LONGEST_ARM_MM:
            across.setdefault(point.core.id, []).append(point)
        else:
            angle, flat = arm(reach, hole, making.bend)
            wanted.append(_Wanted(angle, flat, _what(point, tag), _remark(point), point, where))
    pieces, placed = _arms(wanted, sides)
    for found in across.values():
        piece, place = _cross_rail(found, sides, making, f"B{len(pieces) + 1}", tags[found[0].core.id].tag)
        pieces.append(piece)
        placed.append(place)
    return Held(pieces=tuple(pieces), placed=tuple(placed), sides=sides, warnings=tuple(dict.fromkeys(warnings)))


def _sides(project: Project, points: Sequence[MountPoint], making: Making) -> Sides:
    """Return the rails: clear of the widest part, and so far out that an arm's bend is clear of the hole in its seat."""
    low, high = [], []
    for part in project.parts:
        area = plane_area(part)
        out = _flange_mm(part, area) if isinstance(part, Shroud) else 0.0
        low.append(area.x0_mm - part.placement.y_mm - out)
        high.append(area.x1_mm - part.placement.y_mm + out)
    sides = Sides(min(low) - BESIDE_MM, max(high) + BESIDE_MM)
    for point in points:
        if point.sits is Sits.SIDE:
            continue
        across, least = _across(point), least_reach_mm(_seat_hole(point), making.bend)
        if sides.nearest(across):
            sides.left_mm = max(sides.left_mm, across + least)
        else:
            sides.right_mm = min(sides.right_mm, across - least)
    return sides


def _flange_mm(shroud: Shroud, area: Area) -> float:
    """Return how far a shroud's flange may reach beside its box: twice as far as its holes, or the flange that is assumed."""
    if not shroud.mounts:
        return FLANGE_MM
    across = [abs(own_point(shroud, m.u_mm, m.v_mm, m.w_mm).across_mm) for m in shroud.mounts]
    return max(0.0, 2 * (max(across) - area.width_mm / 2))


def _across(point: MountPoint) -> float:
    return point.at.across_mm - point.core.placement.y_mm


def _seat_hole(point: MountPoint) -> Hole:
    """Return the hole in the seat: for the pin with its bush, or for the bolt; slotted at the free end of a hot core."""
    diameter = point.hole_mm + 2 * BUSH_WALL_MM if point.is_pin else point.hole_mm
    slot = slot_length_mm(diameter, point.growth_mm) if point.end is End.FREE else 0.0
    return Hole(at=Point(0.0, 0.0), diameter_mm=diameter, slot_mm=slot)


def _what(point: MountPoint, tag: str) -> tuple[str, str]:
    """Return what an arm holds, and where it stands there."""
    end = {End.FIXED: ", fixed end", End.FREE: ", free end"}.get(point.end, "")
    kind = {Sits.BELOW: "lower saddle", Sits.ABOVE: "upper locator"}.get(point.sits, "arm at the face")
    return f"{tag}{end}", kind


def _remark(point: MountPoint) -> str:
    remarks = []
    if point.is_pin:
        remarks.append("Hole for the pin in its rubber bush.")
    if point.end is End.FREE:
        remarks.append(f"Slot along the growth: {point.growth_mm:.1f} mm REF, hot; bolt in the middle, cold.")
    if point.is_assumed:
        remarks.append(f"Mount {VERIFY}.")
    return " ".join(remarks)


def _arms(wanted: Sequence[_Wanted], sides: Sides) -> tuple[list[Piece], list[Placed]]:
    """Return the arms, alike ones as one piece, and bolt each to its rail."""
    pieces: list[Piece] = []
    placed: list[Placed] = []
    for_what: list[dict[str, list[str]]] = []
    for one in wanted:
        at = next((k for k, p in enumerate(pieces) if p.flat == one.flat and p.remarks == _remarks(one)), None)
        if at is None:
            at = len(pieces)
            piece = Piece(
                name=f"B{at + 1}",
                kind=Kind.ARM,
                title="",
                count=0,
                angle=one.angle,
                flat=one.flat,
                remarks=_remarks(one),
            )
            pieces.append(piece)
            for_what.append({})
        kinds = for_what[at].setdefault(one.what[0], [])
        if one.what[1] not in kinds:
            kinds.append(one.what[1])
        title = "; ".join(f"{whose}: {' and '.join(sorted(said))}" for whose, said in for_what[at].items())
        known = pieces[at] = replace(pieces[at], count=pieces[at].count + 1, title=title)
        side = sides.nearest(one.across_mm)
        for x, z in _bolts(one):
            sides.holes[side].append(WebHole(x_mm=x, z_mm=z, diameter_mm=BOLT_HOLE_MM, name=known.name))
        placed.append(Placed(name=known.name, kind=Kind.ARM, space=_space(one, sides)))
    return pieces, placed


def _remarks(one: _Wanted) -> tuple[str, ...]:
    return (one.remark,) if one.remark else ()


def _away(point: MountPoint) -> tuple[float, float]:
    """Return which way the leg of an arm runs from its seat: (depth, up)."""
    if point.sits is Sits.FACE:
        return (-1.0, 0.0) if point.at.depth_mm <= point.core.depth_mm / 2 else (1.0, 0.0)
    return (0.0, -1.0) if point.sits is Sits.BELOW else (0.0, 1.0)


def _bolts(one: _Wanted) -> list[tuple[float, float]]:
    """Return the two bolts of an arm in the web: x and z."""
    depth, up = _away(one.point)
    out = RUBBER_MM + LEG_HOLE_MM
    found = []
    for side in (-1, 1):
        along = side * BOLTS_APART_MM / 2
        at = InPlane(
            one.point.at.across_mm,
            one.point.at.up_mm + up * out + (along if depth else 0.0),
            one.point.at.depth_mm + depth * out + (0.0 if depth else along),
        )
        x, _, z = in_nose(one.point.core, at)
        found.append((x, z))
    return found


def _space(one: _Wanted, sides: Sides) -> Space:
    depth, up = _away(one.point)
    half = one.angle.length_mm / 2
    corners = []
    for out in (RUBBER_MM, RUBBER_MM + LEG_MM):
        for along in (-half, half):
            at = InPlane(
                one.point.at.across_mm,
                one.point.at.up_mm + up * out + (along if depth else 0.0),
                one.point.at.depth_mm + depth * out + (0.0 if depth else along),
            )
            corners.append(in_nose(one.point.core, at))
    right = sides.nearest(one.across_mm) == 0
    rail = sides.right_mm if right else sides.left_mm
    tip = rail + one.angle.seat_mm if right else rail - one.angle.seat_mm
    xs, zs = [c[0] for c in corners], [c[2] for c in corners]
    return Space(min(rail, tip), max(rail, tip), min(xs), max(xs), min(zs), max(zs))


def _cross_rail(
    points: Sequence[MountPoint], sides: Sides, making: Making, name: str, tag: str
) -> tuple[Piece, Placed]:
    """Return the rail under a core, its leg behind and down, welded between the webs."""
    core: Core = points[0].core
    depth = sum(p.at.depth_mm for p in points) / len(points)
    up = min(p.at.up_mm for p in points) - RUBBER_MM
    start = sides.right_mm + WELD_GAP_MM
    length = sides.left_mm - sides.right_mm - 2 * WELD_GAP_MM
    angle = Angle(seat_mm=CROSS_SEAT_MM, leg_mm=CROSS_LEG_MM, length_mm=length, bend=making.bend)
    holes = []
    for point in points:
        hole = _seat_hole(point)
        from_leg = CROSS_SEAT_MM / 2 + depth - point.at.depth_mm
        # Seen from above with the front at the top, the left of the vehicle is at the left.
        holes.append(replace(hole, at=Point(start + length - _across(point), from_leg)))
    remarks = [text for text in dict.fromkeys(_remark(point) for point in points) if text]
    rear = depth + CROSS_SEAT_MM / 2
    x, _, z = in_nose(core, InPlane(0.0, up, rear))
    sides.seams.append(Seam(name=name, x_mm=x, z_mm=z))
    corners = [in_nose(core, InPlane(0.0, v, w)) for v in (up, up - CROSS_LEG_MM) for w in (rear - CROSS_SEAT_MM, rear)]
    xs, zs = [c[0] for c in corners], [c[2] for c in corners]
    piece = Piece(
        name=name,
        kind=Kind.CROSS_RAIL,
        title=f"{tag} lower cross rail with saddles",
        count=1,
        angle=angle,
        flat=angle_flat(angle, tuple(holes), ()),
        remarks=tuple(remarks),
    )
    space = Space(start, start + length, min(xs), max(xs), min(zs), max(zs))
    return piece, Placed(name=name, kind=Kind.CROSS_RAIL, space=space)
