"""Lengths and areas of the pack as a whole that the air network asks for."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from grillestack.geometry.grid import Bools, border_inside_mm, union_perimeter_mm
from grillestack.geometry.outlines import Floats
from grillestack.geometry.pack_outlines import Pack

# Beyond this much room at an edge, more room lets no more air by (common practice, from memory).
FULL_CLEARANCE_MM = 15.0
_HAIR_MM = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PackMeasures:
    """What the air network asks of the pack as a whole.

    `jet_border_mm` is the border between in-jet and off-jet parts inside the cores and solids together;
    `clear_depth_mm` the mean depth from the openings (weighted by their own areas) to the foremost front face;
    `pack_outline_mm` the outline of the union of the core parts' overall sizes; `uncovered_opening_mm2` the part of the
    jet inside the support window that meets no core and no solid; `edge_rooms_mm` the room between the sides of
    the pack's bounds and the support window's (left, bottom, right, top), each counted within 0 … 15 mm, and 15 mm
    without a window; `edge_lengths_mm` the lengths of those sides; `edges_in_jet_frac` which share of each lies in the jet;
    `opening_area_mm2` each opening's own area.
    """

    jet_border_mm: float
    clear_depth_mm: float
    pack_outline_mm: float
    uncovered_opening_mm2: float
    edge_rooms_mm: tuple[float, float, float, float]
    edge_lengths_mm: tuple[float, float, float, float]
    edges_in_jet_frac: tuple[float, float, float, float]
    opening_area_mm2: tuple[float, ...]


def pack_measures(
    pack: Pack, y_mm: Floats, z_mm: Floats, filled: Bools, *, uncovered_opening_mm2: float
) -> PackMeasures:
    """Return the measures of a pack; `filled` says which cells between the lines a core or a solid covers."""
    stream = pack.jet.stream
    return PackMeasures(
        jet_border_mm=border_inside_mm(stream.edges_mm, y_mm, z_mm, filled) if stream is not None else 0.0,
        clear_depth_mm=_clear_depth_mm(pack),
        pack_outline_mm=union_perimeter_mm([core.outline_box for core in pack.cores]),
        uncovered_opening_mm2=uncovered_opening_mm2,
        edge_rooms_mm=_edge_rooms_mm(pack),
        edge_lengths_mm=_edge_lengths_mm(pack),
        edges_in_jet_frac=_edges_in_jet_frac(pack),
        opening_area_mm2=tuple(opening.own_area_mm2 for opening in pack.jet.openings),
    )


def _clear_depth_mm(pack: Pack) -> float:
    openings = pack.jet.openings
    total_mm2 = sum(opening.own_area_mm2 for opening in openings)
    if pack.foremost is None or total_mm2 <= 0:
        return 0.0
    front_mm = pack.foremost.face_x_mm
    return sum(o.own_area_mm2 * max(0.0, front_mm - o.x_mm) for o in openings) / total_mm2


def _edge_rooms_mm(pack: Pack) -> tuple[float, float, float, float]:
    if pack.window is None or not pack.cores or not len(pack.window.edges_mm):
        return (FULL_CLEARANCE_MM,) * 4
    y0_mm, z0_mm, y1_mm, z1_mm = _bounds_mm(pack)
    low, high = pack.window.edges_mm.min(axis=0), pack.window.edges_mm.max(axis=0)
    return (
        _counted(y0_mm - float(low[0])),
        _counted(z0_mm - float(low[1])),
        _counted(float(high[0]) - y1_mm),
        _counted(float(high[1]) - z1_mm),
    )


def _edge_lengths_mm(pack: Pack) -> tuple[float, float, float, float]:
    if not pack.cores:
        return (0.0,) * 4
    y0_mm, z0_mm, y1_mm, z1_mm = _bounds_mm(pack)
    return (z1_mm - z0_mm, y1_mm - y0_mm, z1_mm - z0_mm, y1_mm - y0_mm)


def _edges_in_jet_frac(pack: Pack) -> tuple[float, float, float, float]:
    if not pack.cores or pack.jet.stream is None:
        return (0.0,) * 4
    y0_mm, z0_mm, y1_mm, z1_mm = _bounds_mm(pack)
    border = pack.jet.stream.edges_mm
    # A side that lies on the jet's own border is judged a hair within the pack.
    return (
        _inside_frac(border, 0, y0_mm + _HAIR_MM, z0_mm, z1_mm),
        _inside_frac(border, 1, z0_mm + _HAIR_MM, y0_mm, y1_mm),
        _inside_frac(border, 0, y1_mm - _HAIR_MM, z0_mm, z1_mm),
        _inside_frac(border, 1, z1_mm - _HAIR_MM, y0_mm, y1_mm),
    )


def _inside_frac(border_mm: Floats, axis: int, at_mm: float, low_mm: float, high_mm: float) -> float:
    """Return which share of a straight side lies inside a closed border, its edges given as rows (y, z, y, z).

    The side runs at right angles to `axis` (0 for y, 1 for z), which it meets at `at_mm`, from `low_mm` to `high_mm`.
    """
    if high_mm <= low_mm or not len(border_mm):
        return 0.0
    first, last = border_mm[:, axis], border_mm[:, axis + 2]
    crossing = (first > at_mm) != (last > at_mm)
    along_mm, further_mm = border_mm[crossing, 1 - axis], border_mm[crossing, 3 - axis]
    share = (at_mm - first[crossing]) / (last[crossing] - first[crossing])
    met_mm = np.clip(np.sort(along_mm + share * (further_mm - along_mm)), low_mm, high_mm)
    return float((met_mm[1::2] - met_mm[::2]).sum() / (high_mm - low_mm))


def _bounds_mm(pack: Pack) -> tuple[float, float, float, float]:
    boxes = [core.outline_box for core in pack.cores]
    return (
        min(box.y0_mm for box in boxes),
        min(box.z0_mm for box in boxes),
        max(box.y1_mm for box in boxes),
        max(box.z1_mm for box in boxes),
    )


def _counted(room_mm: float) -> float:
    return min(max(room_mm, 0.0), FULL_CLEARANCE_MM)
