"""The room around a part in the side view; the sums stand beside each."""

from __future__ import annotations

import pytest

from grillestack.app.canvas.items.clearance_sizes import clearance_sizes
from grillestack.geometry.depth import depth_report
from grillestack.model.edits import move_parts, set_nose
from grillestack.model.nose import Nose


def sizes(project, part_id):
    return clearance_sizes(project, depth_report(project), part_id)


def test_over_the_part_it_reaches_to_the_metal(project):
    # Bonnet from (-60, 890) to (120, 975): over the condenser's front, x = 40, it lies at 890 + 100/180·85 = 937.22.
    # The condenser's top is 745 + 135 = 880.
    (over,) = [size for size in sizes(project, "condenser-1") if size.from_mm[0] == size.to_mm[0]]
    assert over.room_mm == pytest.approx(57.22, abs=0.01)
    assert over.from_mm == (40, 880)
    assert over.to_mm == (40, pytest.approx(937.22, abs=0.01))


def test_to_the_beam_ahead_it_is_measured_where_both_are(project):
    # The beam's rear is at −30 and its top at 575; the CAC's tanks begin at 72 and 550: 102 mm at a height of 562.5.
    (beside,) = [size for size in sizes(project, "cac-1") if size.from_mm[1] == size.to_mm[1]]
    assert beside.room_mm == pytest.approx(102)
    assert beside.from_mm == (pytest.approx(72), 562.5)
    assert beside.to_mm == (-30, 562.5)


def test_it_follows_the_part_and_turns_negative_inside(project):
    moved = move_parts(project, ["cac-1"], dx_mm=-90)
    (beside,) = [size for size in sizes(moved, "cac-1") if size.from_mm[1] == size.to_mm[1]]
    assert beside.room_mm == pytest.approx(12)
    inside = move_parts(project, ["cac-1"], dx_mm=-110)
    (beside,) = [size for size in sizes(inside, "cac-1") if size.from_mm[1] == size.to_mm[1]]
    assert beside.room_mm == pytest.approx(-8)


def test_in_a_bare_nose_there_is_none(project):
    assert sizes(set_nose(project, Nose()), "cac-1") == ()
