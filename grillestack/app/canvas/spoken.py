"""What those hear who do not see the sheets: each part and outline by name, kind, size and place, and which is selected."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QObject, QRect, QRectF
from PySide6.QtGui import QAccessible, QAccessibleEvent, QAccessibleInterface

from grillestack.app.canvas.mm_view import MmView


@dataclass(frozen=True, slots=True, kw_only=True)
class SpokenThing:
    """One thing on a sheet: its id, its name, what it is with size and place, where on the sheet, and whether it is selected."""

    key: str
    name: str
    description: str
    around_mm: QRectF
    selected: bool


class SpokenSheet(QAccessibleInterface):
    """A view with a child for everything that can be selected on it."""

    def __init__(self, view: MmView, things: Callable[[], tuple[SpokenThing, ...]]) -> None:
        super().__init__()
        self._view = view
        self._things = things
        self._spoken: dict[str, SpokenPart] = {}  # held here: Qt keeps no reference to what Python made

    def isValid(self) -> bool:
        """Return whether there is still something to speak of."""
        return True

    def object(self) -> QObject:
        """Return the view."""
        return self._view

    def parent(self) -> QAccessibleInterface | None:  # type: ignore[override]  # nothing above a window's own
        """Return what the view stands in."""
        above = self._view.parentWidget()
        return None if above is None else QAccessible.queryAccessibleInterface(above)

    def childCount(self) -> int:
        """Return how many things there are."""
        return len(self._things())

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]  # none out of range
        """Return the thing of that number in the order of Tab."""
        things = self._things()
        if not 0 <= index < len(things):
            return None
        return self._spoken.setdefault(things[index].key, SpokenPart(self, things[index].key))

    def indexOfChild(self, child: QAccessibleInterface) -> int:
        """Return the number of that thing, -1 if it is not here."""
        keys = [thing.key for thing in self._things()]
        return keys.index(child.key) if isinstance(child, SpokenPart) and child.key in keys else -1

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]  # bare paper has none
        """Return the first thing at that place of the screen."""
        for index in range(self.childCount()):
            child = self.child(index)
            if child is not None and child.rect().contains(x, y):
                return child
        return None

    def role(self) -> QAccessible.Role:
        """Return that this is a drawing with parts."""
        return QAccessible.Role.Canvas

    def state(self) -> QAccessible.State:
        """Return that it takes the keyboard, and whether it has it."""
        state = QAccessible.State()
        state.focusable = True
        state.focused = self._view.hasFocus()
        return state

    def text(self, which: QAccessible.Text) -> str:
        """Return the view's name, or what is on it."""
        if which is QAccessible.Text.Name:
            return self._view.accessibleName()
        return self._view.accessibleDescription() if which is QAccessible.Text.Description else ""

    def setText(self, which: QAccessible.Text, text: str) -> None:
        """Take no text: names are changed on the card."""

    def rect(self) -> QRect:
        """Return where the view is on the screen."""
        return QRect(self._view.mapToGlobal(self._view.rect().topLeft()), self._view.size())

    def thing(self, key: str) -> SpokenThing | None:
        """Return the thing of that id as it is now."""
        return next((thing for thing in self._things() if thing.key == key), None)

    def on_screen(self, around_mm: QRectF) -> QRect:
        """Return where a place of the sheet is on the screen."""
        px = self._view.rect_px(around_mm).toAlignedRect()
        return QRect(self._view.viewport().mapToGlobal(px.topLeft()), px.size())


class SpokenPart(QAccessibleInterface):
    """One thing on a sheet."""

    def __init__(self, sheet: SpokenSheet, key: str) -> None:
        super().__init__()
        self._sheet = sheet
        self.key = key

    def isValid(self) -> bool:
        """Return whether it is still on the sheet."""
        return self._sheet.thing(self.key) is not None

    def object(self) -> QObject | None:  # type: ignore[override]  # it is no widget
        """Return nothing: it is painted, not a widget."""
        return None

    def parent(self) -> QAccessibleInterface:
        """Return the sheet."""
        return self._sheet

    def childCount(self) -> int:
        """Return that nothing is inside."""
        return 0

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]  # noqa: ARG002  Qt's signature
        """Return nothing."""
        return None

    def indexOfChild(self, child: QAccessibleInterface) -> int:  # noqa: ARG002  Qt's signature
        """Return that it is not inside."""
        return -1

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]  # noqa: ARG002  Qt's signature
        """Return nothing."""
        return None

    def role(self) -> QAccessible.Role:
        """Return that it is drawn."""
        return QAccessible.Role.Graphic

    def state(self) -> QAccessible.State:
        """Return that it can be selected, and whether it is."""
        thing, state = self._sheet.thing(self.key), QAccessible.State()
        state.selectable = True
        state.focusable = True
        state.selected = thing is not None and thing.selected
        return state

    def text(self, which: QAccessible.Text) -> str:
        """Return its name, or what it is with size and place."""
        thing = self._sheet.thing(self.key)
        if thing is None:
            return ""
        if which is QAccessible.Text.Name:
            return thing.name
        return thing.description if which is QAccessible.Text.Description else ""

    def setText(self, which: QAccessible.Text, text: str) -> None:
        """Take no text: names are changed on the card."""

    def rect(self) -> QRect:
        """Return where it is on the screen."""
        thing = self._sheet.thing(self.key)
        return QRect() if thing is None else self._sheet.on_screen(thing.around_mm)


class SheetSpeaker:
    """Makes what is heard of the views when something asks for it; lives as long as the application."""

    def __init__(self) -> None:
        self._sheets: list[SpokenSheet] = []

    def install(self) -> None:
        """Be asked from now on."""
        QAccessible.installFactory(self.speak)

    def speak(self, _kind: str, thing: QObject) -> QAccessibleInterface | None:
        """Return what is heard of that object, nothing if it speaks for itself."""
        things = getattr(thing, "spoken_things", None)
        if not isinstance(thing, MmView) or things is None:
            return None
        sheet = SpokenSheet(thing, things)
        self._sheets.append(sheet)
        return sheet


def tell_selection(view: MmView, things: Callable[[], tuple[SpokenThing, ...]]) -> None:
    """Have what listens say which thing is selected now."""
    if not QAccessible.isActive():
        return
    for number, thing in enumerate(things()):
        if thing.selected:
            event = QAccessibleEvent(view, QAccessible.Event.Focus if view.hasFocus() else QAccessible.Event.Selection)
            event.setChild(number)
            QAccessible.updateAccessibility(event)
            return
