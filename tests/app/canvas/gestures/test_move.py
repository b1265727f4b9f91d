"""How finely a hand moves things."""

from __future__ import annotations

import pytest

from grillestack.app.canvas.gestures.gesture import Pointer
from grillestack.app.canvas.gestures.move import MoveGesture
from grillestack.app.canvas.gestures.shift import name_of, outline_of, shifted
from grillestack.app.canvas.gestures.snapping import whole_step
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.model.values import ModelError
from grillestack.units.display import UnitSystem


def test_steps_are_whole_millimetres_or_sixteenths_of_an_inch():
    assert whole_step(12.4, UnitSystem.METRIC, free=False) == 12.0
    assert whole_step(12.4, UnitSystem.METRIC, free=True) == 12.4
    # 12.4 mm are 7.81 sixteenths: eight sixteenths, half an inch.
    assert whole_step(12.4, UnitSystem.INCH, free=False) == pytest.approx(12.7)


def test_a_gesture_that_ends_where_it_began_leaves_no_step(session):
    gesture = MoveGesture(session, ("cac-1",))
    at = Pointer(across_mm=0.0, z_mm=600.0, px_per_mm=1.0, snaps_off=True)
    gesture.begin(at)
    gesture.update(Pointer(across_mm=50.0, z_mm=600.0, px_per_mm=1.0, snaps_off=True))
    gesture.finish(at)
    assert session.undo_stack.count() == 0
    assert not session.in_trial


def test_the_tag_names_the_way_in_the_vehicles_sides(session):
    gesture = MoveGesture(session, ("cac-1",))
    gesture.begin(Pointer(across_mm=0.0, z_mm=0.0, px_per_mm=1.0))
    gesture.update(Pointer(across_mm=52.0, z_mm=-31.0, px_per_mm=1.0, snaps_off=True))
    assert gesture.marks.moved_text == "down 31 mm, to vehicle right 52 mm"
    gesture.cancel()


def test_all_things_of_the_nose_can_be_pushed(project):
    for name in ("opening-1", "beam", SUPPORT_WINDOW_ID, "cac-1"):
        before, after = outline_of(project, name), outline_of(shifted(project, [name], dy_mm=3.0, dz_mm=-4.0), name)
        assert after.y0_mm - before.y0_mm == pytest.approx(3)
        assert after.z1_mm - before.z1_mm == pytest.approx(-4)
        assert name_of(project, name)


def test_what_is_not_pushed_is_shared(project):
    moved = shifted(project, ["beam"], dy_mm=1.0)
    assert moved.parts is project.parts
    assert moved.nose.openings[0] is project.nose.openings[0]
    assert shifted(project, ["beam"]) is project


def test_an_unknown_name_is_refused(project):
    with pytest.raises(ModelError, match="no-such-part"):
        outline_of(project, "no-such-part")
