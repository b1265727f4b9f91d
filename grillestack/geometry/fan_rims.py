"""How much way is left beside the fans' rings of a shroud: rim by rim, between what stands ahead and the rings."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np

from grillestack.geometry.fan_places import fans_in_shrouds
from grillestack.geometry.grid import Bools
from grillestack.geometry.outlines import Floats
from grillestack.geometry.overlay import Overlay
from grillestack.geometry.projection import Body, Box, ProjectedPart, project_part
from grillestack.model.project import Project

# A rim is walked in steps no longer than this share of it, and stops wherever it crosses an edge.
_STEPS = 96
# Rings whose rims differ by less than this share of a radius are in the same place.
_SAME_RING = 1e-9


def swept_under_shroud(overlay: Overlay) -> Bools:
    """Return, per piece, whether it lies under a shroud and in the ring of one of that shroud's own fans."""
    rings = overlay.frame.inside[:, overlay.frame.n_nose :]
    home = np.array(overlay.fan_shroud, dtype=np.int64)
    own = (home == overlay.shroud[:, None]) & (home >= 0)
    swept: Bools = np.logical_or.reduce(rings & own, axis=1)
    return swept


def passages_mm2(project: Project) -> tuple[float, ...]:
    """Return, per shroud in document order, the area between its space beside the rings and its space before them [mm²].

    Each ring's rim is walked in the front view, as far as it lies inside the shroud's outline and in no other ring of the
    same shroud. The clear depth at a place of the rim runs along x, from the rear of what stands rearmost there of the cores
    and their tanks to the front plane of the ring, or to the rear plane of the shroud where that comes
    first; where nothing stands ahead it begins at the shroud's front plane. A core stands ahead of a ring if the centre of its
    front face does. The depth is never less than 0. Leaning parts count at each place as they lean. The areas of several
    rings add up. 0 for a shroud without a fan.
    """
    projected = tuple(project_part(part) for part in project.parts)
    fans = [part for part in projected if part.is_fan]
    shrouds = [part for part in projected if part.is_shroud]
    cores = [part for part in projected if part.is_core]
    homes = fans_in_shrouds(fans, shrouds)
    return tuple(
        _passage_mm2(shroud, [fan for fan, home in zip(fans, homes, strict=True) if home == number], cores)
        for number, shroud in enumerate(shrouds)
    )


def _passage_mm2(shroud: ProjectedPart, fans: Sequence[ProjectedPart], cores: Sequence[ProjectedPart]) -> float:
    if not fans:
        return 0.0
    boxes = [shroud.outline_box, *[body.box for core in cores for body in core.bodies]]
    angle = np.stack([_stops_rad(fan, boxes) for fan in fans])
    middle = 0.5 * (angle[:, 1:] + angle[:, :-1])
    y_mm, z_mm, radius_mm, flattened_mm = _ellipses(fans)
    at_y_mm, at_z_mm = y_mm + radius_mm * np.cos(middle), z_mm + flattened_mm * np.sin(middle)
    length_mm = np.hypot(radius_mm * np.sin(middle), flattened_mm * np.cos(middle)) * np.diff(angle, axis=1)
    inside = _holds(shroud.outline_box, at_y_mm, at_z_mm) * _outside_others_frac(fans, angle)
    return float((length_mm * inside * _clear_depth_mm(shroud, fans, cores, at_y_mm, at_z_mm)).sum())


def _stops_rad(fan: ProjectedPart, boxes: Sequence[Box]) -> Floats:
    """Return the angles in rising order between which a rim crosses no edge of a box, even steps among them."""
    y_mm, z_mm, radius_mm, flattened_mm = (float(row[0, 0]) for row in _ellipses([fan]))
    across = np.array([(box.y0_mm, box.y1_mm) for box in boxes]).ravel()
    up = np.array([(box.z0_mm, box.z1_mm) for box in boxes]).ravel()
    # An edge that the rim does not reach gives the rim's own end, which is no new stop.
    turned = np.arccos(np.clip((across - y_mm) / radius_mm, -1.0, 1.0))
    risen = np.arcsin(np.clip((up - z_mm) / flattened_mm, -1.0, 1.0))
    full = 2.0 * math.pi
    even = np.linspace(0.0, full, _STEPS + 1)
    return np.sort(np.concatenate((even, turned, full - turned, risen % full, math.pi - risen)))


