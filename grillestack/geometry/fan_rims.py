"""How much way is left beside the fans' rings of a shroud: rim by rim, between what stands ahead and the rings."""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence
from dataclasses import dataclass

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


@dataclass(frozen=True, slots=True)
class _Rim:
    """A fan's ring: its middle and half axes along y and z in the front view, and where the centre of its front stands."""

    y_mm: float
    z_mm: float
    half_width_mm: float
    half_height_mm: float
    face_x_mm: float
    body: Body

    @property
    def around(self) -> Box:
        """Return the smallest box that holds the rim."""
        w, h = self.half_width_mm, self.half_height_mm
        return Box(self.y_mm - w, self.z_mm - h, self.y_mm + w, self.z_mm + h)

    def places(self, angle_rad: Floats) -> tuple[Floats, Floats]:
        """Return y and z of the rim's places [mm]."""
        y_mm: Floats = self.y_mm + self.half_width_mm * np.cos(angle_rad)
        z_mm: Floats = self.z_mm + self.half_height_mm * np.sin(angle_rad)
        return y_mm, z_mm


@dataclass(frozen=True, slots=True)
class Passage:
    """The way under a shroud from beside its fans' rings to the fans: its area, and the length of the rims it passes."""

    area_mm2: float
    rim_mm: float

    @property
    def mean_depth_mm(self) -> float | None:
        """Return the mean clear depth along the rims; nothing where there is no rim."""
        return self.area_mm2 / self.rim_mm if self.rim_mm > 0.0 else None


def swept_under_shroud(overlay: Overlay) -> Bools:
    """Return, per piece, whether it lies under a shroud and in the ring of one of that shroud's own fans."""
    rings = overlay.frame.inside[:, overlay.frame.n_nose :]
    home = np.array(overlay.fan_shroud, dtype=np.int64)
    own = (home == overlay.shroud[:, None]) & (home >= 0)
    swept: Bools = np.logical_or.reduce(rings & own, axis=1)
    return swept


def passages(project: Project) -> tuple[Passage, ...]:
    """Return, per shroud in document order, the way from its space beside the rings to its space before them.

    Each ring's rim is walked in the front view, as far as it lies inside the shroud's outline and in no other ring of the
    same shroud. The clear depth at a place of the rim runs along x, from the rear of what stands rearmost there of the cores
    and their tanks to the front plane of the ring, or to the rear plane of the shroud where that comes first; where nothing
    stands ahead it begins at the shroud's front plane. A core stands ahead of a ring if the centre of its front face does.
    The depth is never less than 0. Leaning parts count at each place as they lean. Several rings add up. A shroud without a
    fan has no way and no rim.
    """
    projected = tuple(project_part(part) for part in project.parts)
    fans = [part for part in projected if part.is_fan]
    shrouds = [part for part in projected if part.is_shroud]
    cores = [part for part in projected if part.is_core]
    homes = fans_in_shrouds(fans, shrouds)
    found = []
    for number, shroud in enumerate(shrouds):
        rims = tuple(_rim(fan) for fan, home in zip(fans, homes, strict=True) if home == number)
        plate = shroud.bodies[0]
        ways = [_way_at(rims, own, plate, _ahead_of(rim, cores)) for own, rim in enumerate(rims)]
        found.append(Passage(sum(way.area_mm2 for way in ways), sum(way.rim_mm for way in ways)))
    return tuple(found)


def _rim(fan: ProjectedPart) -> _Rim:
    at = fan.circle
    if at is None:
        raise ValueError(f"{fan.part_id} has no ring")
    return _Rim(at.y_mm, at.z_mm, at.radius_mm, at.radius_mm * fan.cos_tilt_frac, fan.face_x_mm, fan.bodies[0])


def _ahead_of(rim: _Rim, cores: Sequence[ProjectedPart]) -> tuple[Body, ...]:
    """Return the boxes of cores whose rear may bound the way at this rim: none that lies wholly ahead of one that covers it."""
    around = rim.around
    met = [body for core in cores if core.face_x_mm < rim.face_x_mm for body in core.bodies if _meet(body.box, around)]
    ends_mm = np.array([around.z0_mm, around.z1_mm])
    rears_mm = [_rear_mm(body, ends_mm) for body in met]
    covering = [number for number, body in enumerate(met) if _covers(body.box, around)]

    def hides(last: int, number: int) -> bool:
        further_mm = rears_mm[last] - rears_mm[number]
        # Of two with one rear plane the first hides the other.
        return last != number and bool((further_mm >= 0.0).all() and (last < number or (further_mm > 0.0).any()))

    return tuple(body for number, body in enumerate(met) if not any(hides(last, number) for last in covering))


