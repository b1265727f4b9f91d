"""What is wrong with drawn geometry, one fault at a time."""

from __future__ import annotations

from grillestack.geometry.overlay import build_overlay
from grillestack.geometry.problems import SUPPORT_WINDOW, GeometryProblem, ProblemKind, geometry_problems
from grillestack.model.outline import rectangle_outline
from grillestack.model.project import Project
from tests.geometry.packs import BOW_TIE, a_core, a_demanding_pack, a_project, an_obstruction, an_opening, corners

FLAT = corners((0, 0), (50, 50), (100, 100))


def _problems(project):
    return geometry_problems(project, build_overlay(project, 7.0))


def test_sound_pack_and_empty_project_have_no_problem():
    assert _problems(a_demanding_pack()) == ()
    assert _problems(Project()) == ()


def test_crossing_outlines_are_named():
    project = a_project(
        a_core(), openings=[an_opening(BOW_TIE)], obstructions=[an_obstruction(BOW_TIE)], window=BOW_TIE
    )
    crossing = ProblemKind.CROSSES_ITSELF
    assert _problems(project) == tuple(GeometryProblem(crossing, name) for name in ("grille", "beam", SUPPORT_WINDOW))


def test_outline_without_area_is_named_as_that_and_not_as_crossing():
    assert _problems(a_project(openings=[an_opening(FLAT)])) == (GeometryProblem(ProblemKind.NO_AREA, "grille"),)


def test_core_that_no_air_reaches_is_named():
    opening = an_opening(rectangle_outline(-300, -100, 300, 100))
    project = a_project(a_core(), a_core("lost", (100, 100), (100, 0, 500)), openings=[opening])
    assert _problems(project) == (GeometryProblem(ProblemKind.OUTSIDE_JET, "lost"),)


def test_jet_that_spreads_to_the_core_is_no_problem():
    opening = an_opening(rectangle_outline(-300, -100, 300, 100))
    beside = a_core("beside", (100, 100), (100, 0, 155))
    # 5 mm above the opening; 7° over 100 mm is 12 mm
    assert _problems(a_project(beside, openings=[opening])) == ()


def test_without_any_opening_no_core_is_blamed():
    assert _problems(a_project(a_core())) == ()
