"""Which description a core's heat and air resistance rest on, and the core by itself as it follows from it.

The best that is known wins: a measured table, one rating point, fins and tubes as described, those typical of the type. Table and
rating say nothing of what was run through the tubes and little of the air. Assumed, and said in the basis of the figures: half and
half coolant in radiators, air at 101.3 kPa, a table's air entering at 25 °C if it does not say, and an air loss taken on
unheated air.
"""

from __future__ import annotations

import dataclasses
import enum
import functools
from dataclasses import dataclass
from typing import Final

import numpy as np

from grillestack.assess.defaults import default_value
from grillestack.assess.fins_and_tubes import FinsAndTubes, fins_and_tubes
from grillestack.assess.further_coolers import is_marched
from grillestack.assess.further_liquids import oil_of
from grillestack.model.core_description import CoreDescription, MeasuredTable, RatingPoint
from grillestack.model.parts import Core, CoreRole, TubeDirection
from grillestack.physics.air import STANDARD_PRESSURE_PA, density_kg_m3
from grillestack.physics.air_side import AirSide
from grillestack.physics.construction import Construction
from grillestack.physics.coolant import ethylene_glycol
from grillestack.physics.core_alone import Bench, even_passes
from grillestack.physics.core_loss import LossFit, fit_loss
from grillestack.physics.layout import Layer, LayerDuty
from grillestack.physics.measured_table import DOUBT_K, measured_air_side, measured_loss
from grillestack.physics.oil import Oil
from grillestack.physics.rating import rated_conductance_factor, rated_loss
from grillestack.physics.tube_flow import Transition
from grillestack.units.convert import m2_from_mm2, m_from_mm

_BENCH_COOLANT: Final = ethylene_glycol(0.5)

# Air through inner fins does not mix over the depth: four sub-rows give most of it [SS2003].
_INNER_FIN_SUB_ROWS: Final = 4

_DUTIES: Final = {
    CoreRole.RADIATOR: LayerDuty.RADIATOR,
    CoreRole.CHARGE_AIR_COOLER: LayerDuty.CHARGE_AIR,
    CoreRole.CONDENSER: LayerDuty.GIVEN_HEAT,
    CoreRole.COOLER: LayerDuty.GIVEN_HEAT,
}
# Worth a note: a smaller distance is that of reading a diagram.
_EVENED_NOTED_FRAC: Final = 0.005
_LOSS_NOTED_FRAC: Final = 0.05
_DOUBT_NOTED_FRAC: Final = 0.05


class Ground(enum.Enum):
    """What a core's figures rest on, best first."""

    TABLE = "a measured table"
    RATING = "one rating point"
    CONSTRUCTION = "fins and tubes as described"
    TYPE = "typical fins and tubes of its type"


@dataclass(frozen=True, slots=True)
class CoreGround:
    """What a core is computed with.

    Attributes
    ----------
    alone
        The core by itself: its tubes, what is measured of its heat, its air loss; with cells as on a test bench.
    ground, below
        What the figures rest on, and the fins and tubes that it is measured against.
    loss_is_measured
        Whether the air loss is that of the table or the rating.
    table_air_degc
        The air temperature that the lines of a measured table are read at: as typed, else the default.
    table_doubt_frac
        How much of the conductance a measured table leaves open by not saying at what temperatures it was taken.
    notes
        What is peculiar about the description, each a clause to follow the core's name.
    problem
        What is wrong with it, if anything; then the figures are for nothing but drawing, and none may rest on them.
    """

    alone: Layer
    ground: Ground
    below: Ground
    loss_is_measured: bool = False
    table_air_degc: float = 0.0
    table_doubt_frac: float = 0.0
    notes: tuple[str, ...] = ()
    problem: str | None = None

    @property
    def construction(self) -> Construction:
        """Return the fins and tubes."""
        return self.alone.construction

    @property
    def table_range_m_s(self) -> tuple[float, float] | None:
        """Return the lowest and highest face velocity of the measured heats, at the table's air; nothing without a table."""
        flux, density = self.alone.air_side.flux_kg_s_m2, bench_air_kg_m3(self.table_air_degc)
        return (flux[0] / density, flux[-1] / density) if flux else None


