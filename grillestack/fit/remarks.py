"""What must be said of the nose before any part is tried in it."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.fit.candidates import size_mm
from grillestack.fit.slots import KIND_WORDS, Kind, Slot
from grillestack.geometry.outlines import SLIVER_MM2, outline_shape
from grillestack.geometry.setting import Setting, bounds_of
from grillestack.model.parts import Part
from grillestack.model.project import Project, radiator
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


def remarks(
    project: Project, slot: Slot, setting: Setting, parts: tuple[Part, ...], units: UnitSystem
) -> tuple[str, ...]:
    """Return a sentence for each thing that limits what the search can say."""
    return tuple(_each(project, slot, setting, parts, units))


def _each(project: Project, slot: Slot, setting: Setting, parts: tuple[Part, ...], units: UnitSystem) -> Iterator[str]:
    nose = project.nose
    if setting.hole is None:
        if setting.limits is None:
            yield (
                "This nose has no support window, no opening and no part yet, so nothing bounds the room: "
                "draw the support window first."
            )
        else:
            yield (
                "This nose has no support window: the room ends where its openings and its pack do. "
                "Draw the support window to know how far a part may really reach."
            )
    shapes = [outline_shape(opening.outline, opening.corner_radii_mm) for opening in nose.openings]
    wide = max((b.y1_mm - b.y0_mm for s in shapes if s.area_mm2 > SLIVER_MM2 for b in [bounds_of(s)]), default=0.0)
    hole = None if setting.hole is None else bounds_of(setting.hole)
    widest = max(
        wide, 0.0 if hole is None else hole.y1_mm - hole.y0_mm, 0.0 if hole is None else hole.z1_mm - hole.z0_mm
    )
    for part in parts:
        width, height, _ = size_mm(part)
        if widest > 0 and min(width, height) > widest:
            yield (
                f"“{part.name}” is {_length(min(width, height), units)} at its narrowest, wider than any opening of this nose "
                f"({_length(widest, units)}): it fits no way round."
            )
    if slot.kind is Kind.SHROUD and radiator(project) is None:
        yield "There is no radiator for a shroud to cover: put the radiator in first."
    if slot.kind in (Kind.CHARGE_AIR_COOLER, Kind.RADIATOR) and not project.engine.connections:
        yield (
            f"The engine sheet names no connections, so it is not known on which side the {KIND_WORDS[slot.kind]}'s ports "
            "should be: add them to have the ports weighed."
        )


def _length(length_mm: float, units: UnitSystem) -> str:
    return show_quantity(length_mm, Dimension.LENGTH, units)
