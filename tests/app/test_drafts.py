"""New things of the nose are typed as rectangles; a new project asks only for the opening and the depth."""

import pytest

from grillestack.app import drafts
from grillestack.app.session import SUPPORT_WINDOW_ID, Session
from grillestack.model.outline import rectangle_outline
from grillestack.units.display import UnitSystem


def fill(draft, **texts):
    for key, text in texts.items():
        line = draft.lines.get(key) or draft.fields[key].line
        line.setText(text)
        line.setModified(True)
    draft.accept()


@pytest.fixture
def made(qtbot, session):
    def make(which, *more):
        draft = which(session, *more)
        qtbot.addWidget(draft)
        return draft

    return make


def test_a_new_nose_asks_for_three_lengths_and_defaults_the_rest(made, session):
    begun = []
    draft = made(drafts.new_nose, begun.append)
    assert list(draft.fields) == ["width_mm", "height_mm", "depth_mm"]
    assert draft.lines == {}
    fill(draft, width_mm="30 in", height_mm="400", depth_mm="45 cm")
    (project,) = begun
    assert project.nose.openings[0].outline == rectangle_outline(-381, 500, 381, 900)
    assert project.nose.stations.pulley_x_mm == 450
    assert project.nose.openings[0].free_area_frac is None
    assert len(project.cases) == 4


@pytest.mark.parametrize("bad", [{"width_mm": "0"}, {"height_mm": "-3"}, {"depth_mm": "9 m"}])
def test_an_impossible_nose_is_refused_in_a_sentence(made, bad):
    begun = []
    draft = made(drafts.new_nose, begun.append)
    fill(draft, **({"width_mm": "700", "height_mm": "400", "depth_mm": "450"} | bad))
    assert begun == []
    assert "must be" in draft.complaint.text()


def test_an_opening_is_added_in_one_step_and_selected(made, session):
    fill(made(drafts.new_opening), name="Lower grille", width_mm="600", height_mm="120", bottom_mm="380")
    opening = session.project.nose.openings[-1]
    assert opening.name == "Lower grille"
    assert opening.outline == rectangle_outline(-300, 380, 300, 500)
    assert session.selection == (opening.id,)
    assert session.undo_stack.count() == 1


def test_an_obstruction_needs_its_rear_and_refuses_one_ahead_of_its_front(made, session):
    draft = made(drafts.new_obstruction)
    texts = {"name": "Winch", "width_mm": "300", "height_mm": "200", "x_front_mm": "20", "x_rear_mm": "10"}
    fill(draft, **texts)
    assert len(session.project.nose.obstructions) == 1
    assert "Winch" in draft.complaint.text()
    fill(draft, x_rear_mm="90")
    winch = session.project.nose.obstructions[-1]
    assert (winch.name, winch.x_front_mm, winch.x_rear_mm) == ("Winch", 20, 90)
    assert session.selection == (winch.id,)


def test_the_support_window_is_set_and_replaced(made, session):
    for width in ("700", "640"):
        fill(made(drafts.new_window), width_mm=width, height_mm="420", bottom_mm="540", x_mm="60")
    window = session.project.nose.support_window
    assert window.outline == rectangle_outline(-320, 540, 320, 960)
    assert session.selection == (SUPPORT_WINDOW_ID,)
    assert session.undo_stack.count() == 2


def test_a_second_opening_never_takes_an_id_that_is_in_use(qtbot, session):
    for _ in range(2):
        draft = drafts.new_opening(session)
        qtbot.addWidget(draft)
        fill(draft, width_mm="100", height_mm="100")
    ids = [o.id for o in session.project.nose.openings]
    assert len(ids) == len(set(ids)) == 3


def test_an_empty_name_is_refused(made, session):
    draft = made(drafts.new_opening)
    fill(draft, name="", width_mm="100", height_mm="100")
    assert len(session.project.nose.openings) == 1
    assert "name is empty" in draft.complaint.text()


def test_in_inches_the_lines_take_inches(qtbot, truck):
    session = Session(None, UnitSystem.INCH, truck)
    begun = []
    draft = drafts.new_nose(session, begun.append)
    qtbot.addWidget(draft)
    fill(draft, width_mm="30", height_mm="15 3/4", depth_mm="18")
    assert begun[0].nose.openings[0].outline == rectangle_outline(-381, 500, 381, 900.05)
