"""What stands over a drawing."""

from __future__ import annotations

import pytest

from grillestack.app import palette as palettes
from grillestack.app.layouts.caption import Caption
from grillestack.app.panels.verdict_marks import Mark
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example
from tests.app.layouts.side_by_side import named


@pytest.fixture
def caption(qtbot):
    made = Caption(palettes.light())
    qtbot.addWidget(made)
    made.resize(300, 50)
    made.show()
    return made


@pytest.mark.parametrize(
    ("side", "mark", "words"),
    [
        (example.passing(), Mark.PASS, "pass, hottest day 43 °C"),
        (example.failing(), Mark.FAIL, "fail, hottest day 33 °C"),
        (example.unknown(), Mark.UNKNOWN, "not known, hottest day not known"),
    ],
)
def test_the_verdict_is_told_by_mark_and_word(caption, side, mark, words):
    caption.show_side(named(side, "Tight"), UnitSystem.METRIC, in_hand=False)
    assert (caption.sign.mark, caption.name.text(), caption.says.text()) == (mark, "Tight", words)
    assert caption.accessibleName() == f"Tight, {words}"


def test_the_one_in_hand_says_so(caption):
    caption.show_side(named(example.passing(), "Tight", "Costs less."), UnitSystem.METRIC, in_hand=True)
    assert caption.says.text() == "in hand: pass, hottest day 43 °C"
    assert caption.toolTip() == "Tight\nCosts less."


def test_a_long_name_ends_in_dots_and_comes_back_in_more_room(caption):
    name = "A cooler that stands on its end behind the condenser"
    caption.show_side(named(example.passing(), name), UnitSystem.METRIC, in_hand=False)
    caption.resize(120, 50)
    assert caption.name.text().endswith("…")
    caption.resize(900, 50)
    assert caption.name.text() == name
