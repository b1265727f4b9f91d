"""The judge of the overlay: the same faces by plain loops of polygon intersections and differences, one core at a time.

Nothing of the package is used but the document: outlines are posed, grown and cut here anew.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
import shapely.affinity

from grillestack.model.parts import Core, Fan, Part, Shroud
from grillestack.model.project import Project


@dataclass(frozen=True)
class JudgedFace:
    core_mm2: float
    exposed_mm2: float
    behind_mm2: float
    blocked_mm2: float
    off_opening_mm2: float
    unswept_mm2: float


def posed(part: Part, rect) -> shapely.Polygon:
    """Return a rectangle of the part's frame on the projection plane."""
    at = part.placement
    shape = shapely.box(rect.u_min_mm, rect.v_min_mm, rect.u_max_mm, rect.v_max_mm)
    if at.flipped:
        shape = shapely.affinity.affine_transform(shape, [-1, 0, 0, 1, 0, 0])
    for _ in range(at.quarter_turns):
        shape = shapely.affinity.affine_transform(shape, [0, -1, 1, 0, 0, 0])
    cos = math.cos(math.radians(at.tilt_deg))
    return shapely.affinity.affine_transform(shape, [1, 0, 0, cos, at.y_mm, at.z_mm])


def polygon(outline) -> shapely.Polygon:
    return areal(shapely.make_valid(shapely.Polygon([(p.y_mm, p.z_mm) for p in outline])))


def areal(geometry) -> shapely.Polygon:
    """Return the polygons of a geometry, without the lines where shapes merely touch."""
    return shapely.union_all([g for g in shapely.get_parts(shapely.get_parts([geometry])) if "Polygon" in g.geom_type])


def ring(fan: Fan) -> shapely.Polygon:
    """Return 64 corners around the same area as the ring, flattened by the tilt."""
    radius = fan.ring_diameter_mm / 2 * math.sqrt(2 * math.pi / 64 / math.sin(2 * math.pi / 64))
    cos = math.cos(math.radians(fan.placement.tilt_deg))
    angles = np.arange(64) / 64 * 2 * math.pi
    at = fan.placement
    return shapely.Polygon([(at.y_mm + radius * math.cos(a), at.z_mm + cos * radius * math.sin(a)) for a in angles])


def foremost_x_mm(project: Project) -> float:
    openings_x_mm = min((opening.x_mm for opening in project.nose.openings), default=0.0)
    return min((part.placement.x_mm for part in project.parts), default=openings_x_mm)


def reach(project: Project, spread_deg: float) -> shapely.Polygon:
    tangent, front = math.tan(math.radians(spread_deg)), foremost_x_mm(project)
    grown = []
    for opening in project.nose.openings:
        shape = polygon(opening.outline)
        distance = max(0.0, front - opening.x_mm)
        grown.append(shape.buffer(tangent * distance, join_style="mitre", mitre_limit=2) if distance else shape)
    return shapely.union_all(grown)


def shadow(project: Project, obstruction, spread_deg: float) -> shapely.Polygon:
    distance = max(0.0, foremost_x_mm(project) - obstruction.x_rear_mm)
    shape = polygon(obstruction.outline)
    if not distance or not spread_deg:
        return shape
    return shape.buffer(-math.tan(math.radians(spread_deg)) * distance, join_style="mitre", mitre_limit=2)


def shadows_on(project: Project, x_mm: float, spread_deg: float) -> shapely.Polygon:
    return shapely.union_all(
        [
            shadow(project, o, spread_deg)
            for o in project.nose.obstructions
            if o.x_rear_mm <= x_mm or o.x_front_mm < x_mm
        ]
    )


def judged_faces(project: Project, spread_deg: float) -> dict[str, JudgedFace]:
    cores = sorted((p for p in project.parts if isinstance(p, Core)), key=lambda p: p.placement.x_mm)
    fans = [p for p in project.parts if isinstance(p, Fan)]
    window = project.nose.support_window
    air = reach(project, spread_deg)
    found = {}
    for place, core in enumerate(cores):
        left = own = posed(core, core.core)
        for other in cores:
            for solid in other.solids if other is not core else ():
                left = left.difference(posed(other, solid.rect))
        if window is not None:
            left = areal(left.intersection(polygon(window.outline)))
        blocked = own.area - left.area
        fresh = areal(left.intersection(air)).difference(shadows_on(project, core.placement.x_mm, spread_deg))
        off = left.area - fresh.area
        exposed = fresh
        for ahead in cores[:place]:
            exposed = exposed.difference(posed(ahead, ahead.core))
        unswept = own
        for fan in fans:
            unswept = unswept.difference(ring(fan))
        cos = math.cos(math.radians(core.placement.tilt_deg))
        areas = (own.area, exposed.area, fresh.area - exposed.area, blocked, off, unswept.area)
        found[core.id] = JudgedFace(*(area / cos for area in areas))
    return found


def judged_pack(project: Project, spread_deg: float) -> dict[str, float | tuple[float, ...]]:
    """Return the pack's measures by plain polygon operations."""
    cores = [p for p in project.parts if isinstance(p, Core)]
    boxes = [posed(c, c.core) for c in cores] + [posed(c, s.rect) for c in cores for s in c.solids]
    filled = shapely.union_all(boxes)
    air, shaded = reach(project, spread_deg), shadows_on(project, foremost_x_mm(project), spread_deg)
    # On a raster, so that coinciding edges leave no sliver: its edges would count as border.
    stream = shapely.difference(air, shaded, grid_size=1e-7)
    window = project.nose.support_window
    open_air = air.difference(shaded).difference(filled)
    if window is not None:
        open_air = open_air.intersection(polygon(window.outline))
    # Only what runs inside the pack is a border; what runs along its outline is not. A border that meets the outline at
    # a flat angle loses more than this: by 1e-5 mm at an angle of 1 in 10 000.
    inside = filled.buffer(-1e-9, join_style="mitre")
    y0, z0, y1, z1 = shapely.union_all([posed(c, c.overall) for c in cores]).bounds if cores else (0.0, 0.0, 0.0, 0.0)
    # A side on the stream's own border is judged a hair within the pack.
    hair = 1e-3
    sides = (
        ((y0 + hair, z0), (y0 + hair, z1)),
        ((y0, z0 + hair), (y1, z0 + hair)),
        ((y1 - hair, z0), (y1 - hair, z1)),
        ((y0, z1 - hair), (y1, z1 - hair)),
    )
    lines = [shapely.LineString(side) for side in sides]
    return {
        "edges_in_jet_frac": tuple(line.intersection(stream).length / line.length if cores else 0.0 for line in lines),
        "jet_border_mm": 0.0 if stream.is_empty else stream.boundary.intersection(inside).length,
        "uncovered_opening_mm2": open_air.area,
        "pack_outline_mm": shapely.union_all([posed(c, c.overall) for c in cores]).length,
    }


def shroud_area_mm2(project: Project, core: Core, shrouds: list[Shroud]) -> float:
    outlines = [
        posed(s, s_rect)
        for s in shrouds
        for s_rect in [
            type(core.overall)(
                u_min_mm=-s.width_mm / 2, v_min_mm=-s.height_mm / 2, u_max_mm=s.width_mm / 2, v_max_mm=s.height_mm / 2
            )
        ]
    ]
    cos = math.cos(math.radians(core.placement.tilt_deg))
    return posed(core, core.core).intersection(shapely.union_all(outlines)).area / cos
