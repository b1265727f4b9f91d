"""The fins and tubes that a core is computed with, in SI: those described, else those typical of its type."""

from __future__ import annotations

import dataclasses
import functools
from dataclasses import dataclass
from typing import Final

from grillestack.model.core_description import Construction as DescribedConstruction
from grillestack.model.core_description import CoreDescription, CoreMetal, CoreType
from grillestack.physics.construction import Construction, InnerFin
from grillestack.physics.typical_cores import TypicalCore, typical_construction
from grillestack.units.convert import m_from_mm

_FIN_CONDUCTIVITY_W_PER_M_K: Final = {CoreMetal.ALUMINIUM: 200.0, CoreMetal.COPPER_BRASS: 380.0}
_TUBE_CONDUCTIVITY_W_PER_M_K: Final = {CoreMetal.ALUMINIUM: 180.0, CoreMetal.COPPER_BRASS: 120.0}

# The typical cores of each type with their depth in mm, nearest depth wins.
_BY_TYPE: Final = {
    CoreType.ALUMINIUM_ONE_ROW: (
        (16.0, TypicalCore.ALUMINIUM_16_MM),
        (26.0, TypicalCore.ALUMINIUM_26_MM),
        (36.0, TypicalCore.ALUMINIUM_36_MM),
    ),
    CoreType.ALUMINIUM_TWO_ROW: ((48.0, TypicalCore.ALUMINIUM_48_MM), (56.0, TypicalCore.ALUMINIUM_56_MM)),
    CoreType.COPPER_BRASS: (
        (34.0, TypicalCore.COPPER_BRASS_34_MM),
        (52.0, TypicalCore.COPPER_BRASS_52_MM),
        (70.0, TypicalCore.COPPER_BRASS_70_MM),
    ),
    CoreType.BAR_AND_PLATE_CHARGE_AIR: ((64.0, TypicalCore.BAR_AND_PLATE_64_MM),),
    CoreType.TUBE_AND_FIN_CHARGE_AIR: ((62.0, TypicalCore.TUBE_AND_FIN_62_MM),),
    CoreType.PARALLEL_FLOW_CONDENSER: ((16.0, TypicalCore.CONDENSER_16_MM),),
    CoreType.PLATE_OIL_COOLER: ((36.0, TypicalCore.OIL_PLATE_36_MM),),
}


@dataclass(frozen=True, slots=True)
class FinsAndTubes:
    """Fins and tubes, whether they are described or typical, and what is wrong with the description, if anything."""

    construction: Construction
    described: bool
    dimpled_tubes: bool
    problem: str | None = None


def fins_and_tubes(description: CoreDescription, depth_mm: float) -> FinsAndTubes:
    """Return the fins and tubes of a core; those of its type also where the description cannot be put together."""
    return _fins_and_tubes(description.core_type, description.construction, depth_mm)


@functools.lru_cache(maxsize=256)
def _fins_and_tubes(core_type: CoreType, described: DescribedConstruction | None, depth_mm: float) -> FinsAndTubes:
    problem = None
    if described is not None:
        try:
            return FinsAndTubes(
                _from_description(described, depth_mm), described=True, dimpled_tubes=described.dimpled_tubes
            )
        except ValueError as impossible:
            problem = str(impossible)
    return FinsAndTubes(_typical(core_type, depth_mm), described=False, dimpled_tubes=False, problem=problem)


def _typical(core_type: CoreType, depth_mm: float) -> Construction:
    _, nearest = min(_BY_TYPE[core_type], key=lambda entry: abs(entry[0] - depth_mm))
    typical = typical_construction(nearest)
    # The type's fins and tubes in the depth at hand: the tubes grow or shrink along the air.
    gaps_m = (typical.tube_rows - 1) * typical.row_gap_m
    tube_depth_m = (m_from_mm(depth_mm) - gaps_m) / typical.tube_rows
    least_m = typical.tube_thickness_m * 2.0
    return dataclasses.replace(typical, tube_depth_m=max(tube_depth_m, least_m))


def _from_description(described: DescribedConstruction, depth_mm: float) -> Construction:
    inner = described.inner_fin
    rows = described.tube_rows
    spare_mm = depth_mm - rows * described.tube_depth_mm
    return Construction(
        tube_pitch_m=m_from_mm(described.tube_pitch_mm),
        tube_thickness_m=m_from_mm(described.tube_thickness_mm),
        tube_depth_m=m_from_mm(described.tube_depth_mm),
        tube_rows=rows,
        row_gap_m=m_from_mm(max(spare_mm, 0.0) / (rows - 1)) if rows > 1 else 0.0,
        fin_height_m=m_from_mm(described.fin_height_mm),
        fin_pitch_m=m_from_mm(described.fin_pitch_mm),
        louvre_pitch_m=m_from_mm(described.louvre_pitch_mm),
        louvre_length_m=m_from_mm(described.louvre_length_mm),
        louvre_angle_deg=described.louvre_angle_deg,
        fin_thickness_m=m_from_mm(described.fin_thickness_mm),
        tube_wall_m=m_from_mm(described.tube_wall_mm),
        fin_conductivity_w_per_m_k=_FIN_CONDUCTIVITY_W_PER_M_K[described.metal],
        tube_conductivity_w_per_m_k=_TUBE_CONDUCTIVITY_W_PER_M_K[described.metal],
        tube_enhancement_factor=described.tube_enhancement_factor,
        inner_fin=None
        if inner is None
        else InnerFin(
            spacing_m=m_from_mm(inner.spacing_mm),
            height_m=m_from_mm(inner.height_mm),
            thickness_m=m_from_mm(inner.thickness_mm),
            strip_length_m=m_from_mm(inner.strip_length_mm),
        ),
    )
