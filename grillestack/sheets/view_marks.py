"""One view put on paper: outlines seen and hidden, rings, holes, ports and what of the vehicle stands beside them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from grillestack.geometry.port_axes import port_step
from grillestack.geometry.projection import BodyKind, placed_point
from grillestack.model.parts import Fan, Mount, Part, Port
from grillestack.model.project import Project, stack
from grillestack.sheets.draw_list import (
    ADJACENT,
    CENTRE,
    HIDDEN,
    OUTLINE,
    THIN,
    Arc,
    Circle,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Stroke,
)
from grillestack.sheets.hidden_lines import arcs_of, edges_of
from grillestack.sheets.vehicle_lines import Bounds, VehicleLine, bounds_of, vehicle_lines
from grillestack.sheets.view_faces import Face, Looking, Seen, faces_of, seen

# A spout's length is not known: it is drawn this many bores long, and never longer than so much.
_SPOUT_BORES, _SPOUT_MOST_MM = 0.35, 30.0
# Planes of the vehicle further from the pack than this would only shrink the drawing.
_NEAR_MM = 150.0
_SEEN_ROUND = 0.98
_OVER_MM = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A view of the pack at full size, before it has a scale and a place."""

    looking: Looking
    parts: tuple[Part, ...]
    faces: tuple[Face, ...]
    bounds: Bounds
    vehicle: tuple[VehicleLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OnPaper:
    """Where a view lies: its point (u0, v0) at (x0, y0) of the paper, at 1 : `scale_factor`."""

    scale_factor: float
    u0_mm: float
    v0_mm: float
    x0_mm: float
    y0_mm: float

    def at(self, point: Seen) -> Point:
        """Return where a point of the view lies on the paper."""
        return Point(
            self.x0_mm + (point.u_mm - self.u0_mm) / self.scale_factor,
            self.y0_mm + (point.v_mm - self.v0_mm) / self.scale_factor,
        )


def picture_of(project: Project, looking: Looking, around_mm: float, *, to_planes: bool = True) -> Picture:
    """Return the view of the pack with so much of its surroundings; a side view reaches to grille and pulley where near."""
    parts = stack(project)
    faces = faces_of(parts, looking)
    points = [corner for face in faces for corner in face.corners]
    points += [point for part in parts for port in part.ports for point in _spout(part, port, looking)]
    shown = bounds_of([*points, *(_planes(project, points, looking) if to_planes else ())])
    vehicle = vehicle_lines(project.nose, looking, shown.grown(around_mm, around_mm))
    around = bounds_of([*points, *(p for line in vehicle for p in (line.start, line.end))])
    return Picture(looking=looking, parts=parts, faces=faces, bounds=around, vehicle=vehicle)


def _planes(project: Project, points: list[Seen], looking: Looking) -> Iterator[Seen]:
    """Return a point on each plane of the vehicle that a side view shows: those near to the pack."""
    if looking not in (Looking.LEFT, Looking.RIGHT):
        return
    pack, stations = bounds_of(points), project.nose.stations
    for x in (stations.grille_x_mm, stations.pulley_x_mm):
        if x is None:
            continue
        u = seen(looking, x, 0.0, 0.0).u_mm
        if pack.u0_mm - _NEAR_MM < u < pack.u1_mm + _NEAR_MM:
            yield Seen(u, pack.v0_mm)


def pack_bounds(picture: Picture) -> Bounds:
    """Return the rectangle around all bodies of the pack, ports left out."""
    return bounds_of([corner for face in picture.faces for corner in face.corners])


def picture_marks(picture: Picture, place: OnPaper, *, holes_stand_out: bool = False) -> tuple[Mark, ...]:
    """Return the marks of a view; on the sheet of holes these stand out and the outlines step back."""
    outline = THIN if holes_stand_out else OUTLINE
    marks: list[Mark] = [_line(place, line.start, line.end, (ADJACENT, Layer.VEHICLE)) for line in picture.vehicle]
    for edge in sorted(edges_of(picture.faces), key=lambda e: not e.is_hidden):
        style = (HIDDEN, Layer.HIDDEN) if edge.is_hidden else (outline, Layer.OUTLINE)
        marks.append(_line(place, edge.start, edge.end, style))
    marks += _rings(picture, place, outline)
    for part in picture.parts:
        marks += _fan_marks(part, picture, place)
        for mount in part.mounts:
            marks += _hole(part, mount, picture.looking, place, OUTLINE if holes_stand_out else THIN)
        for port in part.ports:
            marks += _port(part, port, picture.looking, place)
    return tuple(marks)


def _rings(picture: Picture, place: OnPaper, outline: Stroke) -> Iterator[Mark]:
    for arc in arcs_of(picture.faces):
        stroke, layer = (HIDDEN, Layer.HIDDEN) if arc.is_hidden else (outline, Layer.OUTLINE)
        centre, radius = place.at(arc.centre), arc.radius_mm / place.scale_factor
        if arc.end_deg - arc.start_deg >= 360:
            yield Circle(centre=centre, radius_mm=radius, stroke=stroke, layer=layer)
        else:
            yield Arc(
                centre=centre,
                radius_mm=radius,
                start_deg=arc.start_deg % 360,
                end_deg=arc.end_deg % 360,
                stroke=stroke,
                layer=layer,
            )


def _fan_marks(part: Part, picture: Picture, place: OnPaper) -> Iterator[Mark]:
    if not isinstance(part, Fan):
        return
    at = part.placement
    centre = seen(picture.looking, at.x_mm, at.y_mm, at.z_mm)
    if picture.looking is Looking.AHEAD:
        if part.motor_diameter_mm > 0 and at.tilt_deg == 0:
            yield Circle(
                centre=place.at(centre),
                radius_mm=part.motor_diameter_mm / 2 / place.scale_factor,
                stroke=HIDDEN,
                layer=Layer.HIDDEN,
            )
        yield from _cross(place.at(centre), part.ring_diameter_mm / 2 / place.scale_factor + _OVER_MM)
        return
    face = next(f for f in picture.faces if f.part_id == part.id and f.kind is BodyKind.FAN)
    box = bounds_of(list(face.corners))
    if picture.looking is Looking.ABOVE:
        ends = place.at(Seen(centre.u_mm, box.v0_mm)), place.at(Seen(centre.u_mm, box.v1_mm))
        yield Line(
            start=Point(ends[0].x_mm, ends[0].y_mm - _OVER_MM),
            end=Point(ends[1].x_mm, ends[1].y_mm + _OVER_MM),
            stroke=CENTRE,
            layer=Layer.CENTRE,
        )
    elif at.tilt_deg == 0:
        ends = place.at(Seen(box.u0_mm, centre.v_mm)), place.at(Seen(box.u1_mm, centre.v_mm))
        yield Line(
            start=Point(ends[0].x_mm - _OVER_MM, ends[0].y_mm),
            end=Point(ends[1].x_mm + _OVER_MM, ends[1].y_mm),
            stroke=CENTRE,
            layer=Layer.CENTRE,
        )


def _hole(part: Part, mount: Mount, looking: Looking, place: OnPaper, stroke: Stroke) -> Iterator[Mark]:
    if looking is not Looking.AHEAD:
        return
    centre = place.at(seen(looking, *placed_point(part, mount.u_mm, mount.v_mm, mount.w_mm)))
    radius = mount.hole_mm / 2 / place.scale_factor
    yield Circle(centre=centre, radius_mm=radius, stroke=stroke, layer=Layer.OUTLINE)
    yield from _cross(centre, radius + 0.8, THIN)


def _port(part: Part, port: Port, looking: Looking, place: OnPaper) -> Iterator[Mark]:
    points = _spout(part, port, looking)
    centre = place.at(points[0])
    radius = (port.outside_mm or port.bore_mm) / 2 / place.scale_factor
    if len(points) == 1:
        yield Circle(centre=centre, radius_mm=radius, stroke=THIN, layer=Layer.OUTLINE)
        yield from _cross(centre, radius + 0.8)
        return
    yield Polyline(points=tuple(place.at(p) for p in points[1:5]), is_closed=True, stroke=THIN, layer=Layer.OUTLINE)
    yield _line(place, points[0], points[5], (CENTRE, Layer.CENTRE))


def _spout(part: Part, port: Port, looking: Looking) -> list[Seen]:
    """Return the middle of a port; where its spout is seen from the side, its four corners and its far end too."""
    x, y, z = placed_point(part, port.u_mm, port.v_mm, port.w_mm)
    dx, dy, dz = port_step(part, port)
    middle, beyond = seen(looking, x, y, z), seen(looking, x + dx, y + dy, z + dz)
    du, dv = beyond.u_mm - middle.u_mm, beyond.v_mm - middle.v_mm
    if du * du + dv * dv < 1 - _SEEN_ROUND:
        return [middle]
    half = (port.outside_mm or port.bore_mm) / 2
    length = min(_SPOUT_BORES * port.bore_mm, _SPOUT_MOST_MM)
    far = Seen(middle.u_mm + length * du, middle.v_mm + length * dv)
    norm = (du * du + dv * dv) ** 0.5
    across, up = -dv / norm * half, du / norm * half
    return [
        middle,
        Seen(middle.u_mm + across, middle.v_mm + up),
        Seen(far.u_mm + across, far.v_mm + up),
        Seen(far.u_mm - across, far.v_mm - up),
        Seen(middle.u_mm - across, middle.v_mm - up),
        far,
    ]


def _cross(centre: Point, reach_mm: float, stroke: Stroke = CENTRE) -> Iterator[Line]:
    x, y = centre.x_mm, centre.y_mm
    ends = ((x - reach_mm, y, x + reach_mm, y), (x, y - reach_mm, x, y + reach_mm))
    for x0, y0, x1, y1 in ends:
        yield Line(start=Point(x0, y0), end=Point(x1, y1), stroke=stroke, layer=Layer.CENTRE)


def _line(place: OnPaper, start: Seen, end: Seen, style: tuple[Stroke, Layer]) -> Line:
    return Line(start=place.at(start), end=place.at(end), stroke=style[0], layer=style[1])
