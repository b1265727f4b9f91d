"""The menus, the tool row and their keys: what there is to do, in the desktop's own habits."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu, QToolBar, QWidget
from shiboken6 import isValid

from grillestack.app.said import said

Act = Callable[[], None]
Keys = QKeySequence.StandardKey | str | None


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a menu; with `row_words` it stands in the tool row too."""

    text: str
    act: Act
    keys: Keys = None
    hint: str = ""
    row_words: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One of several lines of which one is on."""

    text: str
    act: Act
    group: str
    is_on: Callable[[], bool]
    keys: Keys = None


@dataclass(frozen=True, slots=True)
class Toggle:
    """A line that is on or off."""

    text: str
    act: Callable[[bool], None]
    is_on: Callable[[], bool]
    hint: str = ""
    keys: Keys = None


@dataclass(frozen=True, slots=True)
class Filled:
    """A menu inside a menu that is filled when it opens."""

    text: str
    fill: Callable[[QMenu], None]


@dataclass(frozen=True, slots=True)
class Inner:
    """A menu inside a menu with lines of its own."""

    text: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Ready:
    """An action that somebody else made, as the undo stack does."""

    action: QAction
    keys: Keys
    row_words: str = ""


SEPARATOR = None
Line = Entry | Choice | Toggle | Filled | Inner | Ready | None


@dataclass(slots=True)
class Menus:
    """Builds menus into a window and keeps their actions, and the menus inside menus, by text."""

    window: QMainWindow
    row: QToolBar
    actions: dict[str, QAction] = field(default_factory=dict)
    inner: dict[str, QMenu] = field(default_factory=dict)
    _groups: dict[str, QActionGroup] = field(default_factory=dict)

    def menu(self, title: str, lines: tuple[Line, ...]) -> QMenu:
        """Add one menu to the menu bar."""
        menu = self.window.menuBar().addMenu(said(title))
        menu.setToolTipsVisible(True)
        wants_row = any(isinstance(line, Entry | Ready) and line.row_words for line in lines)
        if wants_row and self.row.actions():
            self.row.addSeparator()
        self._add_lines(menu, lines)
        return menu

    def _add_lines(self, menu: QMenu, lines: tuple[Line, ...]) -> None:
        for line in lines:
            if line is None:
                menu.addSeparator()
            elif isinstance(line, Filled):
                inner = menu.addMenu(said(line.text))
                inner.aboutToShow.connect(lambda line=line, inner=inner: _refill(inner, line.fill))
            elif isinstance(line, Inner):
                deeper = menu.addMenu(said(line.text))
                deeper.setToolTipsVisible(True)
                self.inner[line.text.replace("&", "")] = deeper
                self._add_lines(deeper, line.lines)
            elif isinstance(line, Toggle):
                self._add_toggle(menu, line)
            else:
                self._add(menu, line)

    def _add_toggle(self, menu: QMenu, line: Toggle) -> None:
        action = QAction(said(line.text), self.window)
        action.setCheckable(True)
        action.setChecked(line.is_on())
        action.setToolTip(said(line.hint) or said(line.text).replace("&", ""))
        action.setStatusTip(said(line.hint))
        if line.keys is not None:
            action.setShortcut(QKeySequence(line.keys))
        action.triggered.connect(lambda _checked=False: _turn(action, line))
        menu.aboutToShow.connect(lambda: action.setChecked(line.is_on()))
        menu.addAction(action)
        self.actions[line.text.replace("&", "")] = action

    def _add(self, menu: QMenu, line: Entry | Choice | Ready) -> None:
        if isinstance(line, Ready):
            action = line.action
        else:
            action = QAction(said(line.text), self.window)
            action.triggered.connect(lambda _checked=False, act=line.act: act())
        if isinstance(line, Choice):
            group = self._groups.setdefault(line.group, QActionGroup(self.window))
            action.setCheckable(True)
            action.setChecked(line.is_on())
            group.addAction(action)
            menu.aboutToShow.connect(lambda line=line, action=action: action.setChecked(line.is_on()))
        if line.keys is not None:
            action.setShortcut(QKeySequence(line.keys))
        if isinstance(line, Entry) and line.hint:
            action.setToolTip(said(line.hint))
            action.setStatusTip(said(line.hint))
        menu.addAction(action)
        own_words = line.action.text() if isinstance(line, Ready) else line.text
        self.actions[own_words.replace("&", "")] = action  # found by the words of this program, however they are said
        if not isinstance(line, Choice) and line.row_words:
            self.row.addAction(action)
            button = self.row.widgetForAction(action)
            _name(button, action, said(line.row_words))


def _name(button: QWidget, action: QAction, words: str) -> None:
    """Give the button of the tool row its short words, also after the action's own text has changed."""
    button.setAccessibleName(words)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)

    def rename() -> None:
        if not isValid(action):
            return  # an action tells of its own end too
        button.setProperty("text", words)
        keys = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
        hint = action.statusTip() or action.text().replace("&", "")
        button.setToolTip(f"{hint} ({keys})" if keys else hint)

    action.changed.connect(rename)
    rename()


def _turn(action: QAction, line: Toggle) -> None:
    """Turn what the line stands for, whatever the action last said: it may have been turned elsewhere since."""
    line.act(not line.is_on())
    action.setChecked(line.is_on())


def _refill(menu: QMenu, fill: Callable[[QMenu], None]) -> None:
    menu.clear()
    fill(menu)
