"""How far the liquid in the tubes of a further cooler leaves its conductance open."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.assess.liquid_doubt import PLAIN_OIL_FACTOR, STRIP_FILM_FACTOR, liquid_doubt
from grillestack.model.core_description import CoreType
from grillestack.model.parts import CoreRole, TubeFluid
from tests.assess import packs

OIL = replace(
    packs.core(CoreRole.COOLER, CoreType.PLATE_OIL_COOLER, 300.0, 180.0, 36.0),
    tube_fluid=TubeFluid.OIL,
    tube_inlet_degc=115.0,
    tube_flow_m3_s=2e-4,
)
PLAIN = replace(OIL, description=replace(OIL.description, core_type=CoreType.ALUMINIUM_ONE_ROW))


@pytest.mark.parametrize(("core", "factor"), [(OIL, STRIP_FILM_FACTOR), (PLAIN, PLAIN_OIL_FACTOR)])
def test_the_factors_are_those_of_a_film_that_is_one_share_of_the_resistance(core, factor):
    """By hand: a film worth the share s makes the whole 1 + s·(f − 1) or 1 − s·(1 − 1/f) of the resistance."""
    doubt = liquid_doubt(core)
    share = (1.0 / doubt.low_factor - 1.0) / (factor - 1.0)
    assert 0.0 < share < 1.0
    assert doubt.high_factor == pytest.approx(1.0 / (1.0 - share * (1.0 - 1.0 / factor)))
    assert f"{100 * share:.0f} % of the resistance" in doubt.source


def test_slow_oil_leaves_more_open_than_fast_oil():
    slow, fast = (liquid_doubt(replace(OIL, tube_flow_m3_s=flow)) for flow in (5e-5, 8e-4))
    assert slow.low_factor < fast.low_factor < 1.0 < fast.high_factor < slow.high_factor


def test_coolant_in_plain_tubes_and_cores_that_are_not_marched_leave_nothing_open():
    assert liquid_doubt(replace(PLAIN, tube_fluid=TubeFluid.COOLANT)) is None
    assert liquid_doubt(replace(OIL, given_heat_w=4_000.0)) is None
    assert liquid_doubt(replace(OIL, tube_flow_m3_s=None)) is None
    assert liquid_doubt(packs.charge_air_cooler()) is None
    # Between strips no liquid is sure.
    assert liquid_doubt(replace(OIL, tube_fluid=TubeFluid.COOLANT)) is not None
