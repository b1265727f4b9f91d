"""Areas and passages of a core worked by hand, and sizes that cannot be put together."""

from __future__ import annotations

import math
from dataclasses import FrozenInstanceError, replace

import pytest

from grillestack.physics.construction import Construction, InnerFin
from grillestack.physics.typical_cores import TypicalCore, typical_construction

ONE_ROW = typical_construction(TypicalCore.ALUMINIUM_26_MM)
FOUR_ROWS = typical_construction(TypicalCore.COPPER_BRASS_70_MM)
CHARGE_AIR = typical_construction(TypicalCore.BAR_AND_PLATE_64_MM)


def test_areas_of_a_one_row_core_by_hand() -> None:
    # tube pitch 8.8, tube 1.8 by 26, fin 7.0 high, pitch 1.3, 0.07 thick: all in mm
    passages = 1.0 / (8.8e-3 * 1.3e-3)
    fins = 2.0 * passages * 7.0e-3 * 26.0e-3
    bare = 2.0 * passages * (1.3e-3 - 0.07e-3) * 26.0e-3 + 2.0 * 1.8e-3 / 8.8e-3
    assert pytest.approx(fins) == ONE_ROW.fin_area_m2_per_m2
    assert pytest.approx(bare) == ONE_ROW.prime_area_m2_per_m2
    assert pytest.approx(fins + bare) == ONE_ROW.air_area_m2_per_m2
    assert pytest.approx(1.23 * 7.0 / (1.3 * 8.8)) == ONE_ROW.free_flow_frac
    assert pytest.approx(4.0 * ONE_ROW.free_flow_frac * 0.026 / (fins + bare)) == ONE_ROW.air_hydraulic_diameter_m


def test_fin_runs_over_all_rows_and_the_gaps_between_them() -> None:
    assert pytest.approx(4 * 0.016 + 3 * 0.002) == FOUR_ROWS.flow_depth_m
    assert pytest.approx(2.0 * 9.6e-3 * 0.070 / (12e-3 * 2.6e-3)) == FOUR_ROWS.fin_area_m2_per_m2
    between_feet = 2.0 / (12e-3 * 2.6e-3) * (2.6e-3 - 0.06e-3) * 4 * 0.016
    assert pytest.approx(between_feet + 2.0 * 4 * 2.4e-3 / 12e-3) == FOUR_ROWS.prime_area_m2_per_m2


def test_flat_tube_has_round_ends() -> None:
    # wall 0.27: bore 1.26 high, flat part 26 - 1.8 = 24.2
    area = 1.26e-3 * 24.2e-3 + math.pi / 4.0 * 1.26e-3**2
    perimeter = 2.0 * 24.2e-3 + math.pi * 1.26e-3
    assert pytest.approx(area) == ONE_ROW.bore_area_m2
    assert pytest.approx(perimeter) == ONE_ROW.bore_perimeter_m
    assert pytest.approx(4.0 * area / perimeter) == ONE_ROW.bore_hydraulic_diameter_m
    assert pytest.approx(perimeter / 8.8e-3) == ONE_ROW.inner_area_m2_per_m2
    assert pytest.approx(1.26 / 25.46) == ONE_ROW.bore_aspect


def test_tube_as_thick_as_deep_is_round() -> None:
    round_tube = replace(ONE_ROW, tube_thickness_m=8e-3, tube_depth_m=8e-3, tube_pitch_m=15e-3, tube_wall_m=1e-3)
    assert round_tube.bore_area_m2 == pytest.approx(math.pi / 4.0 * 6e-3**2)
    assert round_tube.bore_hydraulic_diameter_m == pytest.approx(6e-3)
    assert round_tube.wall_area_m2_per_m2 == pytest.approx(math.pi * 7e-3 / 15e-3)


def test_wall_area_lies_between_inner_and_outer_area() -> None:
    outer = ONE_ROW.tubes_per_m * (2.0 * 24.2e-3 + math.pi * 1.8e-3)
    assert ONE_ROW.inner_area_m2_per_m2 < ONE_ROW.wall_area_m2_per_m2 < outer


