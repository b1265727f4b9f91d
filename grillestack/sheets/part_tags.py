"""By which short tag and item number each part of the pack goes on the sheets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from grillestack.model.parts import Core, CoreRole, Part, Shroud
from grillestack.model.project import Project, stack

# The trade's own abbreviations, explained in the parts list by the part's name beside them.
_ROLE_TAGS = {
    CoreRole.CONDENSER: "COND",
    CoreRole.CHARGE_AIR_COOLER: "CAC",
    CoreRole.COOLER: "COOLER",
    CoreRole.RADIATOR: "RAD",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PartTag:
    """A part's item number, counted from the front, and its tag: "RAD", or "FAN 2" where there are several."""

    item: int
    tag: str


def part_tags(project: Project) -> Mapping[str, PartTag]:
    """Return the tag of each part by its id, from front to back."""
    parts = stack(project)
    kinds = [_kind(part) for part in parts]
    tags: dict[str, PartTag] = {}
    for place, (part, kind) in enumerate(zip(parts, kinds, strict=True)):
        number = f" {kinds[: place + 1].count(kind)}" if kinds.count(kind) > 1 else ""
        tags[part.id] = PartTag(item=place + 1, tag=f"{kind}{number}")
    return tags


def _kind(part: Part) -> str:
    if isinstance(part, Core):
        return _ROLE_TAGS[part.role]
    return "SHROUD" if isinstance(part, Shroud) else "FAN"
