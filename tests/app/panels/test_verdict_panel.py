"""The verdict column: what it says for each verdict, and that it follows a drag in place."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QLabel, QWidget

from grillestack.advice.findings import findings
from grillestack.app import palette as palettes
from grillestack.app.panels.verdict_marks import Mark
from grillestack.app.panels.verdict_panel import VerdictPanel
from grillestack.app.session import Session
from grillestack.model.edits import move_parts
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example

PACKS = {
    "Pass": example.passing,
    "Close": example.close,
    "Fail": example.failing,
    "Not known": example.unknown,
}


@pytest.fixture
def opened(qtbot):
    """Return a function that opens the panel on a session whose projects are all judged as given."""

    def open_on(judge, palette=None):
        session = Session(lambda project, _previous: judge(project), UnitSystem.METRIC, example.project())
        panel = VerdictPanel(session, palette or palettes.light(), findings)
        qtbot.addWidget(panel)
        panel.resize(320, 700)
        panel.grab()
        panel.session = session
        return panel

    return open_on


def always(assessment):
    return lambda project: assessment and replace(assessment, project=project)


def words_of(panel):
    return [label.text() for label in panel.findChildren(QLabel) if label.text()]


@pytest.mark.parametrize("word", PACKS)
@pytest.mark.parametrize("theme", [palettes.light, palettes.dark, palettes.high_contrast])
def test_verdict_is_a_word_and_a_shape(word, theme, opened):
    panel = opened(always(PACKS[word]()), theme())
    assert word in words_of(panel)
    assert (
        panel._sign.mark is {"Pass": Mark.PASS, "Close": Mark.CLOSE, "Fail": Mark.FAIL, "Not known": Mark.UNKNOWN}[word]
    )


def test_figures_are_those_of_the_assessment_in_the_units_of_the_session(opened):
    panel = opened(always(example.close()))
    assert panel.hottest_day.accessibleDescription() == "Hottest day 39 °C; design day 38 °C; 1.4 K to spare."
    assert "effective 2230 cm²; required 2186 cm²; exposed 1210 cm²" in panel.face_bar.accessibleDescription()
    assert panel.duty_rows.rows[0].accessibleName() == "Grade pull: close, top tank 106 of 107 °C"
    panel.session.set_units(UnitSystem.INCH)
    # 39.4 °C are 102.92 °F, 38 °C are 100.4 °F; 2230 cm² are 345.65 in²
    assert panel.hottest_day.accessibleDescription() == "Hottest day 103 °F; design day 100 °F; 2.5 °F to spare."
    assert "effective 346 in²" in panel.face_bar.accessibleDescription()


def test_a_pack_short_of_the_design_day_says_by_how_much(opened):
    panel = opened(always(example.failing()))
    assert "4.9 K short" in panel.hottest_day.accessibleDescription()
    assert "The heat does not go away on the design day." in words_of(panel)


def test_a_pack_that_fails_by_charge_air_alone_does_not_blame_the_coolant(opened):
    hot = example.case(1, example.Verdict.FAIL, charge_out_degc=90.0)
    pack = replace(example.passing(), verdict=example.Verdict.FAIL, deciding_case=hot, cases=(hot,))
    panel = opened(always(pack))
    assert any(text.startswith("Something other than the coolant is over its limit") for text in words_of(panel))


def test_a_pack_for_which_no_day_is_cold_enough_says_so_and_blames_nothing_else(opened):
    hopeless = example.case(1, example.Verdict.FAIL, limiting_ambient_degc=None)
    pack = replace(example.passing(), verdict=example.Verdict.FAIL, deciding_case=hopeless, cases=(hopeless,))
    panel = opened(always(pack))
    assert "The heat does not go away on any day." in words_of(panel)
    assert panel.hottest_day.accessibleDescription() == "Hottest day no day; design day 38 °C; no day is cold enough."


def test_cautions_are_no_findings_but_never_out_of_sight(opened):
    panel = opened(always(example.passing()))
    assert not any("scalds" in row.text() for row in panel.findings_list.rows)
    assert any("scalding coolant" in text for text in words_of(panel))
    said = findings(example.passing().project, example.passing())
    listed = [row.finding for row in (*panel.findings_list.rows, *panel.cautions.list.rows)]
    assert sorted(f.text for f in listed) == sorted(f.text for f in said)


def test_what_is_not_known_says_why(opened):
    panel = opened(always(example.unknown()))
    assert any(text.startswith("The engine sheet gives neither") for text in words_of(panel))
    assert panel.hottest_day.accessibleDescription() == "Hottest day not known; design day 38 °C; margin not known."
    assert "effective not known; required not known" in panel.face_bar.accessibleDescription()


def test_a_session_without_assessment_shows_not_known_and_no_rows(opened):
    panel = opened(always(None))
    assert "Not known" in words_of(panel)
    assert panel.duty_rows.rows == ()
    assert panel.findings_list.rows == ()
    assert panel.face_bar.accessibleDescription().startswith("no radiator")


def test_show_me_selects_what_the_finding_speaks_of(opened, qtbot):
    panel = opened(always(example.failing()))
    row = next(row for row in panel.findings_list.rows if "pulley" in row.text())
    qtbot.mouseClick(row, Qt.MouseButton.LeftButton)
    assert panel.session.selection == ("fan-1",)


def test_a_drag_changes_figures_in_place_and_makes_no_widgets(opened):
    def judged(project):
        moved_mm = project.part("radiator-1").placement.y_mm
        pack = example.with_case(
            example.failing(), limiting_ambient_degc=33.0 + moved_mm / 100, bypassed_frac=0.2 + moved_mm / 1e4
        )
        pack = replace(pack, deciding_case=pack.cases[0])
        return replace(pack, project=project)

    panel = opened(judged)
    panel.duty_rows.rows[0].click()
    widgets = set(panel.findChildren(QWidget))
    rows = panel.findings_list.rows
    for step in range(1, 31):
        panel.session.try_project(move_parts(panel.session.project, ["radiator-1"], dy_mm=4.0 * step))
        panel.grab()
    assert set(panel.findChildren(QWidget)) == widgets
    assert panel.findings_list.rows == rows
    # 33 °C and 1 K for each 100 mm of 120
    assert "Hottest day 34 °C; design day 38 °C; 3.8 K short." in panel.hottest_day.accessibleDescription()
    assert "Hottest day 34 °C" in panel.duty_rows.open_figures[0].accessibleDescription()
    assert any("3.8 K below" in row.text() for row in rows)
    panel.session.end_trial()
    assert "5.0 K short" in panel.hottest_day.accessibleDescription()


@pytest.mark.parametrize("width", [296, 320, 340])
def test_nothing_above_the_findings_moves_when_the_verdict_changes(width, opened):
    state = {"pack": example.passing()}
    panel = opened(lambda project: replace(state["pack"], project=project))
    panel.resize(width, 700)
    panel.grab()

    def places():
        return [w.geometry() for w in (panel._word, panel._because, panel.hottest_day, panel.face_bar, panel._scroll)][
            1:
        ]

    before = places()
    for pack in (example.close(), example.failing(), example.unknown()):
        state["pack"] = pack
        panel.session.apply("again", replace_title(panel.session.project))
        panel.grab()
        assert places() == before


def replace_title(project):
    from grillestack.model.edits import set_title

    return set_title(project, project.title + "'")


@pytest.mark.parametrize("width", [296, 320, 340])
@pytest.mark.parametrize("text_size", [1.0, 1.35])
def test_no_part_of_the_column_is_wider_than_the_column(width, text_size, opened, qapp):
    usual = qapp.font()
    larger = QFont(usual)
    larger.setPointSizeF(usual.pointSizeF() * text_size)
    qapp.setFont(larger)
    try:
        panel = opened(always(example.failing()))
        panel.resize(width, 700)
        panel.grab()
        for part in panel.findChildren(QWidget):
            if part.isVisibleTo(panel):
                assert part.mapTo(panel, part.rect().topRight()).x() < width, part
    finally:
        qapp.setFont(usual)


def test_colours_can_be_changed_while_open(opened):
    panel = opened(always(example.failing()))
    bright = panel.grab().toImage().pixelColor(2, 2)
    panel.show_palette(palettes.dark())
    dim = panel.grab().toImage().pixelColor(2, 2)
    assert (bright, dim) == (palettes.light().panel, palettes.dark().panel)


def test_the_column_ends_with_the_call_for_a_test(opened):
    assert "Estimate for choosing and building, not a proof: verify by test." in words_of(
        opened(always(example.passing()))
    )


def test_every_painted_part_has_a_name_for_a_screen_reader(opened):
    panel = opened(always(example.failing()))
    painted = (panel, panel.face_bar, panel.hottest_day, panel.duty_rows, panel.findings_list)
    for part in (*painted, *panel.duty_rows.rows, *panel.findings_list.rows):
        assert part.accessibleName(), part


def test_cautions_come_into_sight_when_they_are_asked_for(opened):
    panel = opened(always(example.failing()))
    panel.resize(320, 620)
    panel.show()
    assert panel.cautions.fold.visibleRegion().boundingRect().height() > 10
    panel.cautions.fold.click()
    panel.grab()
    assert not panel.cautions.list.rows[0].visibleRegion().isEmpty()


def test_a_low_column_lets_the_face_bar_scroll_and_cuts_nothing(opened, qapp):
    panel = opened(always(example.failing()))
    panel.show()
    for height, scrolls in ((700, False), (430, True), (700, False)):
        panel.resize(320, height)
        qapp.processEvents()
        assert panel._scroll.isAncestorOf(panel.face_bar) is scrolls
        assert panel.face_bar.height() >= panel.face_bar.minimumSizeHint().height()


def test_tab_goes_down_the_column(opened):
    panel = opened(always(example.failing()))
    panel.show()
    chain, at = [], panel._scroll
    for _ in range(200):
        at = at.nextInFocusChain()
        if at.focusPolicy() is not Qt.FocusPolicy.NoFocus and panel.isAncestorOf(at):
            chain.append(at)
    order = [*panel.duty_rows.rows, *(row for row in panel.findings_list.rows if row.finding.parts)]
    places = [chain.index(widget) for widget in (*order, panel.basis_list.fold, panel.cautions.fold)]
    assert places == sorted(places)
