"""What could stand elsewhere: the charge-air cooler moved, turned or flipped, neighbours swapped in the order."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import Final

from grillestack.advice.change import Candidate, Change, Situation
from grillestack.advice.room import Margins, window_margins
from grillestack.geometry.projection import project_part
from grillestack.model import edits
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import Project, cores, radiator, stack

# So many positions over the way that is free, in whole steps of a tape: cores are wider than high, so a way up or down
# uncovers more of the radiator.
_STEPS_UP_OR_DOWN: Final = 6
_STEPS_ASIDE: Final = 3
_TAPE_MM: Final = 5.0
_LEAST_MOVE_MM: Final = 10.0


def move_the_charge_air_cooler(situation: Situation) -> Iterator[Candidate]:
    """Move the cooler up, down and to either side, as far as there is room."""
    for core in cores(situation.project, CoreRole.CHARGE_AIR_COOLER):
        room = _room_to_move(situation.project, core)
        ways = (
            ("up", 0.0, 1.0, room.up_mm),
            ("down", 0.0, -1.0, room.down_mm),
            ("to the vehicle's left", -1.0, 0.0, room.left_mm),
            ("to the vehicle's right", 1.0, 0.0, room.right_mm),
        )
        for way, dy, dz, most_mm in ways:
            for distance_mm in _distances_mm(situation, core.id, dy, dz, most_mm):
                yield Candidate(
                    kind=f"move {core.id}",
                    title=f"Move {situation.the(core)} {situation.length(distance_mm)} {way}",
                    words="Its mounts and charge pipes move with it.",
                    project=_moved(situation.project, core.id, dy * distance_mm, dz * distance_mm),
                    parts=(core.id,),
                )


def turn_the_charge_air_cooler(situation: Situation) -> Iterator[Candidate]:
    """Turn the cooler a quarter, either way, where it then has room."""
    for core in cores(situation.project, CoreRole.CHARGE_AIR_COOLER):
        for turns, way in ((1, "clockwise"), (3, "anticlockwise")):
            turned = edits.turn_part(situation.project, core.id, turns)
            if situation.has_room(turned):
                yield Candidate(
                    kind=f"turn {core.id}",
                    title=f"Turn {situation.the(core)} a quarter {way}, seen from ahead",
                    words="Its tanks and ports then lie on the other sides, and its charge pipes are made anew.",
                    project=turned,
                    parts=(core.id,),
                )


def flip_the_charge_air_cooler(situation: Situation) -> Iterator[Candidate]:
    """Turn the cooler front to back."""
    for core in cores(situation.project, CoreRole.CHARGE_AIR_COOLER):
        flipped = edits.flip_part(situation.project, core.id)
        if situation.has_room(flipped):
            yield Candidate(
                kind=f"flip {core.id}",
                title=f"Turn {situation.the(core)} front to back",
                words="Its ports then change sides, and with them which half of it is hot.",
                project=flipped,
                parts=(core.id,),
            )


def swap_neighbours(situation: Situation) -> Iterator[Candidate]:
    """Let two cores that follow each other change places in the order."""
    order = [part.id for part in stack(situation.project)]
    for front, rear in itertools.pairwise(cores(situation.project)):
        swapped = list(order)
        i, j = order.index(front.id), order.index(rear.id)
        swapped[i], swapped[j] = rear.id, front.id
        changed = edits.restack(situation.project, swapped)
        if situation.has_room(changed):
            yield Candidate(
                kind=f"swap {front.id} {rear.id}",
                title=f"Put {situation.the(rear)} ahead of {situation.the(front)}",
                words="The two change places in the order; the gaps stay.",
                project=changed,
                parts=(front.id, rear.id),
            )


CHANGES: tuple[Change, ...] = (
    move_the_charge_air_cooler,
    turn_the_charge_air_cooler,
    flip_the_charge_air_cooler,
    swap_neighbours,
)


def _room_to_move(project: Project, core: Core) -> Margins:
    """Return how far the core may go each way: within the support window, else not past the radiator's outline."""
    window = project.nose.support_window
    if window is not None:
        return window_margins(window, core)
    main = radiator(project)
    if main is None:
        return Margins(0.0, 0.0, 0.0, 0.0)
    mine, its = project_part(core).outline_box, project_part(main).outline_box
    return Margins(mine.y0_mm - its.y0_mm, its.y1_mm - mine.y1_mm, mine.z0_mm - its.z0_mm, its.z1_mm - mine.z1_mm)


def _distances_mm(situation: Situation, part_id: str, dy: float, dz: float, most_mm: float) -> list[float]:
    """Return the distances to try in one direction: shares of the way up to the first thing in it."""
    steps = int(most_mm // _TAPE_MM)
    free, blocked = 0, max(steps, 0) + 1
    trial = steps
    while blocked - free > 1:
        distance_mm = trial * _TAPE_MM
        if situation.has_room(_moved(situation.project, part_id, dy * distance_mm, dz * distance_mm)):
            free = trial
        else:
            blocked = trial
        trial = (free + blocked) // 2
    count = _STEPS_ASIDE if dz == 0.0 else _STEPS_UP_OR_DOWN
    tried = sorted({round(free * step / count) * _TAPE_MM for step in range(1, count + 1)})
    return [distance_mm for distance_mm in tried if distance_mm >= _LEAST_MOVE_MM]


def _moved(project: Project, part_id: str, dy_mm: float, dz_mm: float) -> Project:
    return edits.move_parts(project, [part_id], dy_mm=dy_mm, dz_mm=dz_mm)
