"""The invented parts of the catalogue against facts of the trade and of nature: a part nobody could build must not be in it.

Sources stand beside each check. Most are common practice without a source; two are laws, one is a standard's list.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from grillestack.model.core_description import CoreType
from grillestack.model.parts import Core, CoreRole, Fan, PortPurpose, SolidKind, TubeDirection
from grillestack.storage.catalogue import bundled_parts

PARTS = bundled_parts()
CORES = tuple(part for part in PARTS if isinstance(part, Core))
FANS = tuple(part for part in PARTS if isinstance(part, Fan))
RADIATORS, CHARGE, CONDENSERS = (
    tuple(core for core in CORES if core.role is role)
    for role in (CoreRole.RADIATOR, CoreRole.CHARGE_AIR_COOLER, CoreRole.CONDENSER)
)

# ISO 8820-3 blade fuses, rated currents in A; from memory.
BLADE_FUSES_A = (1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40)

# Outside diameters of spigots for which hoses are sold in any shop, in mm. Common practice, no source.
COOLANT_HOSES_MM = (32, 35, 38, 42, 45, 50)
CHARGE_HOSES_MM = (51, 54, 57, 60, 63, 70, 76, 80)


def _ids(part):
    return part.id


def _tank_breadths_mm(core):
    tanks = [solid.rect for solid in core.solids if solid.kind is SolidKind.TANK]
    return [rect.width_mm if core.tubes is TubeDirection.CROSS_FLOW else rect.height_mm for rect in tanks]


def _plate_breadths_mm(core):
    plates = [solid.rect for solid in core.solids if solid.kind is SolidKind.SIDE_PLATE]
    return [rect.height_mm if core.tubes is TubeDirection.CROSS_FLOW else rect.width_mm for rect in plates]


@pytest.mark.parametrize("core", [*RADIATORS, *CHARGE], ids=_ids)
def test_tanks_add_50_to_65_mm_at_each_end(core):
    # Common practice, from memory.
    assert all(50 <= breadth <= 65 for breadth in _tank_breadths_mm(core))


@pytest.mark.parametrize("core", CORES, ids=_ids)
def test_side_plates_are_a_folded_strip(core):
    # Common practice, no source: 6 to 25 mm.
    assert all(6 <= breadth <= 25 for breadth in _plate_breadths_mm(core))


@pytest.mark.parametrize("core", RADIATORS, ids=_ids)
def test_radiators_have_the_face_of_a_car_or_a_light_truck(core):
    # Common practice, no source: 0.18 to 0.40 m².
    assert 0.18 <= core.core_width_mm * core.core_height_mm * 1e-6 <= 0.40


@pytest.mark.parametrize("core", RADIATORS, ids=_ids)
def test_radiators_are_as_deep_as_their_rows_ask(core):
    # Common practice, no source.
    deep_mm = {
        CoreType.ALUMINIUM_ONE_ROW: (16, 36),
        CoreType.ALUMINIUM_TWO_ROW: (48, 56),
        CoreType.COPPER_BRASS: (30, 75),
    }[core.description.core_type]
    assert deep_mm[0] <= core.depth_mm <= deep_mm[1]


@pytest.mark.parametrize("core", CHARGE, ids=_ids)
def test_charge_air_coolers_are_universal_sizes(core):
    # Common practice, no source.
    assert 300 <= core.core_width_mm <= 660
    assert 130 <= core.core_height_mm <= 450
    assert 50 <= core.depth_mm <= 76
    assert all(50 <= port.bore_mm <= 76 for port in core.ports)


@pytest.mark.parametrize("core", CONDENSERS, ids=_ids)
def test_condensers_are_thin_and_their_liquid_line_is_the_thinner_one(core):
    # Common practice, no source; a liquid takes less room than the gas it came from.
    assert 12 <= core.depth_mm <= 20
    bore = {port.purpose: port.bore_mm for port in core.ports}
    assert bore[PortPurpose.OUTLET] < bore[PortPurpose.INLET]


@pytest.mark.parametrize("core", RADIATORS, ids=_ids)
def test_coolant_spigots_fit_hoses_one_can_buy(core):
    spigots = [port for port in core.ports if port.purpose in (PortPurpose.INLET, PortPurpose.OUTLET)]
    for port in spigots:
        assert port.bore_mm + 3 in COOLANT_HOSES_MM
        assert f"{port.bore_mm + 3:g} mm" in port.fitting_text


@pytest.mark.parametrize("core", CHARGE, ids=_ids)
def test_charge_spigots_fit_hoses_one_can_buy_and_carry_a_bead(core):
    for port in core.ports:
        assert port.bore_mm + 3 in CHARGE_HOSES_MM
        assert "bead" in port.fitting_text


@pytest.mark.parametrize("core", [c for c in CORES if c.description.construction], ids=_ids)
def test_fins_are_as_close_as_the_trade_makes_them(core):
    # Common practice, from memory: 8 to 10 per inch in mud, 14 to 20 on the road; 11 to 12 lies between.
    assert 8 <= 25.4 / core.description.construction.fin_pitch_mm <= 20.2


@pytest.mark.parametrize("core", CORES, ids=_ids)
def test_a_core_weighs_less_than_metal_filling_a_third_of_its_room_and_more_than_a_fiftieth(core):
    # Density of metals: any handbook (aluminium 2.7, copper and brass 8.5 to 8.9 kg/dm³). The shares are common practice, no source.
    density_kg_m3 = 8700.0 if core.description.core_type is CoreType.COPPER_BRASS else 2700.0
    room_m3 = core.overall.width_mm * core.overall.height_mm * core.depth_mm * 1e-9
    assert 1 / 50 < core.weight_kg / (density_kg_m3 * room_m3) < 1 / 3


@pytest.mark.parametrize("fan", FANS, ids=_ids)
def test_a_fan_gives_the_air_less_power_than_its_wires_bring(fan):
    # Conservation of energy; small axial fans with brushed motors give 20 to 40 % of it (common practice, no source).
    supplied_w = fan.rated_voltage_v * fan.running_current_a
    best_w = max(point.flow_m3_s * point.pressure_pa for point in fan.curve)
    assert 0.2 < best_w / supplied_w < 0.4


@pytest.mark.parametrize("fan", FANS, ids=_ids)
def test_a_fan_keeps_60_to_75_percent_of_its_flow_against_100_pa_if_it_is_a_large_one(fan):
    # Common practice, from memory: 60 to 70 % for 406 mm. A small fan makes less pressure and keeps less.
    flow, pressure = ([getattr(p, name) for p in reversed(fan.curve)] for name in ("flow_m3_s", "pressure_pa"))
    kept = float(np.interp(100.0, pressure, flow)) / fan.free_flow_m3_s
    if fan.ring_diameter_mm >= 400:
        assert 0.60 <= kept <= 0.75
    else:
        assert 0.35 <= kept <= 0.70


def test_the_406_mm_fan_is_within_what_the_trade_sells():
    # Common practice, from memory: 0.95 to 1.4 m³/s free, 200 to 300 Pa at no flow, 15 to 25 A at 12 V.
    fan = next(fan for fan in FANS if fan.ring_diameter_mm == 406 and fan.rated_voltage_v == 12)
    assert 0.95 <= fan.free_flow_m3_s <= 1.4
    assert 200 <= fan.curve[0].pressure_pa <= 300
    assert 15 <= fan.running_current_a <= 25


@pytest.mark.parametrize("fan", FANS, ids=_ids)
def test_a_fan_blows_no_faster_than_the_fans_of_a_car(fan):
    # Common practice, no source: 6 to 11 m/s over the ring at free flow.
    assert 6 <= fan.free_flow_m3_s / (math.pi / 4 * (fan.ring_diameter_mm / 1000) ** 2) <= 11


@pytest.mark.parametrize("fan", FANS, ids=_ids)
def test_for_every_fan_there_is_a_blade_fuse(fan):
    # 1.25 to 1.5 times the running current (common practice, from memory), rated currents of ISO 8820-3.
    low, high = 1.25 * fan.running_current_a, 1.5 * fan.running_current_a
    assert any(low <= fuse <= high for fuse in BLADE_FUSES_A)


def test_larger_fans_of_one_voltage_move_more_and_draw_more():
    at_12_v = sorted((fan for fan in FANS if fan.rated_voltage_v == 12), key=lambda fan: fan.ring_diameter_mm)
    for name in ("free_flow_m3_s", "running_current_a", "weight_kg", "depth_mm"):
        figures = [getattr(fan, name) for fan in at_12_v]
        assert figures == sorted(figures)
