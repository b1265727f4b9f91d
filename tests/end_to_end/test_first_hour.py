"""The first hour of somebody who never saw it: the failing demo, one drag, a file, and the same numbers in the terminal."""

from __future__ import annotations

import json
import math
import re
import subprocess
import sys

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QToolButton

from grillestack.assess.result import Verdict
from grillestack.storage.project_file import read_project
from grillestack.units.display import UnitSystem
from tests.end_to_end.bench import CTRL, LEFT, MOVE, PRESS, RELEASE, SHIFT, middle_of

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
