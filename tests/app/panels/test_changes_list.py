"""What to change first: rows for the rungs, the best three at once, nothing to press on an old one."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from grillestack.app import palette as palettes
from grillestack.app.panels.changes_list import ChangesList
from grillestack.units.display import UnitSystem
from tests.app.panels.test_further_words import rung, rungs

METRIC = UnitSystem.METRIC
FIVE = rungs(*(rung(6.0 - n, title=f"Change {n}", spoils=n > 3) for n in range(5)), too_little=2)


@pytest.fixture
def changes(qtbot):
    made = ChangesList(palettes.light())
    qtbot.addWidget(made)
    made.resize(300, 900)
    made.show()
    return made


def in_sight(changes):
    return [row.rung.title for row in changes.rows if row.isVisible()]


def test_the_best_three_are_in_sight_and_the_others_when_asked_for(changes, qtbot):
    changes.show_ladder(FIVE, METRIC, is_old=False)
    assert in_sight(changes) == ["Change 0", "Change 1", "Change 2"]
    assert changes.more.text() == "2 more"
    qtbot.mouseClick(changes.more, Qt.MouseButton.LeftButton)
    assert len(in_sight(changes)) == 5
    assert changes.more.text() == "fewer"


def test_do_it_and_show_me_say_which_rung(changes, qtbot):
    changes.show_ladder(FIVE, METRIC, is_old=False)
    row = changes.rows[1]
    with qtbot.waitSignal(changes.do_requested) as done:
        qtbot.mouseClick(row.do_it, Qt.MouseButton.LeftButton)
    assert done.args == [FIVE.rungs[1]]
    with qtbot.waitSignal(changes.show_requested) as shown:
        qtbot.keyClick(row.show_me, Qt.Key.Key_Space)
    assert shown.args == [("condenser-1",)]


def test_an_old_rung_can_neither_be_done_nor_shown(changes, qtbot):
    changes.show_ladder(FIVE, METRIC, is_old=True)
    for row in changes.rows:
        assert not row.do_it.isEnabled()
        assert not row.show_me.isEnabled()
    changes.grab()


def test_without_rungs_the_reason_stands_there(changes):
    changes.show_ladder(rungs(reason="No single change buys Crawl 0.20 K or more.", harmful=1), METRIC, is_old=False)
    texts = [label.text() for label in (changes._reason, changes._left_out) if label.isVisible()]
    assert texts == [
        "No single change buys Crawl 0.20 K or more.",
        "1 other change would cost another duty case its design day.",
    ]
    assert changes.rows == ()


def test_rows_are_used_again(changes):
    changes.show_ladder(FIVE, METRIC, is_old=False)
    changes.grab()
    made = set(changes.findChildren(QWidget))
    for is_old in (True, False, True):
        changes.show_ladder(FIVE, METRIC, is_old=is_old)
        changes.show_ladder(rungs(rung()), METRIC, is_old=is_old)
        changes.show_ladder(None, METRIC, is_old=is_old)
        changes.grab()
    assert set(changes.findChildren(QWidget)) == made


def test_a_screen_reader_hears_the_change_its_degrees_and_what_it_brings(changes):
    changes.show_ladder(rungs(rung(spoils=True)), METRIC, is_old=False)
    (row,) = changes.rows
    assert row.accessibleName() == "Leave out the condenser: +6.4 K"
    assert "licensed people" in row.accessibleDescription()
    assert "over its limit" in row.accessibleDescription()
    assert row.do_it.accessibleName() == "do it: Leave out the condenser"


@pytest.mark.parametrize("look", [palettes.light, palettes.dark, palettes.high_contrast])
def test_every_look_is_painted(look, changes):
    changes.show_ladder(FIVE, METRIC, is_old=False)
    changes.show_palette(look())
    assert not changes.grab().isNull()
