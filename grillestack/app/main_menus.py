"""What stands in the menus and in the tool row, and what each line does."""

from __future__ import annotations

import functools
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QMenu

from grillestack.app.bench_mode import BenchMode
from grillestack.app.canvas.front_view import FrontView
from grillestack.app.canvas.gestures.grid import Grid
from grillestack.app.canvas.plan_drawer import PlanDrawer
from grillestack.app.canvas.side_strip import SideStrip
from grillestack.app.clipboard_acts import ClipboardActs
from grillestack.app.columns import Columns, Outer
from grillestack.app.files import FileDesk
from grillestack.app.help_pages import HelpPages
from grillestack.app.look_menu import face_lines, near_lines
from grillestack.app.measuring import Measuring
from grillestack.app.menus import SEPARATOR, Choice, Entry, Filled, Inner, Menus, Ready, Toggle
from grillestack.app.nose_menu import nose_menu
from grillestack.app.pack_menu import PackHands, pack_menu
from grillestack.app.panels.draft import DraftForm
from grillestack.app.photo.trace import TracePhoto
from grillestack.app.session import Session
from grillestack.app.sheets.bench import SheetBench
from grillestack.app.sheets.menu import sheet_menu
from grillestack.storage.recent import recent_files
from grillestack.storage.settings import Look
from grillestack.units.display import DecimalMark, UnitSystem

_KEYS = QKeySequence.StandardKey
_UNITS = (("&Millimetres", UnitSystem.METRIC), ("In&ches", UnitSystem.INCH))
_MARKS = (("Decimal &point, 26.5", DecimalMark.POINT), ("Decimal &comma, 26,5", DecimalMark.COMMA))
_SCALES = (("&100 %", 1.0), ("1&25 %", 1.25), ("1&50 %", 1.5), ("&200 %", 2.0))
_LOOKS = (("&Light", Look.LIGHT), ("&Dark", Look.DARK), ("&High contrast", Look.HIGH_CONTRAST))


@dataclass(frozen=True, slots=True, kw_only=True)
class Hands:
    """All that the menus reach for."""

    session: Session
    desk: FileDesk
    of_pack: PackHands
    clipboard: ClipboardActs
    front: FrontView
    side: SideStrip
    measuring: Measuring
    grid: Grid
    plan: PlanDrawer
    help_pages: HelpPages
    show_hints: Callable[[], None]
    trace: TracePhoto
    start_new: Callable[[], None]
    leave: Callable[[], bool]
    show_draft: Callable[[DraftForm], None]
    look: Callable[[], Look]
    show_look: Callable[[Look], None]
    demos: Callable[[], Sequence[Path]]
    bench: BenchMode
    scale_factor: Callable[[], float]
    choose_scale: Callable[[float], None]
    columns: Columns
    drawings: SheetBench


def build_menus(menus: Menus, hands: Hands) -> None:
    """Fill the menu bar and the tool row."""
    _file_menu(menus, hands)
    _edit_menu(menus, hands)
    _view_menu(menus, hands)
    pack_menu(menus, hands.of_pack)
    nose_menu(menus, hands.session, (hands.front, hands.side), hands.show_draft, hands.trace)
    sheet_menu(menus, hands.drawings)
    pages = hands.help_pages
    menus.menu(
        "&Help",
        (
            Entry("&First pack in ten minutes", pages.show_first, hint="The help pages, with pictures and a search"),
            Entry("&Keys", pages.show_keys, _KEYS.HelpContents),
            Entry("&Cautions", pages.show_cautions),
            Entry("Show &hints again", hands.show_hints, hint="Three paper notes on the canvas"),
            Entry("&About grillestack", pages.show_about),
        ),
    )


def _file_menu(menus: Menus, hands: Hands) -> None:
    desk = hands.desk

    def fill_recent(menu: QMenu) -> None:
        for path in recent_files():
            _path_line(menu, path.name, path, functools.partial(desk.open_asking, path))
        _if_empty(menu, "No file was opened yet")

    def fill_demos(menu: QMenu) -> None:
        for path in hands.demos():
            words = path.stem.replace("-", " ")
            _path_line(menu, words, path, functools.partial(desk.open_asking, path, as_demo=True))
        _if_empty(menu, "No demos are installed")

    menus.menu(
        "&File",
        (
            Entry("&New…", hands.start_new, _KEYS.New),
            Entry("&Open…", desk.open, _KEYS.Open),
            Filled("Open &recent", fill_recent),
            Filled("&Demos", fill_demos),
            SEPARATOR,
            Entry("&Save", lambda: _done(desk.save()), _KEYS.Save),
            Entry("Save &as…", lambda: _done(desk.save_as()), "Ctrl+Shift+S"),
            SEPARATOR,
            Entry("&Quit", lambda: _done(hands.leave()), "Ctrl+Q"),
        ),
    )


