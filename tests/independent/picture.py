"""Rectangles of the pack as seen from ahead, and the frame of square pixels they are painted on."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

import numpy as np

from grillestack.model.parts import Core, Fan, Shroud

_RING_LINES = 50

Rectangle = tuple[float, float, float, float]


def turned(part, u_mm: float, v_mm: float) -> tuple[float, float]:
    """Return a point of the part's frame as flipped and turned: a half turn about its upright axis, then right goes to up."""
    if part.placement.flipped:
        u_mm = -u_mm
    for _ in range(part.placement.quarter_turns):
        u_mm, v_mm = -v_mm, u_mm
    return u_mm, v_mm


def cosine(part) -> float:
    return math.cos(math.radians(part.placement.tilt_deg))


def placed(part, u0: float, v0: float, u1: float, v1: float) -> Rectangle:
    """Return a rectangle of the part's frame in the front view: low y, low z, high y, high z."""
    (a0, b0), (a1, b1) = turned(part, u0, v0), turned(part, u1, v1)
    at, c = part.placement, cosine(part)
    return (
        at.y_mm + min(a0, a1),
        at.z_mm + min(b0, b1) * c,
        at.y_mm + max(a0, a1),
        at.z_mm + max(b0, b1) * c,
    )


def core_rectangle(core: Core) -> Rectangle:
    w, h = core.core_width_mm / 2, core.core_height_mm / 2
    return placed(core, -w, -h, w, h)


def solid_rectangles(core: Core) -> list[Rectangle]:
    return [placed(core, s.rect.u_min_mm, s.rect.v_min_mm, s.rect.u_max_mm, s.rect.v_max_mm) for s in core.solids]


def overall_rectangle(core: Core) -> Rectangle:
    o = core.overall
    return placed(core, o.u_min_mm, o.v_min_mm, o.u_max_mm, o.v_max_mm)


def shroud_rectangle(shroud: Shroud) -> Rectangle:
    return placed(shroud, -shroud.width_mm / 2, -shroud.height_mm / 2, shroud.width_mm / 2, shroud.height_mm / 2)


def circle(fan: Fan) -> tuple[float, float, float]:
    """Return the middle and radius of a fan's ring; one that leans is refused."""
    if fan.placement.tilt_deg:
        raise ValueError("the ring of a fan that leans is no circle")
    return fan.placement.y_mm, fan.placement.z_mm, fan.ring_diameter_mm / 2


def outline_rectangle(outline) -> Rectangle:
    ys, zs = [p.y_mm for p in outline], [p.z_mm for p in outline]
    return min(ys), min(zs), max(ys), max(zs)


@dataclass(frozen=True)
class Picture:
    """A frame of square pixels; images have one row along y for each column along z."""

    y0_mm: float
    z0_mm: float
    size_mm: float
    shape: tuple[int, int]

    def image(self, rectangle: Rectangle) -> np.ndarray:
        """Return which pixels lie inside; an edge off the grid is refused."""
        y0, z0, y1, z1 = rectangle
        lines = [
            (y0 - self.y0_mm) / self.size_mm,
            (y1 - self.y0_mm) / self.size_mm,
            (z0 - self.z0_mm) / self.size_mm,
            (z1 - self.z0_mm) / self.size_mm,
        ]
        whole = [round(line) for line in lines]
        if max(abs(a - b) for a, b in zip(lines, whole, strict=True)) > 1e-6:
            raise ValueError(f"the edges {rectangle} are not on the grid of {self.size_mm} mm")
        found = np.zeros(self.shape, dtype=bool)
        found[max(whole[0], 0) : max(whole[1], 0), max(whole[2], 0) : max(whole[3], 0)] = True
        return found

    def images(self, rectangles: list[Rectangle]) -> np.ndarray:
        """Return which pixels lie inside any of them."""
        found = np.zeros(self.shape, dtype=bool)
        for rectangle in rectangles:
            found |= self.image(rectangle)
        return found

    def ring_share(self, *rings: tuple[float, float, float]) -> np.ndarray:
        """Return the share of each pixel inside any of these circles (y, z, radius), from chords closely one above the other."""
        y_lines = self.y0_mm + self.size_mm * np.arange(self.shape[0] + 1)
        z = self.z0_mm + self.size_mm * (np.arange(self.shape[1] * _RING_LINES) + 0.5) / _RING_LINES
        inside = np.zeros((self.shape[0], z.size))
        # What all of some circles hold counts once: add the single ones, take off what two share, add what three share ...
        for count in range(1, len(rings) + 1):
            for chosen in itertools.combinations(rings, count):
                low, high = y_lines[:-1, None], y_lines[1:, None]
                for y_mm, z_mm, radius_mm in chosen:
                    half = np.sqrt(np.maximum(radius_mm**2 - (z - z_mm) ** 2, 0.0))
                    low, high = np.maximum(low, y_mm - half), np.minimum(high, y_mm + half)
                inside += (-1) ** (count + 1) * np.maximum(high - low, 0.0) / self.size_mm
        return inside.reshape(*self.shape, _RING_LINES).mean(axis=2)
