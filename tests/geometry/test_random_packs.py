"""The overlay against plain polygon loops, over random and degenerate packs, and laws that hold for every pack."""

from __future__ import annotations

import math
from dataclasses import asdict

import numpy as np
import pytest
import shapely
from hypothesis import HealthCheck, given, settings

from grillestack.geometry.depth import depth_report
from grillestack.geometry.exposure import FaceState, core_faces
from grillestack.geometry.overlay import build_overlay
from grillestack.geometry.problems import nose_problems
from tests.geometry.packs import random_packs
from tests.geometry.pairwise import judged_faces, judged_pack
from tests.model.random_projects import projects

SPREAD_DEG = 7.0

few = settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
many = settings(max_examples=2500, deadline=None, suppress_health_check=list(HealthCheck))


def _agrees_with_the_judge(project):
    overlay = build_overlay(project, SPREAD_DEG)
    judged = judged_faces(project, SPREAD_DEG)
    faces = core_faces(overlay, project)
    assert list(faces) == list(overlay.core_ids)
    for part_id, judgement in judged.items():
        for name, expected in asdict(judgement).items():
            assert getattr(faces[part_id], name) == pytest.approx(expected, abs=1e-6), (part_id, name)
    for name, expected in judged_pack(project, SPREAD_DEG).items():
        assert getattr(overlay.measures, name) == pytest.approx(expected, abs=1e-5), name


def _keeps_its_areas(project):
    overlay = build_overlay(project, SPREAD_DEG)
    for face in core_faces(overlay, project).values():
        total = face.exposed_mm2 + face.behind_mm2 + face.blocked_mm2 + face.off_opening_mm2
        assert total == pytest.approx(face.core_mm2, rel=1e-9)
        assert sum(zone.area_mm2 for zone in face.zones) == pytest.approx(face.core_mm2, rel=1e-9)
        for state, name in zip(FaceState, ("exposed", "behind", "off_opening", "blocked"), strict=True):
            own = sum(zone.area_mm2 for zone in face.zones if zone.state is state)
            assert own == pytest.approx(getattr(face, f"{name}_mm2"), rel=1e-9, abs=1e-9 * face.core_mm2)
    assert (overlay.area_mm2 > 0).all()
    assert overlay.core_hit.any(axis=1).all()


def _draws_what_it_counts(project):
    overlay = build_overlay(project, SPREAD_DEG)
    for c, face in enumerate(core_faces(overlay, project).values()):
        cos = overlay.core_cos_tilt_frac[c]
        for zone in face.zones:
            drawn = sum(shapely.Polygon(patch).area for patch in zone.patches)
            assert drawn / cos == pytest.approx(zone.area_mm2, abs=1e-3)
        painted = {state: sum(shapely.Polygon(p).area for p in patches) for state, patches in face.painted.items()}
        assert painted[FaceState.EXPOSED] / cos == pytest.approx(face.exposed_mm2, abs=1e-3)
        assert painted[FaceState.BLOCKED] / cos == pytest.approx(face.blocked_mm2, abs=1e-3)
    drawn = [sum(shapely.Polygon(ring).area for ring in rings) for rings in overlay.piece_corners]
    assert drawn == pytest.approx(overlay.area_mm2.tolist(), abs=1e-5)


def _measures_depth_either_way_round(project):
    report = depth_report(project)
    assert [place.part_id for place in report.stack] == [
        part.id for part in sorted(project.parts, key=lambda part: part.placement.x_mm)
    ]
    overlapping = {frozenset((o.part_id, o.other_id)) for o in report.overlaps}
    for gap in report.gaps:
        assert math.isfinite(gap.gap_mm)
        assert (gap.gap_mm < -1e-6) == (frozenset((gap.front_id, gap.rear_id)) in overlapping)


@given(random_packs())
@few
def test_every_face_agrees_with_plain_polygon_loops(project):
    _agrees_with_the_judge(project)


@given(random_packs())
@few
def test_the_four_states_and_the_zones_share_out_every_core(project):
    _keeps_its_areas(project)


@given(random_packs())
@few
def test_patches_and_pieces_cover_the_areas_they_stand_for(project):
    _draws_what_it_counts(project)


@given(random_packs())
@few
def test_a_gap_is_negative_exactly_where_two_neighbours_overlap(project):
    _measures_depth_either_way_round(project)


@given(projects())
@few
def test_every_project_the_model_allows_has_a_geometry(project):
    overlay = build_overlay(project, SPREAD_DEG, max_cell_mm=500.0)
    faces = core_faces(overlay, project)
    nose_problems(project.nose)
    depth_report(project)
    assert len(faces) == len(overlay.core_ids)
    assert np.isfinite(overlay.area_mm2).all()


@pytest.mark.nightly
@given(random_packs())
@many
def test_many_faces_agree_with_plain_polygon_loops(project):
    _agrees_with_the_judge(project)
    _keeps_its_areas(project)


@pytest.mark.nightly
@given(random_packs())
@settings(many, max_examples=600)
def test_many_patches_cover_the_areas_they_stand_for(project):
    _draws_what_it_counts(project)


@pytest.mark.nightly
@given(projects())
@settings(many, max_examples=600)
def test_many_projects_the_model_allows_have_a_geometry(project):
    overlay = build_overlay(project, SPREAD_DEG, max_cell_mm=500.0)
    core_faces(overlay, project)
    nose_problems(project.nose)
    depth_report(project)
