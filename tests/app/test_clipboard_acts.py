"""Copy, cut and paste by the keys of the desktop, between windows too; text that holds no parts is refused in a sentence."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QMimeData, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest

from grillestack.app.clipboard_acts import PARTS_MIME, ClipboardActs
from grillestack.app.pack_acts import PackActs
from grillestack.app.session import Session
from grillestack.model.project import Project
from grillestack.model.states import set_locked
from grillestack.units.display import UnitSystem

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def said(session):
    heard = []
    session.message.connect(heard.append)
    return heard


@pytest.fixture
def other(qapp):
    """Give the session of another window with an empty project, and its acts."""
    session = Session(None, UnitSystem.INCH, Project())
    return session, ClipboardActs(session, PackActs(session))


def bare(part):
    return replace(part, id="same", placement=replace(part.placement, y_mm=0, z_mm=0))


def test_copy_and_paste_by_key_makes_new_parts_beside_in_one_step(window):
    session = window.session
    session.select(["radiator-3", "fan-7"])
    window.front.setFocus()
    QTest.keyClick(window.front, Qt.Key.Key_C, CTRL)
    assert session.undo_stack.count() == 0
    QTest.keyClick(window.front, Qt.Key.Key_V, CTRL)
    assert session.undo_stack.count() == 1
    assert len(session.selection) == 2
    assert not set(session.selection) & {"radiator-3", "fan-7"}
    for old, new in zip(("radiator-3", "fan-7"), session.selection, strict=True):
        before, after = session.project.part(old), session.project.part(new)
        assert bare(before) == bare(after)
        assert after.placement.y_mm > before.placement.y_mm
        assert after.placement.z_mm < before.placement.z_mm
    QTest.keyClick(window.front, Qt.Key.Key_V, CTRL)
    places = {(p.placement.y_mm, p.placement.z_mm) for p in session.project.parts if "radiator" in p.id}
    assert len(places) == 3


def test_cut_takes_the_parts_out_and_paste_brings_them_back_where_they_stood(window):
    session = window.session
    fan = session.project.part("fan-7")
    session.select(["fan-7", "opening-1"])
    QTest.keyClick(window.front, Qt.Key.Key_X, CTRL)
    assert [p.id for p in session.project.parts if p.id == "fan-7"] == []
    assert session.project.nose.openings
    assert session.undo_stack.count() == 1
    QTest.keyClick(window.front, Qt.Key.Key_V, CTRL)
    (pasted,) = session.selection
    assert session.project.part(pasted).placement == fan.placement


def test_paste_works_in_another_window_and_project(session, other):
    there, acts = other
    session.select(["radiator-3"])
    assert ClipboardActs(session, PackActs(session)).copy()
    acts.paste()
    (pasted,) = there.selection
    assert bare(there.project.part(pasted)) == bare(session.project.part("radiator-3"))
    assert there.project.part(pasted).placement == session.project.part("radiator-3").placement


def test_the_clipboard_holds_our_own_kind_and_plain_text(session):
    session.select(["radiator-3"])
    ClipboardActs(session, PackActs(session)).copy()
    data = QGuiApplication.clipboard().mimeData()
    assert data.hasFormat(PARTS_MIME)
    assert data.text() == bytes(data.data(PARTS_MIME).data()).decode()
    assert '"grillestack copied parts"' in data.text()


def test_plain_text_from_elsewhere_is_taken_if_it_holds_parts(session, other):
    there, acts = other
    session.select(["fan-7"])
    ClipboardActs(session, PackActs(session)).copy()
    text = QGuiApplication.clipboard().text()
    QGuiApplication.clipboard().setText(text)
    acts.paste()
    assert len(there.project.parts) == 1


@pytest.mark.parametrize(
    "text", ["", "milk, bread", '{"kind": "grillestack copied parts", "format": 1, "parts": [{}]}']
)
def test_any_other_text_changes_nothing_and_says_so(session, said, text):
    QGuiApplication.clipboard().setText(text)
    before = session.project
    ClipboardActs(session, PackActs(session)).paste()
    assert session.project is before
    assert session.undo_stack.count() == 0
    assert len(said) == 1


def test_bytes_that_are_no_text_are_refused_too(session, said):
    data = QMimeData()
    data.setData(PARTS_MIME, b"\xff\xfe\x00")
    QGuiApplication.clipboard().setMimeData(data)
    ClipboardActs(session, PackActs(session)).paste()
    assert session.undo_stack.count() == 0
    assert "parts to paste" in said[0]


def test_a_pasted_part_is_free_to_move_and_seen(session):
    session.apply("lock", set_locked(session.project, ["fan-7"], locked=True))
    acts = ClipboardActs(session, PackActs(session))
    session.select(["fan-7"])
    acts.copy()
    acts.paste()
    (pasted,) = session.selection
    assert not session.project.part(pasted).locked


def test_in_a_field_the_keys_are_the_fields_own(window, qtbot):
    session = window.session
    session.select(["radiator-3"])
    line = window.card.card.findChildren(type(window.shelf.search))[0]
    line.setFocus()
    line.selectAll()
    before = session.project
    QTest.keyClick(line, Qt.Key.Key_C, CTRL)
    assert not QGuiApplication.clipboard().mimeData().hasFormat(PARTS_MIME)
    assert session.project is before
