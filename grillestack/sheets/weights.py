"""What each part weighs dry and filled, and where the weight of the whole pack acts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.assess.asked import coolant_of
from grillestack.assess.fins_and_tubes import fins_and_tubes
from grillestack.geometry.projection import placed_boxes
from grillestack.model.core_description import CoreMetal, CoreType
from grillestack.model.parts import Core, CoreRole, Part, SolidKind, TubeDirection, TubeFluid
from grillestack.model.project import Project, stack
from grillestack.units.convert import m3_from_mm3, m_from_mm

# Dry radiator with its tanks over the volume of its finned core; typical of the trade, from memory.
_CORE_KG_M3 = {CoreMetal.ALUMINIUM: 450.0, CoreMetal.COPPER_BRASS: 700.0}
# Of the box a tank takes up, so much holds fluid; common practice, no source.
_TANK_FLUID_FRAC = 0.75
# Lubricating oil when cold; handbook value, from memory
_OIL_KG_M3 = 870.0
_FILLED_AT_DEGC = 20.0
FROM_PART, ESTIMATED = "given", "estimated"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartWeight:
    """One part's weight; `None` where it is not known. The place is that of its middle, by the volume of its boxes."""

    part: Part
    dry_kg: float | None
    dry_basis: str
    fluid_kg: float | None
    fluid_words: str
    x_mm: float
    y_mm: float
    z_mm: float

    @property
    def wet_kg(self) -> float | None:
        """Return the weight with what fills it, if both are known."""
        if self.dry_kg is None or self.fluid_kg is None:
            return None
        return self.dry_kg + self.fluid_kg


@dataclass(frozen=True, slots=True, kw_only=True)
class PackWeight:
    """The pack's weight, of those parts of which it is known, and where it acts; `unknown` are the others."""

    parts: tuple[PartWeight, ...]
    dry_kg: float
    wet_kg: float
    unknown: tuple[Part, ...]
    x_mm: float | None
    y_mm: float | None
    z_mm: float | None


def pack_weight(project: Project) -> PackWeight:
    """Return the weight of the pack, dry and filled, and its centre of gravity when filled.

    Each part counts as evenly filled: its weight acts at the middle of its boxes, weighed by their volumes.
    """
    weights = tuple(_weight(part, project) for part in stack(project))
    known = [w for w in weights if w.wet_kg is not None]
    wet = sum(w.wet_kg or 0.0 for w in known)
    return PackWeight(
        parts=weights,
        dry_kg=sum(w.dry_kg or 0.0 for w in known),
        wet_kg=wet,
        unknown=tuple(w.part for w in weights if w.wet_kg is None),
        x_mm=_centre([(w.wet_kg or 0.0, w.x_mm) for w in known]),
        y_mm=_centre([(w.wet_kg or 0.0, w.y_mm) for w in known]),
        z_mm=_centre([(w.wet_kg or 0.0, w.z_mm) for w in known]),
    )


def _centre(shares: Sequence[tuple[float, float]]) -> float | None:
    total = sum(weight for weight, _ in shares)
    return sum(weight * at for weight, at in shares) / total if total > 0 else None


def _weight(part: Part, project: Project) -> PartWeight:
    volumes = [(_volume_mm3(box_sizes), box_sizes) for box_sizes in _boxes(part)]
    total = sum(volume for volume, _ in volumes)
    x, y, z = (sum(volume * (sizes[k] + sizes[k + 3]) / 2 for volume, sizes in volumes) / total for k in range(3))
    dry, basis = part.weight_kg, FROM_PART
    if dry is None and isinstance(part, Core):
        dry, basis = _estimated_kg(part), ESTIMATED
    fluid, words = _fluid(part, project)
    return PartWeight(
        part=part,
        dry_kg=dry,
        dry_basis=basis if dry is not None else "not known",
        fluid_kg=fluid,
        fluid_words=words,
        x_mm=x,
        y_mm=y,
        z_mm=z,
    )


def _boxes(part: Part) -> list[tuple[float, float, float, float, float, float]]:
    """Return the boxes of a part as (x, y, z) of their two ends; what a tilt lengthens is the same for all of a part."""
    return [(b.x0_mm, b.y0_mm, b.z0_mm, b.x1_mm, b.y1_mm, b.z1_mm) for b in placed_boxes(part)]


def _volume_mm3(box: tuple[float, float, float, float, float, float]) -> float:
    return (box[3] - box[0]) * (box[4] - box[1]) * (box[5] - box[2])


def _estimated_kg(core: Core) -> float:
    description = core.description
    metal = CoreMetal.COPPER_BRASS if description.core_type is CoreType.COPPER_BRASS else CoreMetal.ALUMINIUM
    if description.construction is not None:
        metal = description.construction.metal
    return _CORE_KG_M3[metal] * m3_from_mm3(core.core_width_mm * core.core_height_mm * core.depth_mm)


def _fluid(part: Part, project: Project) -> tuple[float | None, str]:
    if not isinstance(part, Core) or part.role is CoreRole.CHARGE_AIR_COOLER:
        return 0.0, "air"
    if part.role is CoreRole.CONDENSER:
        return 0.0, "refrigerant, not counted"
    volume = _fluid_m3(part)
    coolant = float(coolant_of(project).density_kg_m3(_FILLED_AT_DEGC))
    if part.role is CoreRole.RADIATOR or part.tube_fluid is TubeFluid.COOLANT:
        return volume * coolant, f"{volume * 1e3:.1f} L of coolant"
    if part.tube_fluid is TubeFluid.OIL:
        return volume * _OIL_KG_M3, f"{volume * 1e3:.1f} L of oil"
    return None, "not known"


def _fluid_m3(core: Core) -> float:
    """Return what tubes and tanks hold: the clear tubes of its construction, or of one typical of its type."""
    built = fins_and_tubes(core.description, core.depth_mm).construction
    along, across = core.core_width_mm, core.core_height_mm
    if core.tubes is TubeDirection.DOWN_FLOW:
        along, across = across, along
    clear_m2 = (built.tube_thickness_m - 2 * built.tube_wall_m) * (built.tube_depth_m - 2 * built.tube_wall_m)
    tubes = built.tube_rows * m_from_mm(across) / built.tube_pitch_m
    tanks_mm3 = math.fsum(
        solid.rect.width_mm * solid.rect.height_mm * solid.depth_mm
        for solid in core.solids
        if solid.kind is SolidKind.TANK
    )
    return tubes * clear_m2 * m_from_mm(along) + _TANK_FLUID_FRAC * m3_from_mm3(tanks_mm3)
