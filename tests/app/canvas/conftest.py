"""An invented nose and pack for the canvas, a session with a hand-made assessment, and hands made of mouse events."""

from __future__ import annotations

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QApplication, QWidget

from grillestack.app.canvas.front_view import FrontView
from grillestack.app.canvas.height_ruler import HeightRuler
from grillestack.app.canvas.mm_view import MmView
from grillestack.app.canvas.side_strip import SideStrip
from grillestack.app.palette import light
from grillestack.app.session import Session
from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.engine import EngineSheet
from grillestack.model.nose import DepthStations, Nose, Obstruction, Opening, SupportWindow
from grillestack.model.outline import Point, Rect, SidePoint, rectangle_outline
from grillestack.model.parts import (
    Core,
    CoreRole,
    Facing,
    Fan,
    FanPoint,
    Mount,
    Part,
    Placement,
    Port,
    PortPurpose,
    Shroud,
    Solid,
    SolidKind,
)
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem
from tests.app.canvas.hand_made import hand_made_assessment


def core(
    part_id: str,
    name: str,
    role: CoreRole,
    size_mm: tuple[float, float, float],
    place_mm: tuple[float, float, float],
    *,
    side_tank_mm: float = 0.0,
    own_sizes: bool = False,
    ports: tuple[Port, ...] = (),
    mounts: tuple[Mount, ...] = (),
) -> Core:
    """A core with equal tanks at both sides."""
    width, height, depth = size_mm
    x, y, z = place_mm
    w, h, t = width / 2, height / 2, side_tank_mm
    solids = ()
    if t:
        solids = (
            Solid(
                kind=SolidKind.TANK,
                rect=Rect(u_min_mm=-w - t, v_min_mm=-h, u_max_mm=-w, v_max_mm=h),
                front_mm=-8,
                depth_mm=depth + 16,
            ),
            Solid(
                kind=SolidKind.TANK,
                rect=Rect(u_min_mm=w, v_min_mm=-h, u_max_mm=w + t, v_max_mm=h),
                front_mm=-8,
                depth_mm=depth + 16,
            ),
        )
    types = {
        CoreRole.CONDENSER: CoreType.PARALLEL_FLOW_CONDENSER,
        CoreRole.CHARGE_AIR_COOLER: CoreType.BAR_AND_PLATE_CHARGE_AIR,
        CoreRole.COOLER: CoreType.PLATE_OIL_COOLER,
        CoreRole.RADIATOR: CoreType.ALUMINIUM_TWO_ROW,
    }
    return Core(
        id=part_id,
        name=name,
        role=role,
        depth_mm=depth,
        core_width_mm=width,
        core_height_mm=height,
        overall=Rect(u_min_mm=-w - t, v_min_mm=-h, u_max_mm=w + t, v_max_mm=h),
        solids=solids,
        own_sizes=own_sizes,
        placement=Placement(x_mm=x, y_mm=y, z_mm=z),
        ports=ports,
        mounts=mounts,
        description=CoreDescription(core_type=types[role]),
    )


