"""A distance typed while something is held: a field for each way, chosen by the arrow keys or Tab."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt

from grillestack.app.canvas.gestures.snap import Axis
from grillestack.app.canvas.gestures.typed_length import ENTER, TypedLength
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import QuantityError

_TABS = (Qt.Key.Key_Tab, Qt.Key.Key_Backtab)


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way that something can be pushed: along which axis, to which end of it, and which arrow key points there."""

    axis: Axis
    sign: int
    words: str
    arrow: Qt.Key


FRONT_WAYS = (
    Way(axis=Axis.Z, sign=1, words="up", arrow=Qt.Key.Key_Up),
    Way(axis=Axis.Z, sign=-1, words="down", arrow=Qt.Key.Key_Down),
    Way(axis=Axis.Y, sign=1, words="to vehicle right", arrow=Qt.Key.Key_Left),
    Way(axis=Axis.Y, sign=-1, words="to vehicle left", arrow=Qt.Key.Key_Right),
)
SIDE_WAYS = (
    Way(axis=Axis.X, sign=1, words="rearward", arrow=Qt.Key.Key_Right),
    Way(axis=Axis.X, sign=-1, words="forward", arrow=Qt.Key.Key_Left),
)
PLAN_WAYS = (
    Way(axis=Axis.X, sign=1, words="rearward", arrow=Qt.Key.Key_Up),
    Way(axis=Axis.X, sign=-1, words="forward", arrow=Qt.Key.Key_Down),
    Way(axis=Axis.Y, sign=1, words="to vehicle right", arrow=Qt.Key.Key_Left),
    Way(axis=Axis.Y, sign=-1, words="to vehicle left", arrow=Qt.Key.Key_Right),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedRow:
    """One way with what is typed for it; `caret` letters stand before the next one, `trouble_text` says why it cannot be taken."""

    words: str
    text: str
    caret: int
    is_chosen: bool
    trouble_text: str = ""


class TypedOffset:
    """Holds what is typed; open from the first digit or arrow until Esc."""

    def __init__(self, ways: tuple[Way, ...], units: UnitSystem) -> None:
        self._ways = ways
        self._units = units
        self._axes = tuple(dict.fromkeys(way.axis for way in ways))
        self._typed = {axis: TypedLength(signed=True) for axis in self._axes}
        self._way = {axis: next(way for way in ways if way.axis is axis) for axis in self._axes}
        self._chosen: Axis | None = None
        self._complains = False

    @property
    def is_open(self) -> bool:
        """Return whether the field stands at the part."""
        return self._chosen is not None

    def follow(self, moved_mm: dict[Axis, float]) -> None:
        """Let the way be the one in which the hand has gone, as long as nobody has chosen."""
        if self.is_open:
            return
        for axis in self._axes:
            self._way[axis] = self._toward(axis, moved_mm.get(axis, 0.0))
        self._axes = tuple(sorted(self._axes, key=lambda axis: -abs(moved_mm.get(axis, 0.0))))

    def wants(self, key: int, text: str) -> bool:
        """Return whether the key writes a distance, chooses a way, or ends the field."""
        if self._arrow(key) is not None or self._begins(key, text):
            return True
        if not self.is_open:
            return False
        return key in (*ENTER, *_TABS, Qt.Key.Key_Escape, Qt.Key.Key_Backspace) or self._field().wants(key, text)

    def take(self, key: int, text: str) -> None:
        """Answer any of these keys but Enter."""
        self._complains = False
        way = self._arrow(key)
        if way is not None:
            self._way[way.axis], self._chosen = way, way.axis
        elif key == Qt.Key.Key_Escape:
            self._close()
        elif key in _TABS and self.is_open:
            step = 1 if key == Qt.Key.Key_Tab else -1
            self._chosen = self._axes[(self._axes.index(self._field_axis()) + step) % len(self._axes)]
        elif self._begins(key, text) or self.is_open:
            self._chosen = self._field_axis()
            self._field().take(key, text)

    def is_understood(self) -> bool:
        """Return whether all that is typed is a length; from now until the next key the field says what is not."""
        self._complains = any(_trouble(typed, self._units) for typed in self._typed.values())
        return not self._complains

    def offset_mm(self) -> dict[Axis, float]:
        """Return how far each axis is pushed; an axis for which nothing is typed stays where it was.

        Raises
        ------
        QuantityError
            If something typed is no length; the message is for the person at the sheet.
        """
        found = dict.fromkeys(self._axes, 0.0)
        for axis, typed in self._typed.items():
            if typed.text.strip():
                found[axis] = self._way[axis].sign * typed.length_mm(self._units)
        return found

    def has_text(self) -> bool:
        """Return whether anything is typed."""
        return any(typed.text.strip() for typed in self._typed.values())

    def rows(self) -> tuple[TypedRow, ...]:
        """Return what the field shows: the way that is chosen, and any other for which something is typed."""
        if not self.is_open:
            return ()
        found = []
        for axis in self._axes:
            typed = self._typed[axis]
            if axis is not self._chosen and not typed.text:
                continue
            found.append(
                TypedRow(
                    words=self._way[axis].words,
                    text=typed.shown(self._units),
                    caret=len(typed.text),
                    is_chosen=axis is self._chosen,
                    trouble_text=_trouble(typed, self._units) if self._complains else "",
                )
            )
        return tuple(found)

    def _begins(self, key: int, text: str) -> bool:
        # A letter or a space opens nothing: they are commands of the window.
        return not self.is_open and key != Qt.Key.Key_Backspace and self._field().wants(key, text)

    def _arrow(self, key: int) -> Way | None:
        return next((way for way in self._ways if way.arrow == key), None)

    def _toward(self, axis: Axis, moved_mm: float) -> Way:
        ways = [way for way in self._ways if way.axis is axis]
        return next((way for way in ways if way.sign * moved_mm > 0), ways[0])

    def _field_axis(self) -> Axis:
        return self._axes[0] if self._chosen is None else self._chosen

    def _field(self) -> TypedLength:
        return self._typed[self._field_axis()]

    def _close(self) -> None:
        self._chosen = None
        for typed in self._typed.values():
            typed.clear()


def _trouble(typed: TypedLength, units: UnitSystem) -> str:
    if not typed.text.strip():
        return ""
    try:
        typed.length_mm(units)
    except QuantityError as error:
        return str(error)
    return ""
