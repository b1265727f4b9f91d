"""What of the nose and the pack, or of the part itself, is in the way: gathered into things that can be changed at once."""

from __future__ import annotations

import enum
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from grillestack.fit.change_words import Words
from grillestack.fit.pack_room import PackRoom
from grillestack.fit.result import Change, Stop
from grillestack.geometry.near_miss import Case
from grillestack.geometry.posed_body import Body
from grillestack.geometry.room_table import WINDOW_CORNER
from grillestack.geometry.setting import Setting
from grillestack.geometry.taken_space import Matter, Piece


class Effort(enum.IntEnum):
    """What a change takes, least first: a port is turned and a bracket shortened at the bench; the vehicle's own comes last."""

    TURN = 0
    TRIM = 1
    MOVE = 2
    SWAP = 3
    VEHICLE = 4
    NONE = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Hindrances, by their numbers in the case, that one change would end.

    `needs_mm` says for each which move along the vehicle would end it, if that is the change; `name` is what would change.
    """

    members: frozenset[int]
    effort: Effort
    name: str
    is_back: bool = False
    needs_mm: Mapping[int, float] = field(default_factory=dict)

    def effort_for(self, by_mm: float, pack: PackRoom) -> Effort:
        """Return what a change of so many millimetres takes."""
        if self.effort is not Effort.MOVE:
            return self.effort
        has_room = pack.can_move_back(by_mm) if self.is_back else pack.can_move_forward(by_mm)
        return Effort.MOVE if has_room else Effort.NONE

    def change(self, by_mm: float, pack: PackRoom, words: Words) -> Change:
        """Return that change in words."""
        match self.effort:
            case Effort.TURN:
                return words.turn_port(self.name)
            case Effort.TRIM:
                return words.trim_bracket(self.name, by_mm)
            case Effort.MOVE:
                return pack.move_back(by_mm, words) if self.is_back else pack.move_forward(by_mm, words)
            case _:
                return words.give_way(self.name, by_mm)


def groups_of(setting: Setting, pack: PackRoom, body: Body, x_mm: float, case: Case) -> tuple[Group, ...]:
    """Return what could be changed about what is in the way, in an order that depends on the part and the nose alone."""
    ports: dict[int, set[int]] = {}
    brackets: dict[int, set[int]] = {}
    nose: dict[str, set[int]] = {}
    needs: tuple[dict[int, float], dict[int, float]] = ({}, {})
    for number, (piece_number, obstacle_number, _) in enumerate(case.hindrances_mm):
        if obstacle_number == WINDOW_CORNER:
            nose.setdefault("", set()).add(number)
            continue
        piece, obstacle = body.pieces[piece_number], setting.obstacles[obstacle_number]
        if piece.matter is Matter.PORT:
            ports.setdefault(piece_number, set()).add(number)
        elif piece.matter is Matter.MOUNT:
            brackets.setdefault(piece_number, set()).add(number)
        if obstacle.matter is Matter.NOSE:
            nose.setdefault(obstacle.thing_id, set()).add(number)
            continue
        keep = setting.clearances.between(obstacle.matter, piece.matter) or 0.0
        if obstacle.thing_id in pack.behind:
            needs[1][number] = x_mm + piece.rear_mm + keep - obstacle.front_mm
        else:
            needs[0][number] = obstacle.rear_mm + keep - (x_mm + piece.front_mm)
    groups = [_group(found, Effort.TURN, body.pieces[one].name) for one, found in ports.items()]
    groups += [_group(found, Effort.TRIM, f"its {_where(body.pieces[one])} bracket") for one, found in brackets.items()]
    if len(brackets) > 1:
        groups.append(_group(set().union(*brackets.values()), Effort.TRIM, "its brackets"))
    for is_back, found in ((True, needs[1]), (False, needs[0])):
        if found:
            groups.append(Group(members=frozenset(found), effort=Effort.MOVE, name="", is_back=is_back, needs_mm=found))
    corner = "a corner of the support window"
    groups += [_group(found, Effort.VEHICLE, pack.names.get(one, corner)) for one, found in nose.items()]
    return tuple(groups)


def stop_of(
    setting: Setting, pack: PackRoom, body: Body, case: Case, group: Group, by_mm: float | None, words: Words
) -> Stop:
    """Return what is in the way, in words: the piece and the thing that take most from each other."""
    largest = max(group.members, key=lambda one: (_area_mm2(case, one), -one))
    piece_number, obstacle_number, _ = case.hindrances_mm[largest]
    if obstacle_number == WINDOW_CORNER:
        return Stop(words=words.meets("it", group.name, by_mm), thing_id="", amount_mm=by_mm)
    piece, obstacle = body.pieces[piece_number], setting.obstacles[obstacle_number]
    keep = setting.clearances.between(obstacle.matter, piece.matter) or 0.0
    thing = pack.names[obstacle.thing_id]
    if obstacle.matter in (Matter.PORT, Matter.MOUNT):
        thing = f"the {obstacle.name} of {thing}"
    return Stop(words=words.too_near(piece, thing, by_mm, keep), thing_id=obstacle.thing_id, amount_mm=by_mm)


def names_in_the_way(groups: Sequence[Group]) -> tuple[Group, ...]:
    """Return the groups that speak of what is around the part, not of the part's own ports and brackets."""
    return tuple(group for group in groups if group.effort in (Effort.MOVE, Effort.VEHICLE)) or tuple(groups)


def _group(members: set[int], effort: Effort, name: str) -> Group:
    return Group(members=frozenset(members), effort=effort, name=name)


def _where(piece: Piece) -> str:
    """Return where on the part a bracket is; left and right are the vehicle's."""
    y, z = piece.box.y0_mm + piece.box.y1_mm, piece.box.z0_mm + piece.box.z1_mm
    up = "upper" if z > 0 else "lower"
    return f"{up} left" if y < 0 else f"{up} right" if y > 0 else up


def _area_mm2(case: Case, number: int) -> float:
    y0, z0, y1, z1 = case.hindrances_mm[number][2]
    return (y1 - y0) * (z1 - z0)
