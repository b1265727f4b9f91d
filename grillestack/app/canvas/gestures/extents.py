"""How far things reach along all three axes, as snapping asks it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.app.canvas.gestures.shift import outline_of
from grillestack.app.canvas.gestures.snap import Axis, bounds_of
from grillestack.app.canvas.trade_names import clear_words
from grillestack.app.nose_things import find_thing
from grillestack.geometry.corners import traced
from grillestack.geometry.projection import project_part
from grillestack.model.nose import Obstruction
from grillestack.model.project import Project

Span = tuple[float, float]
Extent = dict[Axis, Span]


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbour:
    """Something that stays, as wide as it is, and its name in a sentence."""

    extent_mm: Extent
    words: str


def extent_of(project: Project, name: str) -> Extent:
    """Return how far a part or a thing of the nose reaches; an outline is as deep as nothing."""
    box = outline_of(project, name)
    across: Extent = {Axis.Y: (box.y0_mm, box.y1_mm), Axis.Z: (box.z0_mm, box.z1_mm)}
    thing = find_thing(project, name)
    if isinstance(thing, Obstruction):
        across[Axis.X] = (thing.x_front_mm, thing.x_rear_mm)
    elif thing is not None:
        across[Axis.X] = (thing.x_mm, thing.x_mm)
    else:
        seen = project_part(project.part(name))
        across[Axis.X] = (seen.x_front_mm, seen.x_rear_mm)
    return across


def extent_of_all(project: Project, names: Sequence[str]) -> Extent:
    """Return how far several reach together."""
    found = [extent_of(project, name) for name in names]
    return {axis: (min(e[axis][0] for e in found), max(e[axis][1] for e in found)) for axis in Axis}


def neighbours(project: Project, held: Sequence[str]) -> tuple[Neighbour, ...]:
    """Return the parts and obstructions that stay and can be seen."""
    words = clear_words(project.parts)
    found = [
        Neighbour(extent_mm=extent_of(project, part.id), words=words[part.id])
        for part in project.parts
        if part.id not in held and not part.hidden
    ]
    for thing in project.nose.obstructions:
        if thing.id not in held:
            box = bounds_of(traced(thing))
            extent: Extent = {
                Axis.X: (thing.x_front_mm, thing.x_rear_mm),
                Axis.Y: (box.y0_mm, box.y1_mm),
                Axis.Z: (box.z0_mm, box.z1_mm),
            }
            found.append(Neighbour(extent_mm=extent, words=thing.name))
    return tuple(found)


def pushed(extent: Extent, by_mm: dict[Axis, float]) -> Extent:
    """Return the extent pushed by so much."""
    return {axis: (low + by_mm.get(axis, 0.0), high + by_mm.get(axis, 0.0)) for axis, (low, high) in extent.items()}


def overlap(a: Span, b: Span) -> bool:
    """Return whether two spans share more than an edge."""
    return min(a[1], b[1]) - max(a[0], b[0]) > 0
