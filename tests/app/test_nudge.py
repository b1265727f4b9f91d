"""Arrow keys: by a millimetre or a sixteenth, by ten or a half, and a run of presses is one step."""

import pytest
from msgspec.structs import replace

from grillestack.app.canvas.gestures.shift import shifted
from grillestack.app.nudge import Nudge
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.model.edits import set_nose, set_title
from grillestack.model.nose import SupportWindow
from grillestack.model.outline import rectangle_outline
from grillestack.units.display import UnitSystem


@pytest.fixture
def nudge(session):
    session.select(["radiator-3"])
    return Nudge(session)


def place(session):
    return session.project.part("radiator-3").placement


@pytest.mark.parametrize(
    ("units", "large", "millimetres"),
    [
        (UnitSystem.METRIC, False, 1.0),
        (UnitSystem.METRIC, True, 10.0),
        (UnitSystem.INCH, False, 1.5875),  # 1/16 in
        (UnitSystem.INCH, True, 12.7),  # 1/2 in
    ],
)
def test_one_press_moves_by_the_step_of_the_units(session, nudge, units, large, millimetres):
    session.set_units(units)
    before = place(session)
    nudge.step(0, 1, 0, large=large)
    assert place(session).y_mm == pytest.approx(before.y_mm + millimetres)
    assert (place(session).x_mm, place(session).z_mm) == (before.x_mm, before.z_mm)


def test_a_run_of_presses_is_one_step_and_a_pause_ends_it(session, nudge):
    before = session.project
    for _ in range(4):
        nudge.step(0, 0, 1, large=False)
    assert session.undo_stack.count() == 1
    assert nudge.pause.isActive()
    nudge.pause.timeout.emit()
    nudge.step(0, 0, 1, large=False)
    assert session.undo_stack.count() == 2
    session.undo_stack.undo()
    session.undo_stack.undo()
    assert session.project is before


def test_another_selection_or_another_act_ends_the_run(session, nudge):
    nudge.step(1, 0, 0, large=False)
    session.select(["fan-7"])
    nudge.step(1, 0, 0, large=False)
    assert session.undo_stack.count() == 2
    session.apply("rename", set_title(session.project, "Other"))
    nudge.step(1, 0, 0, large=False)
    assert session.undo_stack.count() == 4


def test_with_nothing_selected_it_says_what_to_do(session, nudge):
    said = []
    session.message.connect(said.append)
    session.select([])
    nudge.step(1, 0, 0, large=False)
    assert session.undo_stack.count() == 0
    assert said == ["Nothing is selected: click a part first, then move it with the arrow keys."]


def test_openings_obstructions_and_the_window_move_too_and_nothing_else(session):
    window = SupportWindow(outline=rectangle_outline(-300, 500, 300, 900), x_mm=60)
    project = set_nose(session.project, replace(session.project.nose, support_window=window))
    moved = shifted(project, ("opening-1", "obstruction-2", SUPPORT_WINDOW_ID), dx_mm=5, dy_mm=2, dz_mm=-3)
    assert moved.nose.openings[0].outline == rectangle_outline(-378, 557, 382, 1007)
    assert moved.nose.openings[0].x_mm == 5
    assert (moved.nose.obstructions[0].x_front_mm, moved.nose.obstructions[0].x_rear_mm) == (-15, 35)
    assert moved.nose.support_window.x_mm == 65
    assert moved.parts == project.parts


def test_a_move_out_of_all_measure_is_refused_in_a_sentence(session, nudge):
    said = []
    session.message.connect(said.append)
    at = place(session)
    far = replace(session.project.part("radiator-3"), placement=replace(at, y_mm=9_999.5))
    session.apply("far", replace(session.project, parts=(far,)))
    before = session.project
    nudge.step(0, 1, 0, large=True)
    assert session.project is before
    assert "at most 10000 mm" in said[0]
