"""Tables and ratings as a bench would give them for a core that is just as its fins and tubes are computed."""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from grillestack.assess.core_construction import core_ground
from grillestack.model import edits
from grillestack.model.core_description import MeasuredTable, RatingPoint, TablePoint
from grillestack.model.parts import Core
from grillestack.model.project import Project
from grillestack.physics.air import STANDARD_PRESSURE_PA, density_kg_m3
from grillestack.physics.air_side import FINS_ALONE
from grillestack.physics.coolant import ethylene_glycol
from grillestack.physics.core_alone import Bench, heat_alone_w
from grillestack.physics.rating import fitted_loss_pa

VELOCITIES_M_S = (2.0, 3.5, 5.0, 7.0, 10.0)


def bench(velocity_m_s, air_degc: float, tube_degc: float, flow_kg_s: float) -> Bench:
    velocity = np.atleast_1d(np.asarray(velocity_m_s, dtype=float))
    same = np.ones_like(velocity)
    return Bench(
        flux_kg_s_m2=velocity * float(density_kg_m3(air_degc, STANDARD_PRESSURE_PA)),
        air_in_degc=air_degc * same,
        tube_in_degc=tube_degc * same,
        tube_flow_kg_s=flow_kg_s * same,
        coolant=ethylene_glycol(0.5),
    )


def table_of(
    core: Core,
    difference_k: float,
    flow_kg_s: float,
    *,
    air_degc: float = 25.0,
    velocities_m_s=VELOCITIES_M_S,
    heat_factor: float = 1.0,
) -> MeasuredTable:
    """Return the table that a bench with this air would give of the core as its fins and tubes are computed; it does not say its air."""
    alone = core_ground(core).alone
    assert alone.air_side is FINS_ALONE
    heats = heat_alone_w(alone, bench(velocities_m_s, air_degc, air_degc + difference_k, flow_kg_s)) * heat_factor
    density = float(density_kg_m3(air_degc, STANDARD_PRESSURE_PA))
    return MeasuredTable(
        inlet_difference_k=difference_k,
        tube_flow_kg_s=flow_kg_s,
        points=tuple(
            TablePoint(face_velocity_m_s=v, heat_w=float(q), air_loss_pa=fitted_loss_pa(alone.loss, v, density))
            for v, q in zip(velocities_m_s, heats, strict=True)
        ),
    )


def rating_of(
    core: Core,
    velocity_m_s: float,
    air_degc: float,
    tube_degc: float,
    flow_kg_s: float,
    *,
    heat_factor: float = 1.0,
    loss_factor: float | None = None,
) -> RatingPoint:
    """Return the rating of the core as its fins and tubes are computed, times what is asked."""
    alone = core_ground(core).alone
    heat = float(heat_alone_w(alone, bench(velocity_m_s, air_degc, tube_degc, flow_kg_s))[0])
    density = float(density_kg_m3(air_degc, STANDARD_PRESSURE_PA))
    return RatingPoint(
        heat_w=heat * heat_factor,
        face_velocity_m_s=velocity_m_s,
        air_inlet_degc=air_degc,
        tube_inlet_degc=tube_degc,
        tube_flow_kg_s=flow_kg_s,
        air_loss_pa=None if loss_factor is None else loss_factor * fitted_loss_pa(alone.loss, velocity_m_s, density),
    )


def described(core: Core, **better) -> Core:
    """Return the core with a table or a rating."""
    return replace(core, description=replace(core.description, **better))


def core_of(project: Project, role) -> Core:
    return next(part for part in project.parts if isinstance(part, Core) and part.role is role)


def with_description(project: Project, role, **better) -> Project:
    """Return the project with its core of that role described by a table or a rating."""
    return edits.replace_part(project, described(core_of(project, role), **better))
