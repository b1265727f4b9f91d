"""What the heat and the air resistance of one core rest on, with what is assumed where its description is silent."""

from __future__ import annotations

from typing import Final

from grillestack.assess.core_construction import CoreGround, Ground, core_ground
from grillestack.assess.core_spread import core_spread
from grillestack.assess.defaults import default_for
from grillestack.assess.further_coolers import Known, is_marched, known_of, runs_oil
from grillestack.assess.result import Basis
from grillestack.model.parts import Core, CoreRole
from grillestack.physics.louvred_fin import range_notes

_FINS: Final = "CW1997, C2000, C2006, KL1984"
_TUBES: Final = {
    CoreRole.RADIATOR: "SL1978, GN2013",
    CoreRole.CHARGE_AIR_COOLER: "MB1995",
    CoreRole.CONDENSER: "INCROPERA",
    CoreRole.COOLER: "INCROPERA",
}
_OIL: Final = "SL1978, EDM1979, D341, D1250, CRAGOE"
_LIQUID_BETWEEN_STRIPS: Final = "MB1995, HH1995"
_KNOWN: Final = {
    Known.HEAT: "heat as typed",
    Known.NOTHING: "heat not known and counted as none",
}
_FIN_LOSS: Final = "air loss: two published friction correlations of such fins differ by 23 to 72 %"
_COOLANT: Final = ", half and half coolant"


def core_basis(core: Core) -> Basis:
    """Return the basis of one core: which description, how it is used, what enters it and how far the heat may be out."""
    ground = core_ground(core)
    return Basis(
        figure=f"heat and resistance of “{core.name}”",
        method=_method(core, ground),
        source=_source(core, ground),
        inputs=(*_given(ground), "core width and height", "tube direction and passes", *_flowing_in(core)),
        spread="; ".join((_heat_spread(core), _loss_spread(ground), *_outside_data(ground))),
    )


def _outside_data(ground: CoreGround) -> tuple[str, ...]:
    """Return in words where the correlations are used beyond the cores they were drawn from."""
    return tuple(note.rstrip(".") for note in range_notes(ground.alone.construction))


def _method(core: Core, ground: CoreGround) -> str:
    if ground.ground is Ground.TABLE:
        return _by_table(core, ground)
    if ground.ground is Ground.RATING:
        return _by_rating(core, ground)
    return f"louvred-fin and tube correlations on {ground.ground.value}{_marched(core, ground)}"


def _marched(core: Core, ground: CoreGround) -> str:
    """Return how a further cooler's heat is found, as a clause."""
    if core.role is not CoreRole.COOLER:
        return ""
    if not is_marched(core):
        return f"; {_KNOWN[known_of(core)]}"
    liquid = "a light transmission oil" if runs_oil(core) else "coolant of the engine's mixture"
    film = (
        "; between the strips inside its tubes half the film that relations for gases give"
        if ground.construction.inner_fin is not None
        else ""
    )
    return (
        f"; {liquid} marched along its tubes from the typed inlet temperature at the typed flow, the same in all duty cases and on "
        f"every day{film}"
    )


def _flowing_in(core: Core) -> tuple[str, ...]:
    if not is_marched(core):
        return ()
    oil = ("oil of 34 mm²/s at 40 °C and 7.2 mm²/s at 100 °C (typical of the trade, from memory)",)
    return ("inlet temperature and flow in the tubes (typed)", *(oil if runs_oil(core) else ()))


def _by_table(core: Core, ground: CoreGround) -> str:
    loss = f"air loss of unheated air at {ground.table_air_degc:g} °C"
    covered = ground.table_range_m_s
    if covered is None:
        return f"a measured table for the air loss alone, {loss}{_marched(core, ground)}"
    fluid = _COOLANT if _runs_coolant(core) else ""
    table = core.description.table
    origin = "as typed" if table is not None and table.air_inlet_degc is not None else _table_air_default()
    tubes = (
        "wall at one temperature, tube flow not looked at"
        if core.role is CoreRole.CONDENSER
        else "another tube flow by correlation"
    )
    return (
        f"a measured table from {covered[0]:.3g} to {covered[1]:.3g} m/s: what is left of its resistance without tubes and wall, those of "
        f"{ground.below.value}, is the air side; {tubes}; outside its range the trend of the fins{_marched(core, ground)}. Assumed of the "
        f"table: air entering at {ground.table_air_degc:g} °C ({origin}) and 101.3 kPa{fluid}, {loss}"
    )


def _table_air_default() -> str:
    default = default_for("air_inlet_degc")
    return f"default: {default.source}" if default is not None else "not given"


def _runs_coolant(core: Core) -> bool:
    return core.role is CoreRole.RADIATOR or (core.role is CoreRole.COOLER and not runs_oil(core))


def _by_rating(core: Core, ground: CoreGround) -> str:
    loss = "" if not ground.loss_is_measured else ", air loss of unheated air at its inlet temperature"
    if core.role is CoreRole.COOLER and not is_marched(core):
        return f"one rating point for the air loss alone{loss}{_marched(core, ground)}"
    fluid = _COOLANT if _runs_coolant(core) else ""
    wall = (
        "; its tube inlet is the condensing temperature, its tube flow is not looked at"
        if core.role is CoreRole.CONDENSER
        else ""
    )
    factor = ground.alone.air_side.conductance_factor
    return (
        f"louvred-fin and tube correlations on {ground.below.value}, their conductance times {factor:.3g} to meet one rating point{wall}{_marched(core, ground)}. "
        f"Assumed of the rating: air at 101.3 kPa{fluid}{loss}"
    )


def _source(core: Core, ground: CoreGround) -> str:
    if ground.table_range_m_s is not None:
        found = f"J1994, SS2003, {_TUBES[core.role]}"
    else:
        found = f"SS2003, {_FINS}" if ground.ground is Ground.RATING or is_marched(core) else _FINS
    if not is_marched(core):
        return found
    inside = [_LIQUID_BETWEEN_STRIPS] if ground.construction.inner_fin is not None else []
    return ", ".join([found, *inside, _OIL if runs_oil(core) else _TUBES[CoreRole.RADIATOR]])


def _given(ground: CoreGround) -> tuple[str, ...]:
    below = "type and depth" if ground.below is Ground.TYPE else "fins and tubes"
    if ground.ground is Ground.TABLE:
        return ("measured table", below)
    return ("rating point", below) if ground.ground is Ground.RATING else (below,)


def _heat_spread(core: Core) -> str:
    if core.role is CoreRole.COOLER and not is_marched(core):
        return _KNOWN[known_of(core)]
    low, high, source = core_spread(core)
    return f"heat {100 * (low - 1):+.0f}/{100 * (high - 1):+.0f} % from P5 to P95 ({source})"


def _loss_spread(ground: CoreGround) -> str:
    if ground.ground is Ground.TABLE and ground.loss_is_measured:
        return f"air loss within {100 * ground.alone.loss.max_error_frac:.1f} % of the table's lines"
    if ground.ground is Ground.RATING and ground.loss_is_measured:
        return "air loss as rated at one point, its rise that of the fins"
    return _FIN_LOSS
