"""What the painted face and its legend show of an assessment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from grillestack.app.canvas.items.face_item import Met, Patch
from grillestack.app.canvas.items.legend import Legend, LegendEntry
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.assess.result import Assessment


def patches_of(assessment: Assessment | None) -> tuple[Patch, ...]:
    """Return the patches of the radiator's face; none without a radiator or an assessment."""
    if assessment is None or assessment.radiator is None:
        return ()
    return ()


def legend_of(assessment: Assessment | None, units: UnitSystem) -> Legend | None:
    """Return what the shades of the radiator's face mean and how much each takes."""
    if assessment is None or assessment.radiator is None:
        return None
    face = assessment.radiator
    entries = []
    for met, words, area_mm2 in (
        (Met.FRESH, "fresh air", face.exposed_mm2),
        (Met.BEHIND_ONE, "behind another core", face.behind_mm2),
        (Met.OFF_OPENING, "off the opening", face.off_opening_mm2),
        (Met.BLOCKED, "blocked", face.blocked_mm2),
    ):
        if area_mm2 > 0 or met is Met.FRESH:
            entries.append(LegendEntry(met, words, show_quantity(area_mm2, Dimension.AREA, units)))
    whole = show_quantity(face.core_mm2, Dimension.AREA, units)
    return Legend(f"Radiator face, {whole}: what its air has met", tuple(entries))
