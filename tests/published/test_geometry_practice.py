"""Facts of the trade about faces: common practice, no source."""

from __future__ import annotations

import pytest

from grillestack.geometry.exposure import core_faces
from grillestack.geometry.overlay import build_overlay
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import CoreRole
from tests.geometry.packs import a_core, a_project, an_opening

GRILLE = an_opening(rectangle_outline(-320, -220, 320, 220))


def _radiator_face(*ahead):
    radiator = a_core("radiator", (640, 440), (200, 0, 0), tank_mm=55)
    project = a_project(radiator, *ahead, openings=[GRILLE])
    return core_faces(build_overlay(project, 7.0), project)["radiator"]


def test_charge_air_cooler_of_half_the_height_leaves_part_of_the_radiator_in_fresh_air():
    cooler = a_core("cooler", (600, 220), (120, 0, -110), tank_mm=60, depth_mm=62, role=CoreRole.CHARGE_AIR_COOLER)
    face = _radiator_face(cooler)
    assert 0.4 < face.exposed_mm2 / face.core_mm2 < 0.6
    assert face.behind_mm2 > 0


def test_condenser_over_the_whole_radiator_leaves_no_fresh_air():
    condenser = a_core("condenser", (660, 460), (120, 0, 0), tank_mm=20, depth_mm=18, role=CoreRole.CONDENSER)
    assert _radiator_face(condenser).exposed_mm2 == pytest.approx(0, abs=1e-6)


def test_tanks_cost_face_so_a_cooler_with_its_tanks_past_the_radiator_blocks_nothing():
    over = a_core("cooler", (520, 220), (120, 0, -110), tank_mm=60, depth_mm=62, role=CoreRole.CHARGE_AIR_COOLER)
    past = a_core("cooler", (640, 220), (120, 0, -110), tank_mm=60, depth_mm=62, role=CoreRole.CHARGE_AIR_COOLER)
    assert _radiator_face(over).blocked_mm2 == pytest.approx(2 * 60 * 220)
    assert _radiator_face(past).blocked_mm2 == pytest.approx(0, abs=1e-6)


def test_radiator_larger_than_the_grille_is_not_exposed_beyond_it():
    small = an_opening(rectangle_outline(-200, -120, 200, 120))
    radiator = a_core("radiator", (640, 440), (100, 0, 0), tank_mm=55)
    project = a_project(radiator, openings=[small])
    face = core_faces(build_overlay(project, 7.0), project)["radiator"]
    assert 400 * 240 < face.exposed_mm2 < 0.5 * face.core_mm2
