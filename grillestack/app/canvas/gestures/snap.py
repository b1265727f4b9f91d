"""To which lines does a moving part jump, and what are they called in the job's words."""

from __future__ import annotations

import enum
import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from grillestack.app.canvas.trade_names import clear_words
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.geometry.corners import traced
from grillestack.geometry.projection import Box, project_part
from grillestack.model.nose import Nose
from grillestack.model.outline import Point
from grillestack.model.project import Project, stack

SNAP_PX = 6.0
_USUAL_GAP_MM = 15.0  # between cores, within the 10–25 mm of common practice
_SAME_MM = 1e-6


class Axis(enum.Enum):
    """Which coordinate a snap line fixes."""

    X = "x"
    Y = "y"
    Z = "z"


@dataclass(frozen=True, slots=True, kw_only=True)
class SnapLine:
    """A line at a fixed coordinate, its reach along the other one, and its name.

    `for_middle` lines catch only the middle of what moves, `for_port` lines only its ports' axes, the others only its
    edges; `side` is -1 or +1 where only the lower or the upper edge of what moves is caught. `gaps_mm` are the rooms
    along the axis that are equal once it is caught, drawn at `beside_mm` along the other one.
    """

    axis: Axis
    at_mm: float
    from_mm: float
    to_mm: float
    words: str
    for_middle: bool = False
    for_port: bool = False
    side: int = 0
    gaps_mm: tuple[tuple[float, float], ...] = ()
    beside_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapped:
    """The shift that brings the moving part onto the line, and the line."""

    shift_mm: float
    line: SnapLine | None


def front_snap_lines(project: Project, moving: Iterable[str]) -> tuple[SnapLine, ...]:
    """Return all lines of the front view, but those of what moves, to which it may be aligned."""
    held = set(moving)
    others = [part for part in project.parts if part.id not in held and not part.hidden]
    words = clear_words(project.parts)
    lines = [SnapLine(axis=Axis.Y, at_mm=0.0, from_mm=0.0, to_mm=0.0, words="centre of nose", for_middle=True)]
    for number, opening in enumerate(project.nose.openings):
        if opening.id in held:
            continue
        name = "opening" if len(project.nose.openings) == 1 else opening.name or f"opening {number + 1}"
        lines += _lines_of(bounds_of(traced(opening)), name)
    for part in others:
        seen = project_part(part)
        lines += _lines_of(seen.outline_box, words[part.id])
        if seen.core_box is not None and seen.core_box != seen.outline_box:
            lines += _edges_of(seen.core_box, f"{words[part.id]} core")
    if project.nose.support_window is not None and SUPPORT_WINDOW_ID not in held:
        lines += _edges_of(bounds_of(traced(project.nose.support_window)), "support window")
    for obstruction in project.nose.obstructions:
        if obstruction.id in held:
            continue
        lines += _edges_of(bounds_of(traced(obstruction)), obstruction.name)
    return _without_twins(lines)


def side_snap_lines(project: Project, moving: Sequence[str]) -> tuple[SnapLine, ...]:
    """Return all lines of the side view for the moving parts: touching, the usual gap, equal gaps, grille plane."""
    held = set(moving)
    words = clear_words(project.parts)
    lines = [_station(project.nose)]
    for part in project.parts:
        if part.id in held or part.hidden:
            continue
        seen = project_part(part)
        low, high = seen.outline_box.z0_mm, seen.outline_box.z1_mm
        for at, side, name in (
            (seen.x_rear_mm, -1, f"touching the rear of the {words[part.id]}"),
            (seen.x_rear_mm + _USUAL_GAP_MM, -1, f"usual gap behind the {words[part.id]}"),
            (seen.x_front_mm, 1, f"touching the front of the {words[part.id]}"),
            (seen.x_front_mm - _USUAL_GAP_MM, 1, f"usual gap ahead of the {words[part.id]}"),
        ):
            lines.append(SnapLine(axis=Axis.X, at_mm=at, from_mm=low, to_mm=high, words=name, side=side))
    others = [project_part(part) for part in stack(project) if part.id not in held and not part.hidden]
    for ahead, behind in itertools.pairwise(others):
        if behind.x_front_mm > ahead.x_rear_mm:
            box = united([ahead.outline_box, behind.outline_box]) or ahead.outline_box
            name = f"equal gaps to {words[ahead.part_id]} and {words[behind.part_id]}"
            middle = (ahead.x_rear_mm + behind.x_front_mm) / 2
            lines.append(
                SnapLine(axis=Axis.X, at_mm=middle, from_mm=box.z0_mm, to_mm=box.z1_mm, words=name, for_middle=True)
            )
    return tuple(lines)


