"""The judge's picture of a pack: areas by hand, and every face's states against the product's polygons."""

from __future__ import annotations

import math

import pytest

from grillestack.geometry.exposure import core_faces
from grillestack.geometry.overlay import build_overlay
from tests.independent.picture import Picture
from tests.independent.pixels import around, face_states_mm2, pack_map
from tests.independent.random_packs import random_pack


def test_an_edge_between_two_lines_is_refused():
    frame = Picture(0.0, 0.0, 10.0, (20, 20))
    assert frame.image((20.0, 30.0, 70.0, 50.0)).sum() == 10
    with pytest.raises(ValueError, match="not on the grid"):
        frame.image((20.0, 30.0, 75.0, 50.0))


def test_a_ring_covers_the_area_of_its_circle():
    share = Picture(-200.0, -200.0, 10.0, (40, 40)).ring_share((3.0, -7.0, 155.0))
    assert share.sum() * 100.0 == pytest.approx(math.pi * 155.0**2, rel=1e-4)
    assert share.min() == 0.0
    assert share.max() == pytest.approx(1.0)


def test_the_finer_picture_has_the_same_zones():
    for seed in range(12):
        project = random_pack(seed, 20.0)
        coarse, fine = pack_map(project, 20.0), pack_map(project, 10.0)
        assert len(coarse.zone_area_m2) == len(fine.zone_area_m2)
        assert sorted(coarse.zone_area_m2) == pytest.approx(sorted(fine.zone_area_m2), rel=2e-3)
        assert around(project, 20.0).leak_m2 == pytest.approx(around(project, 10.0).leak_m2)
        assert around(project, 20.0).jet_leak_m2 == pytest.approx(around(project, 10.0).jet_leak_m2)
        assert around(project, 20.0).lateral_m2 == pytest.approx(around(project, 10.0).lateral_m2)


@pytest.mark.parametrize("seed", range(40))
def test_every_face_sees_in_pixels_what_it_sees_in_polygons(seed):
    project = random_pack(seed, 10.0)
    faces = core_faces(build_overlay(project, 0.0), project)
    states = face_states_mm2(project, 10.0)
    assert set(states) == set(faces)
    for part_id, mine in states.items():
        face = faces[part_id]
        product = (face.exposed_mm2, face.behind_mm2, face.off_opening_mm2, face.blocked_mm2)
        assert mine == pytest.approx(product, abs=1e-3)
