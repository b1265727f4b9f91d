"""What stops a part and what would let it in, in words with numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from grillestack.fit.result import Change
from grillestack.geometry.taken_space import Matter, Piece
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

STRUCTURE_CAUTION: Final = (
    "Bumper, beam, core support and lamp mounts are or may be crash structure: do not cut or move them unless somebody "
    "licensed to judge it agrees and local rules allow it."
)
_WORTH_MM: Final = 0.05
_MORE: Final[Mapping[str, str]] = {"wide": "wider", "high": "higher"}


class Words:
    """Sentences in one system of units."""

    def __init__(self, units: UnitSystem) -> None:
        self._units = units

    def length(self, length_mm: float) -> str:
        """Return a length in words."""
        return show_quantity(max(length_mm, _WORTH_MM), Dimension.LENGTH, self._units)

    def least(self, length_mm: float) -> str:
        """Return a length in words, "nothing" for none."""
        return self.length(length_mm) if length_mm > _WORTH_MM else "nothing"

    def too_large(self, what: str, by_mm: float, within: str) -> str:
        """Return that a part is too wide, high or deep for something."""
        return f"it is {self.length(by_mm)} too {what} {within}"

    def too_near(self, piece: Piece, thing: str, by_mm: float | None, keep_mm: float) -> str:
        """Return that a piece of the part comes too near to something; how much is left out where it cannot be said."""
        own = "it" if piece.matter in (Matter.SHROUD, Matter.FAN) else f"its {piece.name}"
        if keep_mm > 0:
            amount = "" if by_mm is None else f" by {self.length(by_mm)}"
            return f"{own} comes too near to {thing}{amount}; {self.length(keep_mm)} of room are asked for"
        what = f"the bend at its {piece.name}" if piece.matter is Matter.PORT else own
        return self.meets(what, thing, by_mm)

    def meets(self, what: str, thing: str, by_mm: float | None) -> str:
        """Return that something of the part meets something else; how much is left out where it cannot be said."""
        return f"{what} meets {thing}" + ("" if by_mm is None else f" by {self.length(by_mm)}")

    def turn_port(self, name: str) -> Change:
        """Return that a port should point another way."""
        return Change(words=f"Turn the {name} so that its hose or pipe leaves another way", caution="", amount_mm=None)

    def trim_bracket(self, where: str, by_mm: float) -> Change:
        """Return that a bracket should be shorter."""
        return Change(words=f"Take {self.length(by_mm)} off {where}", caution="", amount_mm=by_mm)

    def move_back(self, names: str, by_mm: float, room_mm: float | None) -> Change:
        """Return that what is behind should move rearward."""
        leaves = "" if room_mm is None else f"; the pulley leaves {self.length(room_mm)} for that"
        return Change(words=f"Move {names} back {self.length(by_mm)}{leaves}", caution="", amount_mm=by_mm)

    def move_forward(self, names: str, by_mm: float, room_mm: float) -> Change:
        """Return that what is ahead should move forward."""
        leaves = f"; the grille leaves {self.length(room_mm)} for that"
        return Change(words=f"Move {names} forward {self.length(by_mm)}{leaves}", caution="", amount_mm=by_mm)

    def cannot_move_back(self, names: str, by_mm: float, room_mm: float | None) -> Change:
        """Return that what is behind has no room to move so far."""
        left = "" if room_mm is None else f", and the pulley leaves {self.least(room_mm)} for that"
        said = f"A shallower one is the way: {names} would have to move back {self.length(by_mm)}{left}"
        return Change(words=said, caution="", amount_mm=by_mm, is_other_part=True)

    def cannot_move_forward(self, names: str, by_mm: float, room_mm: float) -> Change:
        """Return that what is ahead has no room to move so far."""
        left = f", and the grille leaves {self.least(room_mm)} for that"
        said = f"A shallower one is the way: {names} would have to move forward {self.length(by_mm)}{left}"
        return Change(words=said, caution="", amount_mm=by_mm, is_other_part=True)

    def swap(self, name: str) -> Change:
        """Return that two parts should change places in the order."""
        return Change(words=f"Let it and {name} change places in the order: there it fits", caution="", amount_mm=None)

    def give_way(self, thing: str, by_mm: float) -> Change:
        """Return that something of the vehicle would have to give way."""
        return Change(
            words=f"{thing} would have to give way {self.length(by_mm)}", caution=STRUCTURE_CAUTION, amount_mm=by_mm
        )

    def widen(self, within: str, needed_mm: Sequence[tuple[str, float]]) -> Change:
        """Return that an opening of the vehicle would have to be larger, in each direction in which it is too small."""
        more = " and ".join(f"{self.length(by_mm)} {_MORE[what]}" for what, by_mm in needed_mm)
        return Change(
            words=f"A smaller one is the way: {within} would have to be {more}",
            caution=STRUCTURE_CAUTION,
            amount_mm=max(by_mm for _, by_mm in needed_mm),
            is_other_part=True,
        )
