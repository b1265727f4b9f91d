"""Heat pixel by pixel: the tube fluid steps from pixel to pixel along its tubes, the air from core to core.

Within a pixel air and conductance are even, so the fluid nears the air's temperature by an exponential; between pixels that is
a chain of linear equations, one per pixel, solved as they stand.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.linalg import solve_banded

from grillestack.model.parts import Core, CoreRole
from tests.independent import properties as prop
from tests.independent.pixels import PackMap, tube_order
from tests.independent.surfaces import COOLANT_DEPOSIT, REFRIGERANT_FILM, WEBS, Fins, Tubes, fins_of, tubes_of


@dataclass(frozen=True)
class Exchanger:
    """One core as the heat sees it; `places` are its pieces of the pack."""

    core: Core
    fins: Fins
    tubes: Tubes
    places: np.ndarray
    order: tuple
    depth_rows: int
    tube_count: float
    slant: float

    @property
    def is_given(self) -> bool:
        """Return whether its heat is given: one wall temperature follows."""
        return self.core.role in (CoreRole.CONDENSER, CoreRole.COOLER)


def exchanger(pack: PackMap, number: int, slant: float, inner_rows: int) -> Exchanger:
    """Return a core of the pack; `inner_rows` is over how many rows charge air stays unmixed behind one another."""
    core = pack.cores[number]
    built = core.description.construction
    places = np.flatnonzero(pack.hit[:, number])
    across_mm = core.core_height_mm if core.tubes.value == "cross-flow" else core.core_width_mm
    return Exchanger(
        core=core,
        fins=fins_of(built, core.depth_mm),
        tubes=tubes_of(built),
        places=places,
        order=tuple(tube_order(core, pack.iy[places], pack.iz[places])),
        depth_rows=built.tube_rows * (inner_rows if built.inner_fin is not None else 1),
        tube_count=across_mm * 1e-3 * built.tube_rows / (built.tube_pitch_mm * 1e-3) / core.passes,
        slant=slant,
    )


@dataclass(frozen=True)
class Fluid:
    """What runs in a core's tubes: m·cp, the conductance of its film per square metre of face, and its inlet temperature."""

    capacity: float
    inside: float
    inlet_degc: float


def coolant_in(one: Exchanger, flow_kg_s: float, inlet_degc: float, mean_degc: float, coolant: prop.Glycol) -> Fluid:
    film = one.tubes.coolant_film(flow_kg_s / one.tube_count, mean_degc, coolant)
    return Fluid(flow_kg_s * float(coolant.cp(mean_degc)), film * one.tubes.inside, inlet_degc)


def charge_in(one: Exchanger, flow_kg_s: float, inlet_degc: float, mean_degc: float) -> Fluid:
    film = one.tubes.charge_film(flow_kg_s / one.tube_count, mean_degc)
    return Fluid(flow_kg_s * float(prop.charge_cp(mean_degc)), film * one.tubes.inside, inlet_degc)


def conductance(one: Exchanger, flux, air_degc, inside: float):
    """Return the conductance per square metre of face at mass fluxes per square metre of face."""
    deposit = COOLANT_DEPOSIT / one.tubes.inside if one.core.role is CoreRole.RADIATOR else 0.0
    return 1.0 / (one.fins.resistance(flux, air_degc) + one.tubes.wall_resistance + deposit + 1.0 / inside)


def refrigerant_inside(one: Exchanger) -> float:
    return REFRIGERANT_FILM * WEBS * one.tubes.inside


def march(
    one: Exchanger, capacity: np.ndarray, units: np.ndarray, air_degc: np.ndarray, fluid: Fluid
) -> tuple[np.ndarray, float]:
    """Return the air behind every piece of a core and the fluid's mixed outlet temperature.

    `capacity` is the m·cp of the air of each piece, `units` its conductance over that; both in the order of `places`.
    """
    rows = one.depth_rows
    share = -np.expm1(-units / rows)
    behind, now = air_degc.copy(), fluid.inlet_degc
    for mine, cell, tubes, steps in one.order:
        per_tube = fluid.capacity / (tubes * rows)
        taken = np.bincount(cell, weights=capacity[mine] * share[mine], minlength=tubes * steps)
        nears = -np.expm1(-taken / per_tube)
        begins = np.arange(0, tubes * steps, steps)
        chain = np.ones((2, tubes * steps))
        chain[1, :-1] = nears[1:] - 1.0
        chain[1, begins[1:] - 1] = 0.0
        outlet = 0.0
        for _ in range(rows):
            met = np.bincount(cell, weights=capacity[mine] * share[mine] * behind[mine], minlength=tubes * steps)
            meets = np.divide(met, taken, out=np.zeros_like(met), where=taken > 0.0)
            right = nears * meets
            right[begins] += (1.0 - nears[begins]) * now
            leaves = solve_banded((1, 0), chain, right)
            enters = np.empty_like(leaves)
            enters[1:] = leaves[:-1]
            enters[begins] = now
            # The mean over the pixel is what the fluid gave off there, over what the air takes per kelvin.
            mean = meets + np.divide(per_tube * (enters - leaves), taken, out=enters - meets, where=taken > 0.0)
            behind[mine] += share[mine] * (mean[cell] - behind[mine])
            outlet += leaves[begins + steps - 1].mean() / rows
        now = float(outlet)
    return behind, now


def given_heat(
    capacity: np.ndarray, units: np.ndarray, air_degc: np.ndarray, heat_w: float
) -> tuple[np.ndarray, float | None]:
    """Return the air behind a core whose heat is given, and its wall's one temperature; without air or heat nothing changes."""
    share = -np.expm1(-units)
    takes = float((capacity * share).sum())
    if heat_w <= 0.0 or takes <= 0.0:
        return air_degc, None
    wall = (heat_w + float((capacity * share * air_degc).sum())) / takes
    return air_degc + share * (wall - air_degc), wall
