"""The side rails of the frame: webs with a hole for everything bolted to them, a flange each, and feet to the vehicle."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.geometry.port_axes import port_step
from grillestack.geometry.projection import placed_point
from grillestack.model.nose import NoseMount
from grillestack.model.project import Project
from grillestack.sheets.brackets import (
    BOLT_HOLE_MM,
    BOLTS_APART_MM,
    LEG_HOLE_MM,
    LEG_MM,
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
from grillestack.sheets.flat_part import BendLine, FlatPart, Hole, mirrored
from grillestack.sheets.frame import CROSS_LEG_MM, CROSS_SEAT_MM, Held, WebHole, held_cores
from grillestack.sheets.frame_checks import TUBE_WALLS_MM, frame_warnings
from grillestack.sheets.making import Making
from grillestack.sheets.paper import Area
from grillestack.sheets.part_tags import part_tags

# Common practice, no source
FLANGE_MM, MARGIN_MM, PORT_CLEAR_MM = 30.0, 15.0, 10.0
# A foot is not made longer than this.
_LONGEST_FOOT_MM = 250.0
_TO_THE_SIDE_FRAC = 0.7
TO_SUIT = "to suit vehicle: verify"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rail:
    """One side rail as seen from outside; `web` is its web by x rearward and z up."""

    piece: Piece
    web: Area
    # Where cross rails are welded on, as upper rear corners on the blank
    seams: tuple[tuple[str, Point], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Everything that holds the pack in the vehicle."""

    held: Held
    feet: tuple[Piece, ...]
    rails: tuple[Rail, ...]
    placed: tuple[Placed, ...]
    has_vehicle_mounts: bool
    structure: tuple[str, ...]
    warnings: tuple[str, ...]

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """Return all pieces in the order of their names."""
        return (*self.held.pieces, *self.feet, *(rail.piece for rail in self.rails))


def frame_of(project: Project, making: Making) -> Frame:
    """Return the frame of the pack.

    Raises
    ------
    NothingToDrawError
        If there is no core.
    """
    held = held_cores(project, making)
    warnings = list(held.warnings)
    feet, places = _feet(project, held, making, warnings)
    _ports(project, held, warnings)
    rails, rail_places = _rails(held, making, len(held.pieces) + len(feet))
    placed = (*held.placed, *places, *rail_places)
    warnings += frame_warnings(project, held.placed, rail_places)
    return Frame(
        held=held,
        feet=tuple(feet),
        rails=rails,
        placed=placed,
        has_vehicle_mounts=bool(feet),
        structure=tuple(mount.name for mount in project.nose.mounts if mount.is_structure),
        warnings=tuple(dict.fromkeys(warnings)),
    )


def _feet(project: Project, held: Held, making: Making, warnings: list[str]) -> tuple[list[Piece], list[Placed]]:
    """Return a foot for each hole of the vehicle beside the frame, and bolt it to its rail."""
    sides, feet, places = held.sides, list[Piece](), list[Placed]()
    for mount in project.nose.mounts:
        across = -mount.y_mm
        side = sides.nearest(across)
        outer = sides.left_mm + making.thickness_mm if side else sides.right_mm - making.thickness_mm
        reach = across - outer if side else outer - across
        hole = Hole(at=Point(0.0, 0.0), diameter_mm=mount.hole_mm, slot_mm=mount.hole_mm + 8.0)
        if not least_reach_mm(hole, making.bend) <= reach <= _LONGEST_FOOT_MM:
            warnings.append(
                f"Mount “{mount.name}” of the vehicle stands too near to the rails or too far: no foot is drawn to it."
            )
            continue
        angle, flat = arm(reach, hole, making.bend)
        name = f"B{len(held.pieces) + len(feet) + 1}"
        feet.append(
            Piece(
                name=name,
                kind=Kind.FOOT,
                title=f"foot to “{mount.name}”",
                count=1,
                angle=angle,
                flat=flat,
                remarks=_foot_remarks(mount),
            )
        )
        for along in (-1, 1):
            sides.holes[side].append(
                WebHole(
                    x_mm=mount.x_mm - LEG_HOLE_MM,
                    z_mm=mount.z_mm + along * BOLTS_APART_MM / 2,
                    diameter_mm=BOLT_HOLE_MM,
                    name=name,
                )
            )
        tip = outer + angle.seat_mm if side else outer - angle.seat_mm
        half = angle.length_mm / 2
        places.append(
            Placed(
                name=name,
                kind=Kind.FOOT,
                space=Space(
                    min(outer, tip),
                    max(outer, tip),
                    mount.x_mm - LEG_MM,
                    mount.x_mm,
                    mount.z_mm - half,
                    mount.z_mm + half,
                ),
            )
        )
    return feet, places


def _foot_remarks(mount: NoseMount) -> tuple[str, ...]:
    remarks = ["Bolt taken as fore and aft: verify on vehicle."]
    if mount.is_structure:
        remarks.append(
            "CAUTION: this mount is in the crash structure: do not weld, drill or cut there; local codes decide."
        )
    return tuple(remarks)


