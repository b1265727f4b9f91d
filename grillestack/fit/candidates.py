"""Which parts are tried: those of the catalogue of that kind and those typed into the project, each once, in one order."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from msgspec.structs import replace

from grillestack.fit.slots import KIND_WORDS, Kind, kind_of
from grillestack.model.parts import Core, Fan, Part, Placement
from grillestack.model.project import Project

# Nothing of a pack is smaller in any direction; what is was mistyped.
_LEAST_SIZE_MM: Final = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidates:
    """The parts to try, by their catalogue numbers, and a sentence for each that cannot be tried."""

    parts: tuple[Part, ...]
    refused: tuple[str, ...]


def candidates(project: Project, catalogue: Iterable[Part], kind: Kind) -> Candidates:
    """Return the parts of that kind; the same whatever order the catalogue comes in.

    Parts typed from a tape into any layout of the project are tried like bought ones; equal parts are tried once.
    """
    typed = [p for parts in (project.parts, *(v.parts for v in project.variants)) for p in parts if p.own_sizes]
    found: dict[Part, Part] = {}
    refused: list[str] = []
    wanted = [replace(part, placement=Placement(), locked=False, hidden=False) for part in (*catalogue, *typed)]
    for part in sorted((p for p in wanted if kind_of(p) is kind), key=lambda part: (part.id, part.name, repr(part))):
        width, height, depth = size_mm(part)
        if min(width, height, depth) < _LEAST_SIZE_MM:
            refused.append(
                f"“{part.name}” has next to no size ({width:g} × {height:g} × {depth:g} mm): correct its sizes to try it."
            )
            continue
        found.setdefault(replace(part, id="part", own_sizes=False), part)
    parts = _with_own_ids(tuple(found.values()))
    if not parts and not refused:
        refused.append(
            f"There is no {KIND_WORDS[kind]} to try: the catalogue has none and none was typed into this project."
        )
    return Candidates(parts=parts, refused=tuple(dict.fromkeys(refused)))


def size_mm(part: Part) -> tuple[float, float, float]:
    """Return width, height and depth over all, tanks included, as the part is listed."""
    if isinstance(part, Core):
        front = min((s.front_mm for s in part.solids), default=0.0)
        rear = max((s.front_mm + s.depth_mm for s in part.solids), default=0.0)
        return part.overall.width_mm, part.overall.height_mm, max(part.depth_mm, rear) - min(0.0, front)
    if isinstance(part, Fan):
        return part.ring_diameter_mm, part.ring_diameter_mm, part.depth_mm
    return part.width_mm, part.height_mm, part.depth_mm


def _with_own_ids(parts: Sequence[Part]) -> tuple[Part, ...]:
    """Return the parts with every id used once: a typed part may carry that of a bought one."""
    taken: set[str] = set()
    made: list[Part] = []
    for part in parts:
        part_id, number = part.id, 2
        while part_id in taken:
            part_id, number = f"{part.id[:70]}-{number}", number + 1
        taken.add(part_id)
        made.append(part if part_id == part.id else replace(part, id=part_id))
    return tuple(made)
