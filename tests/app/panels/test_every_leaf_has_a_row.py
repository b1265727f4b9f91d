"""Each leaf of the document is seen and changed in some form, or stands here with the reason why it is in none."""

from __future__ import annotations

import typing

import msgspec
import pytest
from msgspec.structs import fields, replace

from grillestack.app.panels.part_card import PartCard
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.model import core_description, engine, nose, outline, parts, photo, sheet_choices
from grillestack.model.edits import replace_part, set_engine, set_nose
from grillestack.model.project import Project, Variant
from tests.app.panels.test_cards_are_complete import seen

# Their fields are walked one by one in that test file.
ELSEWHERE = {
    "test_cards_are_complete.py": (
        engine.EngineSheet,
        engine.Environment,
        engine.DutyCase,
        parts.Placement,
        parts.Core,
        parts.Shroud,
        parts.Fan,
        parts.FanPoint,
        core_description.CoreDescription,
        core_description.Construction,
        core_description.InnerFin,
        core_description.RatingPoint,
        core_description.MeasuredTable,
        core_description.TablePoint,
        nose.DepthStations,
        outline.SidePoint,
    ),
    "test_photo_rows.py": (photo.Photo, photo.PhotoImage, photo.FourCorners, photo.TwoPoints, photo.Mark),
}

# Everything of a kind that is in no form, with the reason.
NO_FORM = {
    outline.Point: "drawn and pulled on the nose; width, height and place of the whole outline have rows",
    outline.Rect: "an overall size has rows; a tank's own place follows from them and from the tape form",
    parts.Solid: "tanks and side plates have one row each for all; bought ones are read from the catalogue",
    Variant: "layouts are named, noted, copied and removed on the page of layouts",
    sheet_choices.SheetChoices: "asked for where the sheet is made",
    sheet_choices.MakingChoices: "asked for where the sheet is made",
    sheet_choices.DimensionShift: "pulled on the sheet itself",
}
NO_ROW = {
    (Project, "next_number"): "counts ids",
    (Project, "variant_name"): "on the page of layouts",
    (Project, "variant_note_text"): "on the page of layouts",
    (Project, "variants"): "on the page of layouts",
    (Project, "sheet"): "asked for where the sheet is made",
    (nose.Opening, "id"): "no person needs it",
    (nose.Obstruction, "id"): "no person needs it",
    (nose.NoseMount, "id"): "no person needs it",
    (nose.Opening, "corner_radii_mm"): "typed at the corner on the nose",
    (nose.Obstruction, "corner_radii_mm"): "typed at the corner on the nose",
    (nose.SupportWindow, "corner_radii_mm"): "typed at the corner on the nose",
}


def _types(of, found):
    if isinstance(of, type) and issubclass(of, msgspec.Struct) and of not in found:
        found.append(of)
        for hint in typing.get_type_hints(of).values():
            _types(hint, found)
    for inner in typing.get_args(of):
        _types(inner, found)
    return found


CONNECTION = engine.EngineConnection(
    purpose=engine.ConnectionPurpose.CHARGE_IN, side=engine.EngineSide.LEFT, x_mm=500, y_mm=-200, z_mm=700, bore_mm=63
)
POINT = nose.NoseMount(id="bracket-point-9", name="Rail hole", x_mm=60, y_mm=300, z_mm=500, hole_mm=10)
PORT = parts.Port(purpose=parts.PortPurpose.INLET, u_mm=300, v_mm=100, facing=parts.Facing.REAR, bore_mm=42)
MOUNT = parts.Mount(u_mm=310, v_mm=230, hole_mm=9)
WINDOW = nose.SupportWindow(outline=outline.rectangle_outline(-350, 500, 350, 1000), x_mm=90)


def _filled(project):
    """Return the project with one of each thing that has rows."""
    whole = set_engine(project, replace(project.engine, connections=(CONNECTION,)))
    whole = set_nose(whole, replace(whole.nose, mounts=(POINT,), support_window=WINDOW))
    radiator = replace(whole.part("radiator-3"), own_sizes=True, ports=(PORT,), mounts=(MOUNT,))
    return replace_part(whole, radiator)


def _put(project, thing):
    front = project.nose
    kind = type(thing)
    if kind is Project:
        return thing
    if kind is engine.EngineConnection:
        return set_engine(project, replace(project.engine, connections=(thing,)))
    if kind in (parts.Port, parts.Mount):
        field = "ports" if kind is parts.Port else "mounts"
        return replace_part(project, replace(project.part("radiator-3"), **{field: (thing,)}))
    if kind is nose.Nose:
        return set_nose(project, thing)
    field = {nose.NoseMount: "mounts", nose.Opening: "openings", nose.Obstruction: "obstructions"}.get(kind)
    changed = {"support_window": thing} if field is None else {field: (thing,)}
    return set_nose(project, replace(front, **changed))


# Of each kind: what is selected when its card is looked at, and where one of it stands.
HERE = {
    Project: ((), lambda p: p),
    nose.Nose: ((), lambda p: p.nose),
    engine.EngineConnection: ((), lambda p: p.engine.connections[0]),
    nose.NoseMount: ((), lambda p: p.nose.mounts[0]),
    parts.Port: (("radiator-3",), lambda p: p.part("radiator-3").ports[0]),
    parts.Mount: (("radiator-3",), lambda p: p.part("radiator-3").mounts[0]),
    nose.Opening: (("opening-1",), lambda p: p.nose.openings[0]),
    nose.Obstruction: (("obstruction-2",), lambda p: p.nose.obstructions[0]),
    nose.SupportWindow: ((SUPPORT_WINDOW_ID,), lambda p: p.nose.support_window),
}
WHOLES = {"nose", "parts", "engine", "cases", "environment", "openings", "support_window", "obstructions", "mounts"}


def _other(kind, field, value):
    if field == "clock_angles_deg":
        return (0.0, 90.0)
    if field == "outline":
        return tuple(outline.Point(p.y_mm * 1.1, p.z_mm) for p in value)
    if field == "free_area_frac":
        return 0.37
    if isinstance(value, bool):
        return not value
    if isinstance(value, str):
        return f"{value} other"
    if hasattr(value, "value"):
        return next(member for member in type(value) if member is not value)
    return (value or 10.0) + 7.0


def test_every_kind_of_the_document_has_a_form_or_a_reason():
    known = {kind for kinds in ELSEWHERE.values() for kind in kinds} | set(HERE) | set(NO_FORM)
    assert [kind.__name__ for kind in _types(Project, []) if kind not in known] == []
    assert set(NO_FORM).isdisjoint(HERE)


CASES = [
    (kind, field.name)
    for kind in HERE
    for field in fields(kind)
    if (kind, field.name) not in NO_ROW
    and not (kind in (Project, nose.Nose) and field.name in WHOLES | {"stations", "photo"})
]


@pytest.mark.parametrize(("kind", "field"), CASES, ids=lambda one: one if isinstance(one, str) else one.__name__)
def test_the_leaf_is_on_the_card(kind, field, qtbot, session):
    session.apply("fill", _filled(session.project))
    selection, find = HERE[kind]
    session.select(selection)
    card = PartCard(session)
    qtbot.addWidget(card)
    thing = find(session.project)
    before = seen(card)
    session.try_project(_put(session.project, replace(thing, **{field: _other(kind, field, getattr(thing, field))})))
    assert seen(card) != before
