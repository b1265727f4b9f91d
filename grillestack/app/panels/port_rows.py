"""The rows of a part's ports: to change on a part made to own sizes, to read on a bought one."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from grillestack.app.panels.form import Form
from grillestack.app.panels.slots import item_slot
from grillestack.app.session import Session
from grillestack.model.edits import replace_part
from grillestack.model.parts import Core, Facing, Part, Port, PortPurpose
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_FACINGS = tuple((facing.value, facing) for facing in Facing)
_PURPOSES = tuple((purpose.value, purpose) for purpose in PortPurpose)
_PLACES = (("Right of centre", "u_mm"), ("Above centre", "v_mm"), ("Behind the front", "w_mm"), ("Bore", "bore_mm"))
_TUBE = (("Tube outside", "outside_mm"), ("Bead height", "bead_mm"))
_FIRST_BORE_MM = 38.0  # the smallest of the common hose bores; common practice, from memory


def ports_form(session: Session, part: Part) -> Form:
    """Return the rows of all ports of the part."""
    form = Form(session)
    if not part.ports:
        form.note("No ports given.")
    for index, port in enumerate(part.ports):
        if part.own_sizes:
            _port_rows(form, session, part.id, index)
        else:
            form.reading(f"{port.purpose.value.capitalize()}, {port.facing.value}", _reader(session, part.id, index))
    if part.ports:
        form.note("Counted from the centre of the front face, before any turn or flip.")
        if part.own_sizes:
            form.note(
                "Turned by: the spout from the way it points, clockwise as seen from ahead. A bead of 0 is a plain end."
            )
    if part.own_sizes:
        form.act("Add a port", lambda: _add_port(session, part.id))
    return form


def _port_rows(form: Form, session: Session, part_id: str, index: int) -> None:
    form.note(f"Port {index + 1}")
    form.choice("Purpose", _PURPOSES, item_slot(part_id, "ports", index, "purpose"))
    form.choice("Points", _FACINGS, item_slot(part_id, "ports", index, "facing"))
    for label, field in _PLACES:
        form.quantity(label, Dimension.LENGTH, item_slot(part_id, "ports", index, field))
    form.quantity("Turned by", Dimension.ANGLE, item_slot(part_id, "ports", index, "clock_deg"))
    for label, field in _TUBE:
        form.quantity(label, Dimension.LENGTH, item_slot(part_id, "ports", index, field), optional=True)
    form.text("Fitting", item_slot(part_id, "ports", index, "fitting_text"))
    form.act(f"Remove port {index + 1}", lambda: _remove_port(session, part_id, index))


def _reader(session: Session, part_id: str, index: int) -> Callable[[Project], str]:
    def read(project: Project) -> str:
        port = project.part(part_id).ports[index]
        bore, right, up = (
            show_quantity(v, Dimension.LENGTH, session.units) for v in (port.bore_mm, port.u_mm, port.v_mm)
        )
        words = f"bore {bore}; {right} right, {up} up"
        if port.clock_deg:
            words += f"; turned by {port.clock_deg:g}°"
        if port.outside_mm is not None:
            words += f"; tube outside {show_quantity(port.outside_mm, Dimension.LENGTH, session.units)}"
        if port.bead_mm is not None:
            bead = show_quantity(port.bead_mm, Dimension.LENGTH, session.units)
            words += f"; bead {bead} high" if port.bead_mm else "; plain end"
        return f"{words}; {port.fitting_text}" if port.fitting_text else words

    return read


def _add_port(session: Session, part_id: str) -> None:
    part = session.project.part(part_id)
    taken = {port.purpose for port in part.ports}
    purpose = next((p for p in PortPurpose if p not in taken), PortPurpose.VENT)
    edge = part.overall.u_max_mm if isinstance(part, Core) else 0.0
    port = Port(
        purpose=purpose, u_mm=edge, v_mm=0.0, w_mm=part.depth_mm / 2, facing=Facing.RIGHT, bore_mm=_FIRST_BORE_MM
    )
    session.apply("add port", replace_part(session.project, replace(part, ports=(*part.ports, port))))


def _remove_port(session: Session, part_id: str, index: int) -> None:
    part = session.project.part(part_id)
    ports = part.ports[:index] + part.ports[index + 1 :]
    session.apply("remove port", replace_part(session.project, replace(part, ports=ports)))
