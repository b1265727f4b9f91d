"""The first hour of somebody who never saw it: the failing demo, one drag, a file, and the same numbers in the terminal."""

from __future__ import annotations

import json
import math
import re
import subprocess
import sys

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMenu, QToolButton

from grillestack.assess.assess import assess
from grillestack.assess.result import Verdict
from grillestack.model.parts import Core, CoreRole, Fan
from grillestack.model.project import cores, fans, stack
from grillestack.storage.project_file import read_project
from grillestack.units.display import UnitSystem
from tests.end_to_end.bench import ALT, CTRL, LEFT, MOVE, PRESS, RELEASE, SHIFT, middle_of

WORDS = {Verdict.PASS: "Pass", Verdict.CLOSE: "Close", Verdict.FAIL: "Fail", Verdict.UNKNOWN: "Not known"}


def take_hold_of_the_cooler(bench):
    """Press on the cooler's middle; return where."""
    at = bench.middle_px(bench.charge_air_cooler().id)
    bench.mouse(PRESS, at)
    return at


def drag_down(bench, start, mm):
    """Move with the button held to so many mm below; return where the pointer is then."""
    end = start + QPointF(0, mm * bench.window.front.heights.px_per_mm)
    bench.mouse(MOVE, end)
    return end


def drag_until_it_no_longer_fails(bench, start):
    """Move down in steps of 10 mm with the eyes on the verdict; return where the pointer is when it turns."""
    seen = [bench.verdict_word()]
    for tens in range(1, 40):
        at = drag_down(bench, start, 10.0 * tens)
        seen.append(bench.verdict_word())
        if seen[-1] != "Fail":
            assert set(seen[:-1]) == {"Fail"}
            return at
    pytest.fail(f"the verdict stays as it is: {seen[-1]}")


def menu_named(window, words):
    return next(menu for menu in window.findChildren(QMenu) if menu.title().replace("&", "") == words)


