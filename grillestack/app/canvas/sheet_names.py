"""What is named on the sheet, in which order, what the whole says in words, and what the next step is."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.app.canvas.gestures.snap import bounds_of
from grillestack.app.canvas.trade_names import trade_word
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.geometry.corners import traced
from grillestack.geometry.projection import Box, project_part
from grillestack.model.nose import Opening
from grillestack.model.parts import Part
from grillestack.model.project import Project, radiator, stack
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetName:
    """A thing to be named: its id, words, the place of its outline, and its number from the front if it is a part."""

    key: str
    text: str
    around: Box
    number: int | None = None


def front_names(project: Project) -> tuple[SheetName, ...]:
    """Return what the front view names: parts from front to back first, then openings, obstructions, support window."""
    found = [
        SheetName(key=part.id, text=part.name, around=project_part(part).outline_box, number=number)
        for number, part in enumerate(stack(project), start=1)
        if not part.hidden
    ]
    nose = project.nose
    found += [SheetName(key=o.id, text=_opening_words(o), around=bounds_of(traced(o))) for o in nose.openings]
    found += [SheetName(key=o.id, text=o.name, around=bounds_of(traced(o))) for o in nose.obstructions]
    if nose.support_window is not None:
        around = bounds_of(traced(nose.support_window))
        found.append(SheetName(key=SUPPORT_WINDOW_ID, text="Support window", around=around))
    return tuple(found)


def part_numbers(project: Project) -> dict[str, int]:
    """Return each part's number from front to back."""
    return {part.id: number for number, part in enumerate(stack(project), start=1)}


def in_words(project: Project) -> str:
    """Return the pack from front to back as a sentence for those who hear the screen."""
    parts = [
        f"{number} {part.name}, {trade_word(part)}{_state_words(part)}"
        for number, part in enumerate(stack(project), start=1)
    ]
    if not parts:
        return f"The pack is empty. {next_step(project)}".strip()
    return "From front to back: " + "; ".join(parts) + "."


def next_step(project: Project) -> str:
    """Return the one thing to do next, or nothing once there is a pack to judge."""
    if not project.nose.openings and not project.parts:
        return "First give the nose its grille opening: measure its width and height and how high it stands."
    if not project.parts:
        return "Now drag a radiator from the shelf onto the opening."
    if not project.nose.openings:
        return "The grille opening is missing: without it no part of the face sees fresh air."
    if radiator(project) is None:
        return "The pack has no radiator yet: drag one from the shelf onto the nose."
    return ""


def hidden_words(project: Project) -> str:
    """Return how many parts are not drawn, or nothing if all are."""
    count = sum(part.hidden for part in project.parts)
    if count == 0:
        return ""
    return "1 part hidden, but counted" if count == 1 else f"{count} parts hidden, but counted"


def _state_words(part: Part) -> str:
    return (", locked" if part.locked else "") + (", hidden" if part.hidden else "")


def _opening_words(opening: Opening) -> str:
    if opening.free_area_frac is None:
        return f"{opening.name}, free area not given"
    if opening.free_area_frac >= 1.0:
        return f"{opening.name}, no bars"
    return f"{opening.name}, {show_quantity(opening.free_area_frac, Dimension.FRACTION, UnitSystem.METRIC)} open"
