"""How sure the hottest day is."""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace
from scipy import stats

from grillestack.assess.assess import assess
from grillestack.assess.confidence import confidence, latin_hypercube
from grillestack.assess.core_spread import core_spread
from grillestack.assess.uncertain import Kind, Uncertain, uncertain_inputs
from grillestack.model.engine import EngineSheet
from grillestack.model.project import cores
from tests.assess import packs
from tests.assess.test_further_coolers import BARE, OIL, pack_with

_SAMPLES = 160


def test_every_stratum_of_every_input_is_hit_once():
    inputs = [Uncertain("a", Kind.BAY, 0.7, 1.45, "t"), Uncertain("b", Kind.RAM, -0.15, 0.12, "t")]
    values = latin_hypercube(inputs, 50, 7)
    for column, one in enumerate(inputs):
        edges = [one.value_at(k / 50) for k in range(1, 50)]
        assert np.array_equal(np.sort(np.searchsorted(edges, values[:, column])), np.arange(50))


def test_factors_are_log_normal_and_shifts_normal_with_the_stated_percentiles():
    """scipy.stats side by side."""
    factor, shift = Uncertain("a", Kind.BAY, 0.5, 2.0, "t"), Uncertain("b", Kind.CHARGE_INLET, -5.0, 5.0, "t")
    spread = stats.lognorm(s=np.log(2.0) / stats.norm.ppf(0.95))
    for quantile in (0.05, 0.3, 0.5, 0.9, 0.95):
        assert factor.value_at(quantile) == pytest.approx(spread.ppf(quantile), rel=1e-9)
        assert shift.value_at(quantile) == pytest.approx(
            stats.norm(scale=5.0 / stats.norm.ppf(0.95)).ppf(quantile), abs=1e-9
        )


def test_the_band_is_seeded_and_in_order_and_holds_the_design_day_as_a_share():
    first = confidence(packs.half_height_pack(), "case-1", samples=_SAMPLES)
    again = confidence(packs.half_height_pack(), "case-1", samples=_SAMPLES)
    assert first == again
    assert first.p10_degc < first.p50_degc < first.p90_degc
    assert 0.0 < first.meets_design_day_frac < 1.0
    # 35 °C lies between the percentiles whose shares bracket the chance of standing it.
    assert (first.p10_degc >= 35.0) == (first.meets_design_day_frac >= 0.9)
    assert (first.p50_degc >= 35.0) == (first.meets_design_day_frac >= 0.5)


def test_without_a_measured_table_the_band_of_heat_is_no_narrower_than_that_of_tested_radiators():
    """Ng, Johnson & Watkins 2005 (abstract): +24/-10 % in heat; the band in degrees follows the pack's own slope."""
    pack = packs.half_height_pack()
    (case,) = assess(pack).cases
    band = confidence(pack, "case-1", samples=_SAMPLES)
    kelvin_per_share = case.top_tank_limit_degc - case.limiting_ambient_degc
    low, high = 1.0 / 1.24, 1.0 / 0.90
    inner = stats.norm.ppf(0.9) / stats.norm.ppf(0.95)
    assert band.p90_degc - band.p10_degc > 0.8 * inner * (high - low) * kelvin_per_share


def test_the_radiators_own_heat_is_among_the_inputs_that_matter_most():
    band = confidence(packs.half_height_pack(), "case-1", samples=_SAMPLES)
    assert len(band.drivers) == 5
    assert [driver.share_frac for driver in band.drivers] == sorted(
        (driver.share_frac for driver in band.drivers), reverse=True
    )
    assert band.drivers[0].name == "heat of “Radiator”"
    assert sum(driver.share_frac for driver in band.drivers) <= 1.0 + 1e-9


def test_a_surer_radiator_gives_a_narrower_band():
    wide = confidence(packs.half_height_pack(), "case-1", samples=_SAMPLES)
    narrow = confidence(
        packs.half_height_pack(), "case-1", samples=_SAMPLES, heat_spread=lambda _core: (0.95, 1.05, "measured")
    )
    assert narrow.p90_degc - narrow.p10_degc < wide.p90_degc - wide.p10_degc


def test_a_pack_that_never_sheds_its_heat_has_no_percentiles():
    band = confidence(packs.half_height_pack(packs.warm_day(road_speed_m_s=0.0, fans_on=False)), "case-1", samples=40)
    assert band.p50_degc is None
    assert band.meets_design_day_frac == 0.0


def test_cancelling_gives_nothing_and_an_open_case_has_no_band():
    assert confidence(packs.half_height_pack(), "case-1", samples=40, progress=lambda _share: False) is None
    assert confidence(packs.half_height_pack(sheet=EngineSheet()), "case-1", samples=40) is None


def test_progress_rises_to_one():
    seen: list[float] = []
    confidence(packs.half_height_pack(), "case-1", samples=_SAMPLES, progress=lambda share: seen.append(share) is None)
    assert seen == sorted(seen)
    assert seen[-1] == 1.0


def _kinds_of_the_cooler(project) -> set[Kind]:
    stack = cores(project)
    number = next(n for n, core in enumerate(stack) if core.name == "Oil cooler")
    inputs = uncertain_inputs(project, stack, [core_spread(core) for core in stack])
    return {one.kind for one in inputs if one.layer == number} - {Kind.AIR_RESISTANCE}


def test_a_further_cooler_s_uncertain_inputs_are_those_it_is_computed_from():
    assert _kinds_of_the_cooler(pack_with(OIL)) == {Kind.CORE_HEAT, Kind.COOLER_INLET, Kind.COOLER_FLOW}
    assert _kinds_of_the_cooler(pack_with(replace(BARE, given_heat_w=4_000.0))) == {Kind.COOLER_HEAT}
    assert _kinds_of_the_cooler(pack_with(BARE)) == set()


def test_a_less_sure_further_cooler_gives_a_wider_band():
    def width(low: float, high: float) -> float:
        def spread(core):
            return (low, high, "test") if core.name == "Oil cooler" else (0.999, 1.001, "test")

        band = confidence(pack_with(replace(OIL, tube_inlet_degc=150.0)), "case-1", samples=100, heat_spread=spread)
        return band.p90_degc - band.p10_degc

    assert width(0.3, 3.0) > width(0.999, 1.001)


def test_the_condenser_s_load_is_not_taken_for_a_typed_heat():
    """With the A/C off the load is nothing, so however unsure it is, the heat typed for a cooler does not vary with it."""
    pack = pack_with(replace(BARE, given_heat_w=15_000.0))
    pack = packs.with_part(pack, packs.condenser(), 40.0)
    band = confidence(pack, "case-1", samples=100, heat_spread=lambda _core: (0.999, 1.001, "test"))
    named = [driver.name for driver in band.drivers]
    assert "condenser load" not in named
    assert band.p10_degc < band.p90_degc
