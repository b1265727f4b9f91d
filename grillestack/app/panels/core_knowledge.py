"""How the rows of a core reach what is known of it, and the folded forms that add what is known better."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from msgspec.structs import replace
from PySide6.QtWidgets import QWidget

from grillestack.app.panels.draft import DraftForm, Wanted
from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.form import Form, Slot, in_a_sentence
from grillestack.app.session import Session
from grillestack.model.core_description import CoreDescription
from grillestack.model.edits import replace_part
from grillestack.model.parts import Core
from grillestack.model.project import Project
from grillestack.model.values import ModelError, Value


@dataclass(frozen=True, slots=True)
class Better:
    """One further line of knowledge of a core: where it belongs, its form, and what is made of what was typed."""

    field: str
    heading: str
    wanted: tuple[Wanted, ...]
    make: Callable[..., Value]
    extra: QWidget | None = None


def better_section(form: Form, session: Session, part_id: str, better: Better) -> FoldingSection:
    """Return the folded form that adds this knowledge in one step."""

    def take(values: Mapping[str, Any]) -> None:
        set_known(session, part_id, in_a_sentence(better.heading), **{better.field: better.make(**values)})

    draft = DraftForm("", better.wanted, session.units, take, extra=better.extra)
    section = FoldingSection(better.heading, draft, is_open=False)
    draft.cancelled.connect(lambda: section.button.setChecked(False))
    form.follow(lambda _project: draft.show_units(session.units))
    return section


def description_of(project: Project, part_id: str) -> CoreDescription:
    """Return what is known of the core with that id."""
    core = project.part(part_id)
    if not isinstance(core, Core):
        raise ModelError("id", f"“{core.name}” is no core, so it has no fins and tubes: select a core.")
    return core.description


def set_known(session: Session, part_id: str, label: str, **changes: Any) -> None:
    """Change what is known of a core in one step."""
    core = session.project.part(part_id)
    changed = replace(core, description=replace(description_of(session.project, part_id), **changes))
    session.apply(label, replace_part(session.project, changed))


def description_slot(part_id: str, field: str) -> Slot:
    """Return the place of one field of what is known of a core."""

    def write(project: Project, value: Any) -> Project:
        changed = replace(description_of(project, part_id), **{field: value})
        return replace_part(project, replace(project.part(part_id), description=changed))

    return Slot(lambda project: getattr(description_of(project, part_id), field), write)


def nested_slot(part_id: str, field: str, inner: str) -> Slot:
    """Return the place of one field of its construction, rating point or table; whole numbers stay whole."""
    outer = description_slot(part_id, field)

    def read(project: Project) -> Any:
        value = getattr(outer.read(project), inner)
        return float(value) if isinstance(value, int) and not isinstance(value, bool) else value

    def write(project: Project, value: Any) -> Project:
        whole = (
            isinstance(getattr(outer.read(project), inner), int) and isinstance(value, float) and value == int(value)
        )
        return outer.write(project, replace(outer.read(project), **{inner: int(value) if whole else value}))

    return Slot(read, write)
