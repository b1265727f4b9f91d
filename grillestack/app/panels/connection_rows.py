"""The rows of the engine's connections: where hoses and charge pipes meet it, as far as that was measured."""

from __future__ import annotations

import functools
from typing import Any

from msgspec.structs import replace

from grillestack.app.panels.form import Form, Slot
from grillestack.app.session import Session
from grillestack.model.edits import set_engine
from grillestack.model.engine import ConnectionPurpose, EngineConnection, EngineSide
from grillestack.model.project import Project
from grillestack.model.values import ModelError
from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import Dimension, QuantityError

_PURPOSES = tuple((purpose.value, purpose) for purpose in ConnectionPurpose)
_SIDES = tuple((side.value, side) for side in EngineSide)
_PLACES = (("Rearward", "x_mm"), ("To the right", "y_mm"), ("Height", "z_mm"), ("Bore", "bore_mm"))


def connections_form(session: Session) -> Form:
    """Return the rows of all connections of the engine."""
    form = Form(session)
    connections = session.shown.engine.connections
    form.note(
        "Where hoses and charge pipes meet the engine, in the vehicle's own place."
        + ("" if connections else " None is given: add those you measured.")
    )
    for index in range(len(connections)):
        form.note(f"Connection {index + 1}")
        form.choice("For", _PURPOSES, connection_slot(index, "purpose"))
        form.choice("Vehicle side", _SIDES, connection_slot(index, "side"))
        for label, field in _PLACES:
            form.quantity(label, Dimension.LENGTH, connection_slot(index, field), optional=True)
        form.text("May be turned to", _angles_slot(index))
        form.act(f"Remove connection {index + 1}", functools.partial(_remove, session, index))
    if connections:
        form.note("Turned to: degrees from straight up, clockwise as seen from ahead, with semicolons between.")
    form.act("Add a connection", lambda: _add(session))
    return form


def connection_slot(index: int, field: str) -> Slot:
    """Return the place of one field of one connection."""

    def write(project: Project, value: Any) -> Project:
        connections = list(project.engine.connections)
        connections[index] = replace(connections[index], **{field: value})
        return set_engine(project, replace(project.engine, connections=tuple(connections)))

    return Slot(lambda project: getattr(project.engine.connections[index], field), write)


def angle_words(angles_deg: tuple[float, ...]) -> str:
    """Return the angles as they are typed."""
    return "; ".join(f"{angle:g}" for angle in angles_deg)


def typed_angles(text: str) -> tuple[float, ...]:
    """Return the angles that the text says.

    Raises
    ------
    ModelError
        With what is wrong and how to type them.
    """
    found = []
    for words in text.replace("°", " deg").split(";"):
        if words.strip():
            try:
                found.append(parse_quantity(words.strip(), Dimension.ANGLE, "deg"))
            except QuantityError as error:
                raise ModelError("clock_angles_deg", f"{error} Several angles have semicolons between them.") from error
    return tuple(found)


def _angles_slot(index: int) -> Slot:
    slot = connection_slot(index, "clock_angles_deg")
    return Slot(
        lambda project: angle_words(slot.read(project)),
        lambda project, text: slot.write(project, typed_angles(text)),
    )


def _add(session: Session) -> None:
    engine = session.project.engine
    taken = {one.purpose for one in engine.connections}
    purpose = next((p for p in ConnectionPurpose if p not in taken), ConnectionPurpose.COOLANT_OUT)
    one = EngineConnection(purpose=purpose, side=EngineSide.RIGHT)
    changed = replace(engine, connections=(*engine.connections, one))
    session.apply("add connection", set_engine(session.project, changed))


def _remove(session: Session, index: int) -> None:
    engine = session.project.engine
    kept = engine.connections[:index] + engine.connections[index + 1 :]
    session.apply("remove connection", set_engine(session.project, replace(engine, connections=kept)))
