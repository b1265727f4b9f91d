"""The document: one nose with one pack in it, the engine it serves and the days it must stand."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated

from msgspec import Meta

from grillestack.model.engine import DutyCase, EngineSheet, Environment, usual_duty_cases
from grillestack.model.nose import Nose
from grillestack.model.parts import Core, CoreRole, Fan, Part, Shroud
from grillestack.model.sheet_choices import SheetChoices
from grillestack.model.values import ModelError, Name, Text, UnknownIdError, Value

Parts = Annotated[tuple[Part, ...], Meta(max_length=200)]


class Variant(Value, frozen=True, kw_only=True):
    """Another layout of the pack in the same nose, put aside under its name.

    A part that was copied with its layout keeps its id: an equal id in two layouts is the same part of the plan.
    """

    name: Name
    parts: Parts = ()
    note_text: Text = ""

    def __post_init__(self) -> None:
        super().__post_init__()
        _refuse_twins("part", (p.id for p in self.parts))


class Project(Value, frozen=True, kw_only=True):
    """All that was decided. Parts stand in no order: the depth order is the order of their x.

    `parts` are those of the layout in hand, which `variant_name` names; `variants` are the other layouts.
    """

    title: Name = "Untitled"
    nose: Nose = Nose()
    parts: Parts = ()
    engine: EngineSheet = EngineSheet()
    cases: Annotated[tuple[DutyCase, ...], Meta(max_length=50)] = usual_duty_cases()
    environment: Environment = Environment()
    notes_text: Text = ""
    next_number: Annotated[int, Meta(ge=1, le=1_000_000)] = 1
    variant_name: Name = "Layout A"
    variant_note_text: Text = ""
    variants: Annotated[tuple[Variant, ...], Meta(max_length=19)] = ()
    sheet: SheetChoices = SheetChoices()

    def __post_init__(self) -> None:
        super().__post_init__()
        _refuse_twins("part", (p.id for p in self.parts))
        _refuse_twins("duty case", (c.id for c in self.cases))
        in_nose = [o.id for o in self.nose.openings] + [o.id for o in self.nose.obstructions]
        _refuse_twins("opening or obstruction", in_nose)
        _refuse_twins("mount of the nose", (m.id for m in self.nose.mounts))
        _refuse_namesakes([self.variant_name, *(v.name for v in self.variants)])

    def part(self, part_id: str) -> Part:
        """Return the part with that id."""
        for part in self.parts:
            if part.id == part_id:
                return part
        raise UnknownIdError("part", part_id)


def cores(project: Project, role: CoreRole | None = None) -> tuple[Core, ...]:
    """Return the cores from front to back, all or those of one role."""
    found = [p for p in project.parts if isinstance(p, Core) and (role is None or p.role is role)]
    return tuple(sorted(found, key=lambda core: core.placement.x_mm))


def shrouds(project: Project) -> tuple[Shroud, ...]:
    """Return the shrouds in document order."""
    return tuple(p for p in project.parts if isinstance(p, Shroud))


def fans(project: Project) -> tuple[Fan, ...]:
    """Return the fans in document order."""
    return tuple(p for p in project.parts if isinstance(p, Fan))


def radiator(project: Project) -> Core | None:
    """Return the engine's radiator: the first from the front, or nothing."""
    return next(iter(cores(project, CoreRole.RADIATOR)), None)


def stack(project: Project) -> tuple[Part, ...]:
    """Return all parts from front to back; document order on ties."""
    return tuple(sorted(project.parts, key=lambda part: part.placement.x_mm))


def _refuse_twins(what: str, identifiers: Iterable[str]) -> None:
    seen: set[str] = set()
    for identifier in identifiers:
        if identifier in seen:
            raise ModelError(
                "id", f"Two things of the kind “{what}” carry the id “{identifier}”: give one of them another id."
            )
        seen.add(identifier)


def _refuse_namesakes(names: Iterable[str]) -> None:
    seen: set[str] = set()
    for name in names:
        plain = " ".join(name.split()).casefold()
        if plain in seen:
            raise ModelError("variant_name", f"There are two layouts called “{name}”: give one of them another name.")
        seen.add(plain)
