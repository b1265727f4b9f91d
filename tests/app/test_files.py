"""Open, save, recover: whatever goes wrong is one sentence, and nothing is lost."""

import json

import pytest

from grillestack.app.dialogs import Unsaved
from grillestack.app.files import AUTOSAVE_MS, FileDesk
from grillestack.app.session import Session
from grillestack.model.edits import set_title
from grillestack.model.project import Project
from grillestack.storage.autosave import pending_recoveries
from grillestack.storage.project_file import read_project, write_project
from grillestack.storage.recent import recent_files
from grillestack.units.display import UnitSystem


class Clock:
    def __init__(self):
        self.now = 1000.0

    def __call__(self):
        return self.now


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def desk(session, answers, clock):
    made = FileDesk(session, answers, clock)
    yield made
    made.close()


@pytest.fixture
def said(desk):
    heard = []
    desk.complained.connect(heard.append)
    return heard


def change(session, title="Changed"):
    session.apply("rename", set_title(session.project, title))


@pytest.fixture
def on_disk(tmp_path, truck):
    path = tmp_path / "truck.grillestack"
    write_project(truck, path)
    return path


def test_saving_asks_for_a_name_once_and_then_writes_there(desk, session, answers, clock):
    change(session, "Truck: one/two")
    assert desk.save()
    assert answers.asked == ["save Truck- one-two.grillestack"]
    assert read_project(answers.save_path) == session.project
    assert session.is_clean
    assert session.path == answers.save_path
    clock.now += 12
    assert desk.seconds_since_saved == 12
    change(session, "Again")
    assert desk.save()
    assert len(answers.asked) == 1
    assert read_project(answers.save_path).title == "Again"
    assert recent_files()[0] == answers.save_path


def test_a_cancelled_save_changes_nothing(desk, session, answers):
    change(session)
    answers.save_path = None
    assert not desk.save()
    assert not session.is_clean
    assert session.path is None


def test_a_read_only_file_is_refused_in_a_sentence_and_the_work_stays(desk, session, answers, said, on_disk):
    desk.open_file(on_disk)
    change(session)
    on_disk.chmod(0o444)
    before = on_disk.read_bytes()
    assert not desk.save()
    assert len(said) == 1
    assert "truck.grillestack" in said[0]
    assert "read-only" in said[0]
    assert on_disk.read_bytes() == before
    assert session.project.title == "Changed"
    assert not session.is_clean


@pytest.mark.parametrize("damage", ["cut off", "newer", "missing"])
def test_a_file_that_cannot_be_read_is_one_sentence_and_the_document_stays(desk, session, said, on_disk, damage):
    before = session.project
    if damage == "cut off":
        on_disk.write_bytes(on_disk.read_bytes()[:300])
    elif damage == "newer":
        held = json.loads(on_disk.read_text(encoding="utf-8"))
        on_disk.write_text(json.dumps(held | {"format": 99}), encoding="utf-8")
    else:
        on_disk.unlink()
    assert not desk.open_file(on_disk)
    assert session.project is before
    assert len(said) == 1
    assert "truck.grillestack" in said[0]
    assert said[0].endswith(".")


def test_opening_shows_the_file_and_remembers_it(desk, session, on_disk, truck):
    assert desk.open_file(on_disk)
    assert session.project == truck
    assert session.path == on_disk
    assert session.is_clean
    assert recent_files() == (on_disk,)


def test_a_demo_is_opened_without_its_name_so_that_saving_asks(desk, session, answers, on_disk):
    desk.open_file(on_disk, as_demo=True)
    assert session.path is None
    before = on_disk.read_bytes()
    change(session)
    desk.save()
    assert answers.asked == ["save Changed.grillestack"]
    assert on_disk.read_bytes() == before
    assert recent_files() == (answers.save_path,)


def test_a_second_window_on_the_same_file_is_warned(desk, said, qapp, answers, on_disk):
    other = FileDesk(Session(None, UnitSystem.METRIC), answers)
    try:
        other.open_file(on_disk)
        desk.open_file(on_disk)
        assert len(said) == 1
        assert "another window" in said[0]
    finally:
        other.close()


def test_a_file_given_back_warns_nobody(desk, said, qapp, answers, on_disk):
    other = FileDesk(Session(None, UnitSystem.METRIC), answers)
    other.open_file(on_disk)
    other.close()
    desk.open_file(on_disk)
    assert said == []


