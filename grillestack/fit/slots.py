"""Where in the depth of the pack a part is to go: in place of another, or into a gap between two cores."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import Final

from grillestack.model.parts import Core, CoreRole, Fan, Part, Shroud
from grillestack.model.project import Project, cores, fans, radiator, shrouds, stack
from grillestack.model.values import ModelError


class Kind(enum.Enum):
    """What kind of part is looked for, in the words of the terminal."""

    CHARGE_AIR_COOLER = "cac"
    RADIATOR = "radiator"
    CONDENSER = "condenser"
    COOLER = "oil-cooler"
    FAN = "fan"
    SHROUD = "shroud"


_ROLES: Final = {
    Kind.CHARGE_AIR_COOLER: CoreRole.CHARGE_AIR_COOLER,
    Kind.RADIATOR: CoreRole.RADIATOR,
    Kind.CONDENSER: CoreRole.CONDENSER,
    Kind.COOLER: CoreRole.COOLER,
}
KIND_WORDS: Final = {
    Kind.CHARGE_AIR_COOLER: "charge-air cooler",
    Kind.RADIATOR: "radiator",
    Kind.CONDENSER: "condenser",
    Kind.COOLER: "oil cooler",
    Kind.FAN: "fan",
    Kind.SHROUD: "shroud",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A place in depth: what is taken out for it, and what stays ahead of it and behind it.

    `number` counts the gaps between the cores that stay, from 1 ahead of the first one; 0 for a fan or a shroud.
    """

    kind: Kind
    number: int
    taken_out: str | None
    ahead: tuple[str, ...]
    behind: tuple[str, ...]
    tilt_deg: float
    words: str


def kind_of(part: Part) -> Kind:
    """Return what kind of part that is."""
    if isinstance(part, Core):
        return next(kind for kind, role in _ROLES.items() if role is part.role)
    return Kind.FAN if isinstance(part, Fan) else Kind.SHROUD


def slot_in_place_of(project: Project, part_id: str) -> Slot:
    """Return the slot of a part, which is taken out for the one that is looked for."""
    part = project.part(part_id)
    kind = kind_of(part)
    rest = [core for core in cores(project) if core.id != part_id]
    order = [one.id for one in stack(project)]
    number = 0
    if isinstance(part, Core):
        number = 1 + sum(order.index(core.id) < order.index(part_id) for core in rest)
    return _slot(project, kind, number, part, f"in place of “{part.name}”")


def slot_for(project: Project, kind: Kind, number: int | None = None, *, keep: bool = False) -> Slot:
    """Return the slot for a part of that kind.

    Parameters
    ----------
    number
        Which gap between the cores that stay, from 1 ahead of the first one; the present part's place if not said, and
        where there is none the gap ahead of the radiator.
    keep
        Whether a part of that kind that is there already stays; if not, it is taken out.

    Raises
    ------
    ModelError
        If there is no such gap, or nothing to put the part to.
    """
    present = _present(project, kind)
    if number is None and present is not None and not keep:
        return slot_in_place_of(project, present.id)
    if kind in (Kind.FAN, Kind.SHROUD):
        return _behind_the_cores(project, kind, number, None if keep else present)
    out = None if keep else present
    rest = [core for core in cores(project) if out is None or core.id != out.id]
    if number is None:
        main = radiator(project)
        number = 1 + (rest.index(main) if main in rest else len(rest)) if main is not None else len(rest) + 1
    if not 1 <= number <= len(rest) + 1:
        gaps = len(rest) + 1
        raise ModelError(
            "slot",
            f"There is no slot {number}: the {len(rest)} cores that stay leave slots 1 to {gaps}, counted from the front."
            if gaps > 1
            else f"There is no slot {number}: with no other core there is slot 1 only.",
        )
    return _slot(project, kind, number, out, _between(rest, number))


def _slot(project: Project, kind: Kind, number: int, out: Part | None, words: str) -> Slot:
    order = [part for part in stack(project) if out is None or part.id != out.id]
    stay = [part for part in order if isinstance(part, Core)]
    if isinstance(out, (Fan, Shroud)):
        place = sum(part.placement.x_mm <= out.placement.x_mm for part in order)
        main = radiator(project)
        if main is not None and out.placement.x_mm > main.placement.x_mm:
            place = max(place, order.index(main) + 1)
    elif number <= len(stay):
        place = order.index(stay[number - 1])
    else:
        place = order.index(stay[-1]) + 1 if stay else 0
    lean_of = out or next(iter(stay), None)
    return Slot(
        kind=kind,
        number=number,
        taken_out=None if out is None else out.id,
        ahead=tuple(part.id for part in order[:place]),
        behind=tuple(part.id for part in order[place:]),
        tilt_deg=0.0 if lean_of is None else lean_of.placement.tilt_deg,
        words=words,
    )


def _behind_the_cores(project: Project, kind: Kind, number: int | None, out: Part | None) -> Slot:
    main = radiator(project)
    if number is not None:
        raise ModelError("slot", f"A {KIND_WORDS[kind]} has no slot between cores: leave the slot out.")
    if main is None:
        raise ModelError("slot", f"A {KIND_WORDS[kind]} needs a radiator to stand behind: put a radiator in first.")
    slot = _slot(project, kind, 0, None, "behind the radiator")
    order = [part.id for part in stack(project) if out is None or part.id != out.id]
    place = order.index(main.id) + 1
    return Slot(
        kind=kind,
        number=0,
        taken_out=None if out is None else out.id,
        ahead=tuple(order[:place]),
        behind=tuple(order[place:]),
        tilt_deg=slot.tilt_deg if out is None else out.placement.tilt_deg,
        words=slot.words,
    )


def _present(project: Project, kind: Kind) -> Part | None:
    if kind is Kind.FAN:
        return next(iter(fans(project)), None)
    if kind is Kind.SHROUD:
        return next(iter(shrouds(project)), None)
    return next(iter(cores(project, _ROLES[kind])), None)


def _between(rest: list[Core], number: int) -> str:
    if not rest:
        return "in the empty pack"
    if number == 1:
        return f"ahead of “{rest[0].name}”"
    if number > len(rest):
        return f"behind “{rest[-1].name}”"
    return f"between “{rest[number - 2].name}” and “{rest[number - 1].name}”"
