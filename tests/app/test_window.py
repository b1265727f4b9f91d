"""The window: menus, keys, title, strip and closing, by the hands and keys of a user."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QLineEdit, QMenu, QPlainTextEdit, QToolButton

from grillestack.app.dialogs import Unsaved
from grillestack.app.files import FileDesk
from grillestack.app.session import Session
from grillestack.model.edits import set_title
from grillestack.storage.autosave import pending_recoveries
from grillestack.storage.project_file import read_project, write_project
from grillestack.storage.settings import Look
from grillestack.units.display import UnitSystem

CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


def place(session, part_id="radiator-3"):
    return session.project.part(part_id).placement


def press(window, key, modifiers=Qt.KeyboardModifier.NoModifier, on=None):
    target = on or window.front
    target.setFocus()
    QTest.keyClick(target, key, modifiers)


def test_it_has_the_menus_of_a_desktop_program(window):
    titles = [action.text().replace("&", "") for action in window.menuBar().actions()]
    assert titles == ["File", "Edit", "View", "Pack", "Nose", "Sheet", "Help"]


def test_no_two_actions_share_a_key(window):
    keys = [
        key.toString()
        for action in window.menus.actions.values()
        for key in action.shortcuts()
        if action.shortcutContext() is not Qt.ShortcutContext.WidgetWithChildrenShortcut
    ]
    assert len(keys) == len(set(keys))


def test_every_action_has_words_and_every_button_and_line_a_name(window, session):
    for action in (*window.menus.actions.values(), *window.front.actions(), *window.side.actions()):
        assert action.text()
    session.select(["radiator-3"])
    for widget in (*window.findChildren(QAbstractButton), *window.findChildren(QLineEdit)):
        if widget.isVisible() and widget.focusPolicy() is not Qt.FocusPolicy.NoFocus:
            assert widget.accessibleName() or widget.property("text"), widget


def test_the_keys_of_undo_and_redo_work_from_the_nose(window, session):
    before = session.project
    session.apply("rename", set_title(before, "Other"))
    press(window, Qt.Key.Key_Z, CTRL)
    assert session.project is before
    press(window, Qt.Key.Key_Z, CTRL | SHIFT)
    assert session.project.title == "Other"


def test_arrows_move_on_the_screen_as_they_point_on_the_nose(window, session):
    session.select(["radiator-3"])
    y, z = place(session).y_mm, place(session).z_mm
    press(window, Qt.Key.Key_Left)  # the nose is seen from ahead, so the screen's left is the vehicle's right
    assert place(session).y_mm == y + 1
    press(window, Qt.Key.Key_Right, SHIFT)
    assert place(session).y_mm == y - 9
    press(window, Qt.Key.Key_Up)
    assert place(session).z_mm == z + 1
    assert session.undo_stack.count() == 1


def test_arrows_in_the_side_strip_move_fore_and_aft(window, session):
    session.select(["radiator-3"])
    x = place(session).x_mm
    press(window, Qt.Key.Key_Right, on=window.side)
    assert place(session).x_mm == x + 1
    press(window, Qt.Key.Key_Left, SHIFT, on=window.side)
    assert place(session).x_mm == x - 9


def test_arrows_in_a_list_choose_rows_and_move_nothing(window, session):
    session.select(["condenser-5"])
    before = session.project
    press(window, Qt.Key.Key_Down, on=window.pack)
    assert session.project is before
    assert session.selection == ("charge-air-cooler-4",)


def test_delete_in_a_field_deletes_letters_and_on_the_nose_the_part(window, session):
    session.select(["fan-7"])
    line = next(line for line in window.card.findChildren(QLineEdit) if line.accessibleName() == "Name")
    line.setFocus()
    line.selectAll()
    QTest.keyClick(line, Qt.Key.Key_Delete)
    assert line.text() == ""
    assert any(part.id == "fan-7" for part in session.project.parts)
    QTest.keyClick(line, Qt.Key.Key_Escape)
    press(window, Qt.Key.Key_Delete)
    assert all(part.id != "fan-7" for part in session.project.parts)


def test_alt_and_arrows_reorder_from_anywhere_in_the_window(window, session):
    session.select(["charge-air-cooler-4"])
    press(window, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert window.pack.order()[0] == "charge-air-cooler-4"


def test_the_tool_row_acts_as_the_menu_does_and_keeps_its_words(window, session):
    session.select(["radiator-3"])
    buttons = {b.accessibleName(): b for b in window.menus.row.findChildren(QToolButton) if b.accessibleName()}
    QTest.mouseClick(buttons["Turn"], Qt.MouseButton.LeftButton)
    assert place(session).quarter_turns == 1
    assert buttons["Undo"].text() == "Undo"
    assert "turn a quarter" in window.menus.actions["Undo"].text()
    QTest.mouseClick(buttons["Undo"], Qt.MouseButton.LeftButton)
    assert place(session).quarter_turns == 0


def test_a_part_from_the_shelf_by_enter_is_in_the_pack_and_on_the_card(window, session):
    window.shelf.search.setFocus()
    QTest.keyClicks(window.shelf.search, "invented fan")
    QTest.keyClick(window.shelf.search, Qt.Key.Key_Return)
    QTest.keyClick(window.shelf.tree, Qt.Key.Key_Return)
    assert len(session.project.parts) == 6
    assert window.pack.count() == 6
    name = next(line for line in window.card.findChildren(QLineEdit) if line.accessibleName() == "Name")
    assert name.text() == "Invented fan"


def test_the_title_names_the_document_and_marks_changes(window, session):
    assert window.windowTitle() == "Invented truck[*]"
    assert not window.isWindowModified()
    session.apply("rename", set_title(session.project, "Other"))
    assert window.windowTitle() == "Other[*]"
    assert window.isWindowModified()
    press(window, Qt.Key.Key_S, CTRL)
    assert window.windowTitle() == "saved.grillestack[*]"
    assert not window.isWindowModified()


def test_what_is_still_being_typed_is_saved_too(window, session, answers):
    line = next(line for line in window.card.findChildren(QLineEdit) if line.accessibleName() == "Rated power")
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "95 kW")
    QTest.keyClick(line, Qt.Key.Key_S, CTRL)
    assert read_project(answers.save_path).engine.rated_power_w == 95_000
    assert session.is_clean


def test_notes_of_several_lines_stay_so(window, session, answers):
    notes = next(t for t in window.card.findChildren(QPlainTextEdit) if t.accessibleName() == "Notes")
    notes.setFocus()
    QTest.keyClicks(notes, "first line")
    QTest.keyClick(notes, Qt.Key.Key_Return)
    QTest.keyClicks(notes, "second line")
    assert window.desk.save()
    assert read_project(answers.save_path).notes_text == "first line\nsecond line"
    assert session.undo_stack.count() == 1


def test_save_as_and_open_by_key(window, session, answers, tmp_path, truck):
    other = tmp_path / "other.grillestack"
    write_project(set_title(truck, "From disk"), other)
    answers.open_path = other
    press(window, Qt.Key.Key_O, CTRL)
    assert session.project.title == "From disk"
    press(window, Qt.Key.Key_S, CTRL | SHIFT)
    assert answers.asked[-1] == "save From disk.grillestack"
    assert read_project(answers.save_path).title == "From disk"


def menu_named(window, words):
    return next(menu for menu in window.findChildren(QMenu) if menu.title().replace("&", "") == words)


def test_recent_files_and_demos_open_from_their_menus(window, session, tmp_path, truck):
    path = tmp_path / "before.grillestack"
    write_project(set_title(truck, "Before"), path)
    recent, demos = menu_named(window, "Open recent"), menu_named(window, "Demos")
    recent.aboutToShow.emit()
    assert [a.isEnabled() for a in recent.actions()] == [False]
    window.desk.open_file(path)
    recent.aboutToShow.emit()
    assert [a.text() for a in recent.actions()] == ["before.grillestack"]
    window.demos = (path,)
    demos.aboutToShow.emit()
    demos.actions()[0].trigger()
    assert session.path is None
    recent.actions()[0].trigger()
    assert session.path == path


def test_a_file_that_cannot_be_opened_is_told_in_the_strip_and_no_dialog_stands_in_the_way(window, session, tmp_path):
    before = session.project
    window.desk.open_file(tmp_path / "gone.grillestack")
    assert len(window.strip.sentences()) == 1
    assert "gone.grillestack" in window.strip.sentences()[0]
    assert window.strip.isVisible()
    assert session.project is before


def test_the_warning_of_a_second_window_stays_in_the_strip(window, session, answers, tmp_path, truck):
    path = tmp_path / "shared.grillestack"
    write_project(truck, path)
    other = FileDesk(Session(None, UnitSystem.METRIC), answers)
    try:
        other.open_file(path)
        window.desk.open_file(path)
        assert len(window.strip.sentences()) == 1
        assert "another window" in window.strip.sentences()[0]
    finally:
        other.close()


@pytest.mark.parametrize(("answer", "stays"), [(Unsaved.CANCEL, True), (Unsaved.LEAVE, False), (Unsaved.SAVE, False)])
def test_closing_asks_about_unsaved_work(window, session, answers, answer, stays):
    session.apply("rename", set_title(session.project, "Other"))
    answers.unsaved = answer
    window.close()
    assert answers.asked[0] == "unsaved Other"
    assert window.isVisible() is stays
    assert answers.save_path.exists() is (answer is Unsaved.SAVE)


def test_closing_a_saved_document_asks_nothing(window, answers):
    window.close()
    assert answers.asked == []
    assert not window.isVisible()


def test_a_recovery_is_offered_in_the_strip_and_taken_up(window, session, answers, truck):
    lost = Session(None, UnitSystem.METRIC, truck)
    desk = FileDesk(lost, answers)
    lost.apply("rename", set_title(lost.project, "Lost"))
    desk.keep_now()
    desk.close()
    window.desk.look_for_recoveries()
    assert "Unsaved work on “Lost”" in window.strip.sentences()[0]
    QTest.mouseClick(window.strip.buttons()[0], Qt.MouseButton.LeftButton)
    assert session.project.title == "Lost"
    assert not session.is_clean
    assert window.strip.sentences() == []


def test_a_recovery_can_be_thrown_away(window, answers, truck):
    lost = Session(None, UnitSystem.METRIC, truck)
    desk = FileDesk(lost, answers)
    lost.apply("rename", set_title(lost.project, "Lost"))
    desk.keep_now()
    desk.close()
    window.desk.look_for_recoveries()
    QTest.mouseClick(window.strip.buttons()[1], Qt.MouseButton.LeftButton)
    assert pending_recoveries() == ()


def test_new_asks_in_the_card_and_cancel_leaves_the_document(window, session):
    before = session.project
    press(window, Qt.Key.Key_N, CTRL)
    draft = window.card.draft
    assert draft is not None
    assert draft.fields["width_mm"].line.hasFocus()
    QTest.mouseClick(draft.cancel_button, Qt.MouseButton.LeftButton)
    assert window.card.draft is None
    assert session.project is before


def test_units_switch_from_menu_and_status_line(window, session):
    window.menus.actions["Inches"].trigger()
    assert session.units is UnitSystem.INCH
    metric = next(b for b in window.status.findChildren(QToolButton) if b.accessibleName() == "Show millimetres")
    QTest.mouseClick(metric, Qt.MouseButton.LeftButton)
    assert session.units is UnitSystem.METRIC
    menu_named(window, "View").aboutToShow.emit()
    assert window.menus.actions["Millimetres"].isChecked()


def test_dark_and_light(window, qapp):
    before = qapp.styleSheet(), qapp.palette()
    try:
        window.menus.actions["Dark"].trigger()
        assert window.look is Look.DARK
        dark = window.grab().toImage()
        window.menus.actions["Light"].trigger()
        assert window.grab().toImage() != dark
    finally:
        qapp.setStyleSheet(before[0])
        qapp.setPalette(before[1])


def test_help_pages_show_in_one_window_that_blocks_nothing(window):
    for words, inside in (("Keys", "arrows"), ("Cautions", "Coolant is poisonous"), ("About grillestack", "invented")):
        window.menus.actions[words].trigger()
        reader = window.help_pages.reader
        assert reader.isVisible()
        assert not reader.isModal()
        assert reader.windowTitle() == words
        assert inside in reader.page.toPlainText()
    window.close()
    assert not reader.isVisible()


def test_every_key_of_the_menus_is_on_the_page_of_keys(window):
    window.menus.actions["Keys"].trigger()
    page = window.help_pages.reader.page.toPlainText()
    for action in window.menus.actions.values():
        for key in action.shortcuts()[:1]:
            last = key.toString(QKeySequence.SequenceFormat.PortableText).split("+")[-1] or "+"
            spoken = {"Del": "Delete", "-": "−", "Up": "up", "Down": "down", "F1": "F1"}.get(last, last)
            assert spoken in page, key.toString()


def test_the_status_line_tells_the_place_of_the_pointer(window, session):
    window.front.pointer_moved.emit(212.0, 640.0)
    assert window.status.place.text() == "height 640 mm · 212 mm right of centre"
    window.front.pointer_moved.emit(-212.0, 640.0)
    assert window.status.place.text() == "height 640 mm · 212 mm left of centre"
    window.side.pointer_moved.emit(25.4, 640.0)
    assert window.status.place.text() == "height 640 mm · 25.4 mm behind the grille"


def test_the_status_line_tells_what_is_saved(window, session):
    assert window.status.saved.text() == "nothing to save"
    session.apply("rename", set_title(session.project, "Other"))
    assert window.status.saved.text() == "not saved"
    window.desk.keep_now()
    assert window.status.saved.text() == "not saved · kept for recovery"
    window.desk.save()
    assert window.status.saved.text() == "saved 0 s ago"


def test_a_message_of_the_session_shows_in_the_status_line(window, session):
    session.message.emit("Nothing is selected.")
    assert window.status.currentMessage() == "Nothing is selected."


def test_nothing_is_cut_off_at_1280_by_800(window):
    assert (window.width(), window.height()) == (1280, 800)
    row = window.menus.row
    for button in row.findChildren(QToolButton):
        if button.accessibleName():
            assert button.isVisible()
            assert row.rect().contains(button.geometry())
            assert button.width() >= button.fontMetrics().horizontalAdvance(button.text())
