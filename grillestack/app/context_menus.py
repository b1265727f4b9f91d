"""The menus that open where a person looks for them: on the sheets, in the pack list, on the shelf; and on the menu key."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QObject, QPoint
from PySide6.QtWidgets import QMenu, QWidget

from grillestack.app.canvas.mm_view import MmView
from grillestack.app.menus import Menus
from grillestack.app.pack_menu import EQUAL_GAPS, LINE_UP
from grillestack.app.panels.pack_list import PackList
from grillestack.app.panels.shelf import Shelf
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.model.parts import Part

_BREAK = ""
_PART = (
    "Cut",
    "Copy",
    "Paste",
    "Duplicate",
    "Remove",
    _BREAK,
    "Turn a quarter",
    "Turn a quarter back",
    "Flip front to back",
    "Move forward in the pack",
    "Move rearward in the pack",
    "Move by…",
    _BREAK,
    LINE_UP,
    EQUAL_GAPS,
    _BREAK,
    "What fits here?",
    _BREAK,
    "Lock or unlock",
    "Hide or show",
    "Show all hidden parts",
    _BREAK,
    "Put a copy on the shelf",
)
_OUTLINE = ("Mirror about the centre", "Remove", _BREAK, "Draw opening", "Draw obstruction")
_PAPER = (
    "Paste",
    "Select all parts",
    "Show all hidden parts",
    _BREAK,
    "Draw opening",
    "Draw obstruction",
    "Draw support window",
    "Trace photo…",
    _BREAK,
    "Zoom to fit",
    "Come to rest on a grid",
    "View from above",
)


class ContextMenus(QObject):
    """Opens menus made of the same actions as the menu bar, so that they do and say the same."""

    def __init__(self, session: Session, menus: Menus, parent: QWidget) -> None:
        super().__init__(parent)
        self._session = session
        self._menus = menus
        self._window = parent
        self.opened: QMenu | None = None

    def serve_sheet(self, view: MmView, place_of: Callable[[Part], tuple[float, float]]) -> None:
        """Open menus on this view; `place_of` says where on its sheet a part is."""

        def open_menu(there: Sequence[str] | None, at: QPoint) -> None:
            if there is None:
                at = self._at_selection(view, place_of) or at
            elif not any(name in self._session.selection for name in there):
                self._session.select(tuple(there[:1]))
            self._open(view, at, self._words_for_selection())

        view.menu_wanted.connect(open_menu)

    def serve_pack(self, pack: PackList) -> None:
        """Open menus in the pack list."""
        pack.menu_wanted.connect(lambda at: self._open(pack, at, self._words_for_selection()))

    def serve_shelf(self, shelf: Shelf, lines_for: Callable[[str], Sequence[tuple[str, Callable[[], None]]]]) -> None:
        """Open menus on the shelf; `lines_for` says what can be done with the part of that id, in words and act."""

        def open_menu(part_id: str, at: QPoint) -> None:
            menu = self._fresh(shelf)
            for words, act in lines_for(part_id):
                menu.addAction(words).triggered.connect(lambda _checked=False, act=act: act())
            self._show(menu, at)

        shelf.tree.menu_wanted.connect(open_menu)

    def _at_selection(self, view: MmView, place_of: Callable[[Part], tuple[float, float]]) -> QPoint | None:
        """Return where the first selected part is on the screen, if it is in sight."""
        for part in self._session.project.parts:
            if part.id in self._session.selection:
                px = view.px_of(*place_of(part)).toPoint()
                return view.viewport().mapToGlobal(px) if view.viewport().rect().contains(px) else None
        return None

    def _words_for_selection(self) -> tuple[str, ...]:
        chosen = self._session.selection
        parts = [part for part in self._session.project.parts if part.id in chosen]
        if not chosen:
            return _PAPER
        if not parts:
            return _OUTLINE
        if len(parts) == 1:
            return tuple(words for words in _PART if words not in (LINE_UP, EQUAL_GAPS))
        return _PART

    def _open(self, owner: QWidget, at: QPoint, words: Sequence[str]) -> None:
        menu = self._fresh(owner)
        for line in words:
            if line == _BREAK:
                menu.addSeparator()
            elif line in self._menus.inner:
                inner = menu.addMenu(said(line))
                inner.addActions(self._menus.inner[line].actions())
            elif line in self._menus.actions:
                menu.addAction(self._menus.actions[line])
        self._show(menu, at)

    def _fresh(self, owner: QWidget) -> QMenu:
        if self.opened is not None:
            self.opened.close()
            self.opened.deleteLater()
        menu = self.opened = QMenu(self._window)
        menu.setAccessibleName(f"Menu of {owner.accessibleName() or 'the shelf'}")
        menu.setToolTipsVisible(True)
        return menu

    def _show(self, menu: QMenu, at: QPoint) -> None:
        menu.popup(at)
        menu.setActiveAction(menu.actions()[0])
