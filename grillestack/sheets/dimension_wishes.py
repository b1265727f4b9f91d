"""What has to be dimensioned: every core, tank, hole, port and fan centre, as points with names and stable keys."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from grillestack.geometry.projection import BodyKind, placed_boxes
from grillestack.model.parts import Fan, Part
from grillestack.model.project import Project, stack
from grillestack.sheets.datum import Datum
from grillestack.sheets.draw_list import Axis
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import SAME_MM
from grillestack.sheets.view_faces import Looking, Seen, seen

_NO_BREAK = "\u00a0"
# What an edge is called; where two of one part fall together, the first named wins.
_WORDS = {
    BodyKind.CORE: "core",
    BodyKind.TANK: "tank",
    BodyKind.SIDE_PLATE: "plate",
    BodyKind.FRAME: "frame",
    BodyKind.SHROUD: "",
    BodyKind.FAN: "centre",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """One ordinate that is wanted: where its line starts on the view, how far it is from the datum, what it is of."""

    key: str
    axis: Axis
    at: Seen
    value_mm: float
    tag: str
    word: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Ordinate:
    """One ordinate to be drawn: wishes that fall on one line, in one."""

    key: str
    axis: Axis
    at: Seen
    value_mm: float
    label: str


def front_wishes(project: Project, datum: Datum) -> tuple[Wish, ...]:
    """Return the ordinates of cores, tanks, shrouds and fan centres in the front view."""
    tags = part_tags(project)
    return tuple(wish for part in stack(project) for wish in _in_front_view(part, tags[part.id].tag, datum))


def depth_wishes(project: Project, datum: Datum) -> tuple[Wish, ...]:
    """Return the ordinates of the front and rear of every body, along the vehicle, for the view from above."""
    tags = part_tags(project)
    return tuple(wish for part in stack(project) for wish in _in_depth(part, tags[part.id].tag, datum))


def ordinates(wishes: Iterable[Wish], axis: Axis) -> tuple[Ordinate, ...]:
    """Return the ordinates of one axis in order of their values, wishes of one value in one line.

    The line starts at the point nearest to its row: the lowest of those across, the one furthest left of those upwards.
    """
    wanted = sorted((wish for wish in wishes if wish.axis is axis), key=lambda wish: wish.value_mm)
    groups: list[list[Wish]] = []
    for wish in wanted:
        if groups and wish.value_mm - groups[-1][0].value_mm < SAME_MM:
            groups[-1].append(wish)
        else:
            groups.append([wish])
    return tuple(_one(group, axis) for group in groups)


def _one(group: Sequence[Wish], axis: Axis) -> Ordinate:
    nearest = min(group, key=lambda wish: wish.at.v_mm if axis is Axis.ACROSS else wish.at.u_mm)
    first = min(group, key=lambda wish: wish.key)
    return Ordinate(key=first.key, axis=axis, at=nearest.at, value_mm=nearest.value_mm, label=_label(group))


def _label(group: Sequence[Wish]) -> str:
    by_tag: dict[str, str] = {}
    rank = list(_WORDS.values())
    for wish in group:
        tag = wish.tag.replace(" ", _NO_BREAK)
        known = by_tag.get(tag)
        if known is None or (wish.word in rank and known in rank and rank.index(wish.word) < rank.index(known)):
            by_tag[tag] = wish.word
    by_word: dict[str, list[str]] = {}
    for tag, word in by_tag.items():
        by_word.setdefault(word, []).append(tag)
    names = [f"{', '.join(tags)} {word}".strip() for word, tags in by_word.items()]
    return "; ".join(names)


def _in_front_view(part: Part, tag: str, datum: Datum) -> Iterator[Wish]:
    if isinstance(part, Fan):
        at = part.placement
        centre = seen(Looking.AHEAD, at.x_mm, at.y_mm, at.z_mm)
        yield Wish(
            key=f"front:{part.id}:centre:across",
            axis=Axis.ACROSS,
            at=centre,
            value_mm=datum.y_mm - at.y_mm,
            tag=tag,
            word="centre",
        )
        yield Wish(
            key=f"front:{part.id}:centre:up",
            axis=Axis.UP,
            at=centre,
            value_mm=at.z_mm - datum.z_mm,
            tag=tag,
            word="centre",
        )
        return
    for place, box in enumerate(placed_boxes(part)):
        name = "core" if box.kind is BodyKind.CORE else f"{box.kind.value.replace(' ', '-')}-{place}"
        low, high = box.side_corners_mm[0][1], box.side_corners_mm[1][1]
        left, right = -box.y1_mm, -box.y0_mm
        for side, u in (("left", left), ("right", right)):
            yield Wish(
                key=f"front:{part.id}:{name}:{side}",
                axis=Axis.ACROSS,
                at=Seen(u, low),
                value_mm=u + datum.y_mm,
                tag=tag,
                word=_WORDS[box.kind],
            )
        for side, v in (("bottom", low), ("top", high)):
            yield Wish(
                key=f"front:{part.id}:{name}:{side}",
                axis=Axis.UP,
                at=Seen(left, v),
                value_mm=v - datum.z_mm,
                tag=tag,
                word=_WORDS[box.kind],
            )


def _in_depth(part: Part, tag: str, datum: Datum) -> Iterator[Wish]:
    for place, box in enumerate(placed_boxes(part)):
        name = "core" if box.kind is BodyKind.CORE else f"{box.kind.value.replace(' ', '-')}-{place}"
        for side, x in (("front", box.x0_mm), ("rear", box.x1_mm)):
            yield Wish(
                key=f"plan:{part.id}:{name}:{side}",
                axis=Axis.UP,
                at=Seen(-box.y1_mm, x),
                value_mm=x - datum.x_mm,
                tag=tag,
                word=_WORDS[box.kind] if box.kind is not BodyKind.FAN else "",
            )
