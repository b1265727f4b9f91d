"""The pack with another part in the slot."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.fit.slots import Slot
from grillestack.model import edits
from grillestack.model.parts import Core, Part, Placement
from grillestack.model.project import Project


def with_part(project: Project, slot: Slot, part: Part, placement: Placement) -> tuple[Project, str]:
    """Return the project with the part put there, and its id: that of the part it takes the place of, if there is one.

    What a further cooler is fed with belongs to the vehicle, not to the part, and stays.
    """
    plain = replace(part, locked=False, hidden=False)
    if slot.taken_out is None:
        return edits.add_part(project, plain, placement)
    old = project.part(slot.taken_out)
    put = replace(plain, id=old.id, placement=placement)
    if isinstance(put, Core) and isinstance(old, Core):
        put = replace(
            put,
            given_heat_w=old.given_heat_w if put.given_heat_w is None else put.given_heat_w,
            tube_fluid=old.tube_fluid if put.tube_fluid is None else put.tube_fluid,
            tube_inlet_degc=old.tube_inlet_degc if put.tube_inlet_degc is None else put.tube_inlet_degc,
            tube_flow_m3_s=old.tube_flow_m3_s if put.tube_flow_m3_s is None else put.tube_flow_m3_s,
        )
    return edits.replace_part(project, put), old.id


def without_part(project: Project, slot: Slot) -> Project:
    """Return the project with the slot empty."""
    return project if slot.taken_out is None else edits.remove_parts(project, [slot.taken_out])
