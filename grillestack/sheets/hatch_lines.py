"""Along which lines an area is hatched."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

from grillestack.sheets.draw_list import Hatch, Point


def hatch_lines(hatch: Hatch) -> Iterator[tuple[Point, Point]]:
    """Return the narrow lines inside the area's outline, where it is crossed an odd number of times before."""
    turn = math.radians(hatch.angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    # The area turned so that its hatching lies level
    corners = [(p.x_mm * cos + p.y_mm * sin, -p.x_mm * sin + p.y_mm * cos) for p in hatch.points]
    low, high = min(c[1] for c in corners), max(c[1] for c in corners)
    level = math.ceil(low / hatch.spacing_mm) * hatch.spacing_mm
    while level < high:
        cuts = sorted(
            a[0] + (level - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
            for a, b in itertools.pairwise((*corners, corners[0]))
            if (a[1] <= level) != (b[1] <= level)
        )
        for start, end in zip(cuts[::2], cuts[1::2], strict=True):
            yield (
                Point(start * cos - level * sin, start * sin + level * cos),
                Point(end * cos - level * sin, end * sin + level * cos),
            )
        level += hatch.spacing_mm
