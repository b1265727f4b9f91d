"""Weights, what fills the parts, the centre of gravity and the seals, by hand."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI
from msgspec.structs import replace

from grillestack.geometry.depth import depth_report
from grillestack.model.core_description import Construction, CoreDescription, CoreType
from grillestack.model.engine import Environment, Seal
from grillestack.model.parts import CoreRole, Fan, Placement
from grillestack.model.project import Project
from grillestack.sheets.seals import seal_strips
from grillestack.sheets.weights import pack_weight
from tests.geometry.packs import a_core, a_fan

TUBES = Construction(
    tube_pitch_mm=10.0,
    tube_thickness_mm=2.0,
    tube_depth_mm=40.0,
    tube_wall_mm=0.3,
    fin_height_mm=8.0,
    fin_pitch_mm=1.4,
    fin_thickness_mm=0.08,
    louvre_pitch_mm=1.1,
    louvre_length_mm=6.5,
    louvre_angle_deg=27.0,
)
# Half water, half glycol by volume, which is 52.6 % glycol by mass; CoolProp is the judge of its density.
COOLANT_KG_M3 = PropsSI("D", "T", 293.15, "P", 101_325, "INCOMP::MEG[0.526]")


def a_radiator(**more):
    description = CoreDescription(core_type=CoreType.ALUMINIUM_ONE_ROW, construction=TUBES)
    return replace(a_core("radiator-1", (600.0, 400.0), tank_mm=50.0), description=description, weight_kg=6.0, **more)


def test_a_radiator_holds_what_its_clear_tubes_and_tanks_hold():
    """By hand: 400 / 10 = 40 tubes of 1.4 × 39.4 mm clear, 600 long; two tanks of 50 × 400 × 40 mm, three quarters full."""
    tubes_m3 = 40 * 1.4e-3 * 39.4e-3 * 0.6
    tanks_m3 = 0.75 * 2 * 50e-3 * 400e-3 * 40e-3
    (one,) = pack_weight(Project(parts=(a_radiator(),))).parts
    assert one.fluid_kg == pytest.approx((tubes_m3 + tanks_m3) * COOLANT_KG_M3, rel=0.01)
    assert one.wet_kg == pytest.approx(6.0 + one.fluid_kg)
    assert one.dry_basis == "given"


def test_a_charge_air_cooler_and_a_condenser_weigh_wet_what_they_weigh_dry():
    parts = tuple(
        replace(a_core(f"core-{n}", role=role), weight_kg=3.0)
        for n, role in enumerate((CoreRole.CHARGE_AIR_COOLER, CoreRole.CONDENSER))
    )
    weight = pack_weight(Project(parts=parts))
    assert [one.wet_kg for one in weight.parts] == [3.0, 3.0]
    assert "not counted" in weight.parts[1].fluid_words


def test_a_core_without_a_weight_is_estimated_and_says_so():
    # 450 kg/m³ of finned core, from memory, times 0.6 × 0.4 × 0.04 m = 4.32 kg
    (one,) = pack_weight(Project(parts=(a_core(role=CoreRole.CHARGE_AIR_COOLER),))).parts
    assert one.dry_kg == pytest.approx(4.32)
    assert one.dry_basis == "estimated"


def test_a_fan_without_a_weight_is_not_known_and_left_out_of_the_sum():
    weight = pack_weight(Project(parts=(a_core(role=CoreRole.CHARGE_AIR_COOLER), a_fan())))
    assert [part.id for part in weight.unknown] == ["fan"]
    assert weight.wet_kg == pytest.approx(4.32)


def test_the_centre_of_gravity_of_two_equal_fans_lies_midway():
    fans = tuple(
        Fan(
            id=f"fan-{n}",
            name="Fan",
            depth_mm=60.0,
            ring_diameter_mm=300.0,
            weight_kg=2.0,
            placement=Placement(x_mm=100.0 * n, y_mm=-200.0 * n, z_mm=500.0),
        )
        for n in range(2)
    )
    weight = pack_weight(Project(parts=fans))
    assert (weight.x_mm, weight.y_mm, weight.z_mm) == pytest.approx((80.0, -100.0, 500.0))


def test_an_empty_pack_weighs_nothing_and_acts_nowhere():
    weight = pack_weight(Project())
    assert (weight.wet_kg, weight.x_mm) == (0.0, None)


def test_seals_run_along_the_edges_and_around_each_gap():
    """By hand: cores of 700 × 400 and 700 × 300 overall, one behind the other with 10 mm between."""
    front = a_core("cac-1", (600.0, 300.0), (50.0, 0.0, 0.0), tank_mm=50.0, role=CoreRole.CHARGE_AIR_COOLER)
    project = Project(
        parts=(front, a_core("radiator-1", (600.0, 400.0), (100.0, 0.0, 0.0), tank_mm=50.0)),
        environment=Environment(seal=Seal.SEALED, seal_top=Seal.OPEN),
    )
    strips = seal_strips(project, depth_report(project))
    by_where = {strip.where: strip for strip in strips}
    assert by_where["Pack to nose, top edge"].length_mm == 700.0
    assert by_where["Pack to nose, left edge"].length_mm == 400.0
    assert by_where["Pack to nose, top edge"].remark == "open in the layout"
    around = by_where["Between CAC and RAD, all round"]
    assert (around.length_mm, around.gap_mm) == (2 * (700.0 + 300.0), pytest.approx(10.0))
    assert seal_strips(Project(), depth_report(Project())) == ()
