"""Further coolers of a pack: heat typed, or marched from what flows in, in any place of the stack."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.assess.asked import asked_cases
from grillestack.assess.assess import assess
from grillestack.assess.core_construction import core_ground
from grillestack.assess.further_coolers import Known, is_marched, known_of, what_is_missing
from grillestack.assess.further_liquids import oil_of, tube_flow_kg_s
from grillestack.assess.heat_shed import heat_shed
from grillestack.assess.waterfall import waterfall
from grillestack.model import edits
from grillestack.model.core_description import CoreType
from grillestack.model.parts import Core, CoreRole, Placement, TubeFluid
from grillestack.physics.coolant import ethylene_glycol
from grillestack.physics.oil import TRANSMISSION_OIL
from tests.assess import packs
from tests.assess.measured import described, rating_of, table_of

MIX = ethylene_glycol(0.5)
BARE = replace(
    packs.core(CoreRole.COOLER, CoreType.PLATE_OIL_COOLER, 300.0, 180.0, 36.0, tank_mm=20.0), name="Oil cooler"
)
OIL = replace(BARE, tube_fluid=TubeFluid.OIL, tube_inlet_degc=115.0, tube_flow_m3_s=2e-4)
LOW = replace(
    packs.core(CoreRole.COOLER, CoreType.ALUMINIUM_ONE_ROW, 400.0, 250.0, 26.0, tank_mm=30.0),
    name="Low-temperature radiator",
    tube_fluid=TubeFluid.COOLANT,
    tube_inlet_degc=65.0,
    tube_flow_m3_s=2.5e-4,
)
IDLE = packs.warm_day(id="case-2", name="Idle", road_speed_m_s=0.0, heat_frac=0.2, coolant_frac=0.4, charge_frac=0.1)


def pack_with(cooler: Core, x_mm: float = 90.0):
    """Return a radiator with shroud and fans and this cooler ahead of it, or behind it from 235 mm on."""
    return packs.with_part(packs.behind(packs.project(packs.warm_day(), IDLE)), cooler, x_mm, z_mm=200.0)


def flow_of(case, part_id: str = "cooler"):
    return next(core for core in case.cores if core.part_id.startswith(part_id))


def test_a_typed_heat_wins_over_what_flows_in_and_either_is_enough():
    assert known_of(replace(OIL, given_heat_w=3_000.0)) is Known.HEAT
    assert known_of(OIL) is Known.INLET
    assert known_of(replace(BARE, given_heat_w=0.0)) is Known.HEAT
    for field in ("tube_fluid", "tube_inlet_degc", "tube_flow_m3_s"):
        without = replace(OIL, **{field: None})
        assert known_of(without) is Known.NOTHING
        assert len(what_is_missing(without)) == 1
    assert is_marched(OIL)
    assert not is_marched(replace(OIL, role=CoreRole.CONDENSER))
    assert not is_marched(replace(OIL, given_heat_w=3_000.0))


def test_a_volume_flow_is_that_of_what_comes_in():
    assert tube_flow_kg_s(OIL, MIX) == pytest.approx(2e-4 * TRANSMISSION_OIL.density_kg_m3(115.0), rel=1e-12)
    assert tube_flow_kg_s(LOW, MIX) == pytest.approx(2.5e-4 * MIX.density_kg_m3(65.0), rel=1e-12)
    assert oil_of(LOW) is None


@pytest.mark.parametrize("cooler", [OIL, LOW], ids=lambda core: core.name)
@pytest.mark.parametrize("x_mm", [90.0, 250.0], ids=["ahead of the radiator", "behind it"])
def test_what_the_liquid_loses_the_air_takes_up_wherever_the_cooler_stands(cooler, x_mm):
    """m·cp·ΔT of the liquid, cp at its mean temperature, by hand."""
    for case in assess(pack_with(cooler, x_mm)).cases:
        flow = flow_of(case)
        liquid = TRANSMISSION_OIL if cooler is OIL else MIX
        mean = 0.5 * (flow.tube_in_degc + flow.tube_out_degc)
        by_hand = (
            flow.tube_flow_kg_s
            * float(liquid.heat_capacity_j_per_kg_k(mean))
            * (flow.tube_in_degc - flow.tube_out_degc)
        )
        assert flow.heat_w == pytest.approx(by_hand, rel=1e-4)
        assert flow.tube_in_degc == pytest.approx(cooler.tube_inlet_degc)
        assert flow.tube_flow_kg_s == pytest.approx(tube_flow_kg_s(cooler, MIX))


def test_a_cooler_ahead_warms_the_radiator_s_air_and_costs_degrees():
    alone = assess(packs.behind(packs.project(packs.warm_day(), IDLE)))
    cold, hot = (assess(pack_with(replace(OIL, tube_inlet_degc=inlet))) for inlet in (95.0, 135.0))
    for without, less, more in zip(alone.cases, cold.cases, hot.cases, strict=True):
        assert flow_of(more).heat_w > flow_of(less).heat_w > 500.0
        assert more.limiting_ambient_degc < less.limiting_ambient_degc < without.limiting_ambient_degc


def test_typing_the_marched_heat_gives_the_same_pack():
    """The given heat leaves by one wall and the marched one by a falling temperature, so the pattern of the air differs a little."""
    marched = assess(pack_with(OIL)).cases[0]
    typed = assess(pack_with(replace(BARE, given_heat_w=flow_of(marched).heat_w))).cases[0]
    assert flow_of(typed).heat_w == pytest.approx(flow_of(marched).heat_w, rel=1e-6)
    assert typed.top_tank_degc == pytest.approx(marched.top_tank_degc, abs=0.15)
    assert flow_of(typed).tube_in_degc is None
    assert flow_of(typed).tube_out_degc is None
    assert flow_of(typed).tube_flow_kg_s is None


def test_a_cooler_of_which_nothing_is_known_only_resists_the_air():
    case = assess(pack_with(BARE)).cases[0]
    assert flow_of(case).heat_w == pytest.approx(0.0, abs=1e-6)
    assert flow_of(case).tube_in_degc is None


def test_behind_the_radiator_oil_may_be_warmed_and_that_is_a_negative_heat():
    case = assess(pack_with(replace(LOW, tube_inlet_degc=40.0), 250.0)).cases[0]
    flow = flow_of(case)
    assert flow.air_in_degc > 45.0
    assert flow.heat_w < 0.0
    assert flow.tube_out_degc > flow.tube_in_degc


def test_several_coolers_are_marched_each_with_its_own_liquid_in_any_order():
    first = pack_with(OIL)
    both, low_id = edits.add_part(first, LOW, Placement(x_mm=30.0, z_mm=250.0))
    swapped = edits.place_part(both, low_id, Placement(x_mm=130.0, z_mm=250.0))
    for project in (both, swapped):
        case = assess(project).cases[0]
        other = next(core for core in case.cores if core.part_id.startswith("cooler") and core.part_id != low_id)
        assert other.tube_in_degc == pytest.approx(115.0)
        assert flow_of(case, low_id).tube_in_degc == pytest.approx(65.0)
    # Who stands in front has the colder air.
    assert flow_of(assess(both).cases[0], low_id).heat_w > flow_of(assess(swapped).cases[0], low_id).heat_w


def test_the_radiator_alone_does_not_feel_the_cooler():
    """Required face: core times target over the heat of the radiator alone, the same however hot the oil comes in."""
    cold, hot = (assess(pack_with(replace(OIL, tube_inlet_degc=inlet))).cases[0] for inlet in (90.0, 140.0))
    assert hot.required_mm2 == pytest.approx(cold.required_mm2, rel=1e-4)
    assert hot.effective_mm2 < cold.effective_mm2


def test_the_degrees_a_marched_cooler_costs_stand_in_its_step():
    steps = {step.name: step.change_k for step in waterfall(pack_with(OIL), "case-1").steps}
    without = waterfall(packs.behind(packs.project(packs.warm_day(), IDLE)), "case-1").steps
    assert steps["Charge-air cooler and further coolers"] < -0.3
    assert next(s for s in without if s.name.startswith("Charge-air")).change_k == pytest.approx(0.0, abs=1e-3)


def test_a_rating_of_the_cooler_itself_changes_nothing_and_a_better_one_more_heat():
    plain = flow_of(assess(pack_with(OIL)).cases[0]).heat_w
    same, more = (
        described(OIL, rating=rating_of(OIL, 5.0, 30.0, 110.0, 0.16, heat_factor=factor)) for factor in (1.0, 1.1)
    )
    assert core_ground(same).alone.air_side.conductance_factor == pytest.approx(1.0, abs=1e-6)
    assert flow_of(assess(pack_with(same)).cases[0]).heat_w == pytest.approx(plain, rel=1e-5)
    assert flow_of(assess(pack_with(more)).cases[0]).heat_w > 1.03 * plain


def test_a_table_of_the_cooler_itself_changes_nothing():
    plain = flow_of(assess(pack_with(OIL)).cases[0]).heat_w
    table = described(OIL, table=table_of(OIL, 80.0, 0.16))
    assert flow_of(assess(pack_with(table)).cases[0]).heat_w == pytest.approx(plain, rel=5e-3)


@pytest.mark.parametrize(
    "before",
    [replace(OIL, tube_inlet_degc=95.0), replace(OIL, given_heat_w=5_000.0), BARE],
    ids=["another inlet", "a typed heat before", "nothing known before"],
)
def test_a_start_from_the_pack_before_ends_where_a_cold_start_does(before):
    fresh = assess(pack_with(OIL))
    warm = assess(pack_with(OIL), previous=assess(pack_with(before, 80.0)))
    for one, other in zip(warm.cases, fresh.cases, strict=True):
        assert one.limiting_ambient_degc == pytest.approx(other.limiting_ambient_degc, abs=0.05)
        assert flow_of(one).heat_w == pytest.approx(flow_of(other).heat_w, rel=2e-3)


def test_what_the_pack_sheds_over_the_top_tank_s_temperature_counts_the_cooler():
    """At each temperature the radiator behind hotter oil sheds less."""
    cold, hot = (
        heat_shed(project, [one for one in asked_cases(project) if one.case.id == "case-1"])[0]
        for project in (pack_with(replace(OIL, tube_inlet_degc=inlet)) for inlet in (90.0, 140.0))
    )
    assert cold.corner_degc[0] == hot.corner_degc[0]
    assert hot.corner_heat_w[0] < cold.corner_heat_w[0]
    assert hot.steady_degc > cold.steady_degc