def test_work_is_kept_after_the_last_edit_and_never_in_the_users_file(desk, session, on_disk):
    desk.open_file(on_disk)
    before = on_disk.read_bytes()
    assert not desk.timer.isActive()
    change(session)
    assert desk.timer.isActive()
    assert desk.timer.interval() == AUTOSAVE_MS == 2000
    desk.timer.timeout.emit()
    assert on_disk.read_bytes() == before
    desk.close()
    (recovery,) = pending_recoveries()
    assert recovery.project.title == "Changed"
    assert recovery.original == on_disk


def test_a_drag_under_way_is_not_kept_but_its_end_is(desk, session):
    session.try_project(set_title(session.project, "Trial"))
    assert not desk.timer.isActive()
    session.apply("rename", session.shown)
    assert desk.timer.isActive()


def test_saving_or_undoing_to_the_saved_state_leaves_no_recovery(desk, session, answers):
    change(session)
    desk.keep_now()
    desk.save()
    change(session, "Second")
    desk.keep_now()
    session.undo_stack.undo()
    desk.close()
    assert pending_recoveries() == ()


def test_a_clean_document_may_go_without_a_question(desk, answers):
    assert desk.may_leave()
    assert answers.asked == []


@pytest.mark.parametrize(
    ("answer", "may_go", "saved", "kept"),
    [(Unsaved.SAVE, True, True, 0), (Unsaved.LEAVE, True, False, 1), (Unsaved.CANCEL, False, False, 0)],
)
def test_unsaved_work_is_asked_about_and_what_is_left_is_kept_anyway(
    desk, session, answers, answer, may_go, saved, kept
):
    change(session)
    answers.unsaved = answer
    assert desk.may_leave() is may_go
    assert answers.asked[0] == "unsaved Changed"
    assert answers.save_path.exists() is saved
    desk.close()
    assert len(pending_recoveries()) == kept


def test_a_save_that_fails_keeps_the_window(desk, session, answers):
    change(session)
    answers.unsaved = Unsaved.SAVE
    answers.save_path = None
    assert not desk.may_leave()


def crashed(truck, answers, title="Lost"):
    """Leave behind what a window leaves that ends without a word."""
    session = Session(None, UnitSystem.METRIC, truck)
    desk = FileDesk(session, answers)
    change(session, title)
    desk.keep_now()
    desk.close()


def test_work_of_a_window_that_ended_is_offered_and_taken_up_unsaved(desk, session, answers, truck):
    crashed(truck, answers)
    found = []
    desk.recovery_found.connect(found.append)
    desk.look_for_recoveries()
    (recovery,) = found
    desk.take_up(recovery)
    assert session.project.title == "Lost"
    assert not session.is_clean
    assert not recovery.path.exists()
    desk.close()
    (again,) = pending_recoveries()
    assert again.project.title == "Lost"


def test_work_let_go_is_not_offered_again(desk, answers, truck):
    crashed(truck, answers)
    (recovery,) = pending_recoveries()
    desk.let_go(recovery)
    assert pending_recoveries() == ()


def test_left_work_stays_to_be_found_when_another_file_is_opened_over_it(desk, session, answers, on_disk):
    change(session, "Left behind")
    answers.open_path = on_disk
    desk.open()
    assert session.path == on_disk
    change(session, "Next")
    desk.keep_now()
    desk.close()
    assert {r.project.title for r in pending_recoveries()} == {"Left behind", "Next"}


def test_a_new_project_is_unsaved_from_the_start(desk, session):
    desk.begin_project(Project(title="New nose"))
    assert session.project.title == "New nose"
    assert not session.is_clean
    assert session.path is None


def test_without_a_place_for_recoveries_the_work_goes_on_and_it_is_said(desk, session, said, monkeypatch, tmp_path):
    in_the_way = tmp_path / "a file"
    in_the_way.write_text("no folder", encoding="utf-8")
    monkeypatch.setenv("XDG_STATE_HOME", str(in_the_way))
    monkeypatch.setenv("LOCALAPPDATA", str(in_the_way))
    change(session)
    desk.keep_now()
    assert session.project.title == "Changed"
    assert len(said) == 1
