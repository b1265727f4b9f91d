"""What is said of the ground a core's figures stand on."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import grillestack.physics
from grillestack.assess.core_basis import core_basis
from grillestack.model.core_description import CoreType
from grillestack.model.parts import CoreRole
from tests.assess import packs
from tests.assess.measured import described, rating_of, table_of

LISTED = set(
    re.findall(
        r"\*\*\[(\w+)\]\*\*", (Path(grillestack.physics.__file__).parent / "SOURCES.md").read_text(encoding="utf-8")
    )
)
RADIATOR, CAC, CONDENSER = packs.radiator(), packs.charge_air_cooler(), packs.condenser()
COOLER = packs.core(CoreRole.COOLER, CoreType.PLATE_OIL_COOLER, 300.0, 200.0, 36.0)
CORES = {
    "type": RADIATOR,
    "rated": described(RADIATOR, rating=rating_of(RADIATOR, 6.0, 30.0, 100.0, 2.0, heat_factor=1.05, loss_factor=1.1)),
    "table": described(RADIATOR, table=table_of(RADIATOR, 60.0, 1.0)),
    "charge air by table": described(CAC, table=table_of(CAC, 140.0, 0.16)),
    "condenser by rating": described(CONDENSER, rating=rating_of(CONDENSER, 4.0, 35.0, 60.0, 0.05)),
    "condenser by table": described(CONDENSER, table=table_of(CONDENSER, 25.0, 0.05)),
    "cooler by rating": described(COOLER, rating=rating_of(RADIATOR, 6.0, 30.0, 100.0, 2.0, loss_factor=1.0)),
    "cooler by table": described(COOLER, table=table_of(RADIATOR, 60.0, 1.0)),
}


@pytest.mark.parametrize("core", CORES.values(), ids=CORES)
def test_method_sources_inputs_and_spread_are_said(core):
    basis = core_basis(core)
    assert core.name in basis.figure
    assert basis.method
    assert set(basis.source.split(", ")) <= LISTED
    assert "core width and height" in basis.inputs
    if core.role is CoreRole.COOLER:
        assert basis.spread.startswith("heat as typed; ")
    else:
        assert re.match(r"heat -\d+/\+\d+ % from P5 to P95 \(", basis.spread)
    assert "air loss" in basis.spread


def test_what_is_assumed_of_table_and_rating_is_said():
    table = core_basis(CORES["table"]).method
    assert "a measured table from 2 to 10 m/s" in table
    assert "air entering at 25 °C and 101.3 kPa, half and half coolant, air loss of unheated air" in table
    assert "coolant" not in core_basis(CORES["charge air by table"]).method
    rated = core_basis(CORES["rated"]).method
    assert re.search(r"conductance times 1\.\d+ to meet one rating point", rated)
    assert "air at 101.3 kPa, half and half coolant, air loss of unheated air at its inlet temperature" in rated


def test_a_condenser_s_and_a_cooler_s_flow_and_heat_are_said_not_to_be_looked_at():
    assert "condensing temperature, its tube flow is not looked at" in core_basis(CORES["condenser by rating"]).method
    assert "tube flow not looked at" in core_basis(CORES["condenser by table"]).method
    for name in ("cooler by rating", "cooler by table"):
        assert "for the air loss alone" in core_basis(CORES[name]).method


def test_the_spread_follows_the_description():
    assert "-5/+5 %" in core_basis(CORES["table"]).spread
    assert "-19/+11 %" in core_basis(CORES["rated"]).spread
    assert "-21/+15 %" in core_basis(CORES["type"]).spread
