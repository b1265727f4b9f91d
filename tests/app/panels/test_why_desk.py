"""Every figure of the column can be asked why, by mouse and by key, and the answer stands at it and stays true."""

from __future__ import annotations

import pytest
from msgspec.structs import replace as changed
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from grillestack.advice.findings import findings
from grillestack.app import palette as palettes
from grillestack.app.panels.verdict_panel import VerdictPanel
from grillestack.app.panels.why_spot import WhySpot
from grillestack.app.scientific_core import ScientificCore
from grillestack.app.session import Session
from grillestack.app.workers.further import Further
from grillestack.app.workers.in_place import InPlace
from grillestack.assess.figure import FigureName, Subject
from grillestack.assets.locate import demo_projects
from grillestack.storage.project_file import read_project
from grillestack.units.display import UnitSystem


@pytest.fixture(scope="module")
def core():
    made = ScientificCore()
    made.load()
    made.load_answers()
    return made


@pytest.fixture
def panel(qtbot, core):
    session = Session(core.assess, UnitSystem.METRIC, read_project(demo_projects()[1]))
    made = VerdictPanel(session, palettes.light(), findings)
    qtbot.addWidget(made)
    made.resize(320, 760)
    made.show()
    QApplication.processEvents()
    made.session = session
    return made


@pytest.fixture(scope="module")
def answers(core):
    """Give every further answer for the demo, worked out once."""
    kept = {}

    def answer(ask):
        if ask.question not in kept:
            kept[ask.question] = core.answer(ask)
        return kept[ask.question]

    return answer


@pytest.fixture
def whole_panel(qtbot, core, answers):
    session = Session(core.assess, UnitSystem.METRIC, read_project(demo_projects()[1]))
    further = Further(session)
    made = VerdictPanel(session, palettes.light(), findings, further)
    qtbot.addWidget(made)
    further.start(lambda: InPlace(answers), core.unpack)
    further.ask()
    made.resize(320, 2400)
    made.show()
    for section in made.further_sections.sections.values():
        section.open()
    for row in made.duty_rows.rows:
        row.setChecked(True)
    QApplication.processEvents()
    made.session = session
    yield made
    further.close()


def spots(panel):
    return [spot for spot in panel.findChildren(WhySpot) if spot.isVisible()]


def test_every_figure_name_has_a_spot_or_link_in_the_column(whole_panel):
    asked = {spot.subject.figure for spot in spots(whole_panel)}
    assert asked | {FigureName.OVER_TIME} == set(FigureName)
    assert whole_panel.further_sections.over_time.why_link.isVisible()


def test_every_figure_on_screen_has_an_answer_with_method_and_spread(whole_panel):
    for spot in spots(whole_panel):
        spot.click()
        found = whole_panel.why_desk.panel.why
        assert found is not None, spot.accessibleName()
        assert found.method, spot.accessibleName()
        assert found.spread, spot.accessibleName()
        assert found.sources or found.source_words or found.inputs, spot.accessibleName()
    whole_panel.further_sections.over_time.why_link.click()
    assert "lump" in whole_panel.why_desk.panel.words()


def test_the_value_in_the_answer_is_the_one_on_screen(whole_panel):
    for spot in spots(whole_panel):
        if spot.subject.figure in (FigureName.BAND, FigureName.CHANCE, FigureName.DRIVER, FigureName.STEP):
            continue
        spot.click()
        shown = whole_panel.why_desk.panel.title.text().replace("\u00a0", " ").rpartition(": ")[2]
        figure = shown.split(" ")[0].removeprefix("-")
        assert figure in spot.accessibleName(), (shown, spot.accessibleName())


def test_a_click_on_the_hottest_day_opens_the_answer_in_place(panel):
    spot = panel.hottest_day.spots[FigureName.HOTTEST_DAY]
    QTest.mouseClick(spot, Qt.MouseButton.LeftButton)
    sheet = panel.why_desk.panel
    assert sheet.isVisible()
    assert sheet.why.title == "Hottest day, Grade pull"
    assert QApplication.activeModalWidget() is None
    assert sheet.parent() is panel
    # It stands right under the figure, inside the column.
    assert sheet.geometry().top() == spot.mapTo(panel, QPoint(0, 0)).y() + spot.height()
    assert panel.rect().contains(sheet.geometry())


def test_enter_asks_and_esc_gives_the_focus_back(panel):
    spot = panel.face_bar.spots[FigureName.EXPOSED_FACE]
    panel.activateWindow()
    spot.setFocus()
    QTest.keyClick(spot, Qt.Key.Key_Return)
    sheet = panel.why_desk.panel
    assert sheet.isVisible()
    assert sheet.isAncestorOf(QApplication.focusWidget())
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Escape)
    assert sheet.isHidden()
    assert QApplication.focusWidget() is spot


