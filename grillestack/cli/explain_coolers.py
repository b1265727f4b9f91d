"""What the further coolers of a pack do, in a sentence each: coolers of oil, power steering or a low-temperature circuit."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.advice.change import called
from grillestack.assess.further_coolers import Known, known_of, runs_oil
from grillestack.assess.result import Assessment, CaseResult, CoreFlow
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import cores
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


def further_coolers(assessment: Assessment, case: CaseResult, units: UnitSystem) -> Iterator[str]:
    """Return how hot what flows in comes out of each further cooler, or that its heat is typed or not known."""
    flows = {flow.part_id: flow for flow in case.cores}
    for core in cores(assessment.project, CoreRole.COOLER):
        flow = flows.get(core.id)
        if flow is not None:
            yield _sentence(core, called(assessment.project, core), flow, units)


def _sentence(core: Core, name: str, flow: CoreFlow, units: UnitSystem) -> str:
    heat = show_quantity(None if flow.heat_w is None else abs(flow.heat_w), Dimension.POWER, units)
    known = known_of(core)
    if known is Known.NOTHING:
        return f"What {name} gives off is not known and counted as none."
    if known is Known.HEAT:
        return f"{name[0].upper()}{name[1:]} gives off {heat}, as typed."
    liquid = "oil" if runs_oil(core) else "coolant"
    inlet, outlet = (
        show_quantity(value, Dimension.TEMPERATURE, units) for value in (flow.tube_in_degc, flow.tube_out_degc)
    )
    gives = "takes up" if flow.heat_w is not None and flow.heat_w < 0.0 else "gives off"
    return f"The {liquid} enters {name} at {inlet} and leaves it at {outlet}: it {gives} {heat}."
