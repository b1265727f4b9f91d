"""A measured table that says how warm its air was, and one that does not."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.assess.core_construction import core_ground
from grillestack.assess.defaults import default_value
from tests.assess import packs
from tests.assess.measured import core_of, described, table_of, with_description

IDLE = packs.warm_day(id="case-2", name="Idle", road_speed_m_s=0.0, heat_frac=0.2, coolant_frac=0.4, charge_frac=0.1)
PACK = packs.half_height_pack(packs.warm_day(), IDLE)
RADIATOR, CAC = core_of(PACK, packs.RADIATOR), core_of(PACK, packs.CAC)
# At this flow the tubes of the radiator are about to turn turbulent.
NEAR_TURBULENCE_KG_S = 2.4


def said_of(table, air_degc: float):
    return replace(table, air_inlet_degc=air_degc)


@pytest.mark.parametrize("air_degc", [10.0, 40.0, 55.0])
@pytest.mark.parametrize("flow_kg_s", [1.0, NEAR_TURBULENCE_KG_S])
def test_a_table_taken_at_any_air_temperature_gives_the_pack_of_the_radiator_if_it_says_so(air_degc, flow_kg_s):
    table = said_of(table_of(RADIATOR, 60.0, flow_kg_s, air_degc=air_degc), air_degc)
    measured = assess(with_description(PACK, packs.RADIATOR, table=table))
    for mine, plain in zip(measured.cases, assess(PACK).cases, strict=True):
        assert mine.heat_capacity_w == pytest.approx(plain.heat_capacity_w, rel=5e-3)
        assert mine.air_kg_s == pytest.approx(plain.air_kg_s, rel=5e-3)
        assert mine.limiting_ambient_degc == pytest.approx(plain.limiting_ambient_degc, abs=0.3)


def test_a_charge_air_table_too():
    table = said_of(table_of(CAC, 140.0, 0.16, air_degc=45.0), 45.0)
    for mine, plain in zip(
        assess(with_description(PACK, packs.CAC, table=table)).cases, assess(PACK).cases, strict=True
    ):
        assert mine.charge_out_degc == pytest.approx(plain.charge_out_degc, abs=0.2)


def test_what_the_air_temperature_is_worth_near_turbulence():
    """The same lines read 25 K colder than they were taken: more than the round trip's half a percent."""
    taken = table_of(RADIATOR, 60.0, NEAR_TURBULENCE_KG_S, air_degc=50.0)
    right, wrong = (
        assess(with_description(PACK, packs.RADIATOR, table=table)).cases[0].heat_capacity_w
        for table in (said_of(taken, 50.0), taken)
    )
    assert abs(wrong / right - 1.0) > 0.01


def test_a_table_that_does_not_say_is_read_at_the_default():
    table = table_of(RADIATOR, 60.0, 1.7)
    silent, said = (core_ground(described(RADIATOR, table=one)) for one in (table, said_of(table, 25.0)))
    assert default_value("air_inlet_degc") == 25.0
    assert silent.table_air_degc == said.table_air_degc == 25.0
    assert silent.alone.air_side == said.alone.air_side
    assert silent.table_doubt_frac > said.table_doubt_frac == 0.0


def test_lines_are_quoted_at_their_own_air():
    table = said_of(table_of(RADIATOR, 60.0, 1.7, air_degc=45.0), 45.0)
    ground = core_ground(described(RADIATOR, table=table))
    assert ground.table_range_m_s == pytest.approx((2.0, 10.0))
    narrow = said_of(table_of(RADIATOR, 60.0, 1.7, air_degc=45.0, velocities_m_s=(3.9, 4.1)), 45.0)
    remarks = assess(with_description(PACK, packs.RADIATOR, table=narrow)).remarks
    assert any("from 3.9 to 4.1 m/s at 45 °C" in remark.text for remark in remarks)


def test_a_note_asks_for_the_temperature_only_where_it_is_missing_and_matters():
    near = table_of(RADIATOR, 60.0, NEAR_TURBULENCE_KG_S)

    def asked_for(table) -> bool:
        notes = core_ground(described(RADIATOR, table=table)).notes
        return any("does not say how warm its air was" in note and "type it" in note for note in notes)

    assert asked_for(near)
    assert not asked_for(said_of(near, 25.0))
    assert not asked_for(table_of(RADIATOR, 60.0, 1.0))
