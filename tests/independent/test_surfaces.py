"""The judge's own fins, tubes and fluids against the product's, so that a difference in a pack is never due to them."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.assess.core_construction import core_ground
from grillestack.model.parts import Core, CoreRole
from grillestack.physics.air import conductivity_w_per_m_k, density_kg_m3, viscosity_pa_s
from grillestack.physics.coolant import ethylene_glycol
from grillestack.physics.overall import air_side_resistance_m2_k_per_w, wall_resistance_m2_k_per_w
from grillestack.physics.tube_flow import Transition
from grillestack.physics.tube_side import charge_film_w_per_m2_k, coolant_film_w_per_m2_k
from tests.independent import properties as prop
from tests.independent.random_packs import random_pack
from tests.independent.surfaces import fins_of, tubes_of

SAME = 1e-9
# The product prints its glycol's terms to seven digits, the judge fits them anew.
SEVEN_DIGITS = 1e-6
# The product's friction in smooth tubes is within 7e-6 of Colebrook's root from Re 4000, within 1.4e-4 from Re 1000.
NEAR_COLEBROOK, NEAR_COLEBROOK_TRIPPED = 1e-5, 2e-4


def _cores(*roles: CoreRole) -> list[Core]:
    """Return one core of each construction that the random packs draw."""
    found = {}
    for seed in range(60):
        for part in random_pack(seed, 10.0).parts:
            if isinstance(part, Core) and part.role in roles:
                found.setdefault((part.description.construction, part.depth_mm), part)
    return list(found.values())


def test_fins_resist_the_heat_as_the_product_says():
    flux = np.geomspace(1e-3, 40.0, 41)
    cores = _cores(*CoreRole)
    assert len(cores) > 15
    for core in cores:
        mine, product = fins_of(core.description.construction, core.depth_mm), core_ground(core).construction
        assert mine.open_share == pytest.approx(product.free_flow_frac, rel=SAME)
        for degc in (-20.0, 60.0, 250.0):
            expected = air_side_resistance_m2_k_per_w(product, flux, degc)
            assert mine.resistance(flux, degc) == pytest.approx(expected, rel=SAME)


def test_the_loss_of_a_core_has_the_products_two_terms():
    for core in _cores(*CoreRole):
        fit = core_ground(core).alone.loss
        mine = fins_of(core.description.construction, core.depth_mm).loss_terms()
        assert mine == pytest.approx((fit.a_pa_s_per_m, fit.b_pa_s2_per_m2), rel=SAME)


def test_walls_and_wetted_areas_are_the_products():
    for core in _cores(*CoreRole):
        mine, product = tubes_of(core.description.construction), core_ground(core).construction
        assert mine.inside == pytest.approx(product.inner_area_m2_per_m2, rel=SAME)
        assert mine.wall_resistance == pytest.approx(wall_resistance_m2_k_per_w(product, 0.0), rel=SAME)


def test_coolant_in_a_tube_has_the_products_film():
    coolant, same = prop.glycol(0.5), ethylene_glycol(0.5)
    for core in _cores(CoreRole.RADIATOR):
        mine, ground = tubes_of(core.description.construction), core_ground(core)
        tripped = ground.alone.transition is Transition.TRIPPED
        for degc in (20.0, 60.0, 90.0, 110.0):
            for per_tube in (1e-4, 5e-3, 1.2e-2, 2e-2, 3e-2, 0.1):
                expected = coolant_film_w_per_m2_k(
                    ground.construction,
                    per_tube,
                    same.viscosity_pa_s(degc),
                    same.conductivity_w_per_m_k(degc),
                    same.heat_capacity_j_per_kg_k(degc),
                    ground.alone.transition,
                )
                near = NEAR_COLEBROOK_TRIPPED if tripped else NEAR_COLEBROOK
                assert mine.coolant_film(per_tube, degc, coolant) == pytest.approx(float(expected), rel=near)


def test_charge_air_in_a_tube_has_the_products_film():
    for core in _cores(CoreRole.CHARGE_AIR_COOLER):
        mine, ground = tubes_of(core.description.construction), core_ground(core)
        for degc in (0.0, 90.0, 200.0):
            for per_tube in (1e-5, 1e-3, 5e-3, 2e-2):
                expected = charge_film_w_per_m2_k(ground.construction, per_tube, degc, ground.alone.transition)
                near = SAME if mine.inner is not None else NEAR_COLEBROOK
                assert mine.charge_film(per_tube, degc) == pytest.approx(float(expected), rel=near)


def test_air_is_the_products_air():
    degc = np.linspace(-80.0, 320.0, 41)
    assert prop.air_density(degc, 8e4) == pytest.approx(density_kg_m3(degc, 8e4), rel=SAME)
    assert prop.air_viscosity(degc) == pytest.approx(viscosity_pa_s(degc), rel=SAME)
    assert prop.air_conductivity(degc) == pytest.approx(conductivity_w_per_m_k(degc), rel=SAME)


@pytest.mark.parametrize("share", [0.3, 0.4, 0.5, 0.6])
def test_glycol_fitted_anew_is_the_products_glycol(share):
    mine, product = prop.glycol(share), ethylene_glycol(share)
    for degc in (-20.0, -10.0, 10.0, 40.0, 75.0, 100.0, 120.0, 140.0):
        assert mine.density(degc) == pytest.approx(float(product.density_kg_m3(degc)), rel=SEVEN_DIGITS)
        assert mine.cp(degc) == pytest.approx(float(product.heat_capacity_j_per_kg_k(degc)), rel=SEVEN_DIGITS)
        assert mine.conductivity(degc) == pytest.approx(float(product.conductivity_w_per_m_k(degc)), rel=SEVEN_DIGITS)
        assert mine.viscosity(degc) == pytest.approx(float(product.viscosity_pa_s(degc)), rel=SEVEN_DIGITS)
