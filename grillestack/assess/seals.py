"""What the seals at the edges of the pack let by, edge by edge."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from grillestack.assess.defaults import DEFAULT_SEAL, SEAL_GAP_MM
from grillestack.geometry.overlay import Overlay
from grillestack.model.engine import Environment, Seal
from grillestack.model.project import Project
from grillestack.units.convert import m2_from_mm2

BoolArray = NDArray[np.bool_]

LEFT, BOTTOM, RIGHT, TOP = range(4)


def seals_of(environment: Environment) -> tuple[Seal, Seal, Seal, Seal]:
    """Return how each edge is closed: left, bottom, right, top (the vehicle's left and right)."""
    usual = environment.seal or DEFAULT_SEAL
    return (
        environment.seal_left or usual,
        environment.seal_bottom or usual,
        environment.seal_right or usual,
        environment.seal_top or usual,
    )


@dataclass(frozen=True, slots=True)
class LeakAreas:
    """The areas past the pack: what the air of the openings meets directly, and what lies beside it."""

    in_jet_m2: float
    beside_jet_m2: float

    @property
    def total_m2(self) -> float:
        """Return both together."""
        return self.in_jet_m2 + self.beside_jet_m2


NO_LEAK = LeakAreas(0.0, 0.0)


def leak_areas(project: Project, overlay: Overlay) -> LeakAreas:
    """Return the areas past the pack: the gap of each edge times its share of the pack's outline, and what is open beside it.

    An open edge gaps by its real room up to 15 mm. Of each edge's gap as much lies in the jet as of the edge itself; the
    part of the openings' air that meets no part does so wholly.
    """
    measures = overlay.measures
    around_mm = sum(measures.edge_lengths_mm)
    stretch = measures.pack_outline_mm / around_mm if around_mm > 0.0 else 0.0
    in_jet_mm2 = 0.0 if project.environment.opening_closed_off else measures.uncovered_opening_mm2
    beside_mm2 = 0.0
    for seal, length_mm, room_mm, in_jet_frac in zip(
        seals_of(project.environment),
        measures.edge_lengths_mm,
        measures.edge_rooms_mm,
        measures.edges_in_jet_frac,
        strict=True,
    ):
        gap_mm2 = (room_mm if seal is Seal.OPEN else SEAL_GAP_MM[seal]) * length_mm * stretch
        in_jet_mm2 += in_jet_frac * gap_mm2
        beside_mm2 += (1.0 - in_jet_frac) * gap_mm2
    return LeakAreas(m2_from_mm2(in_jet_mm2), m2_from_mm2(beside_mm2))


def leads_nowhere(project: Project, overlay: Overlay, radiator: int | None) -> BoolArray:
    """Return the pieces beside the radiator whose way to the bay a sealed edge closes; shape (N,).

    A piece above or below the radiator is closed by the top or bottom edge, one level with it by the left or right edge.
    """
    seals = seals_of(project.environment)
    if Seal.SEALED not in seals:
        return np.zeros(overlay.n_pieces, dtype=bool)
    if radiator is None:
        return np.full(overlay.n_pieces, all(seal is Seal.SEALED for seal in seals))
    y0, y1, z0, z1 = (int(line) for line in overlay.core_spans[radiator])
    below, above = overlay.iz < z0, overlay.iz >= z1
    left, right = ~below & ~above & (overlay.iy < y0), ~below & ~above & (overlay.iy >= y1)
    closed = np.zeros(overlay.n_pieces, dtype=bool)
    for edge, where in ((LEFT, left), (BOTTOM, below), (RIGHT, right), (TOP, above)):
        if seals[edge] is Seal.SEALED:
            closed |= where
    return closed