@functools.lru_cache(maxsize=256)
def _way_at(rims: tuple[_Rim, ...], own: int, plate: Body, ahead: tuple[Body, ...]) -> Passage:
    """Return the way at one rim of a shroud; kept, for a core that is dragged well ahead of the fans leaves it as it is."""
    rim = rims[own]
    angle_rad = _stops_rad(rim, [plate.box, *[body.box for body in ahead]])
    middle_rad = 0.5 * (angle_rad[1:] + angle_rad[:-1])
    y_mm, z_mm = rim.places(middle_rad)
    per_rad_mm = np.hypot(rim.half_width_mm * np.sin(middle_rad), rim.half_height_mm * np.cos(middle_rad))
    begins_mm = np.full(z_mm.shape, -np.inf)
    for body in ahead:
        begins_mm = np.where(_holds(body.box, y_mm, z_mm), np.maximum(begins_mm, _rear_mm(body, z_mm)), begins_mm)
    begins_mm = np.where(np.isfinite(begins_mm), begins_mm, _front_mm(plate, z_mm))
    ends_mm = np.minimum(_front_mm(rim.body, z_mm), _rear_mm(plate, z_mm))
    counts_frac = _holds(plate.box, y_mm, z_mm) * _outside_others_frac(rims, own, angle_rad)
    length_mm = per_rad_mm * np.diff(angle_rad) * counts_frac
    return Passage(float((length_mm * np.maximum(ends_mm - begins_mm, 0.0)).sum()), float(length_mm.sum()))


def _stops_rad(rim: _Rim, boxes: Sequence[Box]) -> Floats:
    """Return the angles in rising order between which a rim crosses no edge of a box, even steps among them."""
    across_mm = np.array([(box.y0_mm, box.y1_mm) for box in boxes]).ravel()
    up_mm = np.array([(box.z0_mm, box.z1_mm) for box in boxes]).ravel()
    # An edge that the rim does not reach gives the rim's own end, which parts nothing.
    turned = np.arccos(np.clip((across_mm - rim.y_mm) / rim.half_width_mm, -1.0, 1.0))
    risen = np.arcsin(np.clip((up_mm - rim.z_mm) / rim.half_height_mm, -1.0, 1.0))
    full = 2.0 * math.pi
    even = np.linspace(0.0, full, _STEPS + 1)
    return np.sort(np.concatenate((even, turned, full - turned, risen % full, math.pi - risen)))


def _outside_others_frac(rims: tuple[_Rim, ...], own: int, angle_rad: Floats) -> Floats:
    """Return which share of each step lies outside all other rings; of two rings in one place the first counts."""
    share = np.ones(angle_rad.size - 1)
    y_mm, z_mm = rims[own].places(angle_rad)
    for number, other in enumerate(rims):
        if number == own or not _meet(rims[own].around, other.around):
            continue
        across, up = (y_mm - other.y_mm) / other.half_width_mm, (z_mm - other.z_mm) / other.half_height_mm
        beyond = across**2 + up**2 - 1.0
        if np.abs(beyond).max() < _SAME_RING:
            share *= float(own < number)
            continue
        first, last = beyond[:-1], beyond[1:]
        out = np.maximum(first, last)
        # A step that crosses the other rim counts as far as it lies outside, straight from end to end.
        whole = (out > 0.0).astype(float)
        share *= np.divide(out, np.abs(last - first), out=whole, where=(first > 0.0) != (last > 0.0))
    return share


def _front_mm(body: Body, z_mm: Floats) -> Floats:
    return body.front_mm + body.lean_frac * (z_mm - body.lean_z_mm)


def _rear_mm(body: Body, z_mm: Floats) -> Floats:
    return body.rear_mm + body.lean_frac * (z_mm - body.lean_z_mm)


def _holds(box: Box, y_mm: Floats, z_mm: Floats) -> Bools:
    held: Bools = (y_mm >= box.y0_mm) & (y_mm <= box.y1_mm) & (z_mm >= box.z0_mm) & (z_mm <= box.z1_mm)
    return held


def _meet(one: Box, other: Box) -> bool:
    return one.y0_mm < other.y1_mm and other.y0_mm < one.y1_mm and one.z0_mm < other.z1_mm and other.z0_mm < one.z1_mm


def _covers(one: Box, other: Box) -> bool:
    return one.holds(other.y0_mm, other.z0_mm) and one.holds(other.y1_mm, other.z1_mm)
