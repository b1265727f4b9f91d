"""The menu of the pack: how its parts are turned, ordered, brought in line, locked and hidden."""

from __future__ import annotations

import functools
from collections.abc import Callable
from dataclasses import dataclass

from grillestack.app.arrange_acts import ArrangeActs
from grillestack.app.layouts.switch import LayoutSwitch
from grillestack.app.menus import SEPARATOR, Entry, Filled, Inner, Line, Menus
from grillestack.app.pack_acts import PackActs
from grillestack.app.panels.pack_list import PackList
from grillestack.app.state_acts import StateActs
from grillestack.geometry.arrangement import Along, LineUp

LINE_UP, EQUAL_GAPS = "Line up", "Equal gaps"

# As the arrows move on the screen: seen from ahead the vehicle's right lies at the left.
_LINE_UP = (
    ("&Tops", LineUp.TOPS, "Ctrl+Shift+Up", "To the highest top; a locked part is what the others go to"),
    ("&Lower edges", LineUp.BOTTOMS, "Ctrl+Shift+Down", "To the lowest edge"),
    ("&Middles, level", LineUp.MIDDLES_LEVEL, "Ctrl+Shift+L", "All middles at one height"),
    SEPARATOR,
    ("Sides to the vehicle's &right", LineUp.RIGHT_SIDES, "Ctrl+Shift+Left", "To the outermost side there"),
    ("Sides to the vehicle's l&eft", LineUp.LEFT_SIDES, "Ctrl+Shift+Right", "To the outermost side there"),
    ("Middles, one &over the other", LineUp.MIDDLES_UPRIGHT, "Ctrl+Shift+M", "All middles on one upright line"),
    SEPARATOR,
    ("&Fronts", LineUp.FRONTS, None, "To the foremost front"),
    ("Rear&s", LineUp.REARS, None, "To the hindmost rear"),
)
_EQUAL_GAPS = (
    ("&Across", Along.ACROSS, "Ctrl+Shift+G", "From side to side; the outermost two stay"),
    ("&Up and down", Along.UP, "Ctrl+Shift+U", "From the lowest to the highest; these two stay"),
    ("&Fore and aft", Along.DEPTH, "Ctrl+Shift+D", "From the foremost to the hindmost; these two stay"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PackHands:
    """All that this menu reaches for."""

    acts: PackActs
    arrange: ArrangeActs
    states: StateActs
    pack: PackList
    layouts: LayoutSwitch
    put_on_shelf: Callable[[], None]
    measure: Callable[[], None]
    what_fits: Callable[[], None]
    move_by: Callable[[], None]


def pack_menu(menus: Menus, hands: PackHands) -> None:
    """Fill the menu of the pack."""
    acts, arrange, states, pack = hands.acts, hands.arrange, hands.states, hands.pack
    line_up: tuple[Line, ...] = tuple(
        Entry(line[0], functools.partial(arrange.line_up, line[1]), line[2], hint=line[3]) if line else SEPARATOR
        for line in _LINE_UP
    )
    gaps: tuple[Line, ...] = tuple(
        Entry(words, functools.partial(arrange.spread, along), keys, hint=hint)
        for words, along, keys, hint in _EQUAL_GAPS
    )
    menus.menu(
        "&Pack",
        (
            Entry("&Turn a quarter", acts.turn, "Ctrl+R", "Turn clockwise as seen from ahead", row_words="Turn"),
            Entry("Turn a quarter &back", lambda: acts.turn(3), "Ctrl+Shift+R", "Turn the other way round"),
            Entry("&Flip front to back", acts.flip, "Ctrl+Shift+F", "Flip the part front to back", row_words="Flip"),
            Entry("Move for&ward in the pack", lambda: pack.shift_selected(-1), "Alt+Up", row_words="Forward"),
            Entry("Move rear&ward in the pack", lambda: pack.shift_selected(1), "Alt+Down", row_words="Rearward"),
            Entry(
                "Move &by…", hands.move_by, "Ctrl+Shift+B", "Type how far what is selected moves; arrows choose the way"
            ),
            SEPARATOR,
            Inner(LINE_UP, line_up),
            Inner(EQUAL_GAPS, gaps),
            SEPARATOR,
            Entry("Loc&k or unlock", states.toggle_locked, "Ctrl+L", "A locked part is not moved by hand"),
            Entry("&Hide or show", states.toggle_hidden, "Ctrl+H", "A hidden part is not drawn, but counted"),
            Entry("Show &all hidden parts", states.show_all, "Ctrl+Shift+H"),
            SEPARATOR,
            Entry(
                "&What fits here?",
                hands.what_fits,
                "Ctrl+Shift+W",
                "Search the shelf for parts that fit in the selected one's place",
                row_words="What fits?",
            ),
            Entry("&Measure a part…", hands.measure, hint="Type a core's sizes in the order one measures them"),
            Entry("Put a copy on the &shelf", hands.put_on_shelf),
            Filled("&Layouts", hands.layouts.fill),
        ),
    )
