"""What could be changed at nose and surroundings: edges, grille, dirt, and what need not be in the pack."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from grillestack.advice.change import Candidate, Change, Situation
from grillestack.advice.rule import percent
from grillestack.assess.defaults import default_value
from grillestack.assess.seals import seals_of
from grillestack.model import edits
from grillestack.model.engine import Seal
from grillestack.model.parts import CoreRole
from grillestack.model.project import cores

OPEN_GRILLE_FRAC: Final = 0.75


def seal_the_edges(situation: Situation) -> Iterator[Candidate]:
    """Close the edges of the pack, and what of the opening leads past it."""
    around = situation.project.environment
    edges = any(seal is not Seal.SEALED for seal in seals_of(around))
    beside = not around.opening_closed_off
    if not cores(situation.project) or not (edges or beside):
        return
    strips = "Strips of foam or rubber close all four sides between pack and nose and between the cores."
    plates = "Plates close what of the opening has no core behind it."
    title = "Seal the edges and close off the opening beside the pack"
    if not beside:
        title = "Seal the edges of the pack"
    elif not edges:
        title = "Close off the opening beside the pack"
    yield Candidate(
        kind="seal",
        title=title,
        words=" ".join(sentence for sentence, wanted in ((strips, edges), (plates, beside)) if wanted),
        project=edits.set_environment(
            situation.project,
            replace(
                around,
                seal=Seal.SEALED,
                seal_top=None,
                seal_bottom=None,
                seal_left=None,
                seal_right=None,
                opening_closed_off=True,
            ),
        ),
    )


def clean_the_cores(situation: Situation) -> Iterator[Candidate]:
    """Wash what was reckoned dirty."""
    around = situation.project.environment
    if around.dirty_core and cores(situation.project):
        yield Candidate(
            kind="clean",
            title="Clean the cores",
            words="Washed from behind, against the flow of air; it holds until they are dirty again.",
            project=edits.set_environment(situation.project, replace(around, dirty_core=False)),
            parts=tuple(core.id for core in cores(situation.project)),
        )


def open_the_grille(situation: Situation) -> Iterator[Candidate]:
    """Take bars out of the openings that have many."""
    nose = situation.project.nose
    share = {
        opening.id: default_value("free_area_frac") if opening.free_area_frac is None else opening.free_area_frac
        for opening in nose.openings
    }
    barred = [opening for opening in nose.openings if share[opening.id] < OPEN_GRILLE_FRAC]
    if not barred:
        return
    least = min(share[opening.id] for opening in barred)
    out = 1.0 - (1.0 - OPEN_GRILLE_FRAC) / (1.0 - least)
    opened = tuple(
        replace(opening, free_area_frac=OPEN_GRILLE_FRAC) if opening in barred else opening for opening in nose.openings
    )
    names = ", ".join(f"“{opening.name}”" for opening in barred)
    yield Candidate(
        kind="grille",
        title=f"Open the grille to {percent(OPEN_GRILLE_FRAC)} free area",
        words=f"Bars and mesh of {names} leave {percent(OPEN_GRILLE_FRAC)} of the opening free instead of {percent(least)}: about "
        f"{percent(out)} of them come out, or thinner ones go in. Lamps and number plate stay lawful.",
        project=edits.set_nose(situation.project, replace(nose, openings=opened)),
        parts=tuple(opening.id for opening in barred),
    )


def leave_out_the_condenser(situation: Situation) -> Iterator[Candidate]:
    """Do without air conditioning."""
    condensers = tuple(core.id for core in cores(situation.project, CoreRole.CONDENSER))
    if condensers:
        yield Candidate(
            kind="no-condenser",
            title="Leave out the condenser",
            words="The air conditioning goes with it, or its condenser gets a place and a fan of its own. "
            "Refrigerant is for licensed people only.",
            project=edits.remove_parts(situation.project, condensers),
            parts=condensers,
        )


CHANGES: tuple[Change, ...] = (seal_the_edges, clean_the_cores, open_the_grille, leave_out_the_condenser)