def nearest_snap(
    edges_mm: tuple[float, float],
    lines: Iterable[SnapLine],
    axis: Axis,
    within_mm: float,
    ports_mm: Sequence[float] = (),
) -> Snapped:
    """Return the smallest shift that brings an edge, the middle or a port of what moves onto a line of that axis."""
    low, high = edges_mm
    best = Snapped(shift_mm=0.0, line=None)
    nearest = within_mm
    for line in lines:
        if line.axis is not axis:
            continue
        edges = ((low,), (low, high), (high,))[line.side + 1]
        places = ports_mm if line.for_port else ((low + high) / 2,) if line.for_middle else edges
        for place in places:
            away = abs(line.at_mm - place)
            # The first of equals wins: opening before parts, outline before core.
            if away < nearest - _SAME_MM or (best.line is None and away <= nearest):
                nearest = away
                best = Snapped(shift_mm=line.at_mm - place, line=line)
    return best


def bounds_of(outline: Sequence[Point]) -> Box:
    """Return the smallest box around an outline."""
    ys = [point.y_mm for point in outline]
    zs = [point.z_mm for point in outline]
    return Box(min(ys), min(zs), max(ys), max(zs))


def united(boxes: Iterable[Box]) -> Box | None:
    """Return the smallest box around several, or nothing around none."""
    found = list(boxes)
    if not found:
        return None
    return Box(
        min(b.y0_mm for b in found),
        min(b.z0_mm for b in found),
        max(b.y1_mm for b in found),
        max(b.z1_mm for b in found),
    )


def _lines_of(box: Box, name: str) -> list[SnapLine]:
    middle_y, middle_z = (box.y0_mm + box.y1_mm) / 2, (box.z0_mm + box.z1_mm) / 2
    return [
        *_edges_of(box, name),
        _level(box, middle_z, f"level with {name} middle", for_middle=True),
        _upright(box, middle_y, f"centred on {name}", for_middle=True),
    ]


def _edges_of(box: Box, name: str) -> list[SnapLine]:
    return [
        _level(box, box.z1_mm, f"level with {name} top"),
        _level(box, box.z0_mm, f"level with {name} bottom"),
        _upright(box, box.y0_mm, f"in line with {name} left side"),
        _upright(box, box.y1_mm, f"in line with {name} right side"),
    ]


def _without_twins(lines: Iterable[SnapLine]) -> tuple[SnapLine, ...]:
    """Return the lines without later ones that lie where an earlier one does: one place, one name."""
    found: dict[tuple[Axis, float, bool], SnapLine] = {}
    for line in lines:
        found.setdefault((line.axis, round(line.at_mm, 3), line.for_middle), line)
    return tuple(found.values())


def _level(box: Box, at_mm: float, words: str, *, for_middle: bool = False) -> SnapLine:
    return SnapLine(axis=Axis.Z, at_mm=at_mm, from_mm=box.y0_mm, to_mm=box.y1_mm, words=words, for_middle=for_middle)


def _upright(box: Box, at_mm: float, words: str, *, for_middle: bool = False) -> SnapLine:
    return SnapLine(axis=Axis.Y, at_mm=at_mm, from_mm=box.z0_mm, to_mm=box.z1_mm, words=words, for_middle=for_middle)


def _station(nose: Nose) -> SnapLine:
    return SnapLine(axis=Axis.X, at_mm=nose.stations.grille_x_mm, from_mm=0.0, to_mm=0.0, words="grille plane", side=-1)