def core_ground(core: Core) -> CoreGround:
    """Return what to compute this core with."""
    duty = LayerDuty.GIVEN_INLET if is_marched(core) else _DUTIES[core.role]
    size = _Size(core.core_width_mm, core.core_height_mm, core.depth_mm, core.tubes, core.passes)
    return _ground_of(core.description, size, _Use(core.role, duty, oil_of(core)))


def bench_air_kg_m3(air_degc: float) -> float:
    """Return the density of air on a test bench."""
    return float(density_kg_m3(air_degc, STANDARD_PRESSURE_PA))


@dataclass(frozen=True, slots=True)
class _Size:
    """What of a core, beside its description, its heat by itself depends on."""

    core_width_mm: float
    core_height_mm: float
    depth_mm: float
    tubes: TubeDirection
    passes: int


@dataclass(frozen=True, slots=True)
class _Use:
    """What a core is for, as far as its heat depends on it."""

    role: CoreRole
    duty: LayerDuty
    oil: Oil | None

    @property
    def heat_is_typed(self) -> bool:
        """Return whether the core gives off what is typed, so that a measured heat has no use."""
        return self.role is CoreRole.COOLER and self.duty is LayerDuty.GIVEN_HEAT


@functools.lru_cache(maxsize=256)
def _ground_of(description: CoreDescription, size: _Size, use: _Use) -> CoreGround:
    built = fins_and_tubes(description, size.depth_mm)
    below = Ground.CONSTRUCTION if built.described else Ground.TYPE
    plain = CoreGround(_alone(built, size, use), below, below, problem=built.problem)
    if built.problem is not None:
        return plain
    try:
        if description.table is not None:
            return _by_table(plain, use, description.table, rated=description.rating is not None)
        if description.rating is not None:
            return _by_rating(plain, use, description.rating)
    except ValueError as unbelievable:
        return dataclasses.replace(plain, problem=str(unbelievable))
    return plain


@functools.lru_cache(maxsize=64)
def _loss_of(construction: Construction) -> LossFit:
    return fit_loss(construction)


def _alone(built: FinsAndTubes, size: _Size, use: _Use) -> Layer:
    construction = built.construction
    along_mm, across_mm = size.core_width_mm, size.core_height_mm
    if size.tubes is TubeDirection.DOWN_FLOW:
        along_mm, across_mm = across_mm, along_mm
    sub_rows = construction.tube_rows * (_INNER_FIN_SUB_ROWS if construction.inner_fin is not None else 1)
    passes = even_passes(size.passes)
    return Layer(
        duty=use.duty,
        construction=construction,
        transition=Transition.TRIPPED if built.dimpled_tubes else Transition.BLENDED,
        loss=_loss_of(construction),
        loss_factor=1.0,
        projected_area_m2=m2_from_mm2(size.core_width_mm * size.core_height_mm),
        area_factor=1.0,
        tube_length_m=m_from_mm(along_mm) * size.passes,
        tube_count=m_from_mm(across_mm) * construction.tubes_per_m / size.passes,
        sub_rows=1 if use.duty is LayerDuty.GIVEN_HEAT else sub_rows,
        passes=passes,
        pieces=np.concatenate([one.pieces for one in passes]),
        oil=use.oil,
    )


