"""What the heat and the air resistance of one core rest on, with what is assumed where its description is silent."""

from __future__ import annotations

from typing import Final

from grillestack.assess.core_construction import TABLE_AIR_DEGC, CoreGround, Ground, core_ground
from grillestack.assess.core_spread import core_spread
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
_FIN_LOSS: Final = "air loss: two published friction correlations of such fins differ by 23 to 72 %"
_COOLANT: Final = ", half and half coolant"


def core_basis(core: Core) -> Basis:
    """Return the basis of one core: which description, how it is used, what enters it and how far the heat may be out."""
    ground = core_ground(core)
    return Basis(
        figure=f"heat and resistance of “{core.name}”",
        method=_method(core, ground),
        source=_source(core, ground),
        inputs=(*_given(ground), "core width and height", "tube direction and passes"),
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
    return f"louvred-fin and tube correlations on {ground.ground.value}"


def _by_table(core: Core, ground: CoreGround) -> str:
    loss = f"air loss of unheated air at {TABLE_AIR_DEGC:g} °C"
    covered = ground.table_range_m_s
    if covered is None:
        return f"a measured table for the air loss alone, {loss}; heat as typed"
    fluid = _COOLANT if core.role is CoreRole.RADIATOR else ""
    tubes = (
        "wall at one temperature, tube flow not looked at"
        if core.role is CoreRole.CONDENSER
        else "another tube flow by correlation"
    )
    return (
        f"a measured table from {covered[0]:.3g} to {covered[1]:.3g} m/s: what is left of its resistance without tubes and wall, those of "
        f"{ground.below.value}, is the air side; {tubes}; outside its range the trend of the fins. Assumed of the table: air entering at "
        f"{TABLE_AIR_DEGC:g} °C and 101.3 kPa{fluid}, {loss}"
    )


def _by_rating(core: Core, ground: CoreGround) -> str:
    loss = "" if not ground.loss_is_measured else ", air loss of unheated air at its inlet temperature"
    if core.role is CoreRole.COOLER:
        return f"one rating point for the air loss alone{loss}; heat as typed"
    fluid = _COOLANT if core.role is CoreRole.RADIATOR else ""
    wall = (
        "; its tube inlet is the condensing temperature, its tube flow is not looked at"
        if core.role is CoreRole.CONDENSER
        else ""
    )
    factor = ground.alone.air_side.conductance_factor
    return (
        f"louvred-fin and tube correlations on {ground.below.value}, their conductance times {factor:.3g} to meet one rating point{wall}. "
        f"Assumed of the rating: air at 101.3 kPa{fluid}{loss}"
    )


def _source(core: Core, ground: CoreGround) -> str:
    if ground.table_range_m_s is not None:
        return f"J1994, SS2003, {_TUBES[core.role]}"
    if ground.ground is Ground.RATING:
        return f"SS2003, {_FINS}"
    return _FINS


def _given(ground: CoreGround) -> tuple[str, ...]:
    below = "type and depth" if ground.below is Ground.TYPE else "fins and tubes"
    if ground.ground is Ground.TABLE:
        return ("measured table", below)
    return ("rating point", below) if ground.ground is Ground.RATING else (below,)


def _heat_spread(core: Core) -> str:
    if core.role is CoreRole.COOLER:
        return "heat as typed"
    low, high, source = core_spread(core)
    return f"heat {100 * (low - 1):+.0f}/{100 * (high - 1):+.0f} % from P5 to P95 ({source})"


def _loss_spread(ground: CoreGround) -> str:
    if ground.ground is Ground.TABLE and ground.loss_is_measured:
        return f"air loss within {100 * ground.alone.loss.max_error_frac:.1f} % of the table's lines"
    if ground.ground is Ground.RATING and ground.loss_is_measured:
        return "air loss as rated at one point, its rise that of the fins"
    return _FIN_LOSS
