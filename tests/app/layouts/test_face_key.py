"""The key to the shades of both drawings."""

from __future__ import annotations

import pytest

from grillestack.app import palette as palettes
from grillestack.app.canvas.items.face_item import Met, Patch
from grillestack.app.layouts.face_key import TITLE, FaceKey

RING = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0))


@pytest.fixture
def key(qtbot):
    made = FaceKey(palettes.light())
    qtbot.addWidget(made)
    made.resize(500, 60)
    made.show()
    return made


def face(*met):
    return tuple(Patch(one, RING) for one in met)


def test_it_names_every_shade_of_either_face_once(key):
    key.show_faces([face(Met.FRESH, Met.BLOCKED), face(Met.FRESH, Met.BEHIND_ONE)], palettes.light())
    assert key.accessibleName() == f"{TITLE}: fresh air, behind one core, blocked"
    assert not key.grab().toImage().isNull()


def test_without_a_face_it_takes_no_room(key):
    key.show_faces([(), ()], palettes.light())
    assert key.height() == 0


def test_in_less_width_it_takes_more_rows(key):
    key.show_faces([face(*Met)], palettes.light())
    wide = key.height()
    key.resize(200, wide)
    assert key.height() > wide
