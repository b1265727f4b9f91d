"""What differs between the parts of two layouts: which parts are in one only, and how the others differ, part by part."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, TypeAlias

from grillestack.model.parts import Core, Fan, Part, Shroud
from grillestack.model.values import field_words
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import display_unit, show_quantity

# Sums of moves there and back leave this much; nobody can measure it.
_NO_MOVE_MM: Final = 1e-6
_TURNS: Final = {1: "turned a quarter clockwise", 2: "turned half round", 3: "turned a quarter anticlockwise"}

# What is told with figures, and what is no property of the part itself.
_TOLD: Final = frozenset(
    {"id", "name", "placement", "own_sizes", "overall", "core_width_mm", "core_height_mm", "width_mm", "height_mm"}
    | {"depth_mm", "ring_diameter_mm", "weight_kg"}
)
_SAID: Final = {
    "description": "what is known of its heat",
    "solids": "tanks and plates",
    "curve": "fan curve",
    "tubes": "direction of the tubes",
    "given_heat_w": "the heat it gives off",
    "tube_fluid": "what flows through it",
    "tube_inlet_degc": "how hot that comes in",
    "tube_flow_m3_s": "how much flows",
}

Sizes: TypeAlias = tuple[tuple[str, tuple[float, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartChange:
    """A part of the plan that is not the same in two layouts; nothing on the side where it is missing."""

    before: Part | None
    after: Part | None


def part_changes(before: Sequence[Part], after: Sequence[Part]) -> tuple[PartChange, ...]:
    """Return what differs, from front to back; a part that gave way to the only new one of its kind is one change."""
    old, new = {part.id: part for part in before}, {part.id: part for part in after}
    partners = {part_id: part_id for part_id in old if part_id in new and _kind(old[part_id]) == _kind(new[part_id])}
    gone = [part for part in before if part.id not in partners]
    came = [part for part in after if part.id not in partners]
    for kind in {_kind(part) for part in gone}:
        leaving, coming = [[p for p in parts if _kind(p) == kind] for parts in (gone, came)]
        if len(leaving) == len(coming) == 1:
            partners[leaving[0].id] = coming[0].id
    pairs: list[tuple[Part | None, Part | None]] = [(old[a], new[b]) for a, b in partners.items()]
    pairs += [(part, None) for part in gone if part.id not in partners]
    pairs += [(None, part) for part in came if part.id not in partners.values()]
    changes = [PartChange(before=a, after=b) for a, b in pairs if a != b]
    return tuple(sorted(changes, key=_from_the_front))


def changes_in_words(
    changes: Sequence[PartChange],
    before: tuple[str, Sequence[Part]],
    after: tuple[str, Sequence[Part]],
    units: UnitSystem,
) -> tuple[str, ...]:
    """Return one sentence for each change; each layout is given by its name and its parts."""
    names = _clear_names(before[1]) | _clear_names(after[1])
    return tuple(_sentence(change, names, (before[0], after[0]), units) for change in changes)


def _sentence(change: PartChange, names: dict[str, str], layouts: tuple[str, str], units: UnitSystem) -> str:
    a, b = change.before, change.after
    if a is None or b is None:
        part, layout = (a, layouts[0]) if a is not None else (b, layouts[1])
        return f"{names[part.id] if part is not None else ''}: only in “{layout}”."
    exchanged = _is_exchanged(a, b)
    clauses = [f"takes the place of “{a.name}”"] if exchanged else [f"called “{a.name}” before"] * (a.name != b.name)
    clauses += [*_moves(a, b, units), *_turns(a, b, units), *_sizes(a, b, units), *_weights(a, b, units)]
    others = [] if exchanged else _other_fields(a, b)
    if others:
        clauses.append(f"differs in {_listed(others)}")
    return f"{names[b.id]}: {', '.join(clauses) or 'takes the place of one that is like it'}."


def _is_exchanged(a: Part, b: Part) -> bool:
    """Return whether another part stands in the place, rather than the same one described or called otherwise."""
    return a.name != b.name and (a.id != b.id or bool(_other_fields(a, b)) or _sizes_of(a) != _sizes_of(b))


def _moves(a: Part, b: Part, units: UnitSystem) -> Iterator[str]:
    for axis, onward, back in (
        ("x_mm", "further rearward", "further forward"),
        ("y_mm", "further to the vehicle's right", "further to the vehicle's left"),
        ("z_mm", "higher", "lower"),
    ):
        step_mm = getattr(b.placement, axis) - getattr(a.placement, axis)
        if abs(step_mm) > _NO_MOVE_MM:
            yield f"{_length(abs(step_mm), units)} {onward if step_mm > 0 else back}"


def _turns(a: Part, b: Part, units: UnitSystem) -> Iterator[str]:
    was, now = a.placement, b.placement
    if now.flipped != was.flipped:
        yield "flipped front to back"
    # The pose flips first and turns after, so a flip by itself turns the quarter turns round.
    before = -was.quarter_turns if now.flipped != was.flipped else was.quarter_turns
    turns = (now.quarter_turns - before) % 4
    if turns:
        yield f"{_TURNS[turns]}, seen from ahead"
    lean_deg = now.tilt_deg - was.tilt_deg
    if lean_deg:
        by = show_quantity(abs(lean_deg), Dimension.ANGLE, units)
        yield f"leaning {by} further {'rearward' if lean_deg > 0 else 'forward'} at its top"


def _sizes(a: Part, b: Part, units: UnitSystem) -> Iterator[str]:
    for (what, old), (_, new) in zip(_sizes_of(a), _sizes_of(b), strict=True):
        if old != new:
            yield f"{what} {_across(new, units)} instead of {_across(old, units)}"


def _weights(a: Part, b: Part, units: UnitSystem) -> Iterator[str]:
    if a.weight_kg != b.weight_kg:
        was, now = (show_quantity(part.weight_kg, Dimension.MASS, units) for part in (a, b))
        yield f"weight {now} instead of {was}"


def _sizes_of(part: Part) -> Sizes:
    if isinstance(part, Fan):
        return (("ring", (part.ring_diameter_mm,)), ("depth", (part.depth_mm,)))
    if isinstance(part, Shroud):
        return (("size", (part.width_mm, part.height_mm)), ("depth", (part.depth_mm,)))
    overall = (part.overall.width_mm, part.overall.height_mm)
    return (("core", (part.core_width_mm, part.core_height_mm)), ("overall", overall), ("depth", (part.depth_mm,)))


def _other_fields(a: Part, b: Part) -> list[str]:
    fields = [name for name in a.__struct_fields__ if name not in _TOLD and getattr(a, name) != getattr(b, name)]
    return [_SAID.get(name, field_words(name)) for name in fields]


def _kind(part: Part) -> str:
    return part.role.value if isinstance(part, Core) else type(part).__name__


def _from_the_front(change: PartChange) -> float:
    part = change.after or change.before
    return part.placement.x_mm if part is not None else 0.0


def _clear_names(parts: Sequence[Part]) -> dict[str, str]:
    """Return each part's name in quotes, with its number from the front where another part has the same name."""
    counts = Counter(part.name for part in parts)
    order = sorted(parts, key=lambda part: part.placement.x_mm)
    return {
        part.id: f"“{part.name}”" + (f" (number {n} from the front)" if counts[part.name] > 1 else "")
        for n, part in enumerate(order, start=1)
    }


def _across(sizes_mm: tuple[float, ...], units: UnitSystem) -> str:
    unit = display_unit(Dimension.LENGTH, units)
    *first, last = [_length(size_mm, units) for size_mm in sizes_mm]
    return " × ".join([*(words.removesuffix(f" {unit}") for words in first), last])


def _length(length_mm: float, units: UnitSystem) -> str:
    return show_quantity(length_mm, Dimension.LENGTH, units)


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