def _by_table(plain: CoreGround, use: _Use, table: MeasuredTable, *, rated: bool) -> CoreGround:
    points = sorted(table.points, key=lambda point: point.face_velocity_m_s)
    velocity, heat, loss = np.array([(p.face_velocity_m_s, p.heat_w, p.air_loss_pa) for p in points]).T
    twice = velocity[1:][np.diff(velocity) == 0.0]
    if twice.size:
        raise ValueError(f"its measured table has two lines at {twice[0]:.4g} m/s: keep one of them.")
    notes = ["has a rating point too, which is not used: its measured table says more"] if rated else []
    alone = plain.alone
    air_degc = default_value("air_inlet_degc") if table.air_inlet_degc is None else table.air_inlet_degc
    density = bench_air_kg_m3(air_degc)
    fitted = measured_loss(alone.loss, velocity, loss, density)
    plain = dataclasses.replace(plain, loss_is_measured=fitted is not None, table_air_degc=air_degc)
    if fitted is None:
        notes.append("has a measured table without air losses: its air resistance is that of its fins and tubes")
    else:
        alone = dataclasses.replace(alone, loss=fitted)
        if fitted.max_error_frac > _LOSS_NOTED_FRAC and (loss > 0.0).sum() > 1:
            notes.append(
                f"has a measured table whose air losses lie up to {100 * fitted.max_error_frac:.0f} % off the smooth rise that is computed with"
            )
    if use.heat_is_typed:
        notes.append("has measured heats, which are not used: what this cooler gives off is typed, or not known")
        return dataclasses.replace(
            plain, alone=alone, ground=plain.below if fitted is None else Ground.TABLE, notes=tuple(notes)
        )
    bench = _bench(velocity * density, air_degc, air_degc + table.inlet_difference_k, table.tube_flow_kg_s)
    measured = measured_air_side(alone, bench, velocity, heat)
    if measured.evened_frac > _EVENED_NOTED_FRAC:
        notes.append(
            f"has a measured table whose heats rise unevenly: up to {100 * measured.evened_frac:.1f} % of a line's resistance is evened out"
        )
    doubt_frac = measured.doubt_frac if table.air_inlet_degc is None else 0.0
    if doubt_frac > _DOUBT_NOTED_FRAC:
        why = (
            "runs oil, whose film changes with it"
            if alone.oil is not None
            else "works where flow in tubes turns turbulent"
        )
        notes.append(
            f"has a measured table that does not say how warm its air was, and {why}: taken {DOUBT_K:g} K hotter or colder than the "
            f"{air_degc:g} °C assumed, its conductance would be up to {100 * doubt_frac:.0f} % out. Ask for the air temperature and type it"
        )
    return dataclasses.replace(
        plain,
        alone=dataclasses.replace(alone, air_side=measured.air_side),
        ground=Ground.TABLE,
        table_doubt_frac=doubt_frac,
        notes=tuple(notes),
    )


def _by_rating(plain: CoreGround, use: _Use, rating: RatingPoint) -> CoreGround:
    density = bench_air_kg_m3(rating.air_inlet_degc)
    alone = plain.alone
    plain = dataclasses.replace(plain, loss_is_measured=rating.air_loss_pa is not None)
    if rating.air_loss_pa is not None:
        scaled = rated_loss(alone.loss, rating.face_velocity_m_s, density, rating.air_loss_pa)
        alone = dataclasses.replace(alone, loss=scaled)
    if use.heat_is_typed:
        unused = "has a rated heat, which is not used: what this cooler gives off is typed, or not known"
        ground = plain.below if rating.air_loss_pa is None else Ground.RATING
        return dataclasses.replace(plain, alone=alone, ground=ground, notes=(unused,))
    flux = np.array([rating.face_velocity_m_s * density])
    bench = _bench(flux, rating.air_inlet_degc, rating.tube_inlet_degc, rating.tube_flow_kg_s)
    factor = rated_conductance_factor(alone, bench, rating.heat_w)
    return dataclasses.replace(
        plain, alone=dataclasses.replace(alone, air_side=AirSide(conductance_factor=factor)), ground=Ground.RATING
    )


def _bench(flux_kg_s_m2: np.ndarray, air_in_degc: float, tube_in_degc: float, tube_flow_kg_s: float) -> Bench:
    same = np.ones_like(flux_kg_s_m2)
    return Bench(
        flux_kg_s_m2=flux_kg_s_m2,
        air_in_degc=air_in_degc * same,
        tube_in_degc=tube_in_degc * same,
        tube_flow_kg_s=tube_flow_kg_s * same,
        coolant=_BENCH_COOLANT,
    )
