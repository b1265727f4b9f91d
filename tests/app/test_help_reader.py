"""The reader of the help: pages, pictures, links and the search, by mouse and keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt, QUrl
from PySide6.QtGui import QImage, QTextDocument
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from grillestack.app.help_reader import HelpPage, HelpReader


@pytest.fixture
def reader(qtbot, tmp_path):
    (tmp_path / "pictures").mkdir()
    QImage(1200, 300, QImage.Format.Format_RGB32).save(str(tmp_path / "pictures" / "wide.png"))
    QImage(30, 30, QImage.Format.Format_RGB32).save(str(tmp_path / "secret.png"))
    pages = (
        HelpPage(
            "First", "first", lambda: "# First\n\nabout coolant and [Second](second.md)\n\n![w](pictures/wide.png)"
        ),
        HelpPage("Second", "second", lambda: "# Second\n\nabout air and coolant"),
    )
    parent = QWidget()
    qtbot.addWidget(parent)
    made = HelpReader(pages, tmp_path, parent)
    made.show_page("first")
    made.held = parent
    return made


def picture(reader, name):
    return reader.page.loadResource(QTextDocument.ResourceType.ImageResource.value, QUrl(name))


def test_it_opens_at_the_page_asked_for_in_a_window_of_its_own(reader):
    assert reader.isWindow()
    assert not reader.isModal()
    assert reader.windowTitle() == "First"
    assert "about coolant" in reader.page.toPlainText()


def test_pictures_come_from_the_helps_folder_and_fit_the_page(reader):
    wide = picture(reader, "pictures/wide.png")
    assert 200 <= wide.width() <= reader.page.viewport().width()
    assert wide.width() == pytest.approx(4 * wide.height(), abs=4)


@pytest.mark.parametrize(
    "name", ["secret.png", "pictures/../secret.png", "file:///etc/hostname", "http://x.invalid/a.png"]
)
def test_nothing_else_is_fetched(reader, name):
    assert picture(reader, name) is None


def test_words_that_are_typed_leave_the_pages_that_hold_them(reader):
    reader.search.setFocus()
    QTest.keyClicks(reader.search, "air cool")
    assert reader.titles_shown() == ["Second"]
    assert reader.windowTitle() == "Second"
    assert reader.page.textCursor().selectedText().casefold() == "air"
    QTest.keyClicks(reader.search, "zzz")
    assert reader.titles_shown() == []
    assert reader.nothing.isVisible()
    reader.search.clear()
    assert reader.titles_shown() == ["First", "Second"]


def test_enter_goes_to_the_next_place_and_round(reader):
    reader.show_page("second")
    reader.search.setText("o")
    places = []
    for _ in range(6):
        places.append(reader.page.textCursor().position())
        QTest.keyClick(reader.search, Qt.Key.Key_Return)
    assert len(set(places)) > 2
    assert places[0] in places[1:]


def test_arrows_in_the_list_turn_the_pages(reader):
    reader.list.setFocus()
    QTest.keyClick(reader.list, Qt.Key.Key_Down)
    assert reader.windowTitle() == "Second"


def test_a_click_on_a_link_opens_its_page(reader):
    reader.page.anchorClicked.emit(QUrl("second.md"))
    assert reader.windowTitle() == "Second"
    reader.page.anchorClicked.emit(QUrl("https://elsewhere.invalid"))
    assert reader.windowTitle() == "Second"
    assert not reader.page.openLinks()
    assert reader.page.rect().contains(QPoint(1, 1))
