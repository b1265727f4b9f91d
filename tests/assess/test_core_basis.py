"""What is said of the ground a core's figures stand on."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from msgspec.structs import replace

import grillestack.physics
from grillestack.assess.core_basis import core_basis
from grillestack.model.core_description import CoreType
from grillestack.model.parts import CoreRole, TubeFluid
from tests.assess import packs
from tests.assess.measured import described, rating_of, table_of

LISTED = set(
    re.findall(
        r"\*\*\[(\w+)\]\*\*", (Path(grillestack.physics.__file__).parent / "SOURCES.md").read_text(encoding="utf-8")
    )
)
RADIATOR, CAC, CONDENSER = packs.radiator(), packs.charge_air_cooler(), packs.condenser()
COOLER = packs.core(CoreRole.COOLER, CoreType.PLATE_OIL_COOLER, 300.0, 200.0, 36.0)
OIL_COOLER = replace(COOLER, tube_fluid=TubeFluid.OIL, tube_inlet_degc=115.0, tube_flow_m3_s=2e-4)
LOW_TEMPERATURE = replace(
    packs.core(CoreRole.COOLER, CoreType.ALUMINIUM_ONE_ROW, 400.0, 250.0, 26.0),
    tube_fluid=TubeFluid.COOLANT,
    tube_inlet_degc=60.0,
    tube_flow_m3_s=2.5e-4,
)
MARCHED = {"oil cooler", "oil cooler by rating", "oil cooler by table", "low-temperature circuit"}
CORES = {
    "type": RADIATOR,
    "rated": described(RADIATOR, rating=rating_of(RADIATOR, 6.0, 30.0, 100.0, 2.0, heat_factor=1.05, loss_factor=1.1)),
    "table": described(RADIATOR, table=table_of(RADIATOR, 60.0, 1.0)),
    "table with its air": described(
        RADIATOR, table=replace(table_of(RADIATOR, 60.0, 1.0, air_degc=40.0), air_inlet_degc=40.0)
    ),
    "charge air by table": described(CAC, table=table_of(CAC, 140.0, 0.16)),
    "condenser by rating": described(CONDENSER, rating=rating_of(CONDENSER, 4.0, 35.0, 60.0, 0.05)),
    "condenser by table": described(CONDENSER, table=table_of(CONDENSER, 25.0, 0.05)),
    "cooler by rating": described(COOLER, rating=rating_of(RADIATOR, 6.0, 30.0, 100.0, 2.0, loss_factor=1.0)),
    "cooler by table": described(COOLER, table=table_of(RADIATOR, 60.0, 1.0)),
    "oil cooler": OIL_COOLER,
    "oil cooler by rating": described(OIL_COOLER, rating=rating_of(OIL_COOLER, 6.0, 30.0, 110.0, 0.15)),
    "oil cooler by table": described(OIL_COOLER, table=table_of(OIL_COOLER, 80.0, 0.15)),
    "low-temperature circuit": LOW_TEMPERATURE,
    "heat typed": replace(COOLER, given_heat_w=4_000.0),
}


@pytest.mark.parametrize("name", CORES)
def test_method_sources_inputs_and_spread_are_said(name):
    core = CORES[name]
    basis = core_basis(core)
    assert core.name in basis.figure
    assert basis.method
    assert set(basis.source.split(", ")) <= LISTED
    assert "core width and height" in basis.inputs
    if name == "heat typed":
        assert basis.spread.startswith("heat as typed; ")
        assert "heat as typed" in basis.method
    elif core.role is CoreRole.COOLER and name not in MARCHED:
        assert basis.spread.startswith("heat not known and counted as none; ")
    else:
        assert re.match(r"heat -\d+/\+\d+ % from P5 to P95 \(", basis.spread)
    assert "air loss" in basis.spread


def test_what_is_assumed_of_table_and_rating_is_said():
    table = core_basis(CORES["table"]).method
    assert "a measured table from 2 to 10 m/s" in table
    assert (
        "air entering at 25 °C (default: air of a test bench, common practice) and 101.3 kPa, half and half coolant, "
        in table
    )
    assert "air loss of unheated air at 25 °C" in table
    told = core_basis(CORES["table with its air"]).method
    assert (
        "air entering at 40 °C (as typed) and 101.3 kPa, half and half coolant, air loss of unheated air at 40 °C"
        in told
    )
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


def test_what_runs_through_a_further_cooler_and_how_it_is_reckoned_is_said():
    oil, water = core_basis(OIL_COOLER), core_basis(LOW_TEMPERATURE)
    assert (
        "a light transmission oil marched along its tubes from the typed inlet temperature at the typed flow"
        in oil.method
    )
    assert "half the film that relations for gases give" in oil.method
    assert {"HH1995", "MB1995", "D341", "CRAGOE"} <= set(oil.source.split(", "))
    assert any("34 mm²/s at 40 °C" in one for one in oil.inputs)
    assert "coolant of the engine's mixture marched along its tubes" in water.method
    assert "strips" not in water.method
    for basis in (oil, water):
        assert "inlet temperature and flow in the tubes (typed)" in basis.inputs
    for name in ("oil cooler by rating", "oil cooler by table"):
        basis = core_basis(CORES[name])
        assert "marched along its tubes" in basis.method
        assert "coolant" not in basis.method
