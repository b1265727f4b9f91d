"""An invented truck nose with a whole pack, a session without the scientific core, and a window that asks nobody."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from shiboken6 import isValid

from grillestack.app.dialogs import Unsaved
from grillestack.app.landing import land_part
from grillestack.app.own_parts import own_size_starters
from grillestack.app.resize import with_tanks
from grillestack.app.session import Session
from grillestack.app.window import Equipment, MainWindow
from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.engine import EngineSheet
from grillestack.model.nose import DepthStations, Nose, Obstruction, Opening
from grillestack.model.outline import centred_rect, rectangle_outline
from grillestack.model.parts import Core, CoreRole, Facing, Fan, FanPoint, Port, PortPurpose, Shroud
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem


def _core(part_id, name, role, size, core_type):
    width, height, depth = size
    core = Core(
        id=part_id,
        name=name,
        role=role,
        overall=centred_rect(width, height),
        core_width_mm=width,
        core_height_mm=height,
        depth_mm=depth,
        description=CoreDescription(core_type=core_type),
        ports=(Port(purpose=PortPurpose.INLET, u_mm=340, v_mm=180, facing=Facing.REAR, bore_mm=42),),
    )
    return with_tanks(core, 55, 8, at_the_sides=True)


@pytest.fixture
def shelf_of_parts():
    """Give one invented part of each kind as a catalogue holds it."""
    return (
        _core("inv-rad-650", "Invented radiator", CoreRole.RADIATOR, (650, 450, 56), CoreType.ALUMINIUM_TWO_ROW),
        _core(
            "inv-cac-560",
            "Invented charge-air cooler",
            CoreRole.CHARGE_AIR_COOLER,
            (560, 300, 64),
            CoreType.BAR_AND_PLATE_CHARGE_AIR,
        ),
        _core(
            "inv-con-600", "Invented condenser", CoreRole.CONDENSER, (600, 380, 18), CoreType.PARALLEL_FLOW_CONDENSER
        ),
        Shroud(id="inv-shr-650", name="Invented shroud", width_mm=650, height_mm=450, depth_mm=80),
        Fan(
            id="inv-fan-380",
            name="Invented fan",
            ring_diameter_mm=380,
            motor_diameter_mm=140,
            depth_mm=60,
            curve=(FanPoint(flow_m3_s=0, pressure_pa=250), FanPoint(flow_m3_s=1.1, pressure_pa=0)),
        ),
    )


@pytest.fixture
def truck(shelf_of_parts):
    """Give the nose with the whole pack: condenser, CAC, radiator, shroud, fan."""
    nose = Nose(
        openings=(Opening(id="opening-1", name="Upper grille", outline=rectangle_outline(-380, 560, 380, 1010)),),
        obstructions=(
            Obstruction(
                id="obstruction-2",
                name="Bumper beam",
                outline=rectangle_outline(-500, 600, 500, 660),
                x_front_mm=-20,
                x_rear_mm=30,
            ),
        ),
        stations=DepthStations(pulley_x_mm=420),
    )
    project = Project(
        title="Invented truck",
        nose=nose,
        engine=EngineSheet(rated_power_w=120e3, heat_to_coolant_w=70e3),
        next_number=3,
    )
    for part in shelf_of_parts:
        project, _ = land_part(project, part)
    return project


@pytest.fixture
def session(qapp, truck):
    """Give a session over the truck; nothing is assessed."""
    return Session(None, UnitSystem.METRIC, truck)


class Answers:
    """Stands in for the person at the dialogs: answers as told and notes what was asked."""

    def __init__(self, tmp_path):
        self.open_path: Path | None = None
        self.photo_path: Path | None = None
        self.save_path: Path | None = tmp_path / "saved.grillestack"
        self.unsaved = Unsaved.LEAVE
        self.asked: list[str] = []

    def ask_open(self, folder):
        self.asked.append("open")
        return self.open_path

    def ask_save(self, suggested):
        self.asked.append(f"save {suggested.name}")
        return self.save_path

    def ask_photo(self, folder):
        self.asked.append("photo")
        return self.photo_path

    def ask_unsaved(self, title):
        self.asked.append(f"unsaved {title}")
        return self.unsaved


@pytest.fixture
def answers(tmp_path):
    return Answers(tmp_path)


@pytest.fixture
def window(qtbot, session, answers, shelf_of_parts):
    """Give the real window over the truck, shown, without the scientific core."""
    parts = (*shelf_of_parts, *own_size_starters())
    made = MainWindow(session, Equipment(advise=lambda *_: (), dialogs=answers, parts=parts))
    made.resize(1280, 800)
    made.show()
    yield made
    answers.unsaved = Unsaved.LEAVE
    made.close()
    made.deleteLater()
    # Without an event loop nothing is deleted by itself, and each window left over slows down all that follow.
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert not isValid(made)


@pytest.fixture
def type_into():
    """Return a function that replaces a line's text by key presses and ends with a key, Enter if not told otherwise."""

    def typing(line, text, end=Qt.Key.Key_Return):
        line.setFocus()
        line.selectAll()
        QTest.keyClick(line, Qt.Key.Key_Delete)
        QTest.keyClicks(line, text)
        if end is not None:
            QTest.keyClick(line, end)

    return typing