def _ellipses(fans: Sequence[ProjectedPart]) -> tuple[Floats, Floats, Floats, Floats]:
    """Return the middles and half axes of the rims in the front view: y, z, along y, along z; one row per fan."""
    rows = [(c.y_mm, c.z_mm, c.radius_mm, c.radius_mm * fan.cos_tilt_frac) for fan in fans if (c := fan.circle)]
    y_mm, z_mm, radius_mm, flattened_mm = np.array(rows).T[:, :, None]
    return y_mm, z_mm, radius_mm, flattened_mm


def _holds(box: Box, y_mm: Floats, z_mm: Floats) -> Bools:
    held: Bools = (y_mm >= box.y0_mm) & (y_mm <= box.y1_mm) & (z_mm >= box.z0_mm) & (z_mm <= box.z1_mm)
    return held


def _clear_depth_mm(
    shroud: ProjectedPart, fans: Sequence[ProjectedPart], cores: Sequence[ProjectedPart], y_mm: Floats, z_mm: Floats
) -> Floats:
    ring_mm = np.stack([_plane_mm(fan.bodies[0], z, rear=False) for fan, z in zip(fans, z_mm, strict=True)])
    begins_mm = np.full(z_mm.shape, -np.inf)
    for core in cores:
        ahead = np.array([core.face_x_mm < fan.face_x_mm for fan in fans])[:, None]
        for body in core.bodies:
            stands = ahead & _holds(body.box, y_mm, z_mm)
            begins_mm = np.where(stands, np.maximum(begins_mm, _plane_mm(body, z_mm, rear=True)), begins_mm)
    plate = shroud.bodies[0]
    begins_mm = np.where(np.isfinite(begins_mm), begins_mm, _plane_mm(plate, z_mm, rear=False))
    clear_mm: Floats = np.maximum(np.minimum(ring_mm, _plane_mm(plate, z_mm, rear=True)) - begins_mm, 0.0)
    return clear_mm


def _plane_mm(body: Body, z_mm: Floats, *, rear: bool) -> Floats:
    return (body.rear_mm if rear else body.front_mm) + body.lean_frac * (z_mm - body.lean_z_mm)


def _outside_others_frac(fans: Sequence[ProjectedPart], angle: Floats) -> Floats:
    """Return which share of each step of each rim lies outside all other rings; of two rings in one place the first counts."""
    share = np.ones((angle.shape[0], angle.shape[1] - 1))
    if len(fans) < 2:
        return share
    y_mm, z_mm, radius_mm, flattened_mm = _ellipses(fans)
    at_y_mm, at_z_mm = y_mm + radius_mm * np.cos(angle), z_mm + flattened_mm * np.sin(angle)
    for own, other in itertools.permutations(range(len(fans)), 2):
        across = (at_y_mm[own] - y_mm[other]) / radius_mm[other]
        up = (at_z_mm[own] - z_mm[other]) / flattened_mm[other]
        beyond = across**2 + up**2 - 1.0
        if np.abs(beyond).max() < _SAME_RING:
            share[own] *= float(own < other)
            continue
        first, last = beyond[:-1], beyond[1:]
        out = np.maximum(first, last)
        # A step that crosses the other rim counts as far as it lies outside, straight from end to end.
        share[own] *= np.divide(
            out, np.abs(last - first), out=(out > 0.0).astype(float), where=(first > 0.0) != (last > 0.0)
        )
    return share
