"""What the trade says of such packs. Common practice, no source; figures are reported, and only the order is asserted."""

from __future__ import annotations

import pytest

from grillestack.assess.assess import assess
from tests.assess import packs


def _warm_day_case(project):
    (case,) = assess(project).cases
    return case


def test_full_height_cac_with_tanks_over_the_core_sheds_clearly_less_than_a_half_height_one(record_property):
    """Common practice, no source: a CAC of half the height leaves fresh air, and no tank may stand before the core.

    The trade also says that a 0.30-0.35 m² aluminium radiator with a half-height CAC, two good electric fans and a full
    shroud sheds 59.8 kW at 107.2 °C on a warm day (35 °C, 90 km/h, A/C off). The model's answer is recorded, not asserted.
    """
    half, full = _warm_day_case(packs.half_height_pack()), _warm_day_case(packs.full_height_pack())
    record_property("half_height_heat_w", round(half.heat_capacity_w))
    record_property("half_height_limiting_ambient_degc", round(half.limiting_ambient_degc, 1))
    record_property("full_height_heat_w", round(full.heat_capacity_w))
    assert full.heat_capacity_w < 0.97 * half.heat_capacity_w


def test_half_height_cac_leaves_part_of_the_radiator_in_fresh_air_and_the_full_one_blocks_with_its_tanks():
    """Common practice, no source."""
    half, full = assess(packs.half_height_pack()).radiator, assess(packs.full_height_pack()).radiator
    assert half.exposed_mm2 > 0.2 * half.core_mm2
    assert full.exposed_mm2 < half.exposed_mm2
    # Two tanks of 60 mm over the full height of the core, by hand.
    assert full.blocked_mm2 == pytest.approx(2 * 60.0 * 460.0, rel=1e-9)


def test_limiting_ambient_moves_about_one_for_one_with_the_top_tank_limit():
    """SAE J1393 as summarised: limiting ambient = limit - top tank + ambient, one kelvin for one; for road tests only.

    A prediction need not obey, so the model's own slope is held to a band of a tenth only.
    """
    from msgspec.structs import replace

    cold = _warm_day_case(packs.half_height_pack())
    hot = _warm_day_case(packs.half_height_pack(sheet=replace(packs.SHEET, top_tank_limit_degc=112.2)))
    slope = (hot.limiting_ambient_degc - cold.limiting_ambient_degc) / 5.0
    assert slope == pytest.approx(1.0, abs=0.1)
