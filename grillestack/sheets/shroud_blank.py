"""The blank of a shroud: its box unfolded, with ring holes, ear holes, fixing holes and flap openings in their places."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grillestack.geometry.fan_places import fans_in_shrouds
from grillestack.geometry.projection import project_part
from grillestack.model.parts import Fan, FanDrive, Shroud
from grillestack.model.project import Project, fans, shrouds
from grillestack.sheets.box_blank import BoxBlank, BoxShape, box_blank
from grillestack.sheets.draw_list import Point
from grillestack.sheets.flap_openings import flap_openings
from grillestack.sheets.flat_part import BendLine, FlatPart, Hole
from grillestack.sheets.making import Making
from grillestack.sheets.paper import Area
from grillestack.sheets.part_plane import InPlane, own_point, plane_area
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.trouble import NothingToDrawError

# A ring that is held by the panel goes through its hole with so much room all round; common practice, no source.
RING_CLEAR_MM = 1.0
# Where engine and shroud move against each other; a published or maker's figure, seen in summary.
BELT_CLEAR_MM = 19.0
# A flange where no hole says how wide; common practice, no source.
FLANGE_MM = 20.0
# Less sheet than this beside a ring hole is spoken of.
_THIN_MM = 10.0
# A mount this near to the front or rear plane is a hole in flange or panel.
_AT_PLANE_MM = 5.0
_TOUCH_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class ShroudBlank:
    """A shroud's blank as seen from ahead, into the box; the middle of its rear panel lies at `middle`."""

    shroud: Shroud
    shape: BoxShape
    flat: FlatPart
    middle: Point
    fans: tuple[Fan, ...]
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Ring:
    fan: Fan
    name: str
    centre: InPlane
    radius_mm: float


def shroud_blanks(project: Project, making: Making) -> tuple[ShroudBlank, ...]:
    """Return the blank of every shroud.

    Raises
    ------
    NothingToDrawError
        If there is no shroud, or one cannot be folded or cannot take its fans.
    """
    found = shrouds(project)
    if not found:
        raise NothingToDrawError("There is no shroud in this pack, so no blank is drawn: put a shroud into the pack.")
    return tuple(_blank(project, shroud, making) for shroud in found)


def _blank(project: Project, shroud: Shroud, making: Making) -> ShroudBlank:
    area = plane_area(shroud)
    mounts = [(own_point(shroud, m.u_mm, m.v_mm, m.w_mm), m.hole_mm) for m in shroud.mounts]
    at_front = [one for one in mounts if one[0].depth_mm <= _AT_PLANE_MM]
    shape = _shape(shroud, area, [point for point, _ in at_front], making)
    box = box_blank(shape, shroud.name)
    rings = _rings(project, shroud)
    _check_rings(shroud, shape, rings)
    warnings = [*_thin_warnings(shape, rings)]
    if not at_front:
        warnings.append(
            f"“{shroud.name}” states no holes in its flange: the flange is assumed, drill it to the radiator."
        )
    holes = [
        Hole(at=Point(r.centre.across_mm, r.centre.up_mm), diameter_mm=2 * r.radius_mm, name=r.name) for r in rings
    ]
    holes += _ears(rings, shape, warnings)
    holes += _fixing_holes(box, mounts, shape, warnings)
    openings = flap_openings(shroud.flap_area_mm2, _panel(shape), holes)
    if openings is None:
        warnings.append(
            f"The flaps of “{shroud.name}” ({shroud.flap_area_mm2 / 100:.0f} cm²) find no room beside its rings: "
            "none is cut, make them smaller or cut them by hand."
        )
    if not rings:
        warnings.append(f"No fan stands in “{shroud.name}”: its ring holes are left out, put the fans in first.")
    return _moved(shroud, box, holes, openings or (), tuple(rings), tuple(warnings))


