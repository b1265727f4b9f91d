"""The typical cores as a set."""

from __future__ import annotations

import pytest

from grillestack.physics.louvred_fin import range_notes
from grillestack.physics.typical_cores import TypicalCore, typical_construction

BEYOND_THE_DATA = {
    TypicalCore.COPPER_BRASS_70_MM: ["Core depth"],
    TypicalCore.BAR_AND_PLATE_64_MM: ["Core depth"],
    TypicalCore.TUBE_AND_FIN_62_MM: ["Core depth"],
}


@pytest.mark.parametrize("core", TypicalCore)
def test_depth_in_the_name_is_the_depth_of_the_core(core) -> None:
    depth_mm = float(core.value.rsplit(", ", 1)[1].removesuffix(" mm"))
    assert typical_construction(core).flow_depth_m * 1000.0 == pytest.approx(depth_mm)


@pytest.mark.parametrize("core", TypicalCore)
def test_only_the_deepest_cores_leave_the_data_behind_the_correlation(core) -> None:
    notes = range_notes(typical_construction(core))
    named = BEYOND_THE_DATA.get(core, [])
    assert len(notes) == len(named)
    assert all(note.startswith(name) for note, name in zip(notes, named, strict=True))


def test_only_charge_air_and_plate_oil_coolers_have_inner_fins() -> None:
    finned = {core for core in TypicalCore if typical_construction(core).inner_fin is not None}
    assert finned == {TypicalCore.BAR_AND_PLATE_64_MM, TypicalCore.TUBE_AND_FIN_62_MM, TypicalCore.OIL_PLATE_36_MM}
