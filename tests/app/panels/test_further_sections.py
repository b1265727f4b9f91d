"""The further answers in the verdict column: current or working, never stale, and a change done in one step keeps its promise."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from grillestack.advice.findings import findings
from grillestack.app import palette as palettes
from grillestack.app.panels.findings_list import FindingRow
from grillestack.app.panels.verdict_panel import VerdictPanel
from grillestack.app.session import Session
from grillestack.app.workers.answers import answer, unpacked
from grillestack.app.workers.course import Course
from grillestack.app.workers.further import Further
from grillestack.app.workers.in_place import InPlace
from grillestack.app.workers.messages import Question
from grillestack.assess.assess import assess
from grillestack.model.edits import move_parts, set_engine, set_photo
from grillestack.model.photo import Mark, Photo, PhotoImage, TwoPoints
from grillestack.units.display import UnitSystem
from tests.app.workers.made import TalkingWorker, band, demo


class Column:
    """The verdict column over a demo, with a worker of the test's own."""

    def __init__(self, qtbot, project, make):
        self.session = Session(assess, UnitSystem.METRIC, project)
        self.further = Further(self.session)
        self.panel = VerdictPanel(self.session, palettes.light(), findings, self.further)
        qtbot.addWidget(self.panel)
        self.panel.resize(324, 800)
        self.panel.show()
        self.further.start(make, unpacked)
        self.further.ask()

    @property
    def parts(self):
        return self.panel.further_sections

    def gist(self, question):
        return self.parts.sections[question].heading.gist

    def gists(self):
        return {self.gist(question) for question in Question}


@pytest.fixture
def column(qtbot):
    """Return a function that opens the column on a demo, answered on the spot unless told otherwise."""
    opened = []

    def open_on(number, make=lambda: InPlace(answer)):
        opened.append(Column(qtbot, demo(number), make))
        return opened[-1]

    yield open_on
    for each in opened:
        each.further.close()


@pytest.mark.parametrize("number", [1, 2, 3])
def test_do_it_is_one_undo_step_and_the_new_margin_is_what_the_ladder_promised(number, column, qtbot):
    opened = column(number)
    session, before = opened.session, opened.session.project
    case = session.base_assessment.deciding_case
    row = opened.parts.changes.rows[0]
    rung = row.rung
    opened.parts.sections[Question.CHANGES].open()
    qtbot.mouseClick(row.do_it, Qt.MouseButton.LeftButton)
    assert session.undo_stack.count() == 1
    assert session.undo_stack.undoText() == f"{rung.title[0].lower()}{rung.title[1:]}"
    after = next(one for one in session.base_assessment.cases if one.case_id == case.case_id)
    assert after.limiting_ambient_degc == rung.hottest_after_degc
    assert after.margin_k == pytest.approx(case.margin_k + rung.buys_k, abs=1e-9)
    assert session.base_assessment.verdict is rung.verdict_after
    session.undo_stack.undo()
    assert session.project == before
    assert session.base_assessment.deciding_case.limiting_ambient_degc == case.limiting_ambient_degc


def test_the_photo_under_the_nose_stays_at_home_and_is_kept_by_a_change(column, qtbot):
    worker = TalkingWorker()
    opened = column(3, lambda: worker)
    photo = Photo(
        image=PhotoImage(data_base64="/9j/" + "A" * 12, width_px=100, height_px=50),
        tied=TwoPoints(first=Mark(10.0, 20.0), second=Mark(90.0, 20.0), distance_mm=800.0),
    )
    opened.session.apply("photo", set_photo(opened.session.project, photo))
    opened.further.ask()
    asked = worker.last(Question.CHANGES)
    assert asked.project == set_photo(opened.session.project, None)
    worker.answer(asked, answer(asked))
    opened.parts.sections[Question.CHANGES].open()
    qtbot.mouseClick(opened.parts.changes.rows[0].do_it, Qt.MouseButton.LeftButton)
    assert opened.session.undo_stack.count() == 2
    assert opened.session.project.nose.photo == photo


def test_the_last_step_of_the_degrees_and_the_verdict_show_the_same_day(column):
    opened = column(3)
    # Cold and by steps the same pack is solved from other starts: they agree within the solver's tolerance of 0.01 K.
    end_degc = opened.parts.degrees.chart._found.end_degc
    assert end_degc == pytest.approx(opened.session.base_assessment.deciding_case.limiting_ambient_degc, abs=0.01)


def test_band_and_chance_stand_beside_the_hottest_day(column):
    worker = TalkingWorker()
    opened = column(1, lambda: worker)
    day = opened.panel.hottest_day
    assert "(working)" in day.accessibleDescription()
    worker.answer(worker.last(Question.SURENESS), band())
    found = opened.session.base_assessment.deciding_case.limiting_ambient_degc
    assert f"Hottest day {found:.0f} °C (36–45); design day 38 °C" in day.accessibleDescription()
    assert "Chance of meeting the design day: 64 %." in day.accessibleDescription()
    opened.session.set_units(UnitSystem.INCH)
    assert "°F (97–113)" in day.accessibleDescription()
    assert opened.gist(Question.SURENESS) == "97–113 °F"
    opened.panel.grab()


