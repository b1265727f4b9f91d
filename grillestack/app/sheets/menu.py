"""What stands in the Sheet menu."""

from __future__ import annotations

from grillestack.app.menus import SEPARATOR, Entry, Menus
from grillestack.app.sheets.bench import SheetBench


def sheet_menu(menus: Menus, bench: SheetBench) -> None:
    """Add the menu of the drawings."""
    menus.menu(
        "&Sheet",
        (
            Entry(
                "&Drawings of this pack",
                lambda: _done(bench.begin()),
                "Ctrl+Shift+T",
                hint="The sheets as they go on paper, and how they are drawn",
                row_words="Sheet",
            ),
            SEPARATOR,
            Entry("Export as &PDF…", lambda: bench.export(".pdf"), "Ctrl+Shift+E", hint="All sheets in one file"),
            Entry("Export as &SVG…", lambda: bench.export(".svg"), hint="One file for each sheet"),
            Entry("Export as D&XF…", lambda: bench.export(".dxf"), hint="One file for each sheet, at full size"),
            Entry("P&rint…", bench.print, "Ctrl+P", hint="At 100 %, on the paper of each sheet"),
            SEPARATOR,
            Entry("Put all dimensions &back", bench.put_all_back, hint="Where and as the drawings have them"),
        ),
    )


def _done(_result: object) -> None:
    """Take an answer nobody waits for."""
