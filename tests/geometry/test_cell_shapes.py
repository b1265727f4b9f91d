"""The outline of each piece is what the overlay says of it, cut or not."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from grillestack.geometry.cell_shapes import cell_rings
from grillestack.geometry.overlay import build_overlay
from tests.geometry.packs import a_demanding_pack


def test_every_piece_has_its_own_area_and_place():
    overlay = build_overlay(a_demanding_pack(13.7, -21.3), 7.0)
    members = np.arange(overlay.n_pieces)[::3]
    rings = cell_rings(overlay.frame, members)
    assert len(rings) == len(members)
    for number, shapes in zip(members.tolist(), rings, strict=True):
        area = sum(shapely.Polygon(ring).area for ring in shapes)
        assert area == pytest.approx(overlay.area_mm2[number], rel=1e-6, abs=1e-5)
        slow = shapely.union_all([shapely.Polygon(ring) for ring in overlay.piece_corners[number]])
        mine = shapely.union_all([shapely.Polygon(ring) for ring in shapes])
        assert mine.symmetric_difference(slow).area == pytest.approx(0.0, abs=1e-5)


def test_no_pieces_have_no_rings():
    overlay = build_overlay(a_demanding_pack(13.7, -21.3), 7.0)
    assert cell_rings(overlay.frame, np.zeros(0, dtype=np.intp)) == ()
