"""Random packs judged by a second, slow solver that shares nothing with the product but the document.

Fine pixels instead of polygons, a general root finder instead of the network's own, plain rounds instead of mixing, and a root
finder around all of it for every unknown. The spread of the openings' air is 0, so that every outline stays on the grid.
"""

from __future__ import annotations

import functools

import pytest

import grillestack.assess.assess as assessing
from grillestack.assess.result import CaseResult
from grillestack.model.parts import Core, CoreRole, Fan
from grillestack.model.project import Project
from tests.independent.random_packs import random_pack
from tests.independent.solver import Answers, answers

GRID_MM = 10.0
HEAT_FRAC, DEGREES_K = 3e-3, 0.3
# On cells as small as the pixels only what either solver leaves unsettled may differ.
SETTLED_FRAC, SETTLED_K = 5e-4, 0.05

QUICK, ALL = range(20), range(200)


@functools.cache
def _judged(seed: int) -> tuple[Project, Answers]:
    project = random_pack(seed, GRID_MM)
    return project, answers(project, project.cases[0], GRID_MM)


def _alone_w(project: Project, result: CaseResult) -> float | None:
    """Return the radiator's heat alone, from the effective face: core × Q_pack / Q_alone."""
    radiator = next(p for p in project.parts if isinstance(p, Core) and p.role is CoreRole.RADIATOR)
    if result.effective_mm2 is None or result.heat_capacity_w is None:
        return None
    return radiator.core_width_mm * radiator.core_height_mm * result.heat_capacity_w / result.effective_mm2


def _same(name: str, product: float | None, judge: float | None, *, rel: float = 0.0, off: float = 0.0) -> None:
    assert (product is None) == (judge is None), name
    if product is not None:
        assert product == pytest.approx(judge, rel=rel, abs=off), name


def _four_figures_agree(seed: int, heat_frac: float, degrees_k: float) -> CaseResult:
    project, judge = _judged(seed)
    result = assessing.assess(project).cases[0]
    _same("heat at the limit", result.heat_capacity_w, judge.heat_w, rel=heat_frac)
    _same("heat of the radiator alone", _alone_w(project, result), judge.alone_w, rel=heat_frac)
    _same("top tank", result.top_tank_degc, judge.top_tank_degc, off=degrees_k)
    _same("limiting ambient", result.limiting_ambient_degc, judge.limiting_degc, off=degrees_k)
    return result


def _all_figures_agree(seed: int) -> None:
    result = _four_figures_agree(seed, SETTLED_FRAC, SETTLED_K)
    _, judge = _judged(seed)
    _same("air through the radiator", result.air_kg_s, judge.air_kg_s, rel=SETTLED_FRAC)
    _same("air through the openings", result.opening_kg_s, judge.opening_kg_s, rel=SETTLED_FRAC)
    _same("charge air", result.charge_out_degc, judge.charge_out_degc, off=SETTLED_K)
    # A condenser in next to no air is beyond all sense: thousands of degrees, of which the last digits are nobody's.
    _same("condensing", result.condensing_degc, judge.condensing_degc, rel=1e-5, off=SETTLED_K)
    _same("engine bay", result.bay_degc, judge.bay_degc, off=SETTLED_K)
    _same("recirculated", result.recirculated_frac, judge.recirculated_frac, off=SETTLED_FRAC)
    _same("by-passed", result.bypassed_frac, judge.bypassed_frac, off=SETTLED_FRAC)


def _has_pusher(project: Project) -> bool:
    foremost = min(p.placement.x_mm for p in project.parts if isinstance(p, Core))
    return any(isinstance(p, Fan) and p.placement.x_mm < foremost for p in project.parts)


@pytest.mark.parametrize("seed", QUICK)
def test_heat_and_temperatures_of_a_pack_are_those_of_the_slow_way(seed):
    _four_figures_agree(seed, HEAT_FRAC, DEGREES_K)


@pytest.mark.parametrize("seed", QUICK)
def test_on_cells_as_small_as_the_pixels_every_figure_is_that_of_the_slow_way(seed, monkeypatch):
    monkeypatch.setattr(assessing, "LARGEST_CELL_MM", GRID_MM)
    _all_figures_agree(seed)


@pytest.mark.nightly
@pytest.mark.parametrize("seed", ALL)
def test_heat_and_temperatures_of_many_packs_are_those_of_the_slow_way(seed):
    _four_figures_agree(seed, HEAT_FRAC, DEGREES_K)


@pytest.mark.nightly
@pytest.mark.parametrize("seed", ALL)
def test_on_small_cells_every_figure_of_many_packs_is_that_of_the_slow_way(seed, monkeypatch):
    monkeypatch.setattr(assessing, "LARGEST_CELL_MM", GRID_MM)
    _all_figures_agree(seed)


def test_air_that_a_pusher_drives_past_the_radiator_is_by_passed():
    project, judge = _judged(25)
    result = assessing.assess(project).cases[0]
    # Nothing comes back in this pack, so what enters either crosses the radiator or passes it.
    assert result.recirculated_frac == pytest.approx(0.0)
    assert judge.bypassed_frac == pytest.approx(1.0 - result.air_kg_s / result.opening_kg_s, abs=1e-4)
    assert result.bypassed_frac == pytest.approx(judge.bypassed_frac, abs=1e-3)


def test_the_random_packs_are_of_many_kinds():
    packs = [random_pack(seed, GRID_MM) for seed in ALL]
    roles = [{p.role for p in pack.parts if isinstance(p, Core)} for pack in packs]
    for role in CoreRole:
        assert sum(role in found for found in roles) > 50
    assert sum(_has_pusher(pack) for pack in packs) > 10
    assert sum(pack.nose.support_window is not None for pack in packs) > 50
    assert sum(bool(pack.nose.obstructions) for pack in packs) > 40
    assert sum(pack.cases[0].road_speed_m_s == 0.0 for pack in packs) > 40
    assert sum(any(isinstance(p, Core) and p.passes > 1 for p in pack.parts) for pack in packs) > 50
    assert sum(any(p.placement.tilt_deg > 0.0 for p in pack.parts) for pack in packs) > 10


def test_finer_rows_within_the_charge_air_cooler_move_its_heat_by_little():
    """The design holds that four rows in depth give most of what unmixed charge air does; sixteen show how much."""
    project, four = _judged(1)
    sixteen = answers(project, project.cases[0], GRID_MM, inner_rows=16)
    assert four.charge_out_degc is not None
    span = project.engine.charge_inlet_degc - four.charge_out_degc
    assert sixteen.charge_out_degc == pytest.approx(four.charge_out_degc, abs=5e-3 * span)
    assert sixteen.charge_out_degc != four.charge_out_degc
    assert sixteen.heat_w == pytest.approx(four.heat_w, rel=2e-3)