def test_asked_twice_it_is_put_away_and_close_does_so_too(panel):
    spot = panel.hottest_day.spots[FigureName.DESIGN_DAY]
    spot.click()
    spot.click()
    assert panel.why_desk.panel.isHidden()
    spot.click()
    QTest.mouseClick(panel.why_desk.panel.close_link, Qt.MouseButton.LeftButton)
    assert panel.why_desk.panel.isHidden()


def test_the_top_tank_of_a_row_is_asked_about_without_opening_the_row(panel):
    row = panel.duty_rows.rows[1]
    QTest.mouseClick(row.spot, Qt.MouseButton.LeftButton)
    assert not row.isChecked()
    assert panel.why_desk.panel.why.title == f"Top tank, {row.text()}"


def test_the_answer_follows_a_change_of_the_pack_and_of_the_units(panel):
    panel.hottest_day.spots[FigureName.HOTTEST_DAY].click()
    session = panel.session
    engine = changed(session.project.engine, heat_to_coolant_w=30_000.0)
    session.apply("heat", changed(session.project, engine=engine))
    assert "30.0 kW (engine sheet)" in panel.why_desk.panel.words()
    session.set_units(UnitSystem.INCH)
    assert "°F" in panel.why_desk.panel.title.text()


def test_a_figure_that_is_gone_says_so(panel):
    panel.why_desk.ask(panel.hottest_day, Subject(FigureName.HOTTEST_DAY, "gone"), UnitSystem.METRIC)
    assert panel.why_desk.panel.why.title == "Not there any more"


def test_near_the_foot_of_the_column_it_stands_over_the_figure(panel):
    panel.resize(320, 600)
    asker = panel._no_proof
    panel.why_desk.ask(asker, Subject(FigureName.HOTTEST_DAY), UnitSystem.METRIC)
    sheet = panel.why_desk.panel
    assert sheet.geometry().bottom() <= asker.mapTo(panel, QPoint(0, 0)).y()
    assert panel.rect().contains(sheet.geometry())


def test_what_is_not_assessed_has_nothing_to_ask(panel):
    panel.show_assessment(None)
    assert all(spot.isHidden() for spot in panel.hottest_day.spots.values())
    assert all(spot.isHidden() for spot in panel.face_bar.spots.values())


def test_a_figure_of_before_the_change_is_not_asked_about(whole_panel):
    chart = whole_panel.further_sections.degrees.chart
    assert any(not spot.isHidden() for spot in chart.spots)
    chart.show_degrees(chart._found, chart._design_degc, UnitSystem.METRIC, is_old=True)
    assert all(spot.isHidden() for spot in chart.spots)


def press(widget, x, y):
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=QPoint(int(x), int(y)))


def test_a_press_on_a_bar_asks_about_what_it_shows(whole_panel):
    sheet = whole_panel.why_desk.panel
    chart = whole_panel.further_sections.degrees.chart
    step = chart._found.steps[1]
    press(chart, chart.width() / 2, 2 * chart._row_px() + chart.fontMetrics().height() + 3)
    assert sheet.why.title.startswith(step.name)
    bar = whole_panel.face_bar
    press(bar, 20, bar._line_px() + 16)
    assert sheet.why.title.startswith("Effective face")
    press(bar, 20, bar._key_top() + 2.5 * bar._line_px())
    assert sheet.why.title == "Exposed face"
    day = whole_panel.hottest_day
    press(day, 20, day._line_px() + day._figure_px() + 8)
    assert sheet.why.title.startswith("Margin")
    figures = whole_panel.duty_rows.open_figures[0]
    press(figures, 30, 2 + 3.5 * figures._line_px())
    assert sheet.why.title.startswith("Heat it can shed")


def test_tab_reaches_every_figure_of_the_column(panel):
    panel.duty_rows.rows[0].setChecked(True)
    panel.activateWindow()
    seen, widget = set(), panel.hottest_day.spots[FigureName.HOTTEST_DAY]
    first = widget
    while True:
        seen.add(widget)
        widget = widget.nextInFocusChain()
        if widget is first:
            break
    assert set(spots(panel)) <= seen


def test_marks_of_defaults_are_words_and_a_shape(panel):
    panel.hottest_day.spots[FigureName.HOTTEST_DAY].click()
    labels = [label.text() for label in panel.why_desk.panel.findChildren(QLabel)]
    assert any(text.startswith("◇ default: ") for text in labels)
    for theme in (palettes.dark(), palettes.high_contrast()):
        panel.show_palette(theme)
        panel.grab()
        assert panel.why_desk.panel.why.title == "Hottest day, Grade pull"
