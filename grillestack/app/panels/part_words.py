"""How a part is told in one faint line of a list."""

from __future__ import annotations

from grillestack.model.parts import Core, CoreRole, Fan, Part, Shroud
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import display_unit, show_bare, show_quantity

GROUPS = ("Radiators", "Charge-air coolers", "Condensers", "Other coolers", "Shrouds", "Fans", "To own sizes")

_GROUP_OF_ROLE = {
    CoreRole.RADIATOR: GROUPS[0],
    CoreRole.CHARGE_AIR_COOLER: GROUPS[1],
    CoreRole.CONDENSER: GROUPS[2],
    CoreRole.COOLER: GROUPS[3],
}


def group_of(part: Part) -> str:
    """Return the heading under which the shelf shows the part; starters for own sizes have one of their own."""
    if part.id.startswith("own-size-"):
        return GROUPS[6]
    if isinstance(part, Core):
        return _GROUP_OF_ROLE[part.role]
    return GROUPS[4] if isinstance(part, Shroud) else GROUPS[5]


def size_words(part: Part, units: UnitSystem) -> str:
    """Return the sizes in one line: core width by height and depth, or diameter and depth."""
    unit = display_unit(Dimension.LENGTH, units)
    depth = _bare(part.depth_mm, units)
    if isinstance(part, Fan):
        return f"⌀ {_bare(part.ring_diameter_mm, units)} · {depth} {unit} deep"
    if isinstance(part, Shroud):
        return f"{_bare(part.width_mm, units)} × {_bare(part.height_mm, units)} · {depth} {unit} deep"
    return f"core {_bare(part.core_width_mm, units)} × {_bare(part.core_height_mm, units)} · {depth} {unit} deep"


def gap_words(gap_mm: float, units: UnitSystem, behind: str = "") -> str:
    """Return the room along the depth, or by how much two parts share it; `behind` names what is not the row above."""
    amount = show_quantity(abs(gap_mm), Dimension.LENGTH, units)
    if gap_mm < 0:
        return f"{amount} into {behind or 'the one ahead'}"
    return f"{amount} behind {behind}" if behind else f"gap {amount}"


def _bare(value_mm: float, units: UnitSystem) -> str:
    return show_bare(value_mm, Dimension.LENGTH, units)
