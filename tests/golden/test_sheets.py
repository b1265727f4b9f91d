"""Which dimensions stand on the sheets of the demos: a change shows as a changed line."""

from __future__ import annotations

from pathlib import Path

import pytest

from grillestack.sheets.draw_list import dimensions
from tests.sheets.drawn import demo_sheets

KEPT = Path(__file__).parent / "sheets"


@pytest.mark.parametrize("number", [1, 2, 3])
def test_dimensions_of_a_demo_are_those_kept(golden, number):
    lines = []
    for sheet in demo_sheets(number):
        lines.append(f"{sheet.key}: {sheet.title}, 1 : {sheet.scale_factor:g}")
        for one in dimensions(sheet):
            said = " / ".join(one.lines) if hasattr(one, "lines") else one.text.replace("\n", " / ")
            lines.append(f"  {one.key}: {said}")
    golden(KEPT / f"demo-{number}.txt", ("\n".join(lines) + "\n").encode())
