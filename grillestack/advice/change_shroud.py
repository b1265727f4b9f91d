"""What a shroud could cover: the whole core of the radiator, with the fans in it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from grillestack.advice.change import Candidate, Change, Situation
from grillestack.geometry.projection import project_part
from grillestack.model import edits
from grillestack.model.parts import Core, Fan, Placement, Shroud
from grillestack.model.project import fans, radiator, shrouds

_COVERED_MM: Final = 1.0
_LIP_MM: Final = 2.0
_SHALLOWEST_MM: Final = 20.0
# A fan further behind the core than this is no fan of the pack (common practice, from memory).
_DEEPEST_MM: Final = 250.0


def shroud_over_the_whole_core(situation: Situation) -> Iterator[Candidate]:
    """Let the one shroud cover the radiator's core, or give fans without a shroud one."""
    main, present = radiator(situation.project), shrouds(situation.project)
    if main is None or len(present) > 1:
        return
    if not present:
        yield from _new_shroud(situation, main)
    elif not covers(present[0], main):
        grown = covering(present[0], main)
        yield Candidate(
            kind="shroud",
            title="Lead the shroud over the whole core",
            words=f"A shroud of {_size(situation, grown)} in place of {_size(situation, present[0])}, square to the radiator's core.",
            project=edits.replace_part(situation.project, grown),
            parts=(grown.id,),
        )


def covers(shroud: Shroud, main: Core) -> bool:
    """Return whether the shroud's outline holds the whole core."""
    box, core = project_part(shroud).outline_box, project_part(main).core_box
    return core is not None and (
        box.y0_mm <= core.y0_mm + _COVERED_MM
        and box.z0_mm <= core.z0_mm + _COVERED_MM
        and box.y1_mm >= core.y1_mm - _COVERED_MM
        and box.z1_mm >= core.z1_mm - _COVERED_MM
    )


def covering(shroud: Shroud, main: Core) -> Shroud:
    """Return an own copy of the shroud that covers the core, as far back as it was."""
    at = main.placement
    return replace(
        shroud,
        own_sizes=True,
        width_mm=main.core_width_mm,
        height_mm=main.core_height_mm,
        placement=replace(at, x_mm=shroud.placement.x_mm, flipped=False),
    )


CHANGES: tuple[Change, ...] = (shroud_over_the_whole_core,)


def _new_shroud(situation: Situation, main: Core) -> Iterator[Candidate]:
    core = project_part(main)
    front_mm = core.core_x_rear_mm + _LIP_MM
    inside = [fan for fan in fans(situation.project) if _behind(fan, main, front_mm)]
    if not inside:
        return
    # The ring stands half in the shroud, half out of it.
    depth_mm = max(fan.placement.x_mm + fan.depth_mm / 2 for fan in inside) - front_mm
    if depth_mm < _SHALLOWEST_MM:
        return
    blank = Shroud(
        id="shroud",
        name="Shroud made to measure",
        depth_mm=depth_mm,
        width_mm=main.core_width_mm,
        height_mm=main.core_height_mm,
        placement=Placement(x_mm=front_mm),
    )
    changed, shroud_id = edits.add_part(situation.project, covering(blank, main))
    yield Candidate(
        kind="shroud",
        title="Add a shroud over the whole core",
        words=f"There is none now: one of {_size(situation, blank)}, {situation.length(depth_mm)} deep, with the fans in it.",
        project=changed,
        parts=(shroud_id, *(fan.id for fan in inside)),
    )


def _behind(fan: Fan, main: Core, front_mm: float) -> bool:
    placed, core = project_part(fan), project_part(main).core_box
    at = fan.placement
    near = placed.x_rear_mm > front_mm and at.x_mm < front_mm + _DEEPEST_MM
    return core is not None and near and core.holds(at.y_mm, at.z_mm)


def _size(situation: Situation, shroud: Shroud) -> str:
    return f"{situation.length(shroud.width_mm)} × {situation.length(shroud.height_mm)}"
