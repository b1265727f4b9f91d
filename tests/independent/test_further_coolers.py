"""Packs with marched further coolers, judged by the slow solver whole: air, heat, both unknowns of the verdict."""

from __future__ import annotations

import random

import pytest
from msgspec.structs import replace

import grillestack.assess.assess as assessing
from grillestack.model.core_description import InnerFin
from grillestack.model.parts import Core, CoreRole, TubeFluid
from grillestack.model.project import Project
from tests.independent import solver
from tests.independent.further_coolers import FurtherJudge, MineralOil
from tests.independent.random_packs import random_pack

GRID_MM = 10.0
SETTLED_FRAC, SETTLED_K = 5e-4, 0.05


def _with_marched_coolers(seed: int) -> Project | None:
    """Return the pack with its further coolers marched, every other one with a turbulator; nothing if it has none."""
    project, draw = random_pack(seed, GRID_MM), random.Random(1000 + seed)
    found = False
    parts = []
    for part in project.parts:
        cooler = part
        if isinstance(part, Core) and part.role is CoreRole.COOLER:
            found = True
            oil = draw.random() < 0.65
            built = part.description.construction
            if draw.random() < 0.5:
                fin = InnerFin(spacing_mm=1.4, height_mm=1.2, thickness_mm=0.15, strip_length_mm=3.0)
                built = replace(built, inner_fin=fin)
            cooler = replace(
                part,
                given_heat_w=None,
                description=replace(part.description, construction=built),
                tube_fluid=TubeFluid.OIL if oil else TubeFluid.COOLANT,
                tube_inlet_degc=draw.uniform(80.0, 140.0) if oil else draw.uniform(40.0, 90.0),
                tube_flow_m3_s=draw.uniform(5e-5, 6e-4),
            )
        parts.append(cooler)
    return replace(project, parts=tuple(parts)) if found else None


PACKS = {seed: pack for seed in range(30) if (pack := _with_marched_coolers(seed)) is not None}


QUICK = list(PACKS)[:3]


def _every_figure_agrees(seed: int, monkeypatch) -> None:
    monkeypatch.setattr(assessing, "LARGEST_CELL_MM", GRID_MM)
    monkeypatch.setattr(solver, "Judge", FurtherJudge)
    project = PACKS[seed]
    judge = solver.answers(project, project.cases[0], GRID_MM)
    result = assessing.assess(project).cases[0]
    assert result.heat_capacity_w == pytest.approx(judge.heat_w, rel=SETTLED_FRAC)
    for mine, theirs in (
        (result.top_tank_degc, judge.top_tank_degc),
        (result.limiting_ambient_degc, judge.limiting_degc),
        (result.charge_out_degc, judge.charge_out_degc),
        (result.bay_degc, judge.bay_degc),
    ):
        assert (mine is None) == (theirs is None)
        if mine is not None:
            assert mine == pytest.approx(theirs, abs=SETTLED_K)
    assert result.air_kg_s == pytest.approx(judge.air_kg_s, rel=SETTLED_FRAC)


@pytest.mark.parametrize("seed", QUICK)
def test_every_figure_of_a_pack_with_marched_coolers_is_that_of_the_slow_way(seed, monkeypatch):
    _every_figure_agrees(seed, monkeypatch)


@pytest.mark.nightly
@pytest.mark.parametrize("seed", [seed for seed in PACKS if seed not in QUICK])
def test_every_figure_of_more_packs_with_marched_coolers_is_that_of_the_slow_way(seed, monkeypatch):
    _every_figure_agrees(seed, monkeypatch)


def test_the_coolers_of_these_packs_are_of_every_kind():
    coolers = [
        p for seed in list(PACKS)[:8] for p in PACKS[seed].parts if isinstance(p, Core) and p.role is CoreRole.COOLER
    ]
    kinds = {(one.tube_fluid, one.description.construction.inner_fin is not None) for one in coolers}
    assert len(kinds) == 4
    assert len({one.tubes for one in coolers}) == 2


def test_the_slow_way_s_oil_has_the_figures_of_its_data_sheet():
    oil = MineralOil()
    assert oil.viscosity(40.0) / oil.density(40.0) == pytest.approx(34e-6)
    assert oil.viscosity(100.0) / oil.density(100.0) == pytest.approx(7.2e-6)