def _moved(
    shroud: Shroud,
    box: BoxBlank,
    holes: Sequence[Hole],
    openings: Sequence[tuple[Point, ...]],
    rings: tuple[_Ring, ...],
    warnings: tuple[str, ...],
) -> ShroudBlank:
    """Return the blank with its lower left corner at 0/0."""
    bounds = FlatPart(contour=box.contour).area

    def at(point: Point) -> Point:
        return Point(point.x_mm - bounds.x0_mm, point.y_mm - bounds.y0_mm)

    flat = FlatPart(
        contour=tuple(at(p) for p in box.contour),
        holes=tuple(Hole(at=at(h.at), diameter_mm=h.diameter_mm, name=h.name) for h in holes),
        openings=tuple(tuple(at(p) for p in outline) for outline in openings),
        bends=tuple(
            BendLine(start=at(b.start), end=at(b.end), angle_deg=b.angle_deg, is_up=b.is_up) for b in box.bends
        ),
    )
    return ShroudBlank(
        shroud=shroud,
        shape=box.shape,
        flat=flat,
        middle=at(Point(0.0, 0.0)),
        fans=tuple(ring.fan for ring in rings),
        warnings=warnings,
    )


def _shape(shroud: Shroud, area: Area, at_front: Sequence[InPlane], making: Making) -> BoxShape:
    """Return the box; the holes say whether its flange turns in or out, and stand in the middle of it."""
    hx, hy = area.width_mm / 2, area.height_mm / 2
    inside = [min(hx - abs(p.across_mm), hy - abs(p.up_mm)) for p in at_front]
    is_inward = bool(inside) and sum(1 for d in inside if d > 0) * 2 >= len(inside)
    reach = [abs(d) for d in inside if (d > 0) is is_inward]
    return BoxShape(
        width_mm=area.width_mm,
        height_mm=area.height_mm,
        depth_mm=shroud.depth_mm,
        flange_mm=2 * max(reach) if reach else FLANGE_MM,
        flange_is_inward=is_inward,
        bend=making.bend,
    )


def _panel(shape: BoxShape) -> Area:
    """Return the flat of the rear panel."""
    hx, hy = (size / 2 - shape.bend.setback_mm for size in (shape.width_mm, shape.height_mm))
    return Area(-hx, -hy, hx, hy)


def _rings(project: Project, shroud: Shroud) -> tuple[_Ring, ...]:
    every, tags = fans(project), part_tags(project)
    places = fans_in_shrouds([project_part(f) for f in every], [project_part(s) for s in shrouds(project)])
    own = [k for k, place in enumerate(places) if place >= 0 and shrouds(project)[place].id == shroud.id]
    return tuple(
        _Ring(
            every[k],
            tags[every[k].id].tag,
            _in_shroud(shroud, every[k], 0.0, 0.0, 0.0),
            every[k].ring_diameter_mm / 2 + _clear_mm(every[k]),
        )
        for k in own
    )


def _clear_mm(fan: Fan) -> float:
    return BELT_CLEAR_MM if fan.drive is FanDrive.BELT else RING_CLEAR_MM


def _in_shroud(shroud: Shroud, fan: Fan, u_mm: float, v_mm: float, w_mm: float) -> InPlane:
    from_fan, at, to = own_point(fan, u_mm, v_mm, w_mm), fan.placement, shroud.placement
    # Fan and shroud lean alike where they fit each other; along the shroud's own plane is what is cut.
    turn = math.radians(to.tilt_deg)
    dx, dz = at.x_mm - to.x_mm, at.z_mm - to.z_mm
    return InPlane(
        from_fan.across_mm + to.y_mm - at.y_mm,
        from_fan.up_mm + dx * math.sin(turn) + dz * math.cos(turn),
        from_fan.depth_mm + dx * math.cos(turn) - dz * math.sin(turn),
    )


def _check_rings(shroud: Shroud, shape: BoxShape, rings: Sequence[_Ring]) -> None:
    panel = _panel(shape)
    for ring in rings:
        at, radius = ring.centre, ring.radius_mm - _TOUCH_MM
        if not panel.holds(Area(at.across_mm - radius, at.up_mm - radius, at.across_mm + radius, at.up_mm + radius)):
            raise NothingToDrawError(
                f"The hole for the ring of “{ring.fan.name}” (⌀{2 * ring.radius_mm:g} mm) reaches outside the rear panel of "
                f"“{shroud.name}” ({shape.width_mm:g} × {shape.height_mm:g} mm): move the fan, or choose a smaller one or a "
                "larger shroud."
            )
        if abs(ring.fan.placement.tilt_deg - shroud.placement.tilt_deg) > 0.5:
            raise NothingToDrawError(
                f"“{ring.fan.name}” leans otherwise than “{shroud.name}”, so its ring needs no round hole: "
                "give both the same tilt."
            )
    for one, other in itertools.combinations(rings, 2):
        if _apart_mm(one, other) <= 0:
            raise NothingToDrawError(
                f"The holes for the rings of “{one.fan.name}” and “{other.fan.name}” meet in “{shroud.name}”: "
                "move the fans apart or choose smaller ones."
            )


