"""The map of better places is seen while a core is held, and only then."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QObject, Qt, Signal

from grillestack.advice.better_places import BetterPlaces, Spot
from grillestack.app.canvas.better_layer import _marks
from grillestack.app.palette import dark
from grillestack.geometry.projection import project_part
from grillestack.units.display import UnitSystem


class TalkingMaps(QObject):
    """Gives the map that a test lets it give."""

    changed = Signal()

    def __init__(self):
        super().__init__()
        self.found = self.share_frac = None
        self.broke_off = False
        self.wanted = []

    def want(self, part_id, *, is_held):
        self.wanted.append((part_id, is_held))


def a_map(part_id="cac-1", best=True, spoils=False, reason=""):
    spots = tuple(
        Spot(dy_mm=dy, dz_mm=dz, change_k=-dz / 20.0, spoils=spoils and dz < 0)
        for dy in (-40.0, 0.0, 40.0)
        for dz in (-60.0, 0.0, 60.0)
    )
    return BetterPlaces(
        part_id=part_id,
        step_mm=40.0,
        spots=() if reason else spots,
        finer_spots=(),
        best=spots[0] if best else None,
        reason=reason,
    )


@pytest.fixture
def maps(front):
    made = TalkingMaps()
    front.better.use(made)
    return made


@pytest.fixture
def middle(session):
    box = project_part(session.project.part("cac-1")).outline_box
    # Off the middle of the radiator, where only the cooler is held by a press
    return (box.y0_mm + 20.0, (box.z0_mm + box.z1_mm) / 2)


def hold(hand, session, middle):
    session.select(("cac-1",))
    hand.press(*middle)
    hand.move(middle[0], middle[1] - 12.0)
    hand.move(middle[0], middle[1] - 31.0)


def test_a_held_core_is_asked_about_and_working_is_said_until_the_map_is_there(front, hand, session, maps, middle):
    hold(hand, session, middle)
    assert set(maps.wanted) == {("cac-1", True)}
    maps.share_frac = 0.4
    core = front.better.held_core()
    assert core.id == "cac-1"
    assert _marks(session.project, core, maps, UnitSystem.METRIC).sentence.startswith("working: ")
    front.grab()
    maps.share_frac, maps.found = None, a_map()
    maps.changed.emit()
    assert front.better._item.isVisible()
    marks = _marks(session.project, core, maps, UnitSystem.METRIC)
    assert marks.best_text == "+3.0 K here"
    box = project_part(session.project.part("cac-1")).outline_box
    assert marks.best_mm == ((box.y0_mm + box.y1_mm) / 2 - 40.0, (box.z0_mm + box.z1_mm) / 2 - 60.0)
    assert (marks.worst_text, marks.most_text) == ("−3.0 K", "+3.0 K")
    front.grab()
    hand.release(middle[0], middle[1] - 31.0)
    assert not front.better._item.isVisible()
    assert front.better.held_core() is None


def test_escape_takes_the_map_away(front, hand, session, maps, middle):
    maps.found = a_map()
    hold(hand, session, middle)
    assert front.better._item.isVisible()
    hand.key(Qt.Key.Key_Escape)
    assert not front.better._item.isVisible()


def test_a_map_of_another_core_is_not_shown(front, hand, session, maps, middle):
    maps.found = a_map("condenser-1")
    hold(hand, session, middle)
    assert not front.better._item.isVisible()


def test_what_is_no_core_asks_nothing(front, hand, session, maps):
    session.select(("fan-1",))
    fan = session.project.part("fan-1").placement
    hand.press(fan.y_mm, fan.z_mm)
    hand.move(fan.y_mm + 40, fan.z_mm)
    assert session.in_trial
    assert maps.wanted == []


def test_a_chosen_core_is_asked_about_once_the_hand_rests(front, session, maps, monkeypatch):
    session.select(("cac-1",))
    assert front.better._rest.isActive()
    front.better._rest.timeout.emit()
    assert maps.wanted == [("cac-1", False)]
    assert not front.better._item.isVisible()


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (a_map(best=False), "No place within reach of the CAC is better."),
        (a_map(reason="There is no hottest day to compare with, so no place is better."), "no hottest day"),
    ],
)
def test_what_there_is_to_say_is_said_in_words(session, maps, found, words):
    maps.found = found
    marks = _marks(session.project, session.project.part("cac-1"), maps, UnitSystem.METRIC)
    assert words in marks.sentence
    assert marks.best_mm is None


def test_spoilt_places_are_told_apart_in_words_and_hatch(front, hand, session, maps, middle):
    maps.found = a_map(spoils=True)
    hold(hand, session, middle)
    marks = _marks(session.project, session.project.part("cac-1"), maps, UnitSystem.INCH)
    assert marks.spoilt_text == "spoils something else"
    assert marks.best_text == "+5.4 °F here"
    front.show_palette(dark())
    front.grab()


def test_a_calculation_that_broke_off_is_said(session, maps):
    maps.broke_off = True
    marks = _marks(session.project, session.project.part("cac-1"), maps, UnitSystem.METRIC)
    assert marks.sentence == "Where the CAC would be better is not known."
