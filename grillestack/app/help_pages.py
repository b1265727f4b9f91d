"""Which help pages there are: those written as files, the keys, and what this is."""

from __future__ import annotations

import functools
from pathlib import Path

from PySide6.QtWidgets import QWidget

from grillestack.app.help_reader import HelpPage, HelpReader
from grillestack.assets.locate import MissingResourceError, resource

KEYS = """# Keys

| key | what it does |
|---|---|
| arrows, on the nose or the side strip | move what is selected by 1 mm or 1/16 in |
| Shift and arrows | move it by 10 mm or 1/2 in |
| Ctrl Shift B | type how far what is selected moves; arrows or Tab choose the way, Enter moves, Esc ends |
| Tab, Shift and Tab, on the nose | the next part, opening or obstruction, or the one before |
| Page Down, Page Up, on a selected outline | choose the next corner or the one before; then arrows move it, a number and Enter round it, Delete and Insert take and add one |
| F6, Shift F6 | the next region of the window, or the one before |
| Ctrl B | bench mode |
| Ctrl Shift 1, Ctrl Shift 2 | fold the left column or the verdict, or have it back |
| while dragging: a number and Enter | move by this distance; arrows or Tab choose the way, Esc leaves the field |
| Alt and up or down | move it forward or rearward in the pack |
| Alt, while dragging | let nothing snap |
| wheel; middle button or Space | zoom; push the sheet |
| Esc | leave two layouts side by side, put a drag, or what you type, back |
| Enter, in the shelf | add the part where its kind belongs |
| Delete | remove what is selected |
| Ctrl Z, Ctrl Shift Z | undo, redo |
| Ctrl X, Ctrl C, Ctrl V, Ctrl D | cut, copy, paste parts, also between windows; duplicate |
| Ctrl R, Ctrl Shift R, Ctrl Shift F | turn a quarter, turn back, flip front to back |
| Ctrl Shift and up, down, Left or Right | line up the sides that lie there on the nose |
| Ctrl Shift L, Ctrl Shift M | line up middles level, one over the other |
| Ctrl Shift G, Ctrl Shift U, Ctrl Shift D | equal gaps across, up and down, fore and aft |
| Ctrl L, Ctrl H, Ctrl Shift H | lock or unlock, hide or show, show all hidden parts |
| Ctrl Shift P | open or shut the view from above |
| Menu | the menu of what is selected |
| Ctrl A | select all parts |
| Ctrl +, Ctrl −, Ctrl 0 | zoom in, out, to fit |
| Ctrl 9, or a double click in the pack list | zoom to what is selected |
| Ctrl M | measure between two edges or corners; clicks, a drag, or arrows and Enter; Esc ends |
| Ctrl 1, Ctrl 2, Ctrl 3 | paint the face by what lies ahead, by how warm the air is, by how fast it is |
| Ctrl N, Ctrl O, Ctrl S, Ctrl Shift S, Ctrl Q | new, open, save, save as, quit |
| while drawing: digits and Enter | give the side this length, towards the pointer |
| while drawing: Enter or a double click | close the outline, end the line |
| while drawing: Backspace; Esc | take the last corner back; leave nothing |
| while drawing: M | draw the other half of the nose too, or no longer |
| Delete, over a corner of a selected outline | remove the corner |
| double click or Insert, over its side | add a corner there |
| digits and Enter, a corner chosen by a click | round it by this radius |
| arrows, Shift and arrows, on a photo being marked | move the chosen mark by 1 or 10 pixels |
| Space; wheel, on a photo being marked | choose the next mark; enlarge |
| Enter or Space, on a figure with dots under it | ask it why; Esc shuts the answer |
| Enter; Esc, while measuring a part | go on to the next line; put the form aside with all that is in it |
| Tab | go through the parts on the nose, then to the next field |
| F1 | this page |

Any field takes what is on the tape: 26 3/16, 2' 2", 66.5 cm, 3200 BTU/min, 54 kW, 210 F.
"""

_ABOUT = """# grillestack {version}

Lays out the cooling pack in a vehicle's nose and shows at once whether the heat goes away.

All vehicles, engines and parts in the demos and on the shelf are invented.

What it says is an estimate for choosing and building, not a proof: verify by test, and follow the engine maker's
installation limits, local codes and licensed practice. Read *Cautions* in this menu before you cut, fill, wire or drive.
"""


# Title and file of each page that is read from the bundled help, in the order in which one needs them.
WRITTEN = (
    ("First pack in ten minutes", "first-pack"),
    ("Measuring a nose", "measuring-a-nose"),
    ("Tracing a photo", "tracing-a-photo"),
    ("Choosing a cooler", "choosing-a-cooler"),
    ("Measuring a part", "measuring-a-part"),
    ("Making the sheet", "making-the-sheet"),
    ("Reading the verdict", "reading-the-verdict"),
    ("Cautions", "cautions"),
    ("Methods", "methods"),
    ("What is new", "what_is_new"),
)


class HelpPages:
    """Shows the pages in one reader, made when it is first asked for."""

    def __init__(self, parent: QWidget) -> None:
        self._parent = parent
        self.reader: HelpReader | None = None

    def show_first(self) -> None:
        """Show the page to begin with."""
        self._show(WRITTEN[0][1])

    def show_keys(self) -> None:
        """Show the keys."""
        self._show("keys")

    def show_cautions(self) -> None:
        """Show the cautions."""
        self._show("cautions")

    def show_about(self) -> None:
        """Show what this is."""
        self._show("about")

    def close(self) -> None:
        """Take the reader away."""
        if self.reader is not None:
            self.reader.close()

    def _show(self, name: str) -> None:
        if self.reader is None:
            written = [HelpPage(title, file, functools.partial(_written, file)) for title, file in WRITTEN]
            keys = HelpPage("Keys", "keys", lambda: KEYS)
            about = HelpPage("About grillestack", "about", _about)
            self.reader = HelpReader((*written, keys, about), _folder(), self._parent)
        self.reader.show_page(name)


def _folder() -> Path | None:
    try:
        return resource("help")
    except MissingResourceError:
        return None


def _written(name: str) -> str:
    try:
        return resource("help", f"{name}.md").read_text(encoding="utf-8")
    except (MissingResourceError, OSError) as error:
        return f"This page cannot be shown: {error}"


def _about() -> str:
    import importlib.metadata as metadata  # it brings all that is needed to read e-mail headers

    try:
        version = metadata.version("grillestack")
    except metadata.PackageNotFoundError:
        version = ""
    return _ABOUT.format(version=version)
