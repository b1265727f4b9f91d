"""What each figure rests on: method, source and how sure it is."""

from __future__ import annotations

from collections.abc import Sequence

from grillestack.assess.core_construction import Ground, core_ground
from grillestack.assess.result import Basis
from grillestack.model.parts import Core

_HEAT_SPREAD = "an uncalibrated core of this kind met tested radiators within +24/-10 % in heat"

_ALWAYS = (
    Basis(
        figure="exposed, behind, blocked, off-opening face",
        method="exact overlay of all outlines along the pack's axis",
        source="geometry",
    ),
    Basis(
        figure="air through the pack",
        method="network of monotone edges (openings, zones, fans, leak, bay), Newton on its convex content; reverse flow allowed",
        source="CONTENT, KL1984, C2000, FANLAWS, BLEVINS in SOURCES.md",
    ),
    Basis(
        figure="heat of radiator and charge-air cooler",
        method="effectiveness of crossed streams, cell by cell along the tubes, air carried from core to core",
        source="SS2003, CW1997, GN2013, MB1995 in SOURCES.md",
    ),
    Basis(
        figure="limiting ambient temperature",
        method="ambient at which the heat shed at the top tank limit equals the target, everything solved anew there",
        source="SAE J1393 as summarised, for the definition",
    ),
    Basis(
        figure="effective and required face",
        method="core area × heat over the heat of the same radiator alone in the same nose with the same fans",
        source="definition of this program",
    ),
)


def basis_of(stack: Sequence[Core]) -> tuple[Basis, ...]:
    """Return what the figures of this pack rest on."""
    return (*_ALWAYS, *(_core_basis(core) for core in stack))


def _core_basis(core: Core) -> Basis:
    ground = core_ground(core)
    how = "louvred-fin and tube correlations on " + ground.ground.value
    sure = "" if ground.ground is Ground.CONSTRUCTION else "; the type's values are from memory"
    return Basis(figure=f"heat and resistance of “{core.name}”", method=how, source=_HEAT_SPREAD + sure)
