"""Changes at nose and surroundings."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.advice.change_nose import (
    clean_the_cores,
    leave_out_the_condenser,
    open_the_grille,
    seal_the_edges,
)
from grillestack.model import edits
from grillestack.model.engine import Environment, Seal
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores
from tests.advice.situations import candidates
from tests.assess import packs


def _around(**fields: object) -> Project:
    return edits.set_environment(packs.half_height_pack(), Environment(**fields))


def _opening(*shares: float | None) -> Project:
    project = packs.half_height_pack()
    only = project.nose.openings[0]
    openings = tuple(
        replace(only, id=f"opening-{n}", name=f"Opening {n}", free_area_frac=share) for n, share in enumerate(shares)
    )
    return edits.set_nose(project, replace(project.nose, openings=openings))


def test_sealing_closes_every_edge_and_the_opening_beside_the_pack():
    (one,) = candidates(seal_the_edges, _around(seal=Seal.ROUGH, seal_top=Seal.OPEN))
    around = one.project.environment
    assert around.seal is Seal.SEALED
    assert (around.seal_top, around.seal_bottom, around.seal_left, around.seal_right) == (None,) * 4
    assert around.opening_closed_off


@pytest.mark.parametrize(
    ("around", "title"),
    [
        ({}, "Seal the edges and close off the opening beside the pack"),
        ({"seal": Seal.SEALED}, "Close off the opening beside the pack"),
        ({"seal": Seal.SEALED, "seal_left": Seal.ROUGH, "opening_closed_off": True}, "Seal the edges of the pack"),
        ({"opening_closed_off": True}, "Seal the edges of the pack"),
    ],
)
def test_sealing_names_only_what_is_open(around, title):
    (one,) = candidates(seal_the_edges, _around(**around))
    assert one.title == title


def test_what_is_sealed_and_closed_off_is_not_sealed_again():
    assert candidates(seal_the_edges, _around(seal=Seal.SEALED, opening_closed_off=True)) == []
    edge_by_edge = {f"seal_{edge}": Seal.SEALED for edge in ("top", "bottom", "left", "right")}
    assert candidates(seal_the_edges, _around(opening_closed_off=True, **edge_by_edge)) == []


def test_a_nose_without_a_pack_has_no_edges_to_seal():
    assert candidates(seal_the_edges, packs.project()) == []


def test_only_dirty_cores_are_cleaned():
    (one,) = candidates(clean_the_cores, _around(dirty_core=True))
    assert not one.project.environment.dirty_core
    assert one.parts == tuple(core.id for core in cores(one.project))
    assert candidates(clean_the_cores, _around()) == []


def test_bars_come_out_of_the_barred_openings_only_and_the_words_say_how_many():
    # By hand: 60 % free leaves 40 % covered, 75 % free leaves 25 %; 15 of 40 come out, 37.5 %.
    (one,) = candidates(open_the_grille, _opening(0.6, 0.9, 0.7))
    assert [opening.free_area_frac for opening in one.project.nose.openings] == [0.75, 0.9, 0.75]
    assert "38 %" in one.words
    assert "60 %" in one.words
    assert one.parts == ("opening-0", "opening-2")


def test_an_opening_of_unknown_bars_counts_as_the_default_with_bars():
    (one,) = candidates(open_the_grille, _opening(None))
    assert one.project.nose.openings[0].free_area_frac == 0.75


@pytest.mark.parametrize("share", [0.75, 0.9, 1.0])
def test_an_open_grille_is_not_opened(share):
    assert candidates(open_the_grille, _opening(share)) == []


def test_only_a_condenser_can_be_left_out_and_the_words_leave_refrigerant_to_licensed_people():
    whole = packs.with_part(packs.half_height_pack(), packs.condenser(), 80.0, 400.0)
    (one,) = candidates(leave_out_the_condenser, whole)
    assert cores(one.project, CoreRole.CONDENSER) == ()
    assert len(one.project.parts) == len(whole.parts) - 1
    assert "licensed" in one.words
    assert candidates(leave_out_the_condenser, packs.half_height_pack()) == []
