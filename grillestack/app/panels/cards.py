"""Which card belongs to what is selected, and when it must be made anew."""

from __future__ import annotations

from collections.abc import Callable, Hashable

from grillestack.app.panels.buying_rows import buying_form
from grillestack.app.panels.card import Card
from grillestack.app.panels.connection_rows import connections_form
from grillestack.app.panels.core_rows import description_form
from grillestack.app.panels.form import Form
from grillestack.app.panels.mount_rows import bracket_points_form, mounts_form
from grillestack.app.panels.nose_rows import nose_form, obstruction_form, opening_form, window_form
from grillestack.app.panels.photo_rows import photo_form
from grillestack.app.panels.place_rows import PlaceForm
from grillestack.app.panels.port_rows import ports_form
from grillestack.app.panels.project_rows import (
    case_form,
    engine_form,
    more_cases_form,
    surroundings_form,
    title_form,
)
from grillestack.app.panels.size_rows import fan_form, sizes_form
from grillestack.app.panels.slots import obstruction, opening, part_slot
from grillestack.app.session import SUPPORT_WINDOW_ID, Session
from grillestack.model.nose import Nose
from grillestack.model.parts import Core, CoreRole, Fan, Part
from grillestack.model.project import Project


def card_for(session: Session) -> Card:
    """Return a new card for what is selected; for nothing, that of the project."""
    selection = session.selection
    project = session.shown
    if len(selection) > 1:
        return _card_of_several(session)
    if not selection:
        return _project_card(session)
    identifier = selection[0]
    for part in project.parts:
        if part.id == identifier:
            return _part_card(session, part)
    if any(o.id == identifier for o in project.nose.openings):
        card = Card(session, lambda: opening(session.shown, identifier).name, "Grille opening")
        card.rows(opening_form(session, identifier))
        return card
    if identifier == SUPPORT_WINDOW_ID:
        card = Card(session, lambda: "Support window", "The hole in the core support")
        card.rows(window_form(session))
        return card
    card = Card(session, lambda: obstruction(session.shown, identifier).name, "Obstruction in the nose")
    card.rows(obstruction_form(session, identifier))
    return card


def shape_of(session: Session) -> Hashable:
    """Return what decides which rows the card has; the same rows serve as long as it stays equal."""
    project, selection = session.shown, session.selection
    if len(selection) != 1:
        nose = project.nose
        named = tuple([(o.id, o.name) for o in nose.openings] + [(o.id, o.name) for o in nose.obstructions])
        return (
            selection,
            tuple(case.id for case in project.cases),
            named,
            tuple((m.id, m.name) for m in nose.mounts),
            len(project.engine.connections),
            nose.support_window is None,
            _photo_kind(nose),
        )
    part = next((p for p in project.parts if p.id == selection[0]), None)
    if part is None:
        return (selection, _corners(project, selection[0]))
    known: tuple[bool, ...] = ()
    if isinstance(part, Core):
        d = part.description
        inner = d.construction is None or d.construction.inner_fin is None
        known = (d.construction is None, inner, d.rating is None, d.table is None)
    drive = part.drive if isinstance(part, Fan) else None
    return (selection, type(part), part.own_sizes, known, len(part.ports), len(part.mounts), drive)


_ROLES = {
    CoreRole.CONDENSER: "Condenser",
    CoreRole.CHARGE_AIR_COOLER: "Charge-air cooler",
    CoreRole.COOLER: "Cooler",
    CoreRole.RADIATOR: "Radiator",
}


def kind_words(part: Part) -> str:
    """Return what kind of part it is and whether its size may change."""
    kind = _ROLES[part.role] if isinstance(part, Core) else "Fan" if isinstance(part, Fan) else "Shroud"
    return f"{kind}, made to own sizes" if part.own_sizes else f"{kind}, bought"


def _part_card(session: Session, part: Part) -> Card:
    card = Card(session, lambda: session.shown.part(part.id).name, kind_words(part))
    name = Form(session)
    name.text("Name", part_slot(part.id, "name"))
    card.rows(name)
    card.section("Place", PlaceForm(session, part.id))
    card.section("Sizes", sizes_form(session, part))
    if isinstance(part, Core):
        card.section("What it can do", description_form(session, part))
    if isinstance(part, Fan):
        card.section("What it moves", fan_form(session, part))
    card.section("Ports", ports_form(session, part), is_open=False)
    card.section("Mounts", mounts_form(session, part), is_open=False)
    card.section("Weight and buying", buying_form(session, part.id), is_open=False)
    return card


def _project_card(session: Session) -> Card:
    project = session.shown
    card = Card(session, lambda: session.shown.title, "Project: nothing is selected")
    card.rows(title_form(session))
    sections: list[tuple[str, Callable[[], Form]]] = [
        ("Engine sheet", lambda: engine_form(session)),
        ("Day and surroundings", lambda: surroundings_form(session)),
        ("Nose", lambda: nose_form(session)),
    ]
    for heading, make in sections:
        card.section(heading, make(), is_open=heading == "Engine sheet")
    card.section("Engine connections", connections_form(session), is_open=False)
    card.section("Bracket points of the nose", bracket_points_form(session), is_open=False)
    if project.nose.photo is not None:
        card.section("Photo under the nose", photo_form(session))
    for case in project.cases:
        card.section(f"Duty case: {case.name}", case_form(session, case), is_open=False)
    card.rows(more_cases_form(session))
    return card


def _card_of_several(session: Session) -> Card:
    card = Card(session, lambda: f"{len(session.selection)} things selected", "Select one of them for its fields.")
    form = Form(session)
    form.reading("Selected", lambda project: ", ".join(_names(project, session.selection)))
    card.rows(form)
    return card


def _names(project: Project, ids: tuple[str, ...]) -> list[str]:
    named = {p.id: p.name for p in project.parts}
    named |= {o.id: o.name for o in project.nose.openings} | {o.id: o.name for o in project.nose.obstructions}
    return [named.get(i, "support window") for i in ids]


def _photo_kind(nose: Nose) -> type | None:
    return None if nose.photo is None else type(nose.photo.tied)


def _corners(project: Project, identifier: str) -> int:
    outlines = {o.id: o.outline for o in project.nose.openings} | {o.id: o.outline for o in project.nose.obstructions}
    return len(outlines.get(identifier, ()))
