"""Twelve typical cores, for when nothing but the kind of core is known."""

from __future__ import annotations

import enum
from typing import Final

from grillestack.physics.construction import Construction, InnerFin

_ALUMINIUM_FIN_W_PER_M_K: Final = 200.0
_ALUMINIUM_TUBE_W_PER_M_K: Final = 180.0
_COPPER_FIN_W_PER_M_K: Final = 380.0
_BRASS_TUBE_W_PER_M_K: Final = 120.0


class TypicalCore(enum.Enum):
    """The kinds of core with values of their own; the figure is the depth of the core."""

    ALUMINIUM_16_MM = "aluminium radiator, one row, 16 mm"
    ALUMINIUM_26_MM = "aluminium radiator, one row, 26 mm"
    ALUMINIUM_36_MM = "aluminium radiator, one row, 36 mm"
    ALUMINIUM_48_MM = "aluminium radiator, two rows, 48 mm"
    ALUMINIUM_56_MM = "aluminium radiator, two rows, 56 mm"
    COPPER_BRASS_34_MM = "copper-brass radiator, two rows, 34 mm"
    COPPER_BRASS_52_MM = "copper-brass radiator, three rows, 52 mm"
    COPPER_BRASS_70_MM = "copper-brass radiator, four rows, 70 mm"
    BAR_AND_PLATE_64_MM = "bar-and-plate charge-air cooler, 64 mm"
    TUBE_AND_FIN_62_MM = "tube-and-fin charge-air cooler, 62 mm"
    CONDENSER_16_MM = "parallel-flow condenser, 16 mm"
    OIL_PLATE_36_MM = "plate oil cooler, 36 mm"


# All in mm, the angle in degrees: tube pitch, tube thickness, fin height, fin pitch, louvre pitch, louvre length,
# louvre angle, fin thickness, tube rows, tube depth, row gap, tube wall. Typical of the trade, from memory.
_SIZES: Final = {
    TypicalCore.ALUMINIUM_16_MM: (7.6, 1.6, 6.0, 1.2, 0.9, 5.0, 27.0, 0.07, 1, 16.0, 0.0, 0.25),
    TypicalCore.ALUMINIUM_26_MM: (8.8, 1.8, 7.0, 1.3, 1.1, 6.0, 27.0, 0.07, 1, 26.0, 0.0, 0.27),
    TypicalCore.ALUMINIUM_36_MM: (9.8, 1.9, 7.9, 1.45, 1.2, 6.8, 27.0, 0.08, 1, 36.0, 0.0, 0.30),
    TypicalCore.ALUMINIUM_48_MM: (10.0, 2.0, 8.0, 1.6, 1.3, 6.8, 26.0, 0.08, 2, 22.0, 4.0, 0.32),
    TypicalCore.ALUMINIUM_56_MM: (10.5, 2.0, 8.5, 1.8, 1.4, 7.2, 26.0, 0.09, 2, 26.0, 4.0, 0.35),
    TypicalCore.COPPER_BRASS_34_MM: (11.0, 2.2, 8.8, 2.1, 1.6, 7.0, 24.0, 0.055, 2, 16.0, 2.0, 0.13),
    TypicalCore.COPPER_BRASS_52_MM: (11.5, 2.3, 9.2, 2.3, 1.6, 7.4, 24.0, 0.055, 3, 16.0, 2.0, 0.13),
    TypicalCore.COPPER_BRASS_70_MM: (12.0, 2.4, 9.6, 2.6, 1.8, 7.6, 22.0, 0.06, 4, 16.0, 2.0, 0.13),
    TypicalCore.BAR_AND_PLATE_64_MM: (17.0, 7.5, 9.5, 3.0, 2.0, 7.6, 22.0, 0.12, 1, 64.0, 0.0, 0.50),
    TypicalCore.TUBE_AND_FIN_62_MM: (16.5, 7.0, 9.5, 2.8, 1.7, 7.8, 24.0, 0.10, 1, 62.0, 0.0, 0.45),
    TypicalCore.CONDENSER_16_MM: (8.4, 1.8, 6.6, 1.3, 1.1, 5.6, 27.0, 0.08, 1, 16.0, 0.0, 0.30),
    TypicalCore.OIL_PLATE_36_MM: (10.6, 2.8, 7.8, 2.1, 1.3, 6.6, 26.0, 0.10, 1, 36.0, 0.0, 0.40),
}
_INNER_FINS: Final = {
    TypicalCore.BAR_AND_PLATE_64_MM: InnerFin(
        spacing_m=1.9e-3, height_m=6.3e-3, thickness_m=0.12e-3, strip_length_m=3.2e-3
    ),
    TypicalCore.TUBE_AND_FIN_62_MM: InnerFin(
        spacing_m=2.6e-3, height_m=5.9e-3, thickness_m=0.12e-3, strip_length_m=3.2e-3
    ),
    # The lanced sheet that plate coolers carry between their plates.
    TypicalCore.OIL_PLATE_36_MM: InnerFin(
        spacing_m=1.4e-3, height_m=1.8e-3, thickness_m=0.20e-3, strip_length_m=3.0e-3
    ),
}
_COPPER_BRASS: Final = frozenset(
    (TypicalCore.COPPER_BRASS_34_MM, TypicalCore.COPPER_BRASS_52_MM, TypicalCore.COPPER_BRASS_70_MM)
)


def typical_construction(core: TypicalCore) -> Construction:
    """Give the construction typical of a kind of core.

    Source: typical of the trade, from memory
    """
    tube_pitch, tube, fin_height, fin_pitch, louvre, cut, angle, fin, rows, depth, gap, wall = _SIZES[core]
    copper = core in _COPPER_BRASS
    return Construction(
        tube_pitch_m=tube_pitch / 1000.0,
        tube_thickness_m=tube / 1000.0,
        tube_depth_m=depth / 1000.0,
        tube_rows=rows,
        row_gap_m=gap / 1000.0,
        fin_height_m=fin_height / 1000.0,
        fin_pitch_m=fin_pitch / 1000.0,
        louvre_pitch_m=louvre / 1000.0,
        louvre_length_m=cut / 1000.0,
        louvre_angle_deg=angle,
        fin_thickness_m=fin / 1000.0,
        tube_wall_m=wall / 1000.0,
        fin_conductivity_w_per_m_k=_COPPER_FIN_W_PER_M_K if copper else _ALUMINIUM_FIN_W_PER_M_K,
        tube_conductivity_w_per_m_k=_BRASS_TUBE_W_PER_M_K if copper else _ALUMINIUM_TUBE_W_PER_M_K,
        inner_fin=_INNER_FINS.get(core),
    )
