"""Moving parts fore and aft in the side strip: along x, and past a neighbour by taking its place in the pack."""

from __future__ import annotations

from grillestack.app.canvas.gestures.extents import extent_of, overlap
from grillestack.app.canvas.gestures.gesture import Marks, Pointer
from grillestack.app.canvas.gestures.move import MoveGesture, Sheet
from grillestack.app.canvas.gestures.snap import Axis
from grillestack.app.canvas.trade_names import clear_words
from grillestack.app.locked import locked_among
from grillestack.app.session import Session
from grillestack.geometry.projection import project_part
from grillestack.model.edits import restack
from grillestack.model.parts import Core
from grillestack.model.project import Project, stack


class MoveForeAftGesture(MoveGesture):
    """Shifts the held parts along x; one core alone that is dragged past another one changes places with it."""

    def __init__(self, session: Session, part_ids: tuple[str, ...], *, grid_on: bool = False) -> None:
        super().__init__(session, part_ids, Sheet.SIDE, grid_on=grid_on)

    def changed(self, at: Pointer) -> Project:
        """Return the project with the held parts moved, or the pack in its new order."""
        moved = super().changed(at)
        is_typed = self.typed is not None and self.typed.is_open
        if at.snaps_off or is_typed or len(self.held_ids) != 1:
            return moved
        passed = cores_passed(self.project, moved, self.held_ids[0])
        if not passed:
            return moved
        swapped = restack(self.project, order_past(self.project, self.held_ids[0], passed))
        stayed = locked_among(self.project, [part.id for part in self.project.parts])
        if any(self.project.part(name).placement != swapped.part(name).placement for name in stayed):
            return moved
        words = clear_words(self.project.parts)
        names = " and ".join(words[name] for name in passed)
        self.shown_marks = Marks(moved_text=f"changes places with {names}", typed=self.shown_marks.typed)
        return swapped


def cores_passed(before: Project, after: Project, part_id: str) -> tuple[str, ...]:
    """Return the cores past whose middle a core has gone, of those that stand before or behind it in the front view."""
    held = before.part(part_id)
    if not isinstance(held, Core):
        return ()
    extent = extent_of(before, part_id)
    old_mm, new_mm = _middle_mm(before, part_id), _middle_mm(after, part_id)
    found = []
    for part in stack(before):
        if part.id == part_id or not isinstance(part, Core):
            continue
        other = extent_of(before, part.id)
        meets = overlap(other[Axis.Y], extent[Axis.Y]) and overlap(other[Axis.Z], extent[Axis.Z])
        middle_mm = _middle_mm(before, part.id)
        if meets and min(old_mm, new_mm) < middle_mm < max(old_mm, new_mm):
            found.append(part.id)
    return tuple(found)


def order_past(project: Project, part_id: str, passed: tuple[str, ...]) -> tuple[str, ...]:
    """Return the order of the pack with that part on the other side of those it has passed, all else as it was."""
    order = [part.id for part in stack(project) if part.id != part_id]
    old = [part.id for part in stack(project)].index(part_id)
    places = [order.index(name) for name in passed]
    to = max(places) + 1 if max(places) >= old else min(places)
    return (*order[:to], part_id, *order[to:])


def _middle_mm(project: Project, part_id: str) -> float:
    seen = project_part(project.part(part_id))
    return (seen.core_x_front_mm + seen.core_x_rear_mm) / 2