def _ports(project: Project, held: Held, warnings: list[str]) -> None:
    """Let the ports that point to the side pass through the web there."""
    sides, tags = held.sides, part_tags(project)
    for part in project.parts:
        for port in part.ports:
            step = port_step(part, port)
            if abs(step[1]) < _TO_THE_SIDE_FRAC:
                continue
            x, _, z = placed_point(part, port.u_mm, port.v_mm, port.w_mm)
            side = 0 if step[1] > 0 else 1
            name = f"{tags[part.id].tag} {port.purpose.value}"
            diameter = (port.outside_mm or port.bore_mm + TUBE_WALLS_MM) + 2 * PORT_CLEAR_MM
            near = [
                h for h in sides.holes[side] if _apart_mm(h, x, z) < (h.diameter_mm + diameter) / 2 + PORT_CLEAR_MM / 2
            ]
            if near:
                names = ", ".join(dict.fromkeys(h.name for h in near))
                warnings.append(f"The pipe of {name} passes the rail where {names} is bolted: move the arm by hand.")
            sides.holes[side].append(WebHole(x_mm=x, z_mm=z, diameter_mm=diameter, name=name))


def _apart_mm(hole: WebHole, x_mm: float, z_mm: float) -> float:
    return math.hypot(hole.x_mm - x_mm, hole.z_mm - z_mm)


def _rails(held: Held, making: Making, before: int) -> tuple[tuple[Rail, ...], tuple[Placed, ...]]:
    """Return the rails, two alike ones as one piece with its mirror image."""
    web = _web(held)
    right, left = (_blank(holes, web, making) for holes in held.sides.holes)
    same = _places(held.sides.holes[0]) == _places(held.sides.holes[1])
    seams = tuple((seam.name, Point(seam.x_mm - web.x0_mm, seam.z_mm - web.y0_mm)) for seam in held.sides.seams)
    rails: list[Rail] = []
    drawn = [(left, seams, "LEFT, seen from outside")]
    if same:
        drawn = [(left, seams, "LEFT as drawn, seen from outside; RIGHT its mirror image")]
    else:
        across = right.area.width_mm
        turned = tuple((name, Point(across - at.x_mm, at.y_mm)) for name, at in seams)
        drawn.append((mirrored(right), turned, "RIGHT, seen from outside"))
    for flat, seams_on_it, words in drawn:
        rails.append(
            Rail(
                piece=Piece(
                    name=f"B{before + len(rails) + 1}",
                    kind=Kind.SIDE_RAIL,
                    title=f"side rail, {words}",
                    count=2 if same else 1,
                    angle=_rail_angle(web, making),
                    flat=flat,
                    remarks=("Flange outwards, at the rear.",),
                ),
                web=web,
                seams=seams_on_it,
            )
        )
    placed = []
    for place, side in ((rails[-1], 0), (rails[0], 1)):
        inner = held.sides.left_mm if side else held.sides.right_mm
        out = inner + FLANGE_MM if side else inner - FLANGE_MM
        space = Space(min(inner, out), max(inner, out), web.x0_mm, web.x1_mm, web.y0_mm, web.y1_mm)
        placed.append(Placed(name=place.piece.name, kind=Kind.SIDE_RAIL, space=space))
    return tuple(rails), tuple(placed)


def _places(holes: Sequence[WebHole]) -> set[tuple[float, float, float, str]]:
    return {(round(h.x_mm, 2), round(h.z_mm, 2), h.diameter_mm, h.name.rpartition(" ")[0] or h.name) for h in holes}


def _web(held: Held) -> Area:
    """Return the web that takes up every hole and seam with a margin; alike on both sides."""
    found = [
        Area(hole.x_mm, hole.z_mm, hole.x_mm, hole.z_mm).grown(hole.diameter_mm / 2 + MARGIN_MM)
        for hole in (*held.sides.holes[0], *held.sides.holes[1])
    ]
    found += [
        Area(seam.x_mm - CROSS_SEAT_MM, seam.z_mm - CROSS_LEG_MM, seam.x_mm, seam.z_mm).grown(MARGIN_MM)
        for seam in held.sides.seams
    ]
    return Area(
        min(a.x0_mm for a in found),
        min(a.y0_mm for a in found),
        max(a.x1_mm for a in found) + MARGIN_MM,
        max(a.y1_mm for a in found),
    )


def _rail_angle(web: Area, making: Making) -> Angle:
    return Angle(seat_mm=web.width_mm, leg_mm=FLANGE_MM, length_mm=web.height_mm, bend=making.bend)


def _blank(holes: Sequence[WebHole], web: Area, making: Making) -> FlatPart:
    """Return a rail laid flat: the web with its front edge at the left, the flange at the right."""
    angle = _rail_angle(web, making)
    # The inner face of the web is the inside of the bend: from its front edge to the outer face of the flange.
    lying = angle_flat(
        angle,
        tuple(
            Hole(
                at=Point(h.z_mm - web.y0_mm, web.x1_mm - h.x_mm),
                diameter_mm=h.diameter_mm,
                name=h.name,
            )
            for h in holes
        ),
        (),
        is_up=True,
    )
    width = lying.area.height_mm

    def upright(point: Point) -> Point:
        return Point(width - point.y_mm, point.x_mm)

    return FlatPart(
        contour=tuple(upright(p) for p in lying.contour),
        holes=tuple(Hole(at=upright(h.at), diameter_mm=h.diameter_mm, name=h.name) for h in lying.holes),
        bends=tuple(
            BendLine(start=upright(b.start), end=upright(b.end), angle_deg=b.angle_deg, is_up=b.is_up)
            for b in lying.bends
        ),
    )