def invented_project() -> Project:
    """An opening 700 × 300 with cut corners, condenser, half-height CAC, radiator, shroud, two fans, bumper beam."""
    opening = Opening(
        id="opening-1",
        name="Grille opening",
        free_area_frac=0.6,
        outline=(
            Point(-350, 570),
            Point(-310, 540),
            Point(310, 540),
            Point(350, 570),
            Point(350, 810),
            Point(320, 840),
            Point(-320, 840),
            Point(-350, 810),
        ),
    )
    beam = Obstruction(
        id="beam",
        name="Bumper beam",
        outline=rectangle_outline(-420, 520, 420, 575),
        x_front_mm=-90,
        x_rear_mm=-30,
    )
    cac_ports = (
        Port(purpose=PortPurpose.INLET, u_mm=360, v_mm=60, w_mm=32, facing=Facing.RIGHT, bore_mm=57),
        Port(purpose=PortPurpose.OUTLET, u_mm=-360, v_mm=60, w_mm=32, facing=Facing.LEFT, bore_mm=57),
    )
    radiator_ports = (
        Port(purpose=PortPurpose.INLET, u_mm=325, v_mm=180, w_mm=25, facing=Facing.REAR, bore_mm=38),
        Port(purpose=PortPurpose.OUTLET, u_mm=-325, v_mm=-180, w_mm=25, facing=Facing.REAR, bore_mm=38),
        Port(purpose=PortPurpose.VENT, u_mm=325, v_mm=220, w_mm=25, facing=Facing.UP, bore_mm=8),
    )
    pins = (Mount(u_mm=-200, v_mm=-232, w_mm=25, hole_mm=12), Mount(u_mm=200, v_mm=-232, w_mm=25, hole_mm=12))
    parts: tuple[Part, ...] = (
        core("condenser-1", "Condenser 460 × 270", CoreRole.CONDENSER, (460, 270, 20), (40, 0, 745)),
        core(
            "cac-1",
            "Bar-and-plate CAC 600 × 160",
            CoreRole.CHARGE_AIR_COOLER,
            (600, 160, 64),
            (80, 0, 630),
            side_tank_mm=60,
            own_sizes=True,
            ports=cac_ports,
        ),
        core(
            "radiator-1",
            "Two-row radiator 620 × 440",
            CoreRole.RADIATOR,
            (620, 440, 50),
            (165, 0, 700),
            side_tank_mm=50,
            ports=radiator_ports,
            mounts=pins,
        ),
        Shroud(
            id="shroud-1",
            name="Full shroud",
            depth_mm=70,
            width_mm=620,
            height_mm=440,
            placement=Placement(x_mm=216, y_mm=0, z_mm=700),
        ),
        fan("fan-1", "Fan 300 right", 155),
        fan("fan-2", "Fan 300 left", -155),
    )
    nose = Nose(
        name="Invented nose",
        openings=(opening,),
        obstructions=(beam,),
        support_window=SupportWindow(outline=rectangle_outline(-385, 490, 385, 935), x_mm=60),
        stations=DepthStations(
            pulley_x_mm=420, bonnet_line=(SidePoint(-60, 890), SidePoint(120, 975), SidePoint(480, 1010))
        ),
    )
    engine = EngineSheet(
        heat_to_coolant_w=90_000.0,
        coolant_flow_m3_s=0.0045,
        top_tank_limit_degc=107.0,
        charge_flow_kg_s=0.25,
        charge_inlet_degc=170.0,
        charge_inlet_pa=240_000.0,
        charge_reference_ambient_degc=25.0,
        condenser_heat_w=7_000.0,
    )
    return Project(title="Invented truck", nose=nose, parts=parts, engine=engine)


def fan(part_id: str, name: str, y_mm: float) -> Fan:
    """A 300 mm fan in the shroud."""
    return Fan(
        id=part_id,
        name=name,
        depth_mm=60,
        ring_diameter_mm=300,
        motor_diameter_mm=110,
        placement=Placement(x_mm=240, y_mm=y_mm, z_mm=700),
        curve=(
            FanPoint(flow_m3_s=0.0, pressure_pa=250),
            FanPoint(flow_m3_s=0.5, pressure_pa=150),
            FanPoint(flow_m3_s=0.9, pressure_pa=0),
        ),
    )


