"""Which description a core rests on, and that a pack answers with it what it should."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.assess.core_construction import Ground, core_ground
from grillestack.assess.result import Verdict
from grillestack.model import edits
from grillestack.model.core_description import Construction, CoreType, InnerFin, RatingPoint, TablePoint
from grillestack.model.parts import CoreRole, TubeDirection
from grillestack.physics.air_side import FINS_ALONE
from grillestack.physics.core_alone import heat_alone_w
from grillestack.physics.layout import LayerDuty
from grillestack.physics.rating import fitted_loss_pa
from tests.assess import packs
from tests.assess.measured import bench, core_of, described, rating_of, table_of, with_description

IDLE = packs.warm_day(id="case-2", name="Idle", road_speed_m_s=0.0, heat_frac=0.2, coolant_frac=0.4, charge_frac=0.1)
PACK = packs.half_height_pack(packs.warm_day(), IDLE)
RADIATOR, CAC = core_of(PACK, packs.RADIATOR), core_of(PACK, packs.CAC)
RAD_TABLE, CAC_TABLE = table_of(RADIATOR, 60.0, 1.7), table_of(CAC, 140.0, 0.16)
AT_RATING = (6.0, 30.0, 100.0, 2.0)


def _assert_same_figures(described_pack, base, *, rel=5e-3, degrees=0.2):
    """All figures of the verdict: temperatures within 0.2 K, all others within 0.5 %."""
    for mine, theirs in zip(assess(described_pack).cases, assess(base).cases, strict=True):
        assert mine.verdict is theirs.verdict
        for field in dataclasses.fields(mine):
            one, other = getattr(mine, field.name), getattr(theirs, field.name)
            if isinstance(other, float):
                close = {"abs": degrees} if field.name.endswith("_degc") else {"rel": rel, "abs": 1e-6}
                assert one == pytest.approx(other, **close), field.name
        for core, like in zip(mine.cores, theirs.cores, strict=True):
            assert core.heat_w == pytest.approx(like.heat_w, rel=rel)
            assert core.tube_out_degc == pytest.approx(like.tube_out_degc, abs=degrees)


def test_a_table_made_of_the_radiator_gives_the_pack_of_the_radiator():
    _assert_same_figures(with_description(PACK, packs.RADIATOR, table=RAD_TABLE), PACK)


def test_a_table_made_of_the_charge_air_cooler_gives_the_pack_of_the_cooler():
    _assert_same_figures(with_description(PACK, packs.CAC, table=CAC_TABLE), PACK)


def test_a_table_of_other_fins_gives_the_pack_of_those_fins():
    """Measured on closer, finer-louvred fins than the type's (a fifth less resistance, half as much air loss again); the core
    that carries the table says its type alone."""
    fine = Construction(
        tube_pitch_mm=9.8, tube_thickness_mm=1.9, tube_depth_mm=36.0, tube_wall_mm=0.3, fin_height_mm=7.9, fin_pitch_mm=1.15,
        fin_thickness_mm=0.07, louvre_pitch_mm=1.0, louvre_length_mm=6.8, louvre_angle_deg=24.0,
    )  # fmt: skip
    true = described(RADIATOR, construction=fine)
    closer = with_description(PACK, packs.RADIATOR, construction=fine)
    assert assess(closer).cases[0].heat_capacity_w > 1.01 * assess(PACK).cases[0].heat_capacity_w
    _assert_same_figures(with_description(PACK, packs.RADIATOR, table=table_of(true, 60.0, 1.7)), closer)


def test_a_table_of_a_cooler_with_other_fins_gives_the_pack_of_that_cooler():
    coarse = Construction(
        tube_pitch_mm=17.0, tube_thickness_mm=7.5, tube_depth_mm=64.0, tube_wall_mm=0.5, fin_height_mm=9.5, fin_pitch_mm=4.0,
        fin_thickness_mm=0.15, louvre_pitch_mm=2.4, louvre_length_mm=7.0, louvre_angle_deg=20.0,
        inner_fin=InnerFin(spacing_mm=1.9, height_mm=6.3, thickness_mm=0.12, strip_length_mm=3.2),
    )  # fmt: skip
    true = described(CAC, construction=coarse)
    wider = with_description(PACK, packs.CAC, construction=coarse)
    assert assess(wider).cases[0].charge_out_degc > assess(PACK).cases[0].charge_out_degc + 1.0
    _assert_same_figures(with_description(PACK, packs.CAC, table=table_of(true, 140.0, 0.16)), wider)


def test_tables_of_both_at_other_tube_flows_give_the_same_pack():
    both = with_description(PACK, packs.RADIATOR, table=table_of(RADIATOR, 75.0, 0.9))
    both = with_description(both, packs.CAC, table=table_of(CAC, 110.0, 0.09))
    _assert_same_figures(both, PACK)


def test_two_lines_of_a_table_are_enough_and_their_order_does_not_matter():
    two = table_of(RADIATOR, 60.0, 1.7, velocities_m_s=(3.0, 6.0))
    turned = replace(two, points=two.points[::-1])
    _assert_same_figures(with_description(PACK, packs.RADIATOR, table=turned), PACK)


def test_a_table_of_a_tilted_core_of_two_passes_is_that_core():
    leaning = replace(
        RADIATOR, passes=2, tubes=TubeDirection.DOWN_FLOW, placement=replace(RADIATOR.placement, tilt_deg=12.0)
    )
    base = edits.replace_part(PACK, leaning)
    _assert_same_figures(with_description(base, packs.RADIATOR, table=table_of(leaning, 60.0, 1.7)), base)


def test_a_better_table_makes_a_better_pack_and_a_worse_one_a_worse():
    plain = assess(PACK).cases[0].heat_capacity_w
    for factor in (0.92, 1.06):
        table = table_of(RADIATOR, 60.0, 1.7, heat_factor=factor)
        heat = assess(with_description(PACK, packs.RADIATOR, table=table)).cases[0].heat_capacity_w
        assert (heat > plain) == (factor > 1.0)
        assert heat == pytest.approx(factor * plain, rel=0.06)


def test_a_line_of_the_table_is_given_back_by_the_core_alone():
    table = replace(
        RAD_TABLE,
        points=tuple(
            replace(p, heat_w=p.heat_w * f)
            for p, f in zip(RAD_TABLE.points, (0.95, 0.97, 1.0, 1.01, 1.02), strict=True)
        ),
    )
    alone = core_ground(described(RADIATOR, table=table)).alone
    velocity = [point.face_velocity_m_s for point in table.points]
    heats = heat_alone_w(alone, bench(velocity, 25.0, 85.0, 1.7))
    assert heats == pytest.approx([point.heat_w for point in table.points], rel=1e-8)
    for point in table.points:
        assert fitted_loss_pa(alone.loss, point.face_velocity_m_s, 1.1839) == pytest.approx(point.air_loss_pa, rel=1e-3)


@pytest.mark.parametrize("core", [RADIATOR, CAC], ids=["radiator", "charge-air cooler"])
def test_a_rating_of_the_core_itself_has_a_factor_of_one(core):
    rating = rating_of(core, *AT_RATING) if core is RADIATOR else rating_of(core, 6.0, 30.0, 170.0, 0.16)
    ground = core_ground(described(core, rating=rating))
    assert ground.alone.air_side.conductance_factor == pytest.approx(1.0, abs=1e-6)
    assert (ground.ground, ground.below) == (Ground.RATING, Ground.TYPE)
    assert ground.problem is None


def test_a_rating_ten_percent_higher_raises_the_heat_of_the_pack_by_less():
    rating = rating_of(RADIATOR, *AT_RATING, heat_factor=1.1)
    for plain, rated in zip(
        assess(PACK).cases, assess(with_description(PACK, packs.RADIATOR, rating=rating)).cases, strict=True
    ):
        assert 1.0 < rated.heat_capacity_w / plain.heat_capacity_w < 1.1
        assert rated.limiting_ambient_degc > plain.limiting_ambient_degc


def test_a_rated_air_loss_moves_the_air_of_the_pack():
    plain = assess(PACK).cases[0].air_kg_s
    same = with_description(PACK, packs.RADIATOR, rating=rating_of(RADIATOR, *AT_RATING, loss_factor=1.0))
    tight = with_description(PACK, packs.RADIATOR, rating=rating_of(RADIATOR, *AT_RATING, loss_factor=1.6))
    assert assess(same).cases[0].air_kg_s == pytest.approx(plain, rel=1e-6)
    assert assess(tight).cases[0].air_kg_s < 0.97 * plain


def test_the_best_description_wins():
    built = Construction(
        tube_pitch_mm=9.8, tube_thickness_mm=1.9, tube_depth_mm=36.0, tube_wall_mm=0.3, fin_height_mm=7.9, fin_pitch_mm=1.3,
        fin_thickness_mm=0.08, louvre_pitch_mm=1.2, louvre_length_mm=6.8, louvre_angle_deg=27.0,
    )  # fmt: skip
    rating = rating_of(RADIATOR, *AT_RATING)
    grounds = [
        core_ground(described(RADIATOR, **given))
        for given in (
            {},
            {"construction": built},
            {"rating": rating},
            {"rating": rating, "construction": built},
            {"rating": rating, "construction": built, "table": RAD_TABLE},
        )
    ]
    assert [one.ground for one in grounds] == [
        Ground.TYPE,
        Ground.CONSTRUCTION,
        Ground.RATING,
        Ground.RATING,
        Ground.TABLE,
    ]
    assert [one.below for one in grounds] == [
        Ground.TYPE,
        *[Ground.CONSTRUCTION, Ground.TYPE],
        *[Ground.CONSTRUCTION] * 2,
    ]
    assert any("rating point too" in note for note in grounds[-1].notes)
    # Closer fins give more by themselves, so the same rating asks for less of them.
    assert grounds[3].alone.air_side.conductance_factor < grounds[2].alone.air_side.conductance_factor


def test_a_core_is_calibrated_once_for_each_size_and_description():
    core = described(RADIATOR, table=RAD_TABLE)
    moved = replace(core, placement=replace(core.placement, x_mm=500.0), name="Another")
    assert core_ground(moved) is core_ground(core)
    assert core_ground(replace(core, core_width_mm=690.0)) is not core_ground(core)


def _cooler(role: CoreRole, core_type: CoreType):
    return replace(packs.core(role, core_type, 300.0, 200.0, 36.0), id="cooler", name="Oil cooler")


def test_a_further_cooler_uses_the_air_loss_alone_and_says_so():
    cooler = _cooler(CoreRole.COOLER, CoreType.PLATE_OIL_COOLER)
    rating = RatingPoint(
        heat_w=9_000.0, face_velocity_m_s=6.0, air_inlet_degc=30.0, tube_inlet_degc=110.0, tube_flow_kg_s=0.3,
        air_loss_pa=1.3 * fitted_loss_pa(core_ground(cooler).alone.loss, 6.0, 1.1643),
    )  # fmt: skip
    ground = core_ground(described(cooler, rating=rating))
    assert ground.alone.air_side is FINS_ALONE
    assert ground.alone.loss.a_pa_s_per_m == pytest.approx(1.3 * core_ground(cooler).alone.loss.a_pa_s_per_m, rel=1e-3)
    assert ground.ground is Ground.RATING
    assert any("is typed" in note for note in ground.notes)
    without_loss = core_ground(described(cooler, rating=replace(rating, air_loss_pa=None)))
    assert without_loss.ground is Ground.TYPE
    table = core_ground(described(cooler, table=RAD_TABLE))
    assert table.alone.air_side is FINS_ALONE
    assert table.table_range_m_s is None
    assert table.ground is Ground.TABLE


def test_a_condenser_is_rated_by_its_condensing_temperature_whatever_its_flow():
    condenser = packs.condenser()
    rating = rating_of(condenser, 4.0, 35.0, 60.0, 0.05, heat_factor=1.1)
    ground = core_ground(described(condenser, rating=rating))
    assert ground.alone.duty is LayerDuty.GIVEN_HEAT
    assert ground.alone.air_side.conductance_factor > 1.1
    other_flow = core_ground(described(condenser, rating=replace(rating, tube_flow_kg_s=5.0)))
    assert other_flow.alone.air_side == ground.alone.air_side

    def condensing_degc(**better):
        pack = packs.behind(packs.with_part(packs.project(packs.warm_day(air_conditioning_on=True)), condenser, 90.0))
        return assess(with_description(pack, packs.CONDENSER, **better)).cases[0].condensing_degc

    assert condensing_degc(rating=rating) < condensing_degc() - 0.3
    assert condensing_degc(table=table_of(condenser, 25.0, 0.05)) == pytest.approx(condensing_degc(), abs=0.01)


def test_one_wall_temperature_needs_no_rows_in_depth():
    """All rows at one temperature: the whole conductance counts, e = 1 − exp(−UA/C), as for one row [SS2003]."""
    two_rows = Construction(
        tube_pitch_mm=8.4, tube_thickness_mm=1.8, tube_depth_mm=16.0, tube_rows=2, tube_wall_mm=0.3, fin_height_mm=6.6,
        fin_pitch_mm=1.3, fin_thickness_mm=0.08, louvre_pitch_mm=1.1, louvre_length_mm=5.6, louvre_angle_deg=27.0,
    )  # fmt: skip
    one_row = packs.condenser()
    two = replace(one_row, depth_mm=32.0, description=replace(one_row.description, construction=two_rows))
    assert core_ground(two).alone.sub_rows == 1

    def condensing_degc(condenser):
        pack = packs.behind(packs.with_part(packs.project(packs.warm_day(air_conditioning_on=True)), condenser, 70.0))
        return assess(pack).cases[0].condensing_degc

    # Twice the rows have nearly twice the conductance: the wall comes nearer to the air, never further away.
    assert condensing_degc(two) < condensing_degc(one_row) - 1.0


UNBELIEVABLE = {
    "twice": (packs.RADIATOR, {"table": replace(RAD_TABLE, points=(*RAD_TABLE.points, RAD_TABLE.points[0]))}, "two lines at 2 m/s"),
    "no more heat": (
        packs.RADIATOR,
        {"table": replace(RAD_TABLE, points=(RAD_TABLE.points[1], replace(RAD_TABLE.points[2], heat_w=RAD_TABLE.points[1].heat_w)))},
        "line at 5 m/s gives no more heat than the one at 3.5 m/s",
    ),
    "more than the air": (
        packs.CAC,
        {"table": replace(CAC_TABLE, points=tuple(replace(p, heat_w=3.0 * p.heat_w) for p in CAC_TABLE.points))},
        "its air and its tube flow can exchange",
    ),
    "rating in another unit": (packs.RADIATOR, {"rating": replace(rating_of(RADIATOR, *AT_RATING), heat_w=3_412.0)}, "0.3 to 3 is believable"),
    "rating turned round": (
        packs.RADIATOR,
        {"rating": replace(rating_of(RADIATOR, *AT_RATING), air_inlet_degc=100.0, tube_inlet_degc=30.0)},
        "tubes must be hotter than the air",
    ),
    "rated loss": (packs.CAC, {"rating": replace(rating_of(CAC, 6.0, 30.0, 170.0, 0.16), air_loss_pa=2.0)}, "check the units"),
}  # fmt: skip


@pytest.mark.parametrize(("role", "better", "words"), UNBELIEVABLE.values(), ids=UNBELIEVABLE)
def test_what_cannot_be_believed_leaves_the_pack_open_and_names_core_line_and_remedy(role, better, words):
    assessment = assess(with_description(PACK, role, **better))
    assert assessment.verdict is Verdict.UNKNOWN
    (said,) = {reason for case in assessment.cases for reason in case.reasons}
    assert said.startswith(f"“{core_of(PACK, role).name}” cannot be computed: ")
    assert words in said
    assert any(word in said for word in ("check", "correct", "keep"))
    assert all(case.heat_capacity_w is None for case in assessment.cases)
    assert sum(remark.text == said for remark in assessment.remarks) == 1


def test_a_table_without_air_losses_keeps_those_of_the_fins_and_says_so():
    blind = replace(RAD_TABLE, points=tuple(replace(point, air_loss_pa=0.0) for point in RAD_TABLE.points))
    ground = core_ground(described(RADIATOR, table=blind))
    assert ground.alone.loss == core_ground(RADIATOR).alone.loss
    assert any("without air losses" in note for note in ground.notes)


def test_crooked_air_losses_are_said_with_the_largest_distance():
    crooked = replace(
        RAD_TABLE,
        points=tuple(
            replace(p, air_loss_pa=p.air_loss_pa * f)
            for p, f in zip(RAD_TABLE.points, (1.2, 0.9, 1.1, 0.9, 1.0), strict=True)
        ),
    )
    ground = core_ground(described(RADIATOR, table=crooked))
    off = ground.alone.loss.max_error_frac
    assert 0.08 < off < 0.25
    assert any(f"{100 * off:.0f} % off" in note for note in ground.notes)


def test_table_lines_are_quoted_at_their_own_air():
    assert core_ground(described(RADIATOR, table=RAD_TABLE)).table_range_m_s == pytest.approx((2.0, 10.0))
    assert core_ground(RADIATOR).table_range_m_s is None


def test_points_of_a_table_may_be_many():
    many = tuple(TablePoint(face_velocity_m_s=float(v), heat_w=float(q), air_loss_pa=20.0 * v) for v, q in zip(
        np.linspace(1.0, 12.0, 100),
        heat_alone_w(core_ground(RADIATOR).alone, bench(np.linspace(1.0, 12.0, 100), 25.0, 85.0, 1.7)),
        strict=True,
    ))  # fmt: skip
    ground = core_ground(described(RADIATOR, table=replace(RAD_TABLE, points=many)))
    assert ground.alone.air_side.resistance_factor == pytest.approx([1.0] * 100, abs=1e-7)
