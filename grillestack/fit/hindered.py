"""What of the nose and the pack, or of the part itself, is in the way: gathered into things that can be changed at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from grillestack.fit.change_words import Words
from grillestack.fit.pack_room import PackRoom
from grillestack.fit.result import Change, Stop
from grillestack.geometry.near_miss import Case, Hindrance
from grillestack.geometry.posed_body import Body
from grillestack.geometry.setting import Setting
from grillestack.geometry.taken_space import Matter, Piece

# Least first: a port is turned and a bracket shortened at the bench; what is the vehicle's own is touched last.
TURN, TRIM, MOVE, SWAP, VEHICLE, NONE = range(6)


@dataclass(frozen=True, slots=True)
class Group:
    """Hindrances that one change would end; `along_mm` says for each which move along the vehicle would, if that is the change.

    `change` gives the change for so many millimetres with its effort: less is better.
    """

    hindrances: tuple[Hindrance, ...]
    along_mm: tuple[float, ...]
    change: Callable[[float], tuple[int, Change]]


def groups_of(setting: Setting, pack: PackRoom, body: Body, x_mm: float, case: Case, words: Words) -> tuple[Group, ...]:
    """Return what could be changed about what is in the way, in an order that depends on the part and the nose alone."""
    pieces = body.pieces
    of_part: dict[tuple[Matter, int], list[Hindrance]] = {}
    of_nose: dict[str, list[Hindrance]] = {}
    behind: list[Hindrance] = []
    ahead: list[Hindrance] = []
    for one in case.hindrances:
        piece, obstacle = pieces[one.piece], setting.obstacles[one.obstacle]
        if piece.matter in (Matter.PORT, Matter.MOUNT):
            of_part.setdefault((piece.matter, piece.place), []).append(one)
        if obstacle.matter is Matter.NOSE:
            of_nose.setdefault(obstacle.thing_id, []).append(one)
        else:
            (behind if obstacle.thing_id in pack.behind else ahead).append(one)
    groups = [_of_part(matter, pieces[found[0].piece], found, words) for (matter, _), found in of_part.items()]
    brackets = [found for (matter, _), found in of_part.items() if matter is Matter.MOUNT]
    if len(brackets) > 1:
        every = tuple(one for found in brackets for one in found)
        groups.append(Group(every, (), lambda by_mm: (TRIM, words.trim_bracket("its brackets", by_mm))))
    if behind:
        groups.append(_moved(setting, pieces, x_mm, behind, pack, words, back=True))
    if ahead:
        groups.append(_moved(setting, pieces, x_mm, ahead, pack, words, back=False))
    for thing_id, found in of_nose.items():
        name = pack.names[thing_id]
        groups.append(_of_nose(name, found, words))
    return tuple(groups)


def stop_of(setting: Setting, pack: PackRoom, body: Body, group: Group, by_mm: float | None, words: Words) -> Stop:
    """Return what is in the way, in words: the piece and the thing that take most from each other."""
    largest = max(group.hindrances, key=lambda one: (_area_mm2(one), -one.piece, -one.obstacle))
    piece, obstacle = body.pieces[largest.piece], setting.obstacles[largest.obstacle]
    keep = setting.clearances.between(obstacle.matter, piece.matter) or 0.0
    thing = pack.names[obstacle.thing_id]
    if obstacle.matter in (Matter.PORT, Matter.MOUNT):
        thing = f"the {obstacle.name} of {thing}"
    return Stop(words=words.too_near(piece, thing, by_mm, keep), thing_id=obstacle.thing_id, amount_mm=by_mm)


def _of_part(matter: Matter, piece: Piece, found: Sequence[Hindrance], words: Words) -> Group:
    if matter is Matter.PORT:
        name = piece.name
        return Group(tuple(found), (), lambda _mm: (TURN, words.turn_port(name)))
    where = f"its {_where(piece)} bracket"
    return Group(tuple(found), (), lambda by_mm: (TRIM, words.trim_bracket(where, by_mm)))


def _of_nose(name: str, found: Sequence[Hindrance], words: Words) -> Group:
    return Group(tuple(found), (), lambda by_mm: (VEHICLE, words.give_way(name, by_mm)))


def _where(piece: Piece) -> str:
    """Return where on the part a bracket is; left and right are the vehicle's."""
    y, z = piece.box.y0_mm + piece.box.y1_mm, piece.box.z0_mm + piece.box.z1_mm
    up = "upper" if z > 0 else "lower"
    return f"{up} left" if y < 0 else f"{up} right" if y > 0 else up


def _moved(
    setting: Setting,
    pieces: Sequence[Piece],
    x_mm: float,
    found: Sequence[Hindrance],
    pack: PackRoom,
    words: Words,
    *,
    back: bool,
) -> Group:
    """Return the group of what stands behind, or ahead, with how far each must move along the vehicle."""
    needs = []
    for one in found:
        piece, obstacle = pieces[one.piece], setting.obstacles[one.obstacle]
        keep = setting.clearances.between(obstacle.matter, piece.matter) or 0.0
        into_rear = x_mm + piece.rear_mm + keep - obstacle.front_mm
        needs.append(into_rear if back else obstacle.rear_mm + keep - (x_mm + piece.front_mm))

    def change(by_mm: float) -> tuple[int, Change]:
        said = pack.move_back(by_mm, words) if back else pack.move_forward(by_mm, words)
        if said is not None:
            return MOVE, said
        return NONE, Change(words=_no_room(pack, by_mm, words, back=back), caution="", amount_mm=by_mm)

    return Group(tuple(found), tuple(needs), change)


def _no_room(pack: PackRoom, needed_mm: float, words: Words, *, back: bool) -> str:
    if back:
        left = "" if pack.back_mm is None else f", and the pulley leaves {words.least(pack.back_mm)} for that"
        return (
            f"A shallower one is the way: {pack.behind_words} would have to move back {words.length(needed_mm)}{left}"
        )
    left = f", and the grille leaves {words.least(pack.forward_mm)} for that"
    return f"A shallower one is the way: {pack.ahead_words} would have to move forward {words.length(needed_mm)}{left}"


def _area_mm2(one: Hindrance) -> float:
    y0, z0, y1, z1 = one.taken_mm
    return (y1 - y0) * (z1 - z0)