def in_the_terminal(path):
    """Return what the terminal says of that file, and its exit code."""
    told = subprocess.run(
        [sys.executable, "-m", "grillestack", "assess", str(path), "--json"],
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    return json.loads(told.stdout), told.returncode


# --- the drag -------------------------------------------------------------------------------------------------------


def test_the_failing_demo_says_so_in_a_word_and_names_what_is_in_the_way(failing):
    assert failing.verdict_word() == "Fail"
    cooler = failing.charge_air_cooler()
    assert any(f"“{cooler.name}”" in text for text in failing.findings())


def test_dragging_the_cooler_down_turns_the_verdict_while_the_button_is_held(failing):
    before, name = failing.session.project, failing.charge_air_cooler().name
    start = take_hold_of_the_cooler(failing)
    at = drag_until_it_no_longer_fails(failing, start)
    shown = failing.charge_air_cooler().placement
    assert failing.session.in_trial
    assert failing.session.project is before
    assert failing.session.undo_stack.count() == 0
    failing.mouse(RELEASE, at)
    assert not failing.session.in_trial
    assert failing.session.undo_stack.count() == 1
    assert f"Move {name}" in failing.window.menus.actions["Undo"].text()
    # The pointer may have been caught by a snap line; released at the same pixel, the part stays where it was shown.
    assert failing.charge_air_cooler().placement == shown
    assert failing.verdict_word() == WORDS[failing.session.assessment.verdict]
    assert failing.session.assessment.verdict in (Verdict.CLOSE, Verdict.PASS)


def test_the_drag_that_the_notes_of_the_demo_advise_ends_in_a_pass(failing):
    notes = failing.session.project.notes_text
    down_mm = float(re.search(r"drag the charge-air cooler down (\d+) mm", notes)[1])
    z_mm = failing.charge_air_cooler().placement.z_mm
    start = take_hold_of_the_cooler(failing)
    failing.mouse(RELEASE, drag_down(failing, start, down_mm))
    px_mm = 1 / failing.window.front.heights.px_per_mm
    assert failing.charge_air_cooler().placement.z_mm == pytest.approx(z_mm - down_mm, abs=8 * px_mm)
    assert failing.verdict_word() == "Pass"


def test_esc_in_the_middle_of_a_drag_puts_everything_back(failing):
    before, figures = failing.session.project, failing.words()
    start = take_hold_of_the_cooler(failing)
    at = drag_until_it_no_longer_fails(failing, start)
    assert failing.words() != figures
    QTest.keyClick(failing.window.front, Qt.Key.Key_Escape)
    assert failing.session.shown is before
    assert failing.verdict_word() == "Fail"
    assert failing.words() == figures
    # The button is still down: neither moving on nor letting go may move anything now.
    failing.mouse(MOVE, at + QPointF(0, 20))
    failing.mouse(RELEASE, at + QPointF(0, 20))
    assert failing.session.shown is before
    assert failing.session.undo_stack.count() == 0
    assert failing.session.is_clean


def test_a_drag_that_comes_back_to_where_it_began_is_no_step(failing):
    before = failing.session.project
    start = take_hold_of_the_cooler(failing)
    drag_down(failing, start, 90.0)
    failing.mouse(MOVE, start)
    failing.mouse(RELEASE, start)
    assert failing.session.project == before
    assert failing.session.undo_stack.count() == 0


def test_the_tag_at_the_pointer_tells_what_the_drag_changes(failing):
    cooler_px = take_hold_of_the_cooler(failing)
    failing.look()
    still = failing.window.front.grab().toImage()
    drag_down(failing, cooler_px, 100.0)
    marks = failing.window.front.marks
    assert marks.moved_text.startswith("down ")
    assert failing.window.front.grab().toImage() != still


# --- the file and the terminal --------------------------------------------------------------------------------------


@pytest.fixture
def mended(failing):
    """Give the failing demo after the drag that mends it, saved under a name."""
    start = take_hold_of_the_cooler(failing)
    failing.mouse(RELEASE, drag_until_it_no_longer_fails(failing, start))
    failing.key(Qt.Key.Key_S, CTRL)
    return failing


def test_saving_the_demo_asks_for_a_name_and_leaves_the_demo_alone(mended):
    demo = mended.window.demos[2]
    assert len(mended.person.asked) == 1
    assert mended.person.asked[0].startswith("save ")
    path = mended.person.save_path
    assert read_project(path) == mended.session.project != read_project(demo)
    assert mended.window.windowTitle() == f"{path.name}[*]"
    assert not mended.window.isWindowModified()
    assert mended.window.status.saved.text() == "saved 0 s ago"


def test_a_second_window_shows_the_same_words_and_warns_of_the_first(mended, open_bench):
    second = open_bench()
    second.window.desk.open_file(mended.person.save_path)
    mended.session.select([])
    assert second.session.project == mended.session.project
    assert second.session.assessment == mended.session.assessment
    assert sorted(second.words()) == sorted(mended.words())
    assert second.findings() == mended.findings()
    assert any("open in another window" in sentence for sentence in second.window.strip.sentences())


def test_undo_goes_back_to_the_failing_pack_and_redo_to_the_mended(mended):
    saved, good = mended.session.project, mended.words()
    mended.key(Qt.Key.Key_Z, CTRL)
    assert mended.verdict_word() == "Fail"
    assert mended.session.project == read_project(mended.window.demos[2])
    assert mended.window.isWindowModified()
    mended.key(Qt.Key.Key_Z, CTRL | SHIFT)
    assert mended.session.project == saved
    assert mended.words() == good
    assert not mended.window.isWindowModified()


def attributes_are(json_object, thing, also=()):
    """Check every key of a JSON object against the attribute of that name, to the last digit; `also` is checked elsewhere."""
    for key in set(json_object) - set(also):
        told, ours = json_object[key], getattr(thing, key)
        if isinstance(ours, Verdict):
            ours = ours.value
        if isinstance(ours, tuple):
            ours = list(ours)
        if isinstance(ours, float) and not math.isfinite(ours):
            ours = None
        assert told == ours, key


@pytest.mark.parametrize("units", UnitSystem)
def test_the_terminal_says_the_same_numbers_to_the_last_digit(mended, units):
    mended.session.set_units(units)
    told, code = in_the_terminal(mended.person.save_path)
    ours = mended.session.assessment
    assert code == 0
    assert set(told) >= {"verdict", "radiator", "cases", "deciding_case", "findings", "basis"}
    attributes_are(told, ours, also=("radiator", "cases", "deciding_case", "findings", "basis"))
    assert told["deciding_case"] == ours.deciding_case.name
    attributes_are(told["radiator"], ours.radiator)
    assert len(told["cases"]) == len(ours.cases) == 4
    for said, case in zip(told["cases"], ours.cases, strict=True):
        attributes_are(said, case)
        assert sum(isinstance(figure, float) for figure in said.values()) > 10
    for said, basis in zip(told["basis"], ours.basis, strict=True):
        attributes_are(said, basis)
    if units is UnitSystem.METRIC:
        assert [finding["text"] for finding in told["findings"]] == mended.findings() + mended.cautions()


def test_the_terminal_fails_the_demo_as_it_is_and_ends_with_1(failing):
    told, code = in_the_terminal(failing.window.demos[2])
    assert code == 1
    assert told["verdict"] == failing.verdict_word().casefold() == "fail"
    assert told["radiator"]["exposed_mm2"] == failing.session.assessment.radiator.exposed_mm2


def shown_figure(bench, name, pattern):
    """Return the number after some words on the verdict."""
    (words,) = [text for text in bench.words() if text.startswith(f"{name}: ")]
    return float(re.search(pattern, words)[1].replace("−", "-"))


def test_inches_show_the_same_pack(failing):
    case, face = failing.session.assessment.deciding_case, failing.session.assessment.radiator
    metric = failing.session.assessment
    assert shown_figure(failing, "Hottest day", r"Hottest day ([−\d.]+) °C") == round(case.limiting_ambient_degc)
    inch = next(b for b in failing.window.status.findChildren(QToolButton) if b.accessibleName() == "Show inches")
    QTest.mouseClick(inch, LEFT, pos=middle_of(inch))
    assert failing.session.units is UnitSystem.INCH
    assert failing.session.assessment is metric
    assert failing.verdict_word() == "Fail"
    # 1 in = 25.4 mm and °F = 1.8 °C + 32, both exact.
    assert shown_figure(failing, "Hottest day", r"Hottest day ([−\d.]+) °F") == round(
        case.limiting_ambient_degc * 1.8 + 32
    )
    assert shown_figure(failing, "Radiator face", r"exposed ([\d.]+) in²") == round(face.exposed_mm2 / 25.4**2)
    assert shown_figure(failing, "Radiator face", r"effective ([\d.]+) in²") == round(face.effective_mm2 / 25.4**2)
    failing.look()


# --- other things one does in the first hour ------------------------------------------------------------------------


@pytest.mark.parametrize("text", ["forty", "12 kW", "640 640", "nan", "", "-", "1e999"])
def test_what_cannot_be_a_length_stays_in_its_field_with_a_sentence_and_changes_nothing(failing, text):
    failing.session.select([failing.charge_air_cooler().id])
    before, figures = failing.session.project, failing.words()
    field = failing.field("Up")
    failing.type_in(field.line, text)
    assert failing.session.project is before
    assert failing.words() == figures
    assert failing.session.undo_stack.count() == 0
    assert field.line.text() == text
    assert field.complaint.isVisible()
    assert field.complaint.text().endswith(".")
    assert len(field.complaint.text()) > 15
    QTest.keyClick(field.line, Qt.Key.Key_Escape)
    assert field.line.text() == "700"
    assert not field.complaint.isVisible()


@pytest.mark.parametrize(
    ("text", "z_mm"), [("600", 600.0), ("23 5/8 in", 600.075), ("60 cm", 600.0), ("1' 11 5/8\"", 600.075)]
)
def test_what_is_on_the_tape_moves_the_part(failing, text, z_mm):
    failing.session.select([failing.charge_air_cooler().id])
    failing.type_in(failing.field("Up").line, text)
    assert failing.charge_air_cooler().placement.z_mm == pytest.approx(z_mm)
    assert failing.session.undo_stack.count() == 1


def test_a_part_dragged_off_the_shelf_shows_its_verdict_in_the_air_and_lands_in_one_step(failing):
    before, parts = failing.session.project, len(failing.session.project.parts)
    mime = failing.shelf_mime("Oil cooler 280")
    at = failing.middle_px(failing.charge_air_cooler().id)
    assert failing.carry("enter", mime, at)
    assert failing.carry("move", mime, at + QPointF(20, -60))
    assert len(failing.session.shown.parts) == parts + 1
    assert failing.session.in_trial
    failing.look()
    assert failing.carry("drop", mime, at + QPointF(20, -60))
    assert len(failing.session.project.parts) == parts + 1
    assert failing.session.undo_stack.count() == 1
    (new_id,) = {part.id for part in failing.session.project.parts} - {part.id for part in before.parts}
    assert failing.session.selection == (new_id,)
    assert new_id in failing.window.pack.order()
    assert failing.window.pack.count() == parts + 1
    # The pointer is over the part's middle; a snap line may have caught one of its edges 8 pixels away.
    placed, (y_mm, z_mm) = (
        failing.session.project.part(new_id).placement,
        failing.window.front.sheet_at(at + QPointF(20, -60)),
    )
    near_mm = 8 / failing.window.front.heights.px_per_mm + 0.5
    assert abs(placed.y_mm - y_mm) <= near_mm
    assert abs(placed.z_mm - z_mm) <= near_mm
    failing.key(Qt.Key.Key_Z, CTRL)
    assert failing.session.project is before


def test_a_part_carried_over_the_nose_and_away_again_leaves_no_trace(failing):
    before, figures = failing.session.project, failing.words()
    mime = failing.shelf_mime("radiator")
    at = failing.middle_px(failing.charge_air_cooler().id)
    failing.carry("enter", mime, at)
    failing.carry("move", mime, at + QPointF(5, 5))
    failing.carry("leave", mime, at)
    assert failing.session.shown is before
    assert failing.words() == figures
    assert failing.session.undo_stack.count() == 0


def test_what_is_no_part_is_not_taken_by_the_nose(failing):
    mime = QMimeData()
    mime.setText("a letter")
    assert not failing.carry("enter", mime, failing.middle_px(failing.charge_air_cooler().id))
    assert not failing.session.in_trial


def test_alt_and_arrows_move_a_part_through_the_pack_and_undo_brings_it_back(failing):
    order = [part.id for part in stack(failing.session.project)]
    failing.window.pack.setCurrentRow(1)
    moved = order[1]
    assert failing.session.selection == (moved,)
    failing.key(Qt.Key.Key_Up, ALT, on=failing.window.pack)
    assert [part.id for part in stack(failing.session.project)] == [moved, order[0], *order[2:]]
    assert failing.window.pack.order() == [moved, order[0], *order[2:]]
    assert failing.session.undo_stack.count() == 1
    assert failing.session.selection == (moved,)
    failing.key(Qt.Key.Key_Z, CTRL)
    assert [part.id for part in stack(failing.session.project)] == order


def test_a_radiator_moved_in_front_of_the_cooler_gets_all_its_fresh_air(failing):
    behind_before = failing.session.assessment.radiator.behind_mm2
    assert behind_before > 0
    failing.session.select([cores(failing.session.project, CoreRole.RADIATOR)[0].id])
    failing.key(Qt.Key.Key_Up, ALT)
    assert failing.session.assessment.radiator.behind_mm2 == 0


def test_delete_takes_the_selected_part_away_and_undo_brings_it_back_where_it_was(failing):
    before = failing.session.project
    at = failing.middle_px(failing.charge_air_cooler().id)
    failing.mouse(PRESS, at)
    failing.mouse(RELEASE, at)
    assert failing.session.selection == (failing.charge_air_cooler().id,)
    failing.key(Qt.Key.Key_Delete)
    assert not cores(failing.session.project, CoreRole.CHARGE_AIR_COOLER)
    assert len(failing.session.project.parts) == len(before.parts) - 1
    assert failing.session.selection == ()
    failing.look()
    failing.key(Qt.Key.Key_Z, CTRL)
    assert failing.session.project is before
    assert failing.verdict_word() == "Fail"


def test_a_new_project_asks_for_the_opening_and_the_depth_only(bench):
    bench.key(Qt.Key.Key_N, CTRL)
    fields = list(bench.window.card.draft.fields.values())
    assert [f.line.accessibleName() for f in fields] == ["Opening width", "Opening height", "Grille to fan or pulley"]
    for field, text in zip(fields, ("26 3/16", "400", "18 in"), strict=True):
        bench.type_in(field.line, text)
    nose = bench.session.project.nose
    ys, zs = ({getattr(p, axis) for p in nose.openings[0].outline} for axis in ("y_mm", "z_mm"))
    assert max(ys) - min(ys) == pytest.approx(26.1875)  # a bare number is in the unit beside the field, mm here
    assert max(zs) - min(zs) == 400.0
    assert nose.stations.pulley_x_mm == pytest.approx(457.2)
    assert bench.verdict_word() == "Not known"
    assert bench.window.isWindowModified()
    bench.look()


def test_a_new_project_with_a_bad_number_begins_nothing_until_it_is_mended(bench):
    before = bench.session.project
    bench.key(Qt.Key.Key_N, CTRL)
    width, height, depth = bench.window.card.draft.fields.values()
    bench.type_in(width.line, "wide")
    bench.type_in(height.line, "400")
    bench.type_in(depth.line, "450")
    assert bench.session.project is before
    assert width.complaint.isVisible()
    bench.type_in(width.line, "700")
    bench.type_in(depth.line, "450")
    assert bench.session.project.nose.openings


def test_every_demo_opens_from_its_menu_and_shows_the_verdict_of_its_name(bench):
    for number, word in enumerate(("Pass", "Close", "Fail")):
        menu = menu_named(bench.window, "Demos")
        menu.aboutToShow.emit()
        menu.actions()[number].trigger()
        assert bench.verdict_word() == word
        assert bench.session.assessment == assess(bench.session.project)
        assert bench.session.path is None
        bench.look()
    assert bench.person.asked == []


def test_the_parts_of_the_pack_are_walked_with_tab_and_each_shows_its_card(failing):
    failing.window.front.setFocus()
    seen = []
    for _ in failing.session.project.parts:
        QTest.keyClick(failing.window.front, Qt.Key.Key_Tab)
        (chosen,) = failing.session.selection
        seen.append(chosen)
    assert seen == [part.id for part in stack(failing.session.project)]
    assert isinstance(failing.session.project.part(seen[-1]), Fan)
    assert isinstance(failing.session.project.part(seen[0]), Core)
    assert len(fans(failing.session.project)) == 2


@pytest.mark.parametrize("where", ["on the card", "in the form of a new nose"])
def test_a_complaint_is_shown_in_full_however_many_lines_it_takes(failing, qapp, where):
    if where == "on the card":
        failing.session.select([failing.charge_air_cooler().id])
        field = failing.field("Up")
    else:
        failing.key(Qt.Key.Key_N, CTRL)
        field = failing.window.card.draft.fields["width_mm"]
    failing.type_in(field.line, "forty", end=None)
    field.take()
    qapp.processEvents()
    complaint = field.complaint
    assert complaint.height() >= complaint.heightForWidth(complaint.width())
    assert field.rect().contains(complaint.geometry())
