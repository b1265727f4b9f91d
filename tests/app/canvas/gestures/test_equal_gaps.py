"""At which places the gaps beside a moving part are equal."""

from __future__ import annotations

import pytest

from grillestack.app.canvas.gestures.equal_gaps import equal_gap_lines
from grillestack.app.canvas.gestures.extents import Neighbour
from grillestack.app.canvas.gestures.snap import Axis
from grillestack.model.edits import add_part, remove_parts
from grillestack.model.parts import CoreRole, Placement
from tests.app.canvas.conftest import core


def thing(y0, y1, words="other", z=(0.0, 100.0)):
    return Neighbour(extent_mm={Axis.X: (0.0, 50.0), Axis.Y: (y0, y1), Axis.Z: z}, words=words)


def lines(y0, y1, others):
    moving = {Axis.X: (0.0, 50.0), Axis.Y: (y0, y1), Axis.Z: (20.0, 80.0)}
    return equal_gap_lines(moving, others, Axis.Y, (Axis.Z,))


def test_half_way_between_two_neighbours():
    # Room from 100 to 300, the moving one 80 wide: its middle belongs at 200, with 60 at each side.
    (line,) = lines(150, 230, [thing(0, 100, "A"), thing(300, 400, "B")])
    assert line.at_mm == 200
    assert line.for_middle
    assert line.words == "equal gaps to A and B"
    assert line.gaps_mm == ((100, 160), (240, 300))


def test_beyond_two_neighbours_as_far_as_they_are_apart():
    # 0–100 and 130–200 leave 30 between them: the next one begins at 230, or the one before ends at −30.
    (above,) = lines(240, 300, [thing(0, 100, "A"), thing(130, 200, "B")])
    assert (above.at_mm, above.side) == (230, -1)
    assert above.words == "same gap as between B and A"
    assert above.gaps_mm == ((200, 230), (100, 130))
    (below,) = lines(-100, -40, [thing(0, 100, "A"), thing(130, 200, "B")])
    assert (below.at_mm, below.side) == (-30, 1)


def test_what_lies_at_another_height_is_no_neighbour():
    assert lines(150, 230, [thing(0, 100, z=(90.0, 200.0)), thing(300, 400)]) == ()


def test_what_stands_behind_the_moving_one_is_no_neighbour():
    # A radiator from −300 to 500 lies behind all of them.
    (line,) = lines(240, 300, [thing(0, 100, "A"), thing(130, 200, "B"), thing(-300, 500, "radiator")])
    assert line.words == "same gap as between B and A"


def test_no_gap_where_the_moving_one_does_not_fit_or_neighbours_touch():
    assert lines(150, 360, [thing(0, 100), thing(300, 400)]) == ()
    assert lines(240, 300, [thing(0, 100), thing(100, 200)]) == ()


@pytest.fixture
def three_coolers(project, session):
    """Three oil coolers in a row and nothing else: at −200, 0 and about +200."""
    bare = remove_parts(project, [part.id for part in project.parts])
    ids = []
    for y in (-200.0, 0.0, 230.0):
        cooler = core("new", "Cooler", CoreRole.COOLER, (100, 100, 40), (40, y, 700))
        bare, name = add_part(bare, cooler, Placement(x_mm=40, y_mm=y, z_mm=700))
        ids.append(name)
    session.apply("bare", bare)
    return ids


def test_a_dragged_cooler_finds_the_gap_of_its_neighbours_draws_and_names_it(front, hand, session, three_coolers):
    # Edges −250…−150 and −50…50 leave 100; the third belongs at 150…250, its middle at 200.
    session.select([three_coolers[2]])
    off = 3 / front.heights.px_per_mm
    hand.press(230, 700)
    hand.move(215, 700)
    hand.move(200 + off, 700)
    names = [line.words for line in front.marks.snaps]
    assert "same gap as between Cooler and Cooler" in names
    assert not front.grab().isNull()
    hand.release(200 + off, 700)
    assert session.project.part(three_coolers[2]).placement.y_mm == pytest.approx(200)


def test_alt_suspends_it(front, hand, session, three_coolers):
    from PySide6.QtCore import Qt

    session.select([three_coolers[2]])
    off = 3 / front.heights.px_per_mm
    hand.drag((230, 700), (200 + off, 700), held=Qt.KeyboardModifier.AltModifier)
    assert session.project.part(three_coolers[2]).placement.y_mm != pytest.approx(200, abs=0.5)