def test_rows_multiply_the_tubes() -> None:
    assert FOUR_ROWS.tubes_per_m == pytest.approx(4 / 12e-3)
    single = replace(FOUR_ROWS, tube_rows=1)
    assert FOUR_ROWS.inner_area_m2_per_m2 == pytest.approx(4 * single.inner_area_m2_per_m2)


def test_inner_fin_divides_the_bore_into_channels() -> None:
    inner = CHARGE_AIR.inner_fin
    assert inner is not None
    channels = (64.0 - 2 * 0.5) / (1.9 + 0.12)
    assert CHARGE_AIR.inner_channels == pytest.approx(channels)
    assert CHARGE_AIR.bore_area_m2 == pytest.approx(channels * 1.9e-3 * 6.3e-3)
    assert CHARGE_AIR.bore_hydraulic_diameter_m == pytest.approx(inner.hydraulic_diameter_m)
    assert inner.fin_area_frac == pytest.approx(1.0 - 2 * 1.9e-3 / inner.channel_perimeter_m)


def test_a_construction_cannot_be_changed() -> None:
    with pytest.raises(FrozenInstanceError):
        ONE_ROW.tube_rows = 2  # type: ignore[misc]


def test_equal_sizes_are_equal_constructions_whatever_was_asked_of_them() -> None:
    twin = replace(ONE_ROW)
    assert ONE_ROW.air_area_m2_per_m2 > 0.0
    assert twin == ONE_ROW
    assert hash(twin) == hash(ONE_ROW)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"tube_pitch_m": 0.0}, "tube pitch must be more than zero"),
        ({"fin_conductivity_w_per_m_k": -1.0}, "fin conductivity must be more than zero"),
        ({"tube_depth_m": float("nan")}, "tube depth must be more than zero"),
        ({"louvre_pitch_m": float("inf")}, "louvre pitch must be more than zero"),
        ({"tube_rows": 0}, "tube rows must be more than zero"),
        ({"tube_rows": 1.5}, "no whole number"),
        ({"row_gap_m": -0.001}, "Row gap -1 mm is below zero"),
        ({"tube_thickness_m": 9.0e-3}, "leaves no room for fins"),
        ({"fin_height_m": 7.5e-3}, "Fin height 7.5 mm does not fill the 7 mm between two tubes"),
        ({"fin_height_m": 6.5e-3}, "does not fill"),
        ({"fin_thickness_m": 0.7e-3}, "closes a fin of pitch 1.3 mm"),
        ({"louvre_length_m": 7.1e-3}, "more than the fin height"),
        ({"louvre_pitch_m": 27e-3}, "more than the core's depth"),
        ({"louvre_angle_deg": 90.0}, "under 90°"),
        ({"tube_wall_m": 0.9e-3}, "leaves no bore"),
    ],
)
def test_impossible_sizes_are_refused_with_a_sentence(change, sentence) -> None:
    with pytest.raises(ValueError, match=sentence):
        replace(ONE_ROW, **change)


@pytest.mark.parametrize(
    "inner",
    [
        InnerFin(spacing_m=1.9e-3, height_m=6.6e-3, thickness_m=0.12e-3, strip_length_m=3.2e-3),
        InnerFin(spacing_m=63e-3, height_m=6.3e-3, thickness_m=0.12e-3, strip_length_m=3.2e-3),
    ],
)
def test_an_inner_fin_larger_than_the_bore_is_refused(inner) -> None:
    with pytest.raises(ValueError, match=r"does not fit the bore of 6\.5 mm by 63 mm"):
        replace(CHARGE_AIR, inner_fin=inner)


def test_an_inner_fin_without_size_is_refused() -> None:
    with pytest.raises(ValueError, match="inner fin's strip length must be more than zero"):
        InnerFin(spacing_m=1.9e-3, height_m=6.3e-3, thickness_m=0.12e-3, strip_length_m=0.0)


def test_a_fin_height_rounded_on_the_parts_page_is_accepted() -> None:
    assert isinstance(replace(ONE_ROW, fin_height_m=7.1e-3), Construction)
