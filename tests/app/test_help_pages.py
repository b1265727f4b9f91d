"""Each page is there, names only what the window has, and its pictures are those that the maker makes."""

from __future__ import annotations

import re

import pytest
from msgspec.structs import replace
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QMenu, QWidget

from grillestack.app.help_pages import WRITTEN
from grillestack.app.help_pictures import MAKERS, make_pictures
from grillestack.app.panels.verdict_marks import VERDICT_WORDS
from grillestack.app.photo.marking_panel import MarkingPanel
from grillestack.app.photo.picture_file import kept_picture, pixels_of
from grillestack.app.sheets.maker import SheetMaker
from grillestack.app.sheets.page import SheetPage
from grillestack.app.sheets.questions import QtSheetQuestions
from grillestack.app.tape.panel import TapePanel
from grillestack.app.tape.steps import STEPS
from grillestack.assess.figure import FigureName
from grillestack.assets.locate import resource
from grillestack.model.edits import replace_part
from grillestack.model.parts import Core
from tests.app.sheets.made import Draughtsman

PAGES = [name for _title, name in WRITTEN]
# These pages tell with bold words too, but of vehicles, not of the window.
OF_THE_WINDOW = [name for name in PAGES if name not in ("cautions", "methods", "what_is_new")]
# Words made bold for their weight.
STRESSED = {
    "centre",
    "ground",
    "Verify by test",
    "More face beats more depth.",
    "Fresh air beats size.",
    "Tanks count.",
    "Seal the edges.",
}


def text_of(name):
    return resource("help", f"{name}.md").read_text(encoding="utf-8")


def named_pictures():
    return {
        (name, found) for name in PAGES for found in re.findall(r"!\[[^\]]+\]\(pictures/([\w-]+)\.png\)", text_of(name))
    }


@pytest.mark.parametrize("name", PAGES)
def test_every_page_of_the_list_is_there_and_begins_with_a_heading(name):
    assert text_of(name).startswith("# ")


def test_every_picture_that_a_page_names_is_there_and_made_by_the_maker():
    named = {picture for _page, picture in named_pictures()}
    assert named == set(MAKERS)
    for picture in named:
        assert not QImage(str(resource("help", "pictures", f"{picture}.png"))).isNull()


def test_every_picture_has_words_for_who_cannot_see_it():
    for name in PAGES:
        assert "![](" not in text_of(name)


@pytest.fixture(scope="module")
def made(qapp, tmp_path_factory):
    folder = tmp_path_factory.mktemp("pictures")
    return {path.stem: QImage(str(path)) for path in make_pictures(folder)}


def test_the_maker_makes_each_of_them_in_the_size_that_is_kept(made):
    for name, image in made.items():
        kept = QImage(str(resource("help", "pictures", f"{name}.png")))
        # A section grows by a line when a finding says more; the frame of the picture stays.
        assert image.width() == kept.width(), name
        assert abs(image.height() - kept.height()) <= 80, name


def test_no_picture_is_an_empty_sheet(made):
    for name, image in made.items():
        seen = {image.pixel(x, y) for x in range(0, image.width(), 4) for y in range(0, image.height(), 4)}
        assert len(seen) > 8, name


@pytest.mark.parametrize("name", PAGES)
def test_every_link_leads_to_a_page_of_the_list(name):
    links = re.findall(r"(?<!!)\[[^\]]+\]\(([^)]+)\)", text_of(name))
    assert [link for link in links if link.removesuffix(".md") not in PAGES] == []


def words_in(widget: QWidget) -> set[str]:
    """Return every text that a person can read on the widget."""
    found = set()
    for each in widget.findChildren(QWidget):
        if isinstance(each, QAbstractButton | QLabel):
            found.add(each.text())
        if isinstance(each, QMenu):
            found.add(each.title())
            found |= {action.text() for action in each.actions()}
        found.add(each.accessibleName())
    return {words.replace("&", "").replace("\u00a0", " ").strip() for words in found if words}


@pytest.fixture
def words(window, session, qtbot):
    """Give every text of the window in the states that the pages tell of."""
    found = words_in(window)
    core = next(p for p in session.project.parts if isinstance(p, Core))
    session.apply("own", replace_part(session.project, replace(core, own_sizes=True)))
    for selection in ((core.id,), ("opening-1",), ()):
        session.select(selection)
        QApplication.processEvents()
        found |= words_in(window)
    tape = TapePanel(session, window.palette_shown)
    qtbot.addWidget(tape)
    for place in range(len(STEPS)):
        tape.go_to(place)
        found |= words_in(tape)
    picture = kept_picture(QImage(64, 48, QImage.Format.Format_RGB32))
    panel = MarkingPanel(session, pixels_of(picture), picture, window.palette_shown)
    qtbot.addWidget(panel)
    found |= words_in(panel) | {name.value for name in FigureName} | set(VERDICT_WORDS.values())
    drawings = SheetPage(session, window.palette_shown, SheetMaker(session, Draughtsman), QtSheetQuestions())
    qtbot.addWidget(drawings)
    found |= words_in(drawings)
    # A section that comes with a photo, and the two links of a change that comes with an answer.
    return {one.casefold() for one in found | {"Photo under the nose", "do it", "show me"}}


@pytest.mark.parametrize("name", OF_THE_WINDOW)
def test_every_bold_word_of_a_page_stands_in_the_window(name, words):
    quoted = set(re.findall(r"\*\*([^*]+)\*\*", text_of(name))) - STRESSED
    assert sorted(one for one in quoted if one.casefold() not in words) == []


def test_the_pages_open_from_the_help_menu_with_their_pictures(window):
    window.menus.actions["First pack in ten minutes"].trigger()
    reader = window.help_pages.reader
    assert reader.windowTitle() == "First pack in ten minutes"
    assert reader.titles_shown() == [*(title for title, _name in WRITTEN), "Keys", "About grillestack"]
    reader.grab()
    window.close()
    assert not reader.isVisible()
