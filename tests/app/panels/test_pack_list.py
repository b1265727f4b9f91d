"""The pack list shows the depth order, follows the selection, and reorders by key and by drop as one step."""

from types import SimpleNamespace

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt
from PySide6.QtGui import QDropEvent
from PySide6.QtTest import QTest

from grillestack.app.palette import light
from grillestack.app.panels.pack_list import PackList
from grillestack.app.panels.part_row import ABOVE_ROLE, NUMBER_ROLE, WARN_ROLE
from grillestack.app.panels.part_words import gap_words
from grillestack.app.session import Session
from grillestack.geometry.depth import depth_report
from grillestack.model.edits import move_parts
from grillestack.model.project import stack
from grillestack.units.display import UnitSystem

FRONT_TO_BACK = ["condenser-5", "charge-air-cooler-4", "radiator-3", "shroud-6", "fan-7"]


@pytest.fixture
def session(qapp, truck):
    """Give a session whose assessment holds the real depth report and nothing else."""
    return Session(lambda project, _previous: SimpleNamespace(depth=depth_report(project)), UnitSystem.METRIC, truck)


@pytest.fixture
def pack(qtbot, session):
    made = PackList(session, light())
    qtbot.addWidget(made)
    made.resize(290, 400)
    made.show()
    return made


def above(pack, row):
    return pack.item(row).data(ABOVE_ROLE)


def test_rows_run_from_front_to_back_with_numbers_and_gaps(pack):
    assert pack.order() == FRONT_TO_BACK
    assert [pack.item(i).data(NUMBER_ROLE) for i in range(5)] == ["1", "2", "3", "4", "5"]
    assert above(pack, 0) == ""
    assert above(pack, 1) == "gap 15 mm"
    assert above(pack, 3) == "gap 0 mm"


def test_parts_that_share_room_say_so_and_warn(pack, session):
    session.apply("push", move_parts(session.project, ["condenser-5"], dx_mm=20))
    assert above(pack, 1) == "5 mm into the one ahead"
    assert pack.item(1).data(WARN_ROLE)


def test_a_gap_to_another_than_the_row_above_names_it():
    assert gap_words(20, UnitSystem.METRIC, "Invented radiator") == "20 mm behind Invented radiator"
    assert gap_words(-20, UnitSystem.METRIC, "Invented radiator") == "20 mm into Invented radiator"


def test_selection_goes_both_ways(pack, session):
    QTest.mouseClick(
        pack.viewport(), Qt.MouseButton.LeftButton, pos=pack.visualItemRect(pack.item(2)).center() + QPoint(0, 8)
    )
    assert session.selection == ("radiator-3",)
    session.select(["fan-7", "shroud-6"])
    assert {item.text() for item in pack.selectedItems()} == {"Invented fan", "Invented shroud"}
    session.select(["opening-1"])
    assert pack.selectedItems() == []
    assert session.selection == ("opening-1",)


def test_alt_and_arrows_move_a_part_in_the_order_and_keep_the_gaps(pack, session):
    session.select(["charge-air-cooler-4"])
    pack.setFocus()
    QTest.keyClick(pack, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert pack.order()[:2] == ["charge-air-cooler-4", "condenser-5"]
    assert above(pack, 1) == "gap 15 mm"
    assert session.undo_stack.count() == 1
    QTest.keyClick(pack, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    assert pack.order() == FRONT_TO_BACK
    QTest.keyClick(pack, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    assert pack.order()[2] == "charge-air-cooler-4"


def test_the_first_does_not_go_further_forward_and_makes_no_step(pack, session):
    session.select(["condenser-5"])
    pack.shift_selected(-1)
    assert pack.order() == FRONT_TO_BACK
    assert session.undo_stack.count() == 0


def test_two_neighbours_move_together(pack, session):
    session.select(["condenser-5", "charge-air-cooler-4"])
    pack.shift_selected(1)
    assert pack.order()[:3] == ["radiator-3", "condenser-5", "charge-air-cooler-4"]


def drop(pack, row, *, lower_half):
    rect = pack.visualItemRect(pack.item(row))
    y = rect.bottom() - 2 if lower_half else rect.top() + 2
    event = _DropFromList(pack, QPointF(40, y))
    pack.dropEvent(event)
    return event


class _DropFromList(QDropEvent):
    """A drop that comes from the list itself, as a real one within it does."""

    def __init__(self, pack, place):
        self._mime = QMimeData()
        super().__init__(
            place, Qt.DropAction.MoveAction, self._mime, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
        )
        self._pack = pack

    def source(self):
        return self._pack


def test_a_row_dropped_on_another_takes_its_place_in_one_step(pack, session):
    session.select(["radiator-3"])
    drop(pack, 0, lower_half=False)
    assert pack.order()[:3] == ["radiator-3", "condenser-5", "charge-air-cooler-4"]
    assert [part.id for part in stack(session.project)][:1] == ["radiator-3"]
    assert session.undo_stack.count() == 1
    session.undo_stack.undo()
    assert pack.order() == FRONT_TO_BACK


def test_a_row_dropped_where_it_was_makes_no_step(pack, session):
    session.select(["radiator-3"])
    drop(pack, 2, lower_half=True)
    assert session.undo_stack.count() == 0


def test_a_drop_from_elsewhere_is_left_alone(pack, session):
    event = _DropFromList(None, QPointF(40, 40))
    pack.dropEvent(event)
    assert not event.isAccepted()
    assert session.undo_stack.count() == 0


def test_the_list_follows_a_trial(pack, session):
    session.try_project(move_parts(session.project, ["radiator-3"], dx_mm=7))
    assert above(pack, 2) == "gap 22 mm"
    session.end_trial()
    assert above(pack, 2) == "gap 15 mm"
