"""The button that names the layout in hand and opens what can be done with layouts."""

from __future__ import annotations

import functools
from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QActionGroup
from PySide6.QtWidgets import QMenu, QToolButton

from grillestack.app.layouts.acts import LayoutActs
from grillestack.app.session import Session
from grillestack.model.project import Project
from grillestack.model.variants import layout_names

_LONGEST, _LONGEST_IN_ROW = 24, 16


class LayoutSwitch(QToolButton):
    """Shows which layout is in hand; its menu takes up another one, copies, names, compares, keeps or removes."""

    def __init__(self, session: Session, acts: LayoutActs, compare: Callable[[str], None]) -> None:
        super().__init__()
        self._session = session
        self._acts = acts
        self._compare = compare
        menu = QMenu(self)
        menu.setToolTipsVisible(True)
        menu.aboutToShow.connect(lambda: self.fill(menu))
        self.setMenu(menu)
        self.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        # The words end in an arrow of their own: the style's would lie over them.
        self.setStyleSheet("QToolButton::menu-indicator { image: none; width: 0; }")
        session.project_changed.connect(lambda _old, _new: self._show_name())
        self._show_name()

    def fill(self, menu: QMenu) -> None:
        """Put into the menu what can be done with the layouts of the project now."""
        menu.clear()
        project, acts = self._session.project, self._acts
        here = project.variant_name
        group = QActionGroup(menu)
        for name in layout_names(project):
            action = menu.addAction(_shown(name))
            action.setCheckable(True)
            action.setChecked(name == here)
            action.setToolTip(_note_of(project, name) or name)
            group.addAction(action)
            action.triggered.connect(lambda _checked=False, name=name: acts.take_up(name))
        menu.addSeparator()
        _line(menu, "New &copy of this layout", acts.copy)
        _line(menu, "&Name and note…", acts.rename)
        if not project.variants:
            return
        menu.addSeparator()
        for name in layout_names(project):
            if name != here:
                _line(menu, f"Compare with “{_shown(name)}”", functools.partial(self._compare, name))
        menu.addSeparator()
        _line(menu, f"&Keep only “{_shown(here)}”", lambda: acts.keep_only(here))
        _line(menu, f"&Remove “{_shown(here)}”", lambda: acts.remove(here))

    def _show_name(self) -> None:
        project = self._session.shown
        name, count = project.variant_name, len(project.variants) + 1
        short = shortened(name, _LONGEST_IN_ROW)
        words = short if name.casefold().startswith("layout") else f"Layout: {short}"
        self.setText(f"{words.replace('&', '&&')}  ▾")
        self.setAccessibleName(f"Layout in hand: {name}")
        said = "the only layout" if count == 1 else f"one of {count} layouts"
        self.setToolTip("\n".join(line for line in (f"{name}, {said}", project.variant_note_text) if line))


def shortened(name: str, longest: int = _LONGEST) -> str:
    """Return the name as it fits on a button."""
    return name if len(name) <= longest else f"{name[: longest - 1].rstrip()}…"


def _shown(name: str) -> str:
    """Return the name for a menu, where an ampersand would mark a key."""
    return shortened(name).replace("&", "&&")


def _note_of(project: Project, name: str) -> str:
    if name == project.variant_name:
        return project.variant_note_text
    return next((v.note_text for v in project.variants if v.name == name), "")


def _line(menu: QMenu, words: str, act: Callable[[], None]) -> None:
    menu.addAction(words).triggered.connect(lambda _checked=False: act())
