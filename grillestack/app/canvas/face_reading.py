"""What the painted face and its legend show of an assessment."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from grillestack.app.canvas.items.face_item import Met, Patch
from grillestack.app.canvas.items.legend import Legend, LegendEntry
from grillestack.app.canvas.trade_names import clear_words
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.assess.result import Assessment
    from grillestack.geometry.exposure import CoreFace, FaceZone

_ORDER = (Met.FRESH, Met.BEHIND_ONE, Met.BEHIND_MORE, Met.OFF_OPENING, Met.BLOCKED)
# The values of geometry's FaceState; named here because geometry's overlay may not load before the first paint.
_PLAIN = {"exposed": Met.FRESH, "off-opening": Met.OFF_OPENING, "blocked": Met.BLOCKED}


def patches_of(assessment: Assessment | None) -> tuple[Patch, ...]:
    """Return the patches of the radiator's face; none without a radiator or an assessment."""
    face = radiator_face(assessment)
    if face is None:
        return ()
    from grillestack.geometry.joined_zones import joined_patches

    alike = {met: [zone for zone in face.zones if _met(zone) is met] for met in _ORDER}
    return tuple(Patch(met, ring) for met, zones in alike.items() for ring in joined_patches(zones))


def legend_of(assessment: Assessment | None, units: UnitSystem) -> Legend | None:
    """Return what the shades of the radiator's face mean and how much each takes."""
    face = radiator_face(assessment)
    if assessment is None or face is None:
        return None
    words = clear_words(assessment.project.parts)
    entries = []
    for met in _ORDER:
        zones = [zone for zone in face.zones if _met(zone) is met]
        if not zones and met is not Met.FRESH:
            continue
        area = show_quantity(sum(zone.area_mm2 for zone in zones), Dimension.AREA, units)
        entries.append(LegendEntry(met, _words(met, zones, words), area))
    whole = show_quantity(face.core_mm2, Dimension.AREA, units)
    return Legend(f"Radiator face, {whole}", tuple(entries), title_rest=": what its air has met")


def radiator_face(assessment: Assessment | None) -> CoreFace | None:
    """Return the face that is painted: the radiator's."""
    if assessment is None or assessment.radiator is None:
        return None
    return assessment.faces.get(assessment.radiator.part_id)


def _met(zone: FaceZone) -> Met:
    plain = _PLAIN.get(zone.state.value)
    if plain is not None:
        return plain
    return Met.BEHIND_ONE if len(zone.behind) == 1 else Met.BEHIND_MORE


def _words(met: Met, zones: Sequence[FaceZone], words: dict[str, str]) -> str:
    if met in (Met.BEHIND_ONE, Met.BEHIND_MORE):
        kinds = list(dict.fromkeys(zone.behind for zone in zones))
        if met is Met.BEHIND_ONE and len(kinds) <= 2:
            return "behind " + " or ".join(words.get(kind[0], kind[0]) for kind in kinds)
        if len(kinds) == 1 and len(kinds[0]) == 2:
            return "behind " + " and ".join(words.get(name, name) for name in kinds[0])
        return str(met.value)
    if met is Met.BLOCKED:
        by = _only(name for zone in zones for name in zone.blocked_by)
        return "blocked" if by is None else f"blocked by {words.get(by, by)}"
    return str(met.value)


def _only(names: Iterable[str]) -> str | None:
    found = set(names)
    return found.pop() if len(found) == 1 else None
