"""What takes up heat with the coolant."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI
from msgspec.structs import replace

from grillestack.assess.heat_stored import heat_stores
from grillestack.model import edits
from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.engine import EngineSheet
from grillestack.model.project import Project, radiator
from grillestack.physics.typical_cores import TypicalCore, typical_construction
from tests.assess import packs


def _capacities(project: Project) -> list[float]:
    return [store.capacity_j_per_k for store in heat_stores(project)]


def _with_radiator(**changes: object) -> Project:
    pack = packs.half_height_pack()
    return edits.replace_part(pack, replace(radiator(pack), **changes))


def test_an_engine_of_112_kw_stores_what_a_hand_sum_gives():
    coolant, engine, core = _capacities(packs.half_height_pack())
    # 112 kW: 15.68 L at 107.2 °C; half and half of ASHRAE's coolant, by CoolProp at its upper end of 100 °C.
    per_litre = PropsSI("D", "T", 373.0, "P", 3e5, "INCOMP::AEG[0.5]") * PropsSI(
        "C", "T", 373.0, "P", 3e5, "INCOMP::AEG[0.5]"
    )
    assert coolant == pytest.approx(0.01568 * per_litre, rel=0.01)
    # 358.4 kg, 60 % of it at 500 J/(kg·K); 0.7 × 0.46 × 0.036 m³ at 450 kg/m³ and 900 J/(kg·K).
    assert engine == pytest.approx(0.6 * 358.4 * 500.0, rel=1e-12)
    assert core == pytest.approx(0.7 * 0.46 * 0.036 * 450.0 * 900.0, rel=1e-12)


def test_what_the_sheet_and_the_part_say_wins_and_is_no_default():
    sheet = replace(packs.SHEET, coolant_volume_m3=0.02, engine_mass_kg=300.0)
    pack = edits.set_engine(_with_radiator(weight_kg=8.0), sheet)
    coolant, engine, core = _capacities(pack)
    assert coolant / _capacities(packs.half_height_pack())[0] == pytest.approx(20.0 / 15.68, rel=1e-12)
    assert engine == pytest.approx(0.6 * 300.0 * 500.0, rel=1e-12)
    assert core == pytest.approx(8.0 * 900.0, rel=1e-12)
    assert not any("default" in store.source for store in heat_stores(pack))
    assert all("default" in store.source for store in heat_stores(packs.half_height_pack()))


def test_copper_and_brass_store_less_per_kilogram():
    brass = CoreDescription(core_type=CoreType.COPPER_BRASS)
    assert _capacities(_with_radiator(weight_kg=8.0, description=brass))[2] == pytest.approx(8.0 * 385.0, rel=1e-12)


@pytest.mark.parametrize(
    ("core", "core_type", "density"),
    [
        (TypicalCore.ALUMINIUM_36_MM, CoreType.ALUMINIUM_ONE_ROW, 2700.0),
        (TypicalCore.COPPER_BRASS_52_MM, CoreType.COPPER_BRASS, 8700.0),
    ],
)
def test_the_assumed_radiator_weighs_more_than_its_fins_and_tubes_and_less_than_three_times_that(
    core, core_type, density
):
    """Metal of the typical core by hand: tube walls and fin legs over tube pitch and depth; the tanks come on top."""
    c = typical_construction(core)
    tubes = c.tube_rows * 2.0 * (c.tube_depth_m + c.tube_thickness_m) * c.tube_wall_m
    fins = c.fin_height_m / c.fin_pitch_m * c.fin_thickness_m * c.flow_depth_m
    finned_kg_m3 = density * (tubes + fins) / (c.tube_pitch_m * c.flow_depth_m)
    pack = _with_radiator(description=CoreDescription(core_type=core_type))
    heat = {CoreType.ALUMINIUM_ONE_ROW: 900.0, CoreType.COPPER_BRASS: 385.0}[core_type]
    assumed_kg_m3 = _capacities(pack)[2] / heat / (0.7 * 0.46 * 0.036)
    assert finned_kg_m3 < assumed_kg_m3 < 3.0 * finned_kg_m3


def test_without_rated_power_the_size_is_guessed_from_the_heat_to_coolant_and_said_so():
    pack = packs.half_height_pack(sheet=EngineSheet(heat_to_coolant_w=60e3, charge_flow_kg_s=0.16))
    coolant, engine, _ = heat_stores(pack)
    # 60 kW at 0.6 kW of heat for each kW of power: 100 kW.
    assert coolant.name == "14.0 L of coolant"
    assert engine.name == "60 % of an engine of 320 kg"
    assert "guessed from the heat to coolant" in engine.source


def test_without_radiator_or_any_size_of_the_engine_nothing_is_guessed():
    assert heat_stores(packs.project()) is None
    assert heat_stores(packs.half_height_pack(sheet=EngineSheet())) is None