def test_during_a_drag_every_section_is_working_and_nothing_can_be_done(column, qtbot):
    opened = column(2)
    session, parts = opened.session, opened.parts
    for section in parts.sections.values():
        section.open()
    at_rest = {question: opened.gist(question) for question in Question}
    assert "working" not in opened.gists()

    def widgets():
        """All but the findings, of which a move may bring more."""
        return {one for one in opened.panel.findChildren(QWidget) if not isinstance(one, FindingRow)}

    made = widgets()
    for step in range(1, 6):
        session.try_project(move_parts(session.project, ["radiator-3"], dy_mm=4.0 * step))
        opened.panel.grab()
        assert opened.gists() == {"working"}
        assert "(working)" in opened.panel.hottest_day.accessibleDescription()
        assert not any(row.do_it.isEnabled() for row in parts.changes.rows)
    assert widgets() == made
    parts.changes.do_requested.emit(parts.changes.rows[0].rung)
    assert session.undo_stack.count() == 0
    session.end_trial()
    assert {question: opened.gist(question) for question in Question} == at_rest
    assert all(row.do_it.isEnabled() for row in parts.changes.rows)


def test_a_change_of_the_document_leaves_no_figure_in_the_headings(column):
    worker = TalkingWorker()
    opened = column(1, lambda: worker)
    worker.answer(worker.last(Question.SURENESS), band())
    assert opened.gist(Question.SURENESS) == "36–45 °C"
    opened.session.apply("move", move_parts(opened.session.project, ["radiator-3"], dy_mm=4.0))
    assert opened.gists() == {"working"}
    assert "36–45" not in opened.panel.hottest_day.accessibleDescription()


def test_a_pack_that_cannot_be_judged_says_why_in_every_section(column):
    opened = column(1)
    engine = opened.session.project.engine
    opened.session.apply("clear", set_engine(opened.session.project, type(engine)()))
    reasons = [reason for case in opened.session.base_assessment.cases for reason in case.reasons]
    for question, section in opened.parts.sections.items():
        section.open()
        assert opened.gist(question) == "not known"
        assert section.about.text() == reasons[0]
        assert not section.content.isVisible()
    assert "Chance of meeting the design day: not known." in opened.panel.hottest_day.accessibleDescription()
    opened.panel.grab()


def test_show_me_selects_what_the_change_is_about(column, qtbot):
    opened = column(3)
    opened.parts.sections[Question.CHANGES].open()
    row = next(row for row in opened.parts.changes.rows if row.rung.parts)
    qtbot.mouseClick(row.show_me, Qt.MouseButton.LeftButton)
    assert opened.session.selection == row.rung.parts


def test_another_course_is_answered_and_shown(column):
    opened = column(1)
    opened.parts.choice.course_chosen.emit(Course("case-4", "case-2"))
    found = opened.parts.over_time.plot._found
    assert (found.from_case_name, found.to_case_name) == ("Idle with A/C", "Crawl")
    assert opened.parts.choice.before.currentText() == "Idle with A/C"


@pytest.mark.parametrize("look", [palettes.light, palettes.dark, palettes.high_contrast])
@pytest.mark.parametrize("width", [296, 324])
def test_open_sections_are_painted_in_every_look_and_are_no_wider_than_the_column(look, width, column):
    opened = column(3)
    panel = opened.panel
    panel.show_palette(look())
    panel.resize(width, 1900)
    opened.parts.changes.more.setChecked(True)
    opened.parts.degrees.link.setChecked(True)
    for section in opened.parts.sections.values():
        section.open()
    panel.grab()
    for part in panel.findChildren(QWidget):
        if part.isVisibleTo(panel):
            assert part.mapTo(panel, part.rect().topRight()).x() < width, part


def test_a_high_column_opens_the_two_sections_that_lead_on_and_a_low_one_none(column):
    opened = column(1)
    headings = {question: section.heading for question, section in opened.parts.sections.items()}
    assert not any(heading.isChecked() for heading in headings.values())
    opened.panel.resize(324, 950)
    assert {q for q, heading in headings.items() if heading.isChecked()} == {Question.DEGREES, Question.CHANGES}


def test_tab_goes_through_the_sections_top_to_bottom(column):
    opened = column(2)
    panel, parts = opened.panel, opened.parts
    chain, at = [], panel._scroll
    for _ in range(300):
        at = at.nextInFocusChain()
        if at.focusPolicy() is not Qt.FocusPolicy.NoFocus and panel.isAncestorOf(at):
            chain.append(at)
    order = [*parts.tab_chain(*parts.sections)]
    places = [chain.index(widget) for widget in order]
    assert places == sorted(places)


def test_every_section_has_a_name_for_a_screen_reader(column):
    opened = column(1)
    for section in opened.parts.sections.values():
        assert section.accessibleName()
        assert section.heading.accessibleName()
    for painted in (opened.parts.degrees.chart, opened.parts.sureness.drivers, opened.parts.over_time.plot):
        assert painted.accessibleName()
        assert painted.accessibleDescription()
