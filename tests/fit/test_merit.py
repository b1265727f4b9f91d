"""Which parts are worth assessing: the usual aim of practice, and the same short list for any order."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.fit.merit import merit_of, short_list
from grillestack.fit.slots import Kind
from grillestack.model.parts import Placement
from tests.fit.packs import a_cooler, failing
from tests.geometry.packs import a_fan, a_shroud

# The radiator's core there is 700 × 480 around (0, 700).
FACE_MM2 = 700 * 480


def test_a_cooler_of_half_the_radiator_lacks_only_what_its_tanks_cover():
    part = replace(a_cooler("half", 700.0, 240.0), placement=Placement(z_mm=600.0))
    assert merit_of(failing(), Kind.CHARGE_AIR_COOLER, part) == pytest.approx(0.0)
    within = replace(a_cooler("half", 600.0, 280.0), placement=Placement(z_mm=600.0))
    assert merit_of(failing(), Kind.CHARGE_AIR_COOLER, within) == pytest.approx(2 * 50 * 280 / FACE_MM2)


def test_a_condenser_lacks_what_it_is_smaller_than_the_radiator_and_an_oil_cooler_what_it_covers():
    part = replace(a_cooler("any", 700.0, 120.0), placement=Placement(z_mm=2000.0))
    assert merit_of(failing(), Kind.CONDENSER, part) == pytest.approx(0.75)
    assert merit_of(failing(), Kind.COOLER, part) == pytest.approx(0.25)


def test_the_largest_radiator_the_strongest_fan_and_the_closest_shroud_come_first():
    project = failing()
    small, large = a_cooler("a", 500.0, 400.0), a_cooler("b", 600.0, 500.0)
    assert merit_of(project, Kind.RADIATOR, large) < merit_of(project, Kind.RADIATOR, small)
    weak, strong = (
        replace(a_fan(), free_flow_m3_s=flow, rated_voltage_v=12.0, running_current_a=10.0) for flow in (0.5, 1.0)
    )
    assert (
        merit_of(project, Kind.FAN, strong) < merit_of(project, Kind.FAN, weak) < merit_of(project, Kind.FAN, a_fan())
    )
    near, far = a_shroud(size_mm=(700.0, 480.0)), a_shroud(size_mm=(760.0, 520.0))
    assert merit_of(project, Kind.SHROUD, near) == 0.0 < merit_of(project, Kind.SHROUD, far)


def test_the_short_list_is_the_same_for_any_order():
    merits = [(0.3, "c"), (0.1, "b"), (0.1, "a"), (0.2, "d")]
    assert [merits[k][1] for k in short_list(merits, 3)] == ["a", "b", "d"]
    backward = merits[::-1]
    assert [backward[k][1] for k in short_list(backward, 3)] == ["a", "b", "d"]