def _apart_mm(one: _Ring, other: _Ring) -> float:
    a, b = one.centre, other.centre
    return math.hypot(a.across_mm - b.across_mm, a.up_mm - b.up_mm) - one.radius_mm - other.radius_mm


def _thin_warnings(shape: BoxShape, rings: Sequence[_Ring]) -> Iterator[str]:
    panel = _panel(shape)
    for ring in rings:
        if ring.fan.drive is FanDrive.BELT:
            yield (
                f"{ring.name} turns with the engine: {BELT_CLEAR_MM:g} mm are left all round its tips, as the engine moves "
                "against the shroud; half of its depth stands in the hole. Guard it."
            )
        at = ring.centre
        room = min(panel.x1_mm - abs(at.across_mm), panel.y1_mm - abs(at.up_mm)) - ring.radius_mm
        if room < _THIN_MM:
            yield (
                f"{ring.name}: {room:.1f} mm of flat sheet between its ring hole and the nearest bend; cut the hole "
                "after bending, or move the fan."
            )
    for one, other in itertools.combinations(rings, 2):
        if _apart_mm(one, other) < _THIN_MM:
            yield f"{one.name}, {other.name}: {_apart_mm(one, other):.1f} mm of sheet between their ring holes."


def _ears(rings: Sequence[_Ring], shape: BoxShape, warnings: list[str]) -> Iterator[Hole]:
    """Return the holes for the fans' ears in the rear panel; ears that stand off it are spoken of."""
    panel = _panel(shape)
    for ring in rings:
        points = [(_ear(ring, m.u_mm, m.v_mm, m.w_mm), m.hole_mm) for m in ring.fan.mounts]
        for point, hole in points:
            radius = hole / 2
            area = Area(point.across_mm - radius, point.up_mm - radius, point.across_mm + radius, point.up_mm + radius)
            clear = math.hypot(point.across_mm - ring.centre.across_mm, point.up_mm - ring.centre.up_mm)
            if panel.holds(area) and clear > ring.radius_mm + radius + 1.0:
                yield Hole(at=Point(point.across_mm, point.up_mm), diameter_mm=hole, name=f"{ring.name} ears")
            else:
                warnings.append(
                    f"{ring.name}: an ear stands off the panel; its hole is left out, hold the fan otherwise."
                )
        ahead = [shape.depth_mm - shape.bend.thickness_mm - point.depth_mm for point, _ in points]
        if ahead and max(abs(d) for d in ahead) > 1.0:
            side = "ahead of the panel’s inner face" if ahead[0] > 0 else "behind the panel’s inner face"
            warnings.append(f"{ring.name}: ears {abs(ahead[0]):.1f} mm {side}: spacers, verify on the fan.")


def _ear(ring: _Ring, u_mm: float, v_mm: float, w_mm: float) -> InPlane:
    own = own_point(ring.fan, u_mm, v_mm, w_mm)
    at = ring.centre
    return InPlane(at.across_mm + own.across_mm, at.up_mm + own.up_mm, at.depth_mm + own.depth_mm)


def _fixing_holes(
    box: BoxBlank, mounts: Sequence[tuple[InPlane, float]], shape: BoxShape, warnings: list[str]
) -> Iterator[Hole]:
    for point, hole in mounts:
        at = None
        if point.depth_mm <= _AT_PLANE_MM:
            at = box.on_flange(point.across_mm, point.up_mm)
        elif point.depth_mm >= shape.depth_mm - _AT_PLANE_MM and _panel(shape).holds(
            Area(point.across_mm, point.up_mm, point.across_mm, point.up_mm).grown(hole / 2)
        ):
            at = Point(point.across_mm, point.up_mm)
        if at is None:
            warnings.append(
                f"The hole at {point.across_mm:g} / {point.up_mm:g} mm from the middle of the shroud stands in a wall or a "
                "bend: mark it on the part."
            )
        else:
            yield Hole(at=at, diameter_mm=hole, name="fixing")
