"""One sitting at the bench in the real window with the real core: from an empty nose to a saved pack with a verdict."""

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from grillestack.app.dialogs import Unsaved
from grillestack.app.own_parts import own_size_starters
from grillestack.app.panels.field import QuantityField
from grillestack.app.scientific_core import ScientificCore
from grillestack.app.session import Session
from grillestack.app.window import Equipment, MainWindow
from grillestack.assess.assess import assess
from grillestack.assess.result import Verdict
from grillestack.model.project import Project, stack
from grillestack.storage.project_file import read_project
from grillestack.units.display import UnitSystem

CTRL = Qt.KeyboardModifier.ControlModifier


class Answers:
    """Stands in for the person at the dialogs."""

    def __init__(self, path):
        self.path = path

    def ask_open(self, folder):
        return self.path

    def ask_photo(self, folder):
        return None

    def ask_save(self, suggested):
        return self.path

    def ask_unsaved(self, title):
        return Unsaved.LEAVE


@pytest.fixture
def path(tmp_path):
    return tmp_path / "bench.grillestack"


@pytest.fixture
def window(qapp, path):
    core = ScientificCore()
    session = Session(core.assess, UnitSystem.METRIC, Project())
    made = MainWindow(session, Equipment(advise=core.advise, dialogs=Answers(path), parts=own_size_starters()))
    made.resize(1280, 800)
    made.show()
    yield made
    made.close()
    made.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def key(window, key, modifiers=Qt.KeyboardModifier.NoModifier):
    window.front.setFocus()
    QTest.keyClick(window.front, key, modifiers)


def type_in(line, text, end=Qt.Key.Key_Return):
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(line, end)


def field(window, name):
    found = [f for f in window.card.widget().findChildren(QuantityField) if f.line.accessibleName() == name]
    assert found, f"the card has no field “{name}”"
    return found[0].line


def begin(window):
    key(window, Qt.Key.Key_N, CTRL)
    for name, text in (("Opening width", "30 in"), ("Opening height", "18 in"), ("Grille to fan or pulley", "450")):
        type_in(field(window, name), text)


def add(window, words):
    type_in(window.shelf.search, words)
    QTest.keyClick(window.shelf.tree, Qt.Key.Key_Return)


def verdict_words(window):
    return " ".join(label.text() for label in window.verdict.findChildren(QLabel) if label.isVisible())


def test_a_pack_is_laid_out_judged_saved_and_found_again_without_a_mouse(window, path):
    session = window.session
    begin(window)
    assert session.assessment.verdict is Verdict.UNKNOWN
    for words in ("radiator to own", "charge-air cooler to own", "condenser to own", "shroud to own"):
        add(window, words)
    assert [p.name for p in stack(session.project)] == [
        "Condenser to own sizes",
        "Charge-air cooler to own sizes",
        "Radiator to own sizes",
        "Shroud to own sizes",
    ]
    session.select([])
    type_in(field(window, "Rated power"), "90")
    type_in(field(window, "Heat to coolant"), "3000 BTU/min")
    assert session.project.engine.heat_to_coolant_w == pytest.approx(3000 * 1055.056 / 60)  # IT BTU: 1055.056 J
    assert session.assessment.verdict is not Verdict.UNKNOWN
    assert session.assessment.verdict.value in verdict_words(window).casefold()
    assert session.assessment.verdict is assess(session.project).verdict
    key(window, Qt.Key.Key_S, CTRL)
    assert read_project(path) == session.project
    saved = session.project
    key(window, Qt.Key.Key_N, CTRL)
    type_in(field(window, "Opening width"), "500")
    type_in(field(window, "Opening height"), "300")
    type_in(field(window, "Grille to fan or pulley"), "300")
    assert session.project.parts == ()
    key(window, Qt.Key.Key_O, CTRL)
    assert session.project == saved


def test_every_step_can_be_undone_to_the_first_and_redone_to_the_last(window):
    session = window.session
    begin(window)
    first = session.project
    add(window, "radiator to own")
    type_in(field(window, "Core width"), "26 3/16 in")
    key(window, Qt.Key.Key_Left)
    key(window, Qt.Key.Key_Left)
    add(window, "shroud to own")
    last = session.project
    steps = session.undo_stack.count()
    assert steps == 4
    for _ in range(steps):
        key(window, Qt.Key.Key_Z, CTRL)
    assert session.project is first
    for _ in range(steps):
        key(window, Qt.Key.Key_Z, CTRL | Qt.KeyboardModifier.ShiftModifier)
    assert session.project is last
    assert session.assessment == assess(last)


def grade_pull(session):
    return next(c.limiting_ambient_degc for c in session.assessment.cases if c.name == "Grade pull")


def test_a_wider_radiator_inside_the_same_opening_stands_a_hotter_day(window):
    session = window.session
    begin(window)
    add(window, "radiator to own")
    session.select([])
    type_in(field(window, "Heat to coolant"), "60 kW")
    small = grade_pull(session)
    session.select([session.project.parts[0].id])
    type_in(field(window, "Core width"), "700")
    assert grade_pull(session) > small


def test_a_finding_leads_to_the_parts_it_speaks_of(window):
    session = window.session
    begin(window)
    add(window, "radiator to own")
    add(window, "charge-air cooler to own")
    session.select([])
    type_in(field(window, "Heat to coolant"), "60 kW")
    row = next(row for row in window.verdict.findings_list.rows if row.finding.parts)
    row.setFocus()
    QTest.keyClick(row, Qt.Key.Key_Space)
    assert set(session.selection) <= set(row.finding.parts)
    assert session.selection


def test_in_inches_every_length_on_the_card_is_in_inches(window):
    begin(window)
    add(window, "radiator to own")
    window.menus.actions["Inches"].trigger()
    fields = [f for f in window.card.widget().findChildren(QuantityField) if f.unit.text() in ("mm", "in")]
    assert fields
    assert {f.unit.text() for f in fields} == {"in"}
