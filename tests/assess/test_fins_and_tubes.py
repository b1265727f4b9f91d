"""The fins and tubes that a core is computed with."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.assess.fins_and_tubes import fins_and_tubes
from grillestack.model.core_description import Construction, CoreDescription, CoreMetal, CoreType

BUILT = Construction(
    tube_pitch_mm=10.0, tube_thickness_mm=2.0, tube_depth_mm=22.0, tube_rows=2, tube_wall_mm=0.32, fin_height_mm=8.0,
    fin_pitch_mm=1.6, fin_thickness_mm=0.08, louvre_pitch_mm=1.3, louvre_length_mm=6.8, louvre_angle_deg=26.0,
    dimpled_tubes=True, tube_enhancement_factor=1.2,
)  # fmt: skip


def test_described_fins_are_taken_over_in_metres_and_the_rest_of_the_depth_is_the_gap_between_rows():
    """By hand: 48 mm less twice 22 mm leaves 4 mm."""
    built = fins_and_tubes(CoreDescription(core_type=CoreType.ALUMINIUM_TWO_ROW, construction=BUILT), 48.0)
    assert built.described
    assert built.dimpled_tubes
    assert built.problem is None
    assert built.construction.row_gap_m == pytest.approx(0.004)
    assert built.construction.flow_depth_m == pytest.approx(0.048)
    assert built.construction.fin_pitch_m == pytest.approx(0.0016)
    assert built.construction.tube_enhancement_factor == 1.2


def test_metal_sets_how_well_fins_and_tubes_conduct():
    """Common practice, from memory: copper fins conduct nearly twice as well as aluminium, brass tubes less well."""
    aluminium, copper = (
        fins_and_tubes(
            CoreDescription(core_type=CoreType.COPPER_BRASS, construction=replace(BUILT, metal=metal)), 48.0
        ).construction
        for metal in (CoreMetal.ALUMINIUM, CoreMetal.COPPER_BRASS)
    )
    assert copper.fin_conductivity_w_per_m_k > 1.7 * aluminium.fin_conductivity_w_per_m_k
    assert copper.tube_conductivity_w_per_m_k < aluminium.tube_conductivity_w_per_m_k


@pytest.mark.parametrize("core_type", CoreType)
@pytest.mark.parametrize("depth_mm", [16.0, 40.0, 75.0])
def test_a_type_has_fins_and_tubes_of_the_depth_at_hand(core_type, depth_mm):
    built = fins_and_tubes(CoreDescription(core_type=core_type), depth_mm)
    assert not built.described
    # Tubes grow and shrink along the air, but never below twice their thickness.
    made = built.construction
    least_m = made.tube_rows * 2.0 * made.tube_thickness_m + (made.tube_rows - 1) * made.row_gap_m
    assert made.flow_depth_m == pytest.approx(max(depth_mm / 1000.0, least_m))


def test_fins_that_cannot_be_put_together_are_named_and_replaced_by_the_type_s():
    wide = replace(BUILT, tube_thickness_mm=12.0)
    built = fins_and_tubes(CoreDescription(core_type=CoreType.ALUMINIUM_TWO_ROW, construction=wide), 48.0)
    assert not built.described
    assert "Tube thickness" in built.problem
    assert (
        built.construction == fins_and_tubes(CoreDescription(core_type=CoreType.ALUMINIUM_TWO_ROW), 48.0).construction
    )
