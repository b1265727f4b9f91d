"""The common grid of a pack: pieces of the cores' faces, each with one list of what the air meets on its way."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from grillestack.geometry.cut_lines import cut_places_mm
from grillestack.geometry.fan_places import FanDuty
from grillestack.geometry.grid import Bools, Ints, Lines, lines_along
from grillestack.geometry.outlines import Floats
from grillestack.geometry.pack_measures import PackMeasures, pack_measures
from grillestack.geometry.pack_outlines import Cutters, Pack, Rectangles, cutters_of, pack_of, rectangles_of
from grillestack.geometry.piece_shapes import PieceFrame, corners_of
from grillestack.geometry.pieces import Pieces, cut_cells
from grillestack.geometry.projection import ProjectedPart
from grillestack.model.project import Project

SUPPORT_PLATE = "support plate"
USUAL_CELL_MM = 60.0


@dataclass(frozen=True, kw_only=True, eq=False)
class Overlay:
    """The pack cut into N pieces; they cover the union of all cores once, whatever blocks or shades them.

    Columns follow `core_ids` (C, front to back: by the place of the front face's centre, document order on ties),
    `solid_parts` (S, the part each solid belongs to; the support plate outside its window comes last, if there is a
    window) and `obstruction_ids` (O). `shroud`, `fan` and `pusher` are indices into `shroud_ids` and `fan_ids` (document
    order), -1 for none. A solid never counts as blocking a piece of its own core.
    """

    core_ids: tuple[str, ...]
    core_cos_tilt_frac: tuple[float, ...]
    core_mm2: tuple[float, ...]
    solid_parts: tuple[str, ...]
    obstruction_ids: tuple[str, ...]
    opening_ids: tuple[str, ...]
    shroud_ids: tuple[str, ...]
    fan_ids: tuple[str, ...]
    foremost_id: str | None
    # Grid lines, and per core the intervals it spans: first and last y (exclusive), first and last z (exclusive)
    y_lines_mm: Floats
    z_lines_mm: Floats
    core_spans: Ints
    # Per piece: the interval it lies in, its area on the projection plane, and what the air meets there
    iy: Ints
    iz: Ints
    area_mm2: Floats
    core_hit: Bools
    blocked_by: Bools
    in_opening: Bools
    shadow_of: Bools
    shroud: Ints
    fan: Ints
    pusher: Ints
    swept: Bools
    # Per obstruction and core: whether its shadow counts for that core
    shadow_falls: Bools
    fan_shroud: tuple[int, ...]
    fan_duties: tuple[FanDuty, ...]
    idle_shrouds: tuple[str, ...]
    measures: PackMeasures
    frame: PieceFrame

    @property
    def n_pieces(self) -> int:
        """Return the number of pieces."""
        return len(self.area_mm2)

    @functools.cached_property
    def piece_corners(self) -> tuple[tuple[Floats, ...], ...]:
        """Return, per piece, the corners (y, z) of each closed ring it consists of."""
        return corners_of(self.frame)

    @functools.cached_property
    def behind(self) -> Bools:
        """Return, per piece and core, whether the piece is the core's and another core lies ahead of it there."""
        return self.core_hit & (np.cumsum(self.core_hit, axis=1) > 1)

    @functools.cached_property
    def off_opening(self) -> Bools:
        """Return, per piece and core, whether it lies outside the openings' air or in a shadow that counts for the core."""
        shaded: Bools = self.shadow_of @ self.shadow_falls
        return shaded | ~self.in_opening[:, None]


def build_overlay(project: Project, jet_spread_deg: float, max_cell_mm: float = USUAL_CELL_MM) -> Overlay:
    """Return the overlay of a pack.

    Grid lines run through the edges of all cores, solids, shrouds that hold a fan, the support window, openings' reaches
    and shadows that are axis-parallel rectangles, through the borders between passes, along the straight sides and through
    some bends of other outlines, and evenly between them so that no cell inside a core is longer than `max_cell_mm`.
    What no line follows cuts cells into pieces with their exact areas.
    """
    pack = pack_of(project, jet_spread_deg)
    rectangles, cutters = rectangles_of(pack), cutters_of(pack)
    y, z = _lines(pack, rectangles, cutters, max_cell_mm)
    covered = (y.covered()[:, :, None] & z.covered()[:, None, :]).reshape(len(rectangles.boxes), y.n_cells * z.n_cells)
    of_core = np.logical_or.reduce(covered[rectangles.cores], axis=0)
    where = np.ones((len(cutters.shapes), len(of_core)), dtype=np.bool_)
    where[cutters.rings] = of_core
    pieces = cut_cells(cutters.shapes, where, y.at_mm, z.at_mm)
    nose = _nose_at(pack, rectangles, cutters, covered[:, pieces.cell], pieces)
    filled = of_core | np.logical_or.reduce(covered[rectangles.solids], axis=0)
    uncovered = nose.fresh & nose.in_window & ~filled[pieces.cell]
    measures = pack_measures(
        pack,
        y.at_mm,
        z.at_mm,
        filled.reshape(y.n_cells, z.n_cells),
        uncovered_opening_mm2=float(pieces.area_mm2[uncovered].sum()),
    )
    kept = np.flatnonzero(of_core[pieces.cell])
    return _overlay(_Found(pack, rectangles, cutters, y, z, covered), pieces.taken(kept), nose.taken(kept), measures)


@dataclass(frozen=True, slots=True, eq=False)
class _Nose:
    """What of the nose lies at each piece; `fresh` is in an opening's air and in no shadow from ahead of the pack."""

    in_opening: Bools
    shadow_of: Bools
    in_window: Bools
    fresh: Bools

    def taken(self, kept: Ints) -> _Nose:
        return _Nose(self.in_opening[kept], self.shadow_of[kept], self.in_window[kept], self.fresh[kept])


@dataclass(frozen=True, slots=True, eq=False)
class _Found:
    pack: Pack
    rectangles: Rectangles
    cutters: Cutters
    y: Lines
    z: Lines
    covered: Bools


def _lines(pack: Pack, rectangles: Rectangles, cutters: Cutters, max_cell_mm: float) -> tuple[Lines, Lines]:
    edges = np.array([(b.y0_mm, b.y1_mm, b.z0_mm, b.z1_mm) for b in rectangles.boxes]).reshape(-1, 4)
    extra = {axis: cut_places_mm(pack, cutters, axis, max_cell_mm) for axis in ("y", "z")}
    for core in pack.cores:
        extra["z" if core.tube_axis == "y" else "y"] += _pass_borders(core)
    reach = pack.jet.reach_cut
    if reach is not None and len(reach.edges_mm):
        # The grid must hold the whole opening, to know how much of it meets nothing.
        y_mm, z_mm = reach.edges_mm[:, 0], reach.edges_mm[:, 1]
        low, high = edges.min(axis=0, initial=np.inf), edges.max(axis=0, initial=-np.inf)
        extra["y"] += [min(float(y_mm.min()), float(low[0])), max(float(y_mm.max()), float(high[1]))]
        extra["z"] += [min(float(z_mm.min()), float(low[2])), max(float(z_mm.max()), float(high[3]))]
    n_cores = len(pack.cores)
    return (
        lines_along(edges[:, :2], extra["y"], n_cores, max_cell_mm),
        lines_along(edges[:, 2:], extra["z"], n_cores, max_cell_mm),
    )


def _pass_borders(core: ProjectedPart) -> list[float]:
    box = core.core_box
    if box is None or core.passes < 2:
        return []
    low, high = (box.z0_mm, box.z1_mm) if core.tube_axis == "y" else (box.y0_mm, box.y1_mm)
    return [low + (high - low) * k / core.passes for k in range(1, core.passes)]


def _nose_at(pack: Pack, rectangles: Rectangles, cutters: Cutters, hit: Bools, pieces: Pieces) -> _Nose:
    in_opening = np.logical_or.reduce(hit[rectangles.openings], axis=0)
    if cutters.opening is not None:
        in_opening |= pieces.inside[:, cutters.opening]
    shadow_of = np.zeros((len(in_opening), len(pack.jet.shadows)), dtype=np.bool_)
    for o, row in rectangles.shadows:
        shadow_of[:, o] = hit[row]
    for o, column in cutters.shadows:
        shadow_of[:, o] = pieces.inside[:, column]
    if rectangles.window is not None:
        in_window = hit[rectangles.window]
    elif cutters.window is not None:
        in_window = pieces.inside[:, cutters.window]
    else:
        in_window = np.ones(len(in_opening), dtype=np.bool_)
    ahead = np.array([shadow.falls_on(pack.jet.plane_x_mm) for shadow in pack.jet.shadows], dtype=np.bool_)
    return _Nose(in_opening, shadow_of, in_window, in_opening & ~np.logical_or.reduce(shadow_of[:, ahead], axis=1))


def _overlay(found: _Found, pieces: Pieces, nose: _Nose, measures: PackMeasures) -> Overlay:
    pack, rectangles = found.pack, found.rectangles
    hit = found.covered[:, pieces.cell]
    core_hit = np.ascontiguousarray(hit[rectangles.cores].T)
    own = core_hit[:, pack.solid_core] if pack.solid_core else np.zeros((len(core_hit), 0), dtype=np.bool_)
    blocked_by = hit[rectangles.solids].T & ~own
    if pack.window is not None:
        blocked_by = np.column_stack((blocked_by, ~nose.in_window))
    shrouded = np.zeros((len(core_hit), len(pack.shrouds)), dtype=np.bool_)
    shrouded[:, pack.housing] = hit[rectangles.shrouds].T
    rings = pieces.inside[:, found.cutters.rings]
    falls = [[shadow.falls_on(core.face_x_mm) for core in pack.cores] for shadow in pack.jet.shadows]
    cores, rows = pack.cores, rectangles.cores
    iy, iz = np.divmod(pieces.cell, max(found.z.n_cells, 1))
    return Overlay(
        core_ids=tuple(core.part_id for core in cores),
        core_cos_tilt_frac=tuple(core.cos_tilt_frac for core in cores),
        core_mm2=tuple(core.core_box.area_mm2 / core.cos_tilt_frac for core in cores if core.core_box),
        solid_parts=(*(cores[c].part_id for c in pack.solid_core), *([SUPPORT_PLATE] if pack.window else [])),
        obstruction_ids=tuple(shadow.obstruction_id for shadow in pack.jet.shadows),
        opening_ids=tuple(opening.opening_id for opening in pack.jet.openings),
        shroud_ids=tuple(shroud.part_id for shroud in pack.shrouds),
        fan_ids=tuple(fan.part_id for fan in pack.fans),
        foremost_id=pack.foremost.part_id if pack.foremost else None,
        y_lines_mm=found.y.at_mm,
        z_lines_mm=found.z.at_mm,
        core_spans=np.column_stack((found.y.low[rows], found.y.high[rows], found.z.low[rows], found.z.high[rows])),
        iy=iy,
        iz=iz,
        area_mm2=pieces.area_mm2,
        core_hit=core_hit,
        blocked_by=blocked_by,
        in_opening=nose.in_opening,
        shadow_of=nose.shadow_of,
        shroud=_first_of(shrouded, pack.housing),
        fan=_first_of(rings, pack.fans_on(FanDuty.PULLER)),
        pusher=_first_of(rings, pack.fans_on(FanDuty.PUSHER)),
        swept=np.logical_or.reduce(rings, axis=1),
        shadow_falls=np.array(falls, dtype=np.bool_).reshape(len(falls), len(cores)),
        fan_shroud=pack.fan_shroud,
        fan_duties=pack.duties,
        idle_shrouds=tuple(s.part_id for k, s in enumerate(pack.shrouds) if k not in pack.housing),
        measures=measures,
        frame=PieceFrame(
            y_lines_mm=found.y.at_mm,
            z_lines_mm=found.z.at_mm,
            iy=iy,
            iz=iz,
            outlines=found.cutters.shapes,
            n_nose=found.cutters.rings.start,
            inside=pieces.inside,
            cut=pieces.cut,
        ),
    )


def _first_of(covers: Bools, columns: tuple[int, ...]) -> Ints:
    """Return, per row, the first of these columns that is true there, or -1."""
    first = np.full(len(covers), -1, dtype=np.int64)
    for column in reversed(columns):
        first[covers[:, column]] = column
    return first
