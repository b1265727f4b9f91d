"""The rows of a further cooler: the heat it gives off, or what flows through it, from which the heat follows."""

from __future__ import annotations

from typing import Final

from grillestack.app.panels.form import Form
from grillestack.app.panels.slots import part_slot
from grillestack.assess.further_coolers import Known, known_of, runs_oil
from grillestack.model.parts import Core, TubeFluid
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension

_FLUIDS: Final = (("not said", None), *((fluid.value, fluid) for fluid in TubeFluid))
_BOTH: Final = "from the typed heat; what flows in is not used. Clear the heat to have it follow."
_OIL: Final = "Oil is taken as a light transmission oil, 34 mm²/s at 40 °C (default: typical, from memory)."
_COOLANT: Final = "Coolant is taken as mixed like the engine's."


def cooler_rows(form: Form, core: Core) -> None:
    """Add the rows of what a further cooler gives off and of what runs through it."""
    form.quantity("Heat it gives off", Dimension.POWER, part_slot(core.id, "given_heat_w"), optional=True)
    form.note("Or leave the heat open, and have it follow from what flows in:")
    form.choice("Flows through it", _FLUIDS, part_slot(core.id, "tube_fluid"))
    form.quantity("Comes in at", Dimension.TEMPERATURE, part_slot(core.id, "tube_inlet_degc"), optional=True)
    form.quantity("Flow", Dimension.COOLANT_FLOW, part_slot(core.id, "tube_flow_m3_s"), optional=True)
    form.reading("Heat is taken", lambda project: how_its_heat_is_found(project, core.id))


def how_its_heat_is_found(project: Project, part_id: str) -> str:
    """Return in words which of the rows the heat of a cooler rests on, and what stands in."""
    core = project.part(part_id)
    if not isinstance(core, Core):
        return ""
    known = known_of(core)
    if known is Known.HEAT:
        return _BOTH if core.tube_inlet_degc is not None else "from the typed heat."
    if known is Known.NOTHING:
        return "as none, for it is not known: type the heat, or all three of the rows above."
    return f"from what flows in, the same in all duty cases. {_OIL if runs_oil(core) else _COOLANT}"