@dataclass
class Hand:
    """Presses, moves and lets go in a view, at places in mm."""

    view: MmView

    def send(
        self,
        kind: QEvent.Type,
        px: QPointF,
        button: Qt.MouseButton = Qt.MouseButton.LeftButton,
        held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier,
    ) -> None:
        """Send one mouse event."""
        buttons = Qt.MouseButton.NoButton if kind is QEvent.Type.MouseButtonRelease else button
        cause = Qt.MouseButton.NoButton if kind is QEvent.Type.MouseMove else button
        port = self.view.viewport()
        event = QMouseEvent(kind, px, port.mapToGlobal(px), cause, buttons, held)
        QApplication.sendEvent(port, event)

    def px(self, across_mm: float, z_mm: float) -> QPointF:
        """The pixel at a place of the sheet."""
        return self.view.px_of(across_mm, z_mm)

    def press(self, across_mm: float, z_mm: float, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        """Press the left button there."""
        self.send(QEvent.Type.MouseButtonPress, self.px(across_mm, z_mm), held=held)

    def move(self, across_mm: float, z_mm: float, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        """Move there with the button held."""
        self.send(QEvent.Type.MouseMove, self.px(across_mm, z_mm), held=held)

    def release(
        self, across_mm: float, z_mm: float, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier
    ) -> None:
        """Let go there."""
        self.send(QEvent.Type.MouseButtonRelease, self.px(across_mm, z_mm), held=held)

    def click(self, across_mm: float, z_mm: float, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        """Press and let go at one place."""
        self.press(across_mm, z_mm, held)
        self.release(across_mm, z_mm, held)

    def drag(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier,
    ) -> None:
        """Press, move in four steps and let go."""
        self.press(*start, held)
        for step in (1, 2, 3, 4):
            self.move(start[0] + (end[0] - start[0]) * step / 4, start[1] + (end[1] - start[1]) * step / 4, held)
        self.release(*end, held)

    def key(
        self,
        key: Qt.Key,
        kind: QEvent.Type = QEvent.Type.KeyPress,
        held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier,
    ) -> bool:
        """Send a key; say whether the view kept it."""
        event = QKeyEvent(kind, key, held)
        event.ignore()
        QApplication.sendEvent(self.view, event)
        return event.isAccepted()


@pytest.fixture(autouse=True)
def no_exception_in_paint(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """An exception in paint() is printed and painting goes on: make it fail the test."""
    caught: list[BaseException] = []
    monkeypatch.setattr(sys, "excepthook", lambda _kind, error, _trace: caught.append(error))
    monkeypatch.setattr(sys, "unraisablehook", lambda raised: caught.append(raised.exc_value))
    yield
    assert not caught, f"raised inside Qt: {caught!r}"


@pytest.fixture
def project() -> Project:
    """The invented nose with its pack."""
    return invented_project()


@pytest.fixture
def make_session() -> Callable[..., Session]:
    """Makes sessions with the hand-made assessment."""

    def make(project: Project, units: UnitSystem = UnitSystem.METRIC) -> Session:
        return Session(hand_made_assessment, units, project)

    return make


@pytest.fixture
def session(project: Project, make_session: Callable[..., Session], qapp: QApplication) -> Session:
    """A session over the invented project."""
    return make_session(project)


@pytest.fixture
def find_part() -> Callable[[str], Part | None]:
    """A shelf with one invented oil cooler."""
    cooler = core("shelf-cooler", "Plate oil cooler", CoreRole.COOLER, (300, 100, 50), (0, 0, 0))
    return lambda wanted: replace(cooler) if wanted == "shelf-cooler" else None


@pytest.fixture
def heights() -> HeightRuler:
    """The ruler both views share."""
    return HeightRuler()


@pytest.fixture
def front(session: Session, find_part: Callable[[str], Part | None], heights: HeightRuler, qtbot) -> FrontView:
    """A front view of 700 × 600 pixels that shows everything."""
    view = FrontView(session, light(), find_part, heights)
    qtbot.addWidget(view)
    _show(view, 700, 600)
    view.zoom_to_fit()
    return view


@pytest.fixture
def side(session: Session, front: FrontView, heights: HeightRuler, qtbot) -> SideStrip:
    """A side strip beside the front view."""
    view = SideStrip(session, light(), heights)
    qtbot.addWidget(view)
    _show(view, 300, 600)
    front.zoom_to_fit()
    view.across_fit()
    return view


@pytest.fixture
def hand(front: FrontView) -> Hand:
    """A hand on the front view."""
    return Hand(front)


@pytest.fixture
def side_hand(side: SideStrip) -> Hand:
    """A hand on the side strip."""
    return Hand(side)


def _show(view: QWidget, width: int, height: int) -> None:
    view.resize(width, height)
    view.show()
    QApplication.processEvents()
