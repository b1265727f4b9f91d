"""What a screen reader hears: a name for all that can be pressed or typed into, and every thing on the sheets with size and place."""

from __future__ import annotations

import re

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QLineEdit,
    QPlainTextEdit,
    QSlider,
    QWidget,
)

from grillestack.app.canvas.spoken import SheetSpeaker
from grillestack.model.edits import remove_parts

NAME, DESCRIPTION = QAccessible.Text.Name, QAccessible.Text.Description
_PRESSED_OR_TYPED = (QAbstractButton, QAbstractItemView, QComboBox, QLineEdit, QPlainTextEdit, QSlider)
# What an id of the document or of the code looks like; no name on the screen does.
_RAW_ID = re.compile(r"\b(?:[a-z]+-\d+|inv-[a-z]+-\d+|[a-z]+_[a-z_]+|qt_\w+)\b")


@pytest.fixture(scope="module", autouse=True)
def speaker(qapp):
    made = SheetSpeaker()
    made.install()
    return made


def spoken(widget):
    return QAccessible.queryAccessibleInterface(widget)


@pytest.mark.parametrize("selected", ["nothing", "radiator", "fan", "opening", "obstruction"])
def test_all_that_can_be_pressed_or_typed_into_has_a_name_and_none_is_an_id(window, session, selected):
    wanted = {
        "nothing": (),
        "radiator": (session.project.parts[0].id,),
        "fan": (session.project.parts[-1].id,),
        "opening": ("opening-1",),
        "obstruction": ("obstruction-2",),
    }[selected]
    session.select(wanted)
    QCoreApplication.processEvents()
    nameless, raw, asked = [], [], 0
    for widget in window.findChildren(QWidget):
        inside = isinstance(widget.parentWidget(), QComboBox) or widget.objectName().startswith("qt_")
        takes_keys = widget.focusPolicy() != widget.focusPolicy().NoFocus
        if inside or not widget.isVisible() or not (isinstance(widget, _PRESSED_OR_TYPED) or takes_keys):
            continue
        if type(widget).__name__ == "QWidget" and widget.focusProxy() is not None:
            continue  # it hands the keyboard on
        asked += 1
        name = spoken(widget).text(NAME)
        where = (type(widget).__name__, type(widget.parentWidget()).__name__, name)
        if not name.strip():
            nameless.append(where)
        if _RAW_ID.search(name) or _RAW_ID.search(spoken(widget).text(DESCRIPTION)):
            raw.append(where)
    assert asked > 30
    assert nameless == []
    assert raw == []


def test_every_part_and_outline_is_heard_on_the_front_view_with_size_and_place(window, session):
    sheet = spoken(window.front)
    heard = {sheet.child(n).text(NAME): sheet.child(n).text(DESCRIPTION) for n in range(sheet.childCount())}
    for part in session.project.parts:
        assert part.name in heard
        assert "mm wide" in heard[part.name]
        assert "at height" in heard[part.name]
    # The opening of the fixture runs from -380 to 380 across and from 560 to 1010 up: 760 by 450, its middle at 785.
    opening = next(words for name, words in heard.items() if name.startswith("Upper grille"))
    assert opening == "opening, 760 mm wide, 450 mm high, middle on the centre line at height 785 mm"
    assert heard["Bumper beam"].startswith("obstruction, 50 mm deep, ")
    assert not any(_RAW_ID.search(words) for words in (*heard, *heard.values()))


@pytest.mark.parametrize("view", ["side", "plan"])
def test_the_parts_are_heard_on_the_other_sheets_too(window, session, view):
    window.drawer.show_plan(is_open=True)
    sheet = spoken(getattr(window, view))
    names = [sheet.child(n).text(NAME) for n in range(sheet.childCount())]
    assert sorted(names) == sorted(part.name for part in session.project.parts)
    assert all(sheet.child(n).role() is QAccessible.Role.Graphic for n in range(len(names)))


def test_what_is_heard_follows_the_document_and_the_selection(window, session):
    sheet = spoken(window.front)
    first = sheet.child(0)
    key = first.key
    session.select((key,))
    assert first.state().selected
    assert sheet.indexOfChild(first) == 0
    before = sheet.childCount()
    session.apply("remove", remove_parts(session.project, (key,)))
    assert sheet.childCount() == before - 1
    assert not first.isValid()
    assert first.text(NAME) == ""


def test_a_part_is_where_it_is_drawn_on_the_screen(window):
    sheet = spoken(window.front)
    part = sheet.child(0)
    assert sheet.rect().intersects(part.rect())
    found = sheet.childAt(part.rect().center().x(), part.rect().center().y())
    assert found is not None
    assert sheet.childAt(-5000, -5000) is None


def test_sheets_that_are_gone_are_let_go(qtbot, session, window):
    from grillestack.app.canvas.side_strip import SideStrip

    view = SideStrip(session, window.palette_shown)
    assert spoken(view).childCount() == len(session.project.parts)
    session.project_changed.disconnect(view._show_project)
    view.deleteLater()
    QCoreApplication.sendPostedEvents(view, QEvent.Type.DeferredDelete.value)
    assert spoken(window.side).childCount() == len(session.project.parts)
