"""Zones joined for painting cover what they cover apart, with fewer patches."""

from __future__ import annotations

import pytest
import shapely

from grillestack.geometry.exposure import core_faces
from grillestack.geometry.joined_zones import joined_patches
from grillestack.geometry.overlay import build_overlay
from tests.geometry.packs import a_demanding_pack


def test_no_zones_have_no_patches():
    assert joined_patches(()) == ()


@pytest.mark.parametrize("part_id", ["radiator", "oil-cooler"])
def test_joined_zones_cover_what_they_cover_apart(part_id):
    project = a_demanding_pack(13.7, -21.3)
    faces = core_faces(build_overlay(project, 7.0), project)
    zones = faces[part_id].zones
    joined = joined_patches(zones)
    apart = [patch for zone in zones for patch in zone.patches]
    together = shapely.union_all([shapely.Polygon(patch) for patch in joined])
    assert sum(shapely.Polygon(patch).area for patch in joined) == pytest.approx(together.area, rel=1e-9)
    whole = shapely.union_all([shapely.Polygon(patch) for patch in apart])
    assert together.symmetric_difference(whole).area == pytest.approx(0.0, abs=1e-3)
    assert len(joined) <= len(apart)
