"""A length typed without a field, letter by letter, while the hand is on the sheet."""

from __future__ import annotations

from PySide6.QtCore import Qt

from grillestack.units.display import UnitSystem
from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import Dimension
from grillestack.units.show import display_unit

_BEGINS = frozenset("0123456789.,")
_GOES_ON = _BEGINS | frozenset("/ '\"′″")
_SIGNS = "-−"
_LONGEST = 24
ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class TypedLength:
    """Takes keys; a number begins it, then units, fractions and spaces may follow."""

    def __init__(self, *, signed: bool = False) -> None:
        self.text = ""
        self._signed = signed

    def wants(self, key: int, text: str) -> bool:
        """Return whether this key writes, or takes back a letter of, the length."""
        if key == Qt.Key.Key_Backspace:
            return bool(self.text)
        if len(text) != 1:
            return False
        if self._signed and not self.text and text in _SIGNS:
            return True
        return text in _BEGINS or (bool(self.text) and (text in _GOES_ON or text.isalpha()))

    def take(self, key: int, text: str) -> None:
        """Write the letter, or take the last one back."""
        self.text = self.text[:-1] if key == Qt.Key.Key_Backspace else (self.text + text)[:_LONGEST]

    def clear(self) -> None:
        """Forget what was typed."""
        self.text = ""

    def shown(self, units: UnitSystem) -> str:
        """Return what was typed with the unit that a bare number takes."""
        unit = display_unit(Dimension.LENGTH, units)
        has_unit = any(letter.isalpha() or letter in "'\"′″" for letter in self.text)
        return self.text if has_unit else f"{self.text} {unit}"

    def length_mm(self, units: UnitSystem) -> float:
        """Return what was typed.

        Raises
        ------
        QuantityError
            If it is no length; the message is for the person at the sheet.
        """
        return parse_quantity(self.text.strip(), Dimension.LENGTH, display_unit(Dimension.LENGTH, units))
