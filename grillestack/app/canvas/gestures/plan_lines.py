"""To which lines does a moving part jump in the view from above: sides of what stays, the planes of its front and rear."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from grillestack.app.canvas.gestures.extents import neighbours
from grillestack.app.canvas.gestures.snap import Axis, SnapLine, side_snap_lines
from grillestack.model.project import Project


def plan_snap_lines(project: Project, moving: Sequence[str]) -> tuple[SnapLine, ...]:
    """Return all lines of the view from above for the moving parts."""
    lines = [SnapLine(axis=Axis.Y, at_mm=0.0, from_mm=0.0, to_mm=0.0, words="centre of nose", for_middle=True)]
    stay = neighbours(project, moving)
    for thing in stay:
        right, left = thing.extent_mm[Axis.Y][1], thing.extent_mm[Axis.Y][0]
        front, rear = thing.extent_mm[Axis.X]
        for at, words, for_middle in (
            (left, f"in line with {thing.words} left side", False),
            (right, f"in line with {thing.words} right side", False),
            ((left + right) / 2, f"centred on {thing.words}", True),
        ):
            lines.append(SnapLine(axis=Axis.Y, at_mm=at, from_mm=front, to_mm=rear, words=words, for_middle=for_middle))
    # Those of the side view reach over heights, which are not seen from above: here they reach across all that stays.
    across = [edge for thing in stay for edge in thing.extent_mm[Axis.Y]] or [0.0]
    low, high = min(across), max(across)
    along = [dataclasses.replace(line, from_mm=low, to_mm=high) for line in side_snap_lines(project, moving)]
    return (*lines, *along)
