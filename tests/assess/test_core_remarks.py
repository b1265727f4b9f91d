"""What is said of the way a core is described."""

from __future__ import annotations

import re

from grillestack.assess.assess import assess
from grillestack.assess.result import Severity
from tests.assess import packs
from tests.assess.measured import core_of, rating_of, table_of, with_description

IDLE = packs.warm_day(id="case-2", name="Idle", road_speed_m_s=0.0, heat_frac=0.2, coolant_frac=0.4, charge_frac=0.1)
PACK = packs.half_height_pack(packs.warm_day(), IDLE)
RADIATOR = core_of(PACK, packs.RADIATOR)


def _remarks(pack, words: str):
    return [remark for remark in assess(pack).remarks if words in remark.text]


def test_air_slower_and_faster_than_the_table_is_said_with_case_velocity_and_share_of_the_face():
    narrow = table_of(RADIATOR, 60.0, 1.7, velocities_m_s=(3.9, 4.1))
    pack = with_description(PACK, packs.RADIATOR, table=narrow)
    (remark,) = _remarks(pack, "is measured from")
    assert remark.severity is Severity.NOTE
    assert remark.parts == (RADIATOR.id,)
    assert "from 3.9 to 4.1 m/s" in remark.text
    told = dict(re.findall(r"in “([^”]+)” (?:down to|up to) ([\d.]+) m/s", remark.text))
    assert set(told) <= {"Warm day", "Idle"}
    by_name = {case.name: case for case in assess(pack).cases}
    for name, velocity in told.items():
        # The zones' own flows, by hand: kg/s over area and 1.184 kg/m³.
        there = [
            abs(zone.air_kg_s) / (zone.area_mm2 * 1e-6 * 1.184)
            for zone in by_name[name].zones
            if RADIATOR.id in zone.cores
        ]
        extreme = min(there, key=lambda one: abs(one - float(velocity)))
        assert abs(extreme - float(velocity)) < 0.06 * extreme
        assert not 3.9 <= extreme <= 4.1


def test_a_table_that_covers_all_the_air_says_nothing():
    wide = table_of(RADIATOR, 60.0, 1.7, velocities_m_s=(0.1, 1.0, 3.0, 6.0, 14.0))
    assert not _remarks(with_description(PACK, packs.RADIATOR, table=wide), "is measured from")
    assert not _remarks(PACK, "is measured from")


def test_outside_its_range_the_heat_follows_the_trend_of_the_fins():
    """A table of two close lines, made of the fins: far outside it the pack must be that of the fins."""
    narrow = table_of(RADIATOR, 60.0, 1.7, velocities_m_s=(3.9, 4.1))
    plain, measured = assess(PACK), assess(with_description(PACK, packs.RADIATOR, table=narrow))
    for one, other in zip(plain.cases, measured.cases, strict=True):
        assert abs(other.heat_capacity_w / one.heat_capacity_w - 1.0) < 5e-3


def test_a_rating_beside_a_table_is_said_to_be_left_out():
    both = with_description(
        PACK, packs.RADIATOR, table=table_of(RADIATOR, 60.0, 1.7), rating=rating_of(RADIATOR, 6.0, 30.0, 100.0, 2.0)
    )
    (remark,) = _remarks(both, "rating point too")
    assert remark.text.startswith(f"“{RADIATOR.name}” has a rating point too, which is not used")


def test_tubes_near_turbulence_make_the_table_s_missing_temperatures_worth_a_note():
    assert _remarks(with_description(PACK, packs.RADIATOR, table=table_of(RADIATOR, 60.0, 2.4)), "turns turbulent")
    assert not _remarks(with_description(PACK, packs.RADIATOR, table=table_of(RADIATOR, 60.0, 1.0)), "turns turbulent")


def test_only_cores_of_which_the_type_alone_is_known_are_said_to_be_typical():
    (remark,) = _remarks(PACK, "only the type is known")
    assert set(remark.parts) == {core_of(PACK, packs.RADIATOR).id, core_of(PACK, packs.CAC).id}
    rated = with_description(PACK, packs.RADIATOR, rating=rating_of(RADIATOR, 6.0, 30.0, 100.0, 2.0))
    (remark,) = _remarks(rated, "only the type is known")
    assert remark.parts == (core_of(PACK, packs.CAC).id,)
