"""A part that is too large for what must hold it, or too small for what it must cover: for what, and by how much."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from grillestack.geometry.posed_body import Body
from grillestack.geometry.projection import Box
from grillestack.geometry.room import through_the_hole, under_bonnet_mm
from grillestack.geometry.setting import Setting, bounds_of

_NOTHING_MM = 1e-3


@dataclass(frozen=True, slots=True)
class Excess:
    """One size that does not suit: which, in words, for what, and by how much."""

    what: str
    within: str
    by_mm: float
    is_structure: bool = False
    at_the_front: bool = False


def excesses(
    setting: Setting, body: Body, x_mm: float, limits: tuple[float, float, float, float]
) -> tuple[Excess, ...]:
    """Return what is too large, and for what, where the limits leave no place."""
    found = tuple(one for one in _each(setting, body, x_mm) if one.by_mm > _NOTHING_MM)
    if found:
        return found
    y0, z0, y1, z1 = limits
    across, up = y0 - y1, z0 - z1
    if up >= across:
        under = under_bonnet_mm(setting, body, x_mm)
        within = "between support window and bonnet line" if under <= z1 + _NOTHING_MM else "for the support window"
        return (Excess("high", within, up, is_structure=True),)
    return (Excess("wide", "for the support window, its bends included", across, is_structure=True),)


def depth_excess(setting: Setting, body: Body, x_mm: float) -> Excess | None:
    """Return how far the part stands out of the room between grille plane and pulley, if it does."""
    ahead = setting.grille_x_mm - (x_mm + body.front_mm)
    if ahead > _NOTHING_MM:
        return Excess("deep", "behind the grille plane", ahead, at_the_front=True)
    if setting.pulley_x_mm is not None:
        behind = x_mm + body.rear_mm - (setting.pulley_x_mm - setting.clearances.pulley_mm)
        if behind > _NOTHING_MM:
            return Excess("deep", "ahead of the pulley", behind)
    return None


def _each(setting: Setting, body: Body, x_mm: float) -> Iterator[Excess]:
    if setting.covered is not None:
        yield from _pair(
            setting.covered, body.outline, ("narrow", "low"), "to cover the radiator's core and hold its fans"
        )
    if setting.inside is not None:
        yield from _pair(body.outline, setting.inside, ("wide", "high"), "for its shroud")
    if setting.hole is None:
        if setting.limits is not None:
            yield from _pair(body.outline, setting.limits, ("wide", "high"), "for the nose as it is drawn")
        return
    hole = bounds_of(setting.hole)
    for inner in through_the_hole(setting, body, x_mm)[:1]:
        yield from _pair(inner, hole, ("wide", "high"), "for the support window", is_structure=True)


def _pair(
    inner: Box, outer: Box, words: tuple[str, str], within: str, *, is_structure: bool = False
) -> Iterator[Excess]:
    wide = (inner.y1_mm - inner.y0_mm) - (outer.y1_mm - outer.y0_mm)
    high = (inner.z1_mm - inner.z0_mm) - (outer.z1_mm - outer.z0_mm)
    yield Excess(words[0], within, wide, is_structure)
    yield Excess(words[1], within, high, is_structure)
