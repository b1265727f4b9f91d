"""What cannot be so is said at its field."""

from __future__ import annotations

from dataclasses import replace

import pytest

from grillestack.app.tape.faults import MISSING, faults
from grillestack.app.tape.taped import Taped, TapedMount, TapedPort
from grillestack.units.display import UnitSystem
from tests.app.tape.test_taped import MEASURED


def found(taped, units=UnitSystem.METRIC):
    return faults(taped, units)


def test_a_part_measured_whole_has_no_faults():
    assert found(MEASURED) == {}


def test_an_empty_form_misses_the_five_sizes_and_nothing_else():
    assert set(found(Taped())) == {
        "core_width_mm",
        "core_height_mm",
        "depth_mm",
        "overall_width_mm",
        "overall_height_mm",
    }


@pytest.mark.parametrize("key", ["core_width_mm", "depth_mm", "tank_depth_mm", "weight_kg"])
@pytest.mark.parametrize("value", [0.0, -3.0])
def test_a_size_of_nothing_or_less_is_refused(key, value):
    assert "must be above 0" in found(replace(MEASURED, **{key: value}))[key]


def test_a_whole_smaller_than_its_core_says_both_sizes_in_the_units_shown():
    small = replace(MEASURED, overall_width_mm=508.0)
    assert "508 mm, less than the core's 600 mm" in found(small)["overall_width_mm"]
    # 508 mm are 20 in, 600 mm are 23 5/8 in to the nearest sixteenth
    assert "20 in, less than the core's 23 5/8 in" in found(small, UnitSystem.INCH)["overall_width_mm"]
    assert found(replace(MEASURED, overall_width_mm=599.6, core_right_mm=None)) == {}


def test_a_core_that_would_lie_outside_says_how_much_room_there_is():
    said = found(replace(MEASURED, core_right_mm=150))["core_right_mm"]
    assert "there are 120 mm in all" in said
    assert "core_low_mm" in found(replace(MEASURED, core_low_mm=-5))


def test_each_port_and_mount_says_its_own():
    whole = replace(
        MEASURED,
        ports=(TapedPort(across_mm=10, along_mm=10, bore_mm=38), TapedPort(across_mm=900, along_mm=10)),
        mounts=(TapedMount(across_mm=0, along_mm=0, hole_mm=0),),
    )
    said = found(whole)
    assert set(said) == {"ports.1.across_mm", "ports.1.bore_mm", "mounts.0.hole_mm"}
    assert "720 mm away: check the corner" in said["ports.1.across_mm"]
    assert said["ports.1.bore_mm"] == MISSING["bore_mm"]
