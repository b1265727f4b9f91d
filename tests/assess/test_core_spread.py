"""How far the true heat of a core may lie from the computed one."""

from __future__ import annotations

import pytest

from grillestack.assess.confidence import confidence
from grillestack.assess.core_construction import Ground, core_ground
from grillestack.assess.core_spread import core_spread
from grillestack.model.core_description import Construction
from tests.assess import packs
from tests.assess.measured import described, rating_of, table_of, with_description

RADIATOR = packs.radiator()
BUILT = Construction(
    tube_pitch_mm=9.8, tube_thickness_mm=1.9, tube_depth_mm=36.0, tube_wall_mm=0.3, fin_height_mm=7.9, fin_pitch_mm=1.45,
    fin_thickness_mm=0.08, louvre_pitch_mm=1.2, louvre_length_mm=6.8, louvre_angle_deg=27.0,
)  # fmt: skip
BY_GROUND = {
    Ground.TABLE: described(RADIATOR, table=table_of(RADIATOR, 60.0, 1.0)),
    Ground.RATING: described(RADIATOR, rating=rating_of(RADIATOR, 6.0, 30.0, 100.0, 2.0)),
    Ground.CONSTRUCTION: described(RADIATOR, construction=BUILT),
    Ground.TYPE: RADIATOR,
}


@pytest.mark.parametrize("ground", [Ground.RATING, Ground.CONSTRUCTION, Ground.TYPE])
def test_without_a_table_it_is_never_narrower_than_that_of_tested_radiators(ground):
    """Ng, Johnson & Watkins 2005 (abstract seen): +24/-10 % in heat; so true over computed 1/1.24 to 1/0.90."""
    core = BY_GROUND[ground]
    assert core_ground(core).ground is ground
    low, high, source = core_spread(core)
    assert low <= 1.0 / 1.24
    assert high >= 1.0 / 0.90
    assert "NG2005" in source


def test_better_knowledge_is_never_less_sure():
    widths = [
        core_spread(BY_GROUND[ground]).high_factor / core_spread(BY_GROUND[ground]).low_factor for ground in Ground
    ]
    assert widths == sorted(widths)
    assert widths[1] == pytest.approx(widths[2])
    assert widths[0] < widths[1] < widths[3]


def test_a_table_is_good_to_five_percent():
    """From memory: what a bench measures of heat."""
    low, high, source = core_spread(BY_GROUND[Ground.TABLE])
    assert (low, high) == (pytest.approx(0.95, abs=2e-3), pytest.approx(1.05, abs=2e-3))
    assert "from memory" in source


def test_a_table_near_turbulence_is_less_sure_and_never_less_than_five_percent():
    near = core_spread(described(RADIATOR, table=table_of(RADIATOR, 60.0, 2.4)))
    assert near.low_factor < 0.93
    assert near.high_factor > 1.07
    assert "temperatures" in near.source


def test_the_band_of_the_hottest_day_takes_it_and_a_table_makes_it_narrower():
    pack = packs.half_height_pack()
    table = with_description(pack, packs.RADIATOR, table=table_of(RADIATOR, 60.0, 1.0))
    plain, measured = (confidence(one, "case-1", samples=120, heat_spread=core_spread) for one in (pack, table))
    assert measured.p90_degc - measured.p10_degc < 0.9 * (plain.p90_degc - plain.p10_degc)
