"""The session: one step per act, trials that leave nothing behind, and a window that outlives a failing assessment."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from grillestack.app.session import Session
from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.edits import add_part, move_parts, remove_parts, set_title
from grillestack.model.nose import Nose, Opening
from grillestack.model.outline import centred_rect, rectangle_outline
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem

RADIATOR = Core(
    id="shelf-radiator",
    name="Invented radiator",
    role=CoreRole.RADIATOR,
    overall=centred_rect(760, 480),
    core_width_mm=650,
    core_height_mm=440,
    depth_mm=56,
    description=CoreDescription(core_type=CoreType.ALUMINIUM_TWO_ROW),
)


class Assessor:
    """Stands in for the scientific core: says which project it saw and where it started from."""

    def __init__(self):
        self.calls = []

    def __call__(self, project, previous):
        self.calls.append((project, previous))
        return ("assessment", len(self.calls), project)


@pytest.fixture
def assessor():
    return Assessor()


@pytest.fixture
def session(qapp, assessor):
    project, _ = add_part(Project(title="Test nose"), RADIATOR)
    return Session(assessor, UnitSystem.METRIC, project)


def told(signal):
    """Collect what a signal says."""
    heard = []
    signal.connect(lambda *said: heard.append(said))
    return heard


def test_one_act_is_one_step_and_undo_gives_the_very_same_document_back(session):
    before = session.project
    after = move_parts(before, ["radiator-1"], dy_mm=10)
    session.apply("move", after)
    assert session.undo_stack.count() == 1
    assert session.undo_stack.undoText() == "move"
    assert session.project is after
    session.undo_stack.undo()
    assert session.project is before
    session.undo_stack.redo()
    assert session.project is after


def test_an_act_that_changes_nothing_leaves_no_step(session):
    session.apply("move", move_parts(session.project, ["radiator-1"], dy_mm=0))
    assert session.undo_stack.count() == 0
    assert session.is_clean


def test_steps_with_the_same_key_become_one_and_others_do_not(session):
    before = session.project
    for _ in range(3):
        session.apply("nudge", move_parts(session.project, ["radiator-1"], dy_mm=1), "nudge radiator-1")
    assert session.undo_stack.count() == 1
    session.apply("nudge", move_parts(session.project, ["radiator-1"], dz_mm=1), "nudge again")
    session.apply("rename", set_title(session.project, "Other"))
    session.apply("rename", set_title(session.project, "Third"))
    assert session.undo_stack.count() == 4
    for _ in range(4):
        session.undo_stack.undo()
    assert session.project is before


def test_merged_steps_that_end_where_they_began_vanish(session):
    before = session.project
    session.apply("nudge", move_parts(before, ["radiator-1"], dy_mm=1), "run")
    session.apply("nudge", move_parts(session.project, ["radiator-1"], dy_mm=-1), "run")
    assert session.project == before
    assert session.undo_stack.count() == 0


def test_a_trial_is_shown_but_is_no_step_and_leaves_nothing_behind(session):
    document, base = session.project, session.base_assessment
    trial = move_parts(document, ["radiator-1"], dy_mm=10)
    heard = told(session.project_changed)
    session.try_project(trial)
    assert session.shown is trial
    assert session.project is document
    assert session.assessment[2] is trial
    assert session.base_assessment is base
    session.end_trial()
    assert session.shown is document
    assert session.assessment is base
    assert session.undo_stack.count() == 0
    assert heard == [(document, trial), (trial, document)]


def test_trials_start_from_the_last_assessment_and_documents_are_assessed_cold(session, assessor):
    first = session.assessment
    session.try_project(move_parts(session.project, ["radiator-1"], dy_mm=1))
    assert assessor.calls[-1][1] is first
    second = session.assessment
    session.try_project(move_parts(session.project, ["radiator-1"], dy_mm=2))
    assert assessor.calls[-1][1] is second
    session.apply("move", session.shown)
    assert assessor.calls[-1][1] is None
    session.undo_stack.undo()
    assert assessor.calls[-1][1] is None


def test_applying_ends_the_trial(session):
    trial = move_parts(session.project, ["radiator-1"], dy_mm=10)
    session.try_project(trial)
    session.apply("move", trial)
    assert not session.in_trial
    assert session.project is trial
    assert session.assessment is session.base_assessment


def test_applying_the_unchanged_document_also_ends_the_trial(session):
    document = session.project
    session.try_project(move_parts(document, ["radiator-1"], dy_mm=10))
    session.apply("move", document)
    assert not session.in_trial
    assert session.shown is document
    assert session.undo_stack.count() == 0


def test_when_a_signal_goes_out_document_and_assessment_agree(session):
    seen = []
    session.project_changed.connect(
        lambda _old, new: seen.append(session.assessment[2] is new and session.shown is new)
    )
    session.try_project(move_parts(session.project, ["radiator-1"], dy_mm=3))
    session.apply("move", session.shown)
    session.undo_stack.undo()
    assert seen == [True, True, True]


def test_selection_holds_known_ids_once_and_loses_what_is_removed(session):
    opening = Opening(id="opening-1", name="Grille", outline=rectangle_outline(-300, 300, 300, 600))
    session.apply("draw", replace(session.project, nose=Nose(openings=(opening,))))
    session.select(["radiator-1", "ghost", "radiator-1", "opening-1"])
    assert session.selection == ("radiator-1", "opening-1")
    heard = told(session.selection_changed)
    session.apply("remove", remove_parts(session.project, ["radiator-1"]))
    assert session.selection == ("opening-1",)
    assert heard == [(("opening-1",),)]


def test_a_failing_assessment_is_told_in_a_sentence_and_keeps_the_work(session):
    def fails(project, previous):
        raise ZeroDivisionError

    session._assess = fails
    said = told(session.message)
    moved = move_parts(session.project, ["radiator-1"], dy_mm=10)
    session.apply("move", moved)
    assert session.project is moved
    assert session.assessment is None
    assert "not known" in said[0][0]


def test_opening_another_project_forgets_steps_selection_and_mark(session):
    session.apply("rename", set_title(session.project, "Other"))
    session.select(["radiator-1"])
    files, clean = told(session.file_changed), told(session.clean_changed)
    other = Project(title="Second nose")
    session.open_project(other, Path("second.grille"))
    assert session.project is other
    assert session.selection == ()
    assert session.undo_stack.count() == 0
    assert session.is_clean
    assert files == [(Path("second.grille"),)]
    assert clean[-1] == (True,)


def test_recovered_work_counts_as_not_saved_until_it_is(session):
    session.open_project(Project(title="Recovered"), None, saved=False)
    assert not session.is_clean
    session.mark_saved(Path("recovered.grille"))
    assert session.is_clean
    assert session.path == Path("recovered.grille")


def test_saving_in_the_middle_of_a_run_ends_the_run(session):
    session.apply("nudge", move_parts(session.project, ["radiator-1"], dy_mm=1), "run")
    session.mark_saved(Path("a.grille"))
    session.apply("nudge", move_parts(session.project, ["radiator-1"], dy_mm=1), "run")
    assert session.undo_stack.count() == 2
    session.undo_stack.undo()
    assert session.is_clean


def test_units_are_told_once(session):
    heard = told(session.units_changed)
    session.set_units(UnitSystem.INCH)
    session.set_units(UnitSystem.INCH)
    assert heard == [(UnitSystem.INCH,)]