def _edit_menu(menus: Menus, hands: Hands) -> None:
    stack, acts, clipboard = hands.session.undo_stack, hands.of_pack.acts, hands.clipboard
    menus.menu(
        "&Edit",
        (
            Ready(stack.createUndoAction(menus.window, "Undo"), _KEYS.Undo, "Undo"),
            Ready(stack.createRedoAction(menus.window, "Redo"), "Ctrl+Shift+Z", "Redo"),
            SEPARATOR,
            Entry("Cu&t", clipboard.cut, _KEYS.Cut),
            Entry("&Copy", lambda: _done(clipboard.copy()), _KEYS.Copy),
            Entry("&Paste", clipboard.paste, _KEYS.Paste, hint="Also from another window"),
            Entry("&Duplicate", acts.duplicate, "Ctrl+D"),
            Entry("&Remove", acts.remove, _KEYS.Delete),
            Entry("Select &all parts", acts.select_all, _KEYS.SelectAll),
        ),
    )


def _view_menu(menus: Menus, hands: Hands) -> None:
    session, front = hands.session, hands.front

    def unit_choice(words: str, system: UnitSystem) -> Choice:
        return Choice(words, lambda: session.set_units(system), "units", lambda: session.units.base is system)

    def mark_choice(words: str, mark: DecimalMark) -> Choice:
        return Choice(words, lambda: session.set_decimal_mark(mark), "decimal mark", lambda: session.units.mark is mark)

    def column_line(words: str, column: Outer, keys: str) -> Toggle:
        columns = hands.columns
        return Toggle(
            words,
            lambda is_on: columns.turn(column, is_open=is_on),
            lambda: columns.is_open(column),
            hint="Fold the column away or have it back; in a narrow window one gives way to the other",
            keys=keys,
        )

    def scale_choice(words: str, factor: float) -> Choice:
        def choose() -> None:
            hands.choose_scale(factor)
            session.message.emit(f"Everything is drawn at {factor * 100:.0f} % from the next start.")

        return Choice(words, choose, "scale", lambda: hands.scale_factor() == factor)

    def look_choice(words: str, look: Look) -> Choice:
        return Choice(words, lambda: hands.show_look(look), "look", lambda: hands.look() is look)

    menus.menu(
        "&View",
        (
            Entry("Zoom &in", lambda: front.zoom_by(1.25), _KEYS.ZoomIn),
            Entry("Zoom &out", lambda: front.zoom_by(0.8), _KEYS.ZoomOut),
            Entry("Zoom to &fit", front.zoom_to_fit, "Ctrl+0", row_words="Zoom to fit"),
            *near_lines(session, front, hands.measuring),
            Toggle(
                "Come to rest on a &grid",
                lambda is_on: hands.grid.switch(on=is_on),
                lambda: hands.grid.is_on,
                hint="What is dragged comes to rest every 10 mm or 1/2 in where no named line is nearer",
            ),
            Toggle(
                "View from &above",
                lambda is_on: hands.plan.show_plan(is_open=is_on),
                lambda: hands.plan.is_open,
                hint="A drawer below the nose shows the pack from above",
                keys="Ctrl+Shift+P",
            ),
            column_line("Shelf, pac&k and card", Outer.LEFT, "Ctrl+Shift+1"),
            column_line("&Verdict", Outer.RIGHT, "Ctrl+Shift+2"),
            SEPARATOR,
            *(unit_choice(words, system) for words, system in _UNITS),
            Inner("Decimal mar&k", tuple(mark_choice(words, mark) for words, mark in _MARKS)),
            SEPARATOR,
            *(look_choice(words, look) for words, look in _LOOKS),
            Inner("Size from the ne&xt start", tuple(scale_choice(words, factor) for words, factor in _SCALES)),
            Toggle(
                "&Bench mode",
                lambda is_on: hands.bench.switch(is_on=is_on),
                lambda: hands.bench.is_on,
                hint="Letters, buttons and handles large, for a touch screen or gloves",
                keys="Ctrl+B",
            ),
            SEPARATOR,
            *face_lines(session, front.face.choice),
        ),
    )


def _path_line(menu: QMenu, words: str, path: Path, act: Callable[[], None]) -> None:
    action = menu.addAction(words)
    action.setToolTip(str(path))
    action.triggered.connect(lambda _checked=False: act())


def _if_empty(menu: QMenu, words: str) -> None:
    if menu.isEmpty():
        menu.addAction(words).setEnabled(False)


def _done(_result: object) -> None:
    """Take an answer nobody waits for."""
