"""What a measuring hand catches: corners, middles and edges of parts, openings, obstructions and planes, with their names."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.snap import bounds_of
from grillestack.app.canvas.trade_names import clear_words, trade_word
from grillestack.geometry.corners import traced
from grillestack.geometry.projection import Box, Circle, project_part
from grillestack.model.nose import NoseThing
from grillestack.model.parts import Part
from grillestack.model.project import Project

REACH_PX = 11.0
_NOT_ROUND_MM = 5.0
_FAR_MM = 20_000.0
Place = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Caught:
    """A place on the sheet in mm and what it is; no words where nothing was caught."""

    at_mm: Place
    words: str = ""


@dataclass(frozen=True, slots=True)
class Edge:
    """A straight edge between two places."""

    from_mm: Place
    to_mm: Place
    words: str


@dataclass(frozen=True, slots=True)
class Targets:
    """All that can be caught in one view."""

    points: tuple[Caught, ...]
    edges: tuple[Edge, ...]
    circles: tuple[tuple[Circle, str], ...] = ()

    def catch(self, at: Pointer) -> Caught:
        """Return the nearest corner or middle within reach, else the nearest place on an edge, else the pointer's own place."""
        here = (at.across_mm, at.z_mm)
        reach_mm = REACH_PX / at.px_per_mm
        if at.snaps_off:
            return Caught(here)
        near = min(self.points, key=lambda point: math.dist(point.at_mm, here), default=None)
        if near is not None and math.dist(near.at_mm, here) <= reach_mm:
            return near
        on_edges = [Caught(_nearest_on(edge, here), edge.words) for edge in self.edges]
        on_edges += [Caught(_nearest_on_circle(circle, here), words) for circle, words in self.circles]
        best = min(on_edges, key=lambda caught: math.dist(caught.at_mm, here), default=None)
        if best is not None and math.dist(best.at_mm, here) <= reach_mm:
            return best
        return Caught(here)

    def next_point(self, here: Place, way: Place) -> Caught | None:
        """Return the nearest corner or middle that lies that way: what is off to the side counts three times as far."""
        best, nearest = None, math.inf
        for point in self.points:
            dy, dz = point.at_mm[0] - here[0], point.at_mm[1] - here[1]
            ahead, aside = dy * way[0] + dz * way[1], abs(dy * way[1] - dz * way[0])
            if ahead > 0.01 and ahead + 3.0 * aside < nearest:
                best, nearest = point, ahead + 3.0 * aside
        return best


def front_targets(project: Project) -> Targets:
    """Return what can be caught on the nose seen from ahead."""
    points: list[Caught] = []
    edges: list[Edge] = []
    circles: list[tuple[Circle, str]] = []
    words = clear_words(project.parts)
    for part in project.parts:
        if part.hidden:
            continue
        seen, name = project_part(part), _part_words(part, words)
        if seen.circle is not None:
            circles.append((seen.circle, f"rim of {name}"))
            points.append(Caught((seen.circle.y_mm, seen.circle.z_mm), f"middle of {name}"))
            continue
        boxes = dict.fromkeys(box for box in (seen.outline_box, seen.core_box, *seen.solid_boxes) if box is not None)
        for box in boxes:
            kind = f"core of {name}" if box == seen.core_box else name
            _add_ring(_corners(box), kind, points, edges)
    for thing in _nose_things(project):
        _add_outline(thing, _thing_words(thing), points, edges)
    points.append(Caught((0.0, 0.0), "zero of the nose"))
    edges.append(Edge((0.0, -_FAR_MM), (0.0, _FAR_MM), "centre of the nose"))
    return Targets(tuple(points), tuple(edges), tuple(circles))


def side_targets(project: Project) -> Targets:
    """Return what can be caught in the view from the vehicle's left."""
    points: list[Caught] = []
    edges: list[Edge] = []
    words = clear_words(project.parts)
    for part in project.parts:
        if not part.hidden:
            for body in project_part(part).boxes:
                _add_ring(body.side_corners_mm, _part_words(part, words), points, edges)
    for thing in project.nose.obstructions:
        box = bounds_of(traced(thing))
        ring = _corners(Box(thing.x_front_mm, box.z0_mm, thing.x_rear_mm, box.z1_mm))
        _add_ring(ring, _thing_words(thing), points, edges)
    stations = project.nose.stations
    planes = [(stations.grille_x_mm, "grille plane"), (stations.pulley_x_mm, "pulley plane")]
    edges += [Edge((x, -_FAR_MM), (x, _FAR_MM), name) for x, name in planes if x is not None]
    bonnet = [(point.x_mm, point.z_mm) for point in stations.bonnet_line]
    points += [Caught(place, "point of the bonnet line") for place in bonnet]
    edges += [Edge(a, b, "bonnet line") for a, b in itertools.pairwise(bonnet)]
    return Targets(tuple(points), tuple(edges))


def _nose_things(project: Project) -> Iterator[NoseThing]:
    nose = project.nose
    yield from nose.openings
    yield from nose.obstructions
    if nose.support_window is not None:
        yield nose.support_window


def _thing_words(thing: NoseThing) -> str:
    name = getattr(thing, "name", "")
    return f"“{name}”" if name else "the support window"


def _part_words(part: Part, words: Mapping[str, str]) -> str:
    name = words[part.id]
    return f"the {name}" if name == trade_word(part) else f"“{name}”"


def _add_outline(thing: NoseThing, words: str, points: list[Caught], edges: list[Edge]) -> None:
    ring = [(point.y_mm, point.z_mm) for point in traced(thing)]
    edges += [Edge(a, b, f"edge of {words}") for a, b in _sides(ring)]
    # The many short chords of a rounded corner have no corners that a tape could be held against.
    steps = [math.dist(a, b) for a, b in _sides(ring)]
    for place, at in enumerate(ring):
        if max(steps[place], steps[place - 1]) >= _NOT_ROUND_MM:
            points.append(Caught(at, f"corner of {words}"))


def _add_ring(ring: Sequence[Place], words: str, points: list[Caught], edges: list[Edge]) -> None:
    points += [Caught(at, f"corner of {words}") for at in ring]
    edges += [Edge(a, b, f"edge of {words}") for a, b in _sides(ring)]


def _sides(ring: Sequence[Place]) -> Iterable[tuple[Place, Place]]:
    return zip(ring, [*ring[1:], ring[0]], strict=True)


def _corners(box: Box) -> tuple[Place, ...]:
    return ((box.y0_mm, box.z0_mm), (box.y1_mm, box.z0_mm), (box.y1_mm, box.z1_mm), (box.y0_mm, box.z1_mm))


def _nearest_on(edge: Edge, here: Place) -> Place:
    (ay, az), (by, bz) = edge.from_mm, edge.to_mm
    dy, dz = by - ay, bz - az
    length2 = dy * dy + dz * dz
    if length2 == 0.0:
        return edge.from_mm
    share = min(1.0, max(0.0, ((here[0] - ay) * dy + (here[1] - az) * dz) / length2))
    return (ay + share * dy, az + share * dz)


def _nearest_on_circle(circle: Circle, here: Place) -> Place:
    dy, dz = here[0] - circle.y_mm, here[1] - circle.z_mm
    away = math.hypot(dy, dz)
    if away == 0.0:
        return (circle.y_mm + circle.radius_mm, circle.z_mm)
    return (circle.y_mm + dy / away * circle.radius_mm, circle.z_mm + dz / away * circle.radius_mm)
