"""What is wrong with drawn geometry, one fault at a time."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.geometry.problems import SUPPORT_WINDOW, GeometryProblem, ProblemKind, nose_problems
from grillestack.model.outline import rectangle_outline
from grillestack.model.project import Project
from tests.geometry.packs import BOW_TIE, a_core, a_demanding_pack, a_project, an_obstruction, an_opening, corners

FLAT = corners((0, 0), (50, 50), (100, 100))


def _problems(project):
    return nose_problems(project.nose)


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


def test_corners_rounder_than_their_sides_allow_are_counted():
    round_opening = replace(an_opening(rectangle_outline(0, 0, 100, 40)), corner_radii_mm=(60.0, 0.0, 0.0, 0.0))
    (problem,) = _problems(a_project(openings=[round_opening]))
    assert (problem.kind, problem.subject) == (ProblemKind.RADIUS_TOO_LARGE, "grille")
    assert problem.places >= 1
