"""How far the rest of the pack could be moved to make room for a part: back towards the pulley, forward to the grille."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.fit.change_words import Words
from grillestack.fit.result import Change
from grillestack.fit.slots import Slot
from grillestack.geometry.projection import project_part
from grillestack.geometry.setting import Setting
from grillestack.model.project import Project


@dataclass(frozen=True, slots=True, kw_only=True)
class PackRoom:
    """What stands ahead and behind, in words, and how far each could move; no figure where no pulley is given."""

    ahead: tuple[str, ...]
    behind: tuple[str, ...]
    ahead_words: str
    behind_words: str
    forward_mm: float
    back_mm: float | None
    names: dict[str, str]

    def can_move_back(self, by_mm: float) -> bool:
        """Return whether there is something behind that has so much room to move rearward."""
        return bool(self.behind) and (self.back_mm is None or by_mm <= self.back_mm)

    def can_move_forward(self, by_mm: float) -> bool:
        """Return whether there is something ahead that has so much room to move forward."""
        return bool(self.ahead) and by_mm <= self.forward_mm

    def move_back(self, by_mm: float, words: Words) -> Change:
        """Return that all behind should move rearward, or that it would have to but cannot."""
        if self.can_move_back(by_mm):
            return words.move_back(self.behind_words, by_mm, self.back_mm)
        return words.cannot_move_back(self.behind_words, by_mm, self.back_mm)

    def move_forward(self, by_mm: float, words: Words) -> Change:
        """Return that all ahead should move forward, or that it would have to but cannot."""
        if self.can_move_forward(by_mm):
            return words.move_forward(self.ahead_words, by_mm, self.forward_mm)
        return words.cannot_move_forward(self.ahead_words, by_mm, self.forward_mm)


def pack_room(project: Project, slot: Slot, setting: Setting) -> PackRoom:
    """Return how far what is ahead of a slot and what is behind it could be moved."""
    ahead = [project_part(project.part(part_id)) for part_id in slot.ahead]
    behind = [project_part(project.part(part_id)) for part_id in slot.behind]
    pulley = setting.pulley_x_mm
    last = max((part.x_rear_mm for part in behind), default=0.0)
    first = min((part.x_front_mm for part in ahead), default=setting.grille_x_mm)
    names = {thing.id: f"“{thing.name}”" for thing in (*project.parts, *project.nose.obstructions)}
    return PackRoom(
        ahead=slot.ahead,
        behind=slot.behind,
        ahead_words=_all_of([names[part_id] for part_id in slot.ahead]),
        behind_words=_all_of([names[part_id] for part_id in slot.behind]),
        forward_mm=max(0.0, first - setting.grille_x_mm),
        back_mm=None if pulley is None else max(0.0, pulley - setting.clearances.pulley_mm - last),
        names=names,
    )


def _all_of(names: list[str]) -> str:
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
