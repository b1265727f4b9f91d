"""The shelf: groups, search, and parts that leave it by key, by double click and by drag."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.own_parts import own_size_starters
from grillestack.app.palette import dark, light
from grillestack.app.panels.part_row import DETAIL_ROLE
from grillestack.app.panels.shelf import PART_MIME, Shelf
from grillestack.units.display import UnitSystem


@pytest.fixture
def shelf(qtbot, session, shelf_of_parts):
    made = Shelf(session, light(), (*shelf_of_parts, *own_size_starters()))
    qtbot.addWidget(made)
    made.resize(290, 600)
    made.show()
    return made


def visible(shelf):
    return [item.text(0) for item in shelf._items() if not item.isHidden()]


def test_parts_stand_in_the_trades_groups(shelf):
    heads = [shelf.tree.topLevelItem(i).text(0) for i in range(shelf.tree.topLevelItemCount())]
    assert heads == ["Radiators", "Charge-air coolers", "Condensers", "Shrouds", "Fans", "To own sizes"]


def test_rows_tell_core_and_depth_in_the_units_shown(shelf, session):
    item = shelf._items()[0]
    assert item.data(0, DETAIL_ROLE) == "core 650 × 450 · 56 mm deep"
    session.set_units(UnitSystem.INCH)
    assert item.data(0, DETAIL_ROLE) == "core 25 9/16 × 17 11/16 · 2 3/16 in deep"  # 25.59, 17.72, 2.20 in
    assert "Invented radiator, core 25 9/16" in item.data(0, Qt.ItemDataRole.AccessibleTextRole)


def test_all_words_of_a_search_must_match_name_group_or_size(shelf, qtbot):
    qtbot.keyClicks(shelf.search, "invented 650")
    assert visible(shelf) == ["Invented radiator", "Invented shroud"]
    shelf.search.setText("charge-air 560")
    assert visible(shelf) == ["Invented charge-air cooler"]
    shelf.search.setText("no such thing")
    assert visible(shelf) == []
    assert shelf.nothing.isVisible()
    shelf.search.clear()
    assert not shelf.nothing.isVisible()
    assert len(visible(shelf)) == 5 + len(own_size_starters())


def test_a_search_opens_groups_that_were_shut(shelf, qtbot):
    shelf.tree.topLevelItem(0).setExpanded(False)
    qtbot.keyClicks(shelf.search, "radiator")
    assert shelf.tree.topLevelItem(0).isExpanded()


def test_enter_in_the_search_leads_to_the_first_match_and_enter_there_hands_it_over(shelf, qtbot):
    heard = []
    shelf.wanted.connect(heard.append)
    qtbot.keyClicks(shelf.search, "fan")
    QTest.keyClick(shelf.search, Qt.Key.Key_Return)
    assert shelf.tree.hasFocus()
    QTest.keyClick(shelf.tree, Qt.Key.Key_Return)
    assert [part.id for part in heard] == ["inv-fan-380"]


def test_a_double_click_hands_the_part_over_and_one_on_a_heading_nothing(shelf):
    heard = []
    shelf.wanted.connect(heard.append)
    for item in (shelf._items()[0], shelf.tree.topLevelItem(0)):
        place = shelf.tree.visualItemRect(item).center()
        QTest.mouseClick(shelf.tree.viewport(), Qt.MouseButton.LeftButton, pos=place)
        QTest.mouseDClick(shelf.tree.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert [part.id for part in heard] == ["inv-rad-650"]


def test_a_dragged_row_carries_the_parts_id_and_the_shelf_finds_it_again(shelf):
    data = shelf.tree.mimeData([shelf._items()[1]])
    carried = data.data(PART_MIME).data().decode("utf-8")
    assert carried == "inv-cac-560"
    assert shelf.find_part(carried).name == "Invented charge-air cooler"
    assert shelf.find_part("gone") is None


def test_an_empty_shelf_says_so(qtbot, session):
    shelf = Shelf(session, light(), ())
    qtbot.addWidget(shelf)
    shelf.show()
    assert shelf.nothing.isVisible()
    assert shelf.nothing.text() == "The shelf is empty."


def test_rows_paint_in_light_and_dark(shelf):
    first = shelf.grab().toImage()
    shelf.show_palette(dark())
    assert shelf.grab().toImage() != first
