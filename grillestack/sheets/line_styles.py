"""How long the dashes, dots and gaps of a line are, after ISO 128-2, in shares of the width of the line."""

from __future__ import annotations

from collections.abc import Mapping

from grillestack.sheets.draw_list import LineGroup, LineKind, Stroke

# Dash and gap in turn; dashes 12 d, long dashes 24 d, gaps 3 d, dots at most 0.5 d. From memory of the standard.
PATTERNS: Mapping[LineKind, tuple[float, ...]] = {
    LineKind.CONTINUOUS: (),
    LineKind.DASHED: (12.0, 3.0),
    LineKind.CHAIN: (24.0, 3.0, 0.5, 3.0),
    LineKind.DOUBLE_CHAIN: (24.0, 3.0, 0.5, 3.0, 0.5, 3.0),
}


def dashes_mm(stroke: Stroke, group: LineGroup) -> tuple[float, ...]:
    """Return the dashes and gaps of a line on paper; none for a continuous one."""
    width = group.width_mm(stroke.weight)
    return tuple(width * share for share in PATTERNS[stroke.kind])
