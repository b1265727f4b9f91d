"""How each thing on the sheets is told in words: what it is, how large, where, and in which state."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QRectF

from grillestack.app.canvas.items.part_item import rect_of
from grillestack.app.canvas.items.plan_item import plan_rect
from grillestack.app.canvas.items.side_item import side_rect
from grillestack.app.canvas.sheet_names import front_names, part_numbers
from grillestack.app.canvas.spoken import SpokenThing
from grillestack.app.canvas.trade_names import trade_word
from grillestack.app.nose_things import find_thing
from grillestack.geometry.projection import Box, project_part
from grillestack.model.nose import Obstruction, Opening
from grillestack.model.parts import Part
from grillestack.model.project import Project, stack
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_CENTRED_MM = 0.05


def front_things(project: Project, selection: Sequence[str], units: UnitSystem) -> tuple[SpokenThing, ...]:
    """Return what is on the front view, in the order of Tab."""
    parts = {part.id: part for part in project.parts}
    return tuple(
        SpokenThing(
            key=name.key,
            name=name.text,
            description=(
                part_in_words(parts[name.key], project, units)
                if name.key in parts
                else _thing_in_words(project, name.key, name.around, units)
            ),
            around_mm=rect_of(name.around),
            selected=name.key in selection,
        )
        for name in front_names(project)
    )


def side_things(project: Project, selection: Sequence[str], units: UnitSystem) -> tuple[SpokenThing, ...]:
    """Return the parts on the side view, from front to back."""
    return _parts(project, selection, units, side_rect)


def plan_things(project: Project, selection: Sequence[str], units: UnitSystem) -> tuple[SpokenThing, ...]:
    """Return the parts on the view from above, from front to back."""
    return _parts(project, selection, units, plan_rect)


def part_in_words(part: Part, project: Project, units: UnitSystem) -> str:
    """Return what the part is, its place in the pack, its size over all and where its middle is."""
    seen = project_part(part)
    number = part_numbers(project)[part.id]
    behind_mm = seen.x_front_mm - project.nose.stations.grille_x_mm
    way = "behind the grille" if behind_mm >= 0 else "ahead of the grille"
    states = (", locked" if part.locked else "") + (", hidden" if part.hidden else "")
    return (
        f"{trade_word(part)}, number {number} of {len(project.parts)} from the front, "
        f"{_size_and_place(seen.outline_box, units)}, {_length(part.depth_mm, units)} deep, "
        f"its front {_length(abs(behind_mm), units)} {way}{states}"
    )


def _parts(
    project: Project, selection: Sequence[str], units: UnitSystem, around: Callable[[Part], QRectF]
) -> tuple[SpokenThing, ...]:
    return tuple(
        SpokenThing(
            key=part.id,
            name=part.name,
            description=part_in_words(part, project, units),
            around_mm=around(part),
            selected=part.id in selection,
        )
        for part in stack(project)
        if not part.hidden
    )


def _thing_in_words(project: Project, key: str, around: Box, units: UnitSystem) -> str:
    thing = find_thing(project, key)
    if thing is None:
        return ""
    kind = "support window"
    if isinstance(thing, Opening):
        kind = "opening"
    elif isinstance(thing, Obstruction):
        kind = f"obstruction, {_length(thing.x_rear_mm - thing.x_front_mm, units)} deep"
    return f"{kind}, {_size_and_place(around, units)}"


def _size_and_place(box: Box, units: UnitSystem) -> str:
    y_mm, z_mm = (box.y0_mm + box.y1_mm) / 2, (box.z0_mm + box.z1_mm) / 2
    side = "right" if y_mm >= 0 else "left"
    across = "on the centre line" if abs(y_mm) < _CENTRED_MM else f"{_length(abs(y_mm), units)} {side} of centre"
    return (
        f"{_length(box.y1_mm - box.y0_mm, units)} wide, {_length(box.z1_mm - box.z0_mm, units)} high, "
        f"middle {across} at height {_length(z_mm, units)}"
    )


def _length(value_mm: float, units: UnitSystem) -> str:
    return show_quantity(value_mm, Dimension.LENGTH, units)
