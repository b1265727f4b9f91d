"""How much faster the grid lists what the air meets than plain polygon loops, both timed in one run and in turns.

Either way must tell the same: the zones of the pack, each with every core, solid, shadow, opening, window, shroud and
ring that the air meets there, and its area. The grid tells it per cell besides. The loops keep what does not move.
Times are the thread's own: on a shared machine the clock on the wall measures the neighbours.
"""

from __future__ import annotations

import collections
import math
import statistics
import time

import pytest
import shapely

from grillestack.geometry.depth import depth_report
from grillestack.geometry.exposure import core_faces
from grillestack.geometry.outlines import outline_shape, resized, ring_shape
from grillestack.geometry.overlay import Overlay, build_overlay
from grillestack.geometry.projection import project_part
from grillestack.model.project import Project, cores, fans, shrouds
from tests.geometry.packs import a_demanding_pack

SPREAD_DEG = 7.0
MOVES = 60
# The aim is four times as fast; about three was measured on two busy processors, and half the aim must hold anywhere.
AIM = 4.0

Zones = dict[tuple[bool, ...], float]


def _polygon(box):
    return shapely.box(box.y0_mm, box.z0_mm, box.y1_mm, box.z1_mm)


def _still_outlines(project: Project) -> list[shapely.Polygon]:
    """Return reach, shadow, window, shroud and rings: in a drag of a core they stay as they are, for either way."""
    spread, front_mm = math.tan(math.radians(SPREAD_DEG)), min(p.placement.x_mm for p in project.parts)
    reach = resized(outline_shape(project.nose.openings[0].outline), spread * front_mm).polygon
    beam = project.nose.obstructions[0]
    shadow = resized(outline_shape(beam.outline), -spread * (front_mm - beam.x_rear_mm)).polygon
    window = outline_shape(project.nose.support_window.outline).polygon
    housing = _polygon(project_part(shrouds(project)[0]).outline_box)
    rings = [ring_shape(f.placement.y_mm, f.placement.z_mm, f.ring_diameter_mm / 2, 1.0).polygon for f in fans(project)]
    return [reach, shadow, window, housing, shapely.union_all(rings)]


def _by_loops(project: Project, still: list[shapely.Polygon]) -> Zones:
    """Return the zones by cutting every zone with every outline in turn."""
    parts = [project_part(core) for core in cores(project)]
    faces = [_polygon(part.core_box) for part in parts]
    outlines = [*faces, *(_polygon(box) for part in parts for box in part.solid_boxes), *still]
    zones = [((), shapely.union_all(faces))]
    for outline in outlines:
        cut = []
        for met, zone in zones:
            within = zone.intersection(outline)
            if within.area < 1e-6:
                cut.append(((*met, False), zone))
                continue
            cut.append(((*met, True), within))
            if (beyond := zone.difference(outline)).area >= 1e-6:
                cut.append(((*met, False), beyond))
        zones = cut
    return {met: zone.area for met, zone in zones}


def _zones_of(overlay: Overlay) -> Zones:
    columns = (
        *overlay.core_hit.T,
        *overlay.blocked_by.T[:-1],
        overlay.in_opening,
        overlay.shadow_of[:, 0],
        ~overlay.blocked_by[:, -1],
        overlay.shroud == 0,
        overlay.swept,
    )
    zones: Zones = collections.defaultdict(float)
    for met, area in zip(zip(*columns, strict=True), overlay.area_mm2, strict=True):
        zones[tuple(map(bool, met))] += float(area)
    return zones


@pytest.mark.benchmark
def test_zones_of_a_moved_core_come_faster_than_by_polygon_loops(capsys):
    moves = [a_demanding_pack(0.37 * k, 0.21 * k) for k in range(MOVES)]
    still = _still_outlines(moves[0])
    seconds: dict[str, list[float]] = {"loops": [], "overlay": [], "overlay, faces and depth": []}
    for project in moves:
        start = time.thread_time()
        judged = _by_loops(project, still)
        looped = time.thread_time()
        overlay = build_overlay(project, SPREAD_DEG)
        gridded = time.thread_time()
        core_faces(build_overlay(project, SPREAD_DEG), project)
        depth_report(project)
        done = time.thread_time()
        for name, taken in zip(seconds, (looped - start, gridded - looped, done - gridded), strict=True):
            seconds[name].append(taken)
        assert _zones_of(overlay) == pytest.approx(judged, abs=1e-5)
    median_ms = {name: 1000 * statistics.median(taken) for name, taken in seconds.items()}
    ratio = median_ms["loops"] / median_ms["overlay"]
    with capsys.disabled():
        told = " · ".join(f"{name} {ms:.2f} ms" for name, ms in median_ms.items())
        print(f"\nmedians of {MOVES} moves, {len(judged)} zones: {told}; loops / overlay = {ratio:.1f}")
    assert ratio > AIM / 2
