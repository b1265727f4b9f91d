"""What there is to draw of one part as seen from ahead, worked out once and not at each repaint."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.app.canvas.items.hidden_edges import Edge, is_covered, split_edges
from grillestack.geometry.projection import Box, ProjectedPart
from grillestack.model.parts import SolidKind


@dataclass(frozen=True, slots=True)
class SolidFill:
    """A tank or side plate: its box, whether it is a tank, and whether something stands before its middle."""

    box: Box
    is_tank: bool
    is_covered: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLines:
    """The edges of solids, core and outline, apart those the eye sees and those it does not."""

    solids: tuple[SolidFill, ...]
    solid_seen_mm: tuple[Edge, ...]
    solid_hidden_mm: tuple[Edge, ...]
    core_seen_mm: tuple[Edge, ...]
    core_hidden_mm: tuple[Edge, ...]
    outline_seen_mm: tuple[Edge, ...]
    outline_hidden_mm: tuple[Edge, ...]
    is_covered: bool


def part_lines(seen: ProjectedPart, ahead: Sequence[Box]) -> PartLines:
    """Return the lines of a part behind these boxes; of a fan's circle and of a shroud only whether they are covered."""
    if seen.is_fan or seen.is_shroud:
        return _whole_outline(seen, is_covered(seen.outline_box, ahead))
    solids: list[SolidFill] = []
    solid_seen: list[Edge] = []
    solid_hidden: list[Edge] = []
    for box, kind in zip(seen.solid_boxes, seen.solid_kinds, strict=True):
        solids.append(SolidFill(box, kind is SolidKind.TANK, is_covered(box, ahead)))
        edges = split_edges(box, ahead)
        solid_seen += edges.seen_mm
        solid_hidden += edges.hidden_mm
    has_core = seen.core_box is not None and seen.core_box != seen.outline_box
    core = split_edges(seen.core_box, ahead) if has_core and seen.core_box is not None else None
    outline = split_edges(seen.outline_box, ahead)
    return PartLines(
        solids=tuple(solids),
        solid_seen_mm=tuple(solid_seen),
        solid_hidden_mm=tuple(solid_hidden),
        core_seen_mm=core.seen_mm if core else (),
        core_hidden_mm=core.hidden_mm if core else (),
        outline_seen_mm=outline.seen_mm,
        outline_hidden_mm=outline.hidden_mm,
        is_covered=False,
    )


def _whole_outline(seen: ProjectedPart, covered: bool) -> PartLines:  # noqa: FBT001  a fact of the part, not a switch
    edges = split_edges(seen.outline_box, ())
    return PartLines(
        solids=(),
        solid_seen_mm=(),
        solid_hidden_mm=(),
        core_seen_mm=(),
        core_hidden_mm=(),
        outline_seen_mm=edges.seen_mm,
        outline_hidden_mm=(),
        # One sees a shroud through everything; only a fan's circle is dashed where something stands before it.
        is_covered=covered and seen.is_fan,
    )
