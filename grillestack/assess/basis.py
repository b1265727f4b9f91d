"""What each figure rests on: method, source, the inputs that enter it and how far it may be out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from grillestack.assess.core_basis import core_basis
from grillestack.assess.defaults import default_for
from grillestack.assess.fan_figures import fan_figures
from grillestack.assess.origins import charge_flow_origin, coolant_flow_origin, field_origin, heat_origin
from grillestack.assess.result import Basis
from grillestack.model.engine import EngineSheet, Environment
from grillestack.model.parts import Core, CoreRole, Fan
from grillestack.model.project import Project, fans
from grillestack.model.values import field_words

_AIR_SPREAD: Final = "two published friction correlations of such fins differ by 23 to 72 %"
_THIS_PROGRAM: Final = "definition of this program"

_AIR_FIELDS: Final = ("ram_recovery_frac", "exit_pressure_factor", "bay_loss_factor", "jet_spread_deg")
_CHARGE_FIELDS: Final = ("charge_inlet_degc", "charge_inlet_pa", "charge_reference_ambient_degc")


def basis_of(project: Project, stack: Sequence[Core]) -> tuple[Basis, ...]:
    """Return what the figures of this pack rest on: those of the whole pack, then every core, then every fan."""
    roles = {core.role for core in stack}
    return (
        *_of_the_pack(project),
        *(_of_the_charge_air(project.engine) if CoreRole.CHARGE_AIR_COOLER in roles else ()),
        *(_of_the_condenser(project.engine) if CoreRole.CONDENSER in roles else ()),
        *(core_basis(core) for core in stack),
        *(_fan_basis(fan) for fan in fans(project)),
    )


def _of_the_pack(project: Project) -> Iterator[Basis]:
    sheet, around = project.engine, project.environment
    sizes = ("sizes and places of all parts", "outlines of the nose")
    heat = f"heat to the coolant ({heat_origin(sheet)})"
    limit = _input(sheet, "top_tank_limit_degc")
    coolant = f"coolant flow ({coolant_flow_origin(sheet)})"
    air = _inputs(around, _AIR_FIELDS)
    yield Basis(
        figure="heat to the coolant",
        method="the sheet's figure at full load × the duty case's share",
        source=heat_origin(sheet),
        inputs=("duty case",),
        spread="5 % either way" if sheet.heat_to_coolant_w is not None else "20 % either way",
    )
    yield Basis(
        figure="design day",
        method="the ambient temperature and altitude of the duty case where it has its own, else those of the surroundings",
        source=_THIS_PROGRAM,
        inputs=(_input(around, "design_ambient_degc"), _input(around, "altitude_m")),
        spread="none: it is what you ask of the pack",
    )
    yield Basis(
        figure="margin",
        method="the limiting ambient temperature less the design day",
        source="J1393",
        inputs=("limiting ambient temperature", "design day"),
        spread="that of the limiting ambient temperature",
    )
    yield Basis(
        figure="core area",
        method="width × height of the finned area, without tanks and side plates",
        source="geometry",
        inputs=("core width", "core height"),
        spread="none of its own: as good as the sizes typed",
    )
    yield Basis(
        figure="exposed, behind, blocked, off-opening face",
        method="exact overlay of all outlines along the pack's axis",
        source="geometry",
        inputs=(*sizes, _input(around, "jet_spread_deg")),
        spread="none of its own: as good as the sizes typed",
    )
    yield Basis(
        figure="air through the pack",
        method="network of monotone edges (openings, zones, fans, leak, bay), Newton on its convex content; reverse flow allowed",
        source="CONTENT, KL1984, C2000, FANLAWS, BLEVINS, IDELCHIK, US1976",
        inputs=(*sizes, _grille_input(project), *air, "seal of the edges", "fans"),
        spread=f"{_AIR_SPREAD}; ram recovery -0.15 to +0.12, exit pressure ±0.2 of the ram pressure, from memory",
    )
    yield Basis(
        figure="heat of radiator and charge-air cooler",
        method="effectiveness of crossed streams, cell by cell along the tubes, air carried from core to core",
        source="SS2003, CW1997, GN2013, MB1995, AEG",
        inputs=(*sizes, coolant, _input(sheet, "glycol_frac")),
        spread="that of each core, by how it is described",
    )
    yield Basis(
        figure="top tank temperature",
        method="the top tank temperature at which the heat shed on the design day equals the target",
        source="SS2003, CONTENT",
        inputs=(heat, coolant, _input(around, "design_ambient_degc")),
        spread="that of the hottest day, the other way round",
    )
    yield Basis(
        figure="limiting ambient temperature",
        method="ambient at which the heat shed at the top tank limit equals the target, everything solved anew there",
        source="J1393",
        inputs=(heat, limit, coolant, *air),
        spread="the band P10 to P90, from a sample over all uncertain inputs",
    )
    yield Basis(
        figure="effective and required face",
        method="core area × heat over the heat of the same radiator alone in the same nose with the same fans",
        source=_THIS_PROGRAM,
        inputs=(heat, limit, coolant),
        spread="small: what is out in both heats cancels",
    )


def _of_the_charge_air(sheet: EngineSheet) -> Iterator[Basis]:
    flow = f"charge-air flow ({charge_flow_origin(sheet)})"
    yield Basis(
        figure="charge-air temperature",
        method="the charge air marched through its cooler by crossed streams, its inlet scaled with the ambient in kelvin",
        source="SS2003, CW1997, MB1995",
        inputs=(flow, *_inputs(sheet, _CHARGE_FIELDS), _input(sheet, "charge_out_limit_degc")),
        spread="that of the cooler's heat, by how it is described",
    )
    yield Basis(
        figure="charge pressure loss",
        method="friction in tubes and inner fins, contraction and expansion in tanks and ports; pipes not counted",
        source="MB1995, SL1978, KL1984, RENNELS",
        inputs=(flow, *_inputs(sheet, _CHARGE_FIELDS), _input(sheet, "charge_loss_limit_pa")),
        spread="20 % in the friction of inner fins, from memory; pipes and bends come on top",
    )


def _of_the_condenser(sheet: EngineSheet) -> Iterator[Basis]:
    yield Basis(
        figure="condensing temperature",
        method="the one wall temperature at which the air carries the given load away; a hint only",
        source="SS2003",
        inputs=(_input(sheet, "condenser_heat_w"),),
        spread="refrigerant circuit not computed",
    )


def _fan_basis(fan: Fan) -> Basis:
    figures = fan_figures(fan)
    if figures.curve is None:
        return Basis(figure=f"air of “{fan.name}”", method="not known", source="not given")
    derived = figures.derived
    return Basis(
        figure=f"air of “{fan.name}”",
        method="a usual curve through its free flow" if derived else "its own curve, fan laws for density",
        source="FANLAWS",
        inputs=("free flow", "ring") if derived else ("curve",),
        spread=("-25 to +20 %" if derived else "-10 to +8 %") + " in pressure; from memory",
    )


def _grille_input(project: Project) -> str:
    given = [opening.free_area_frac is not None for opening in project.nose.openings]
    if given and all(given):
        return "free area of the openings (given)"
    default = default_for("free_area_frac")
    return f"free area of the openings (default: {default.source if default else 'none'})"


def _inputs(of: EngineSheet | Environment, fields: Iterable[str]) -> tuple[str, ...]:
    return tuple(_input(of, field) for field in fields)


def _input(of: EngineSheet | Environment, field: str) -> str:
    return f"{field_words(field)} ({field_origin(of, field)})"
