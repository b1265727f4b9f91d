"""The four ways to say what a core can do: a measured table, one rating point, a construction, the type alone."""

from __future__ import annotations

import enum
from typing import Annotated

from msgspec import Meta

from grillestack.model.values import SizeMm, TemperatureDegc, ThicknessMm, Value

PositiveFlow = Annotated[float, Meta(gt=0, le=20)]


class CoreType(enum.Enum):
    """How a core is built; each has typical values, used when nothing better is known."""

    ALUMINIUM_ONE_ROW = "aluminium-one-row"
    ALUMINIUM_TWO_ROW = "aluminium-two-row"
    COPPER_BRASS = "copper-brass"
    BAR_AND_PLATE_CHARGE_AIR = "bar-and-plate-charge-air"
    TUBE_AND_FIN_CHARGE_AIR = "tube-and-fin-charge-air"
    PARALLEL_FLOW_CONDENSER = "parallel-flow-condenser"
    PLATE_OIL_COOLER = "plate-oil-cooler"


class CoreMetal(enum.Enum):
    """What fins and tubes are made of."""

    ALUMINIUM = "aluminium"
    COPPER_BRASS = "copper-brass"


class InnerFin(Value, frozen=True, kw_only=True):
    """The offset strip fin inside a charge-air tube; spacing and height are clear gaps."""

    spacing_mm: SizeMm
    height_mm: SizeMm
    thickness_mm: ThicknessMm
    strip_length_mm: SizeMm


class Construction(Value, frozen=True, kw_only=True):
    """Fins and tubes as one can measure them; a fin pitch of 1.3 mm is 25.4 / 1.3 = 19.5 fins per inch."""

    metal: CoreMetal = CoreMetal.ALUMINIUM
    tube_pitch_mm: SizeMm
    tube_thickness_mm: SizeMm
    tube_depth_mm: SizeMm
    tube_rows: Annotated[int, Meta(ge=1, le=6)] = 1
    tube_wall_mm: SizeMm
    fin_height_mm: SizeMm
    fin_pitch_mm: SizeMm
    fin_thickness_mm: SizeMm
    louvre_pitch_mm: SizeMm
    louvre_length_mm: SizeMm
    louvre_angle_deg: Annotated[float, Meta(gt=0, le=60)]
    tube_enhancement_factor: Annotated[float, Meta(ge=0.5, le=3)] = 1.0
    dimpled_tubes: bool = False
    inner_fin: InnerFin | None = None


class RatingPoint(Value, frozen=True, kw_only=True):
    """One heat figure of the maker with the conditions it was given at."""

    heat_w: Annotated[float, Meta(gt=0, le=1e6)]
    face_velocity_m_s: Annotated[float, Meta(gt=0, le=40)]
    air_inlet_degc: TemperatureDegc
    tube_inlet_degc: TemperatureDegc
    tube_flow_kg_s: PositiveFlow
    air_loss_pa: Annotated[float, Meta(gt=0, le=10_000)] | None = None


class TablePoint(Value, frozen=True, kw_only=True):
    """One line of a measured table: heat at the table's inlet temperature difference and tube flow, and air pressure loss."""

    face_velocity_m_s: Annotated[float, Meta(gt=0, le=40)]
    heat_w: Annotated[float, Meta(gt=0, le=1e6)]
    air_loss_pa: Annotated[float, Meta(ge=0, le=10_000)]


class MeasuredTable(Value, frozen=True, kw_only=True):
    """A measured table with the inlet temperature difference, the air and the tube flow at which it was taken."""

    inlet_difference_k: Annotated[float, Meta(gt=0, le=300)]
    air_inlet_degc: TemperatureDegc | None = None
    tube_flow_kg_s: PositiveFlow
    points: Annotated[tuple[TablePoint, ...], Meta(min_length=2, max_length=100)]


class CoreDescription(Value, frozen=True, kw_only=True):
    """What is known of a core; the type is always known, each further line is better knowledge."""

    core_type: CoreType
    construction: Construction | None = None
    rating: RatingPoint | None = None
    table: MeasuredTable | None = None
