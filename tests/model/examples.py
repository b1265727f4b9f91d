"""One invented project in which every kind of thing stands once, for tests of the model and of its files."""

from __future__ import annotations

from grillestack.model.core_description import (
    Construction,
    CoreDescription,
    CoreType,
    InnerFin,
    MeasuredTable,
    RatingPoint,
    TablePoint,
)
from grillestack.model.engine import (
    ConnectionPurpose,
    EngineConnection,
    EngineSheet,
    EngineSide,
    Environment,
    Seal,
)
from grillestack.model.nose import DepthStations, Nose, NoseMount, Obstruction, Opening, SupportWindow
from grillestack.model.outline import Point, Rect, SidePoint, centred_rect, rectangle_outline
from grillestack.model.parts import (
    Core,
    CoreRole,
    Facing,
    Fan,
    FanPoint,
    Mount,
    Placement,
    Port,
    PortPurpose,
    Shroud,
    Solid,
    SolidKind,
    TubeDirection,
)
from grillestack.model.photo import FourCorners, Mark, Photo, PhotoImage
from grillestack.model.project import Project, Variant
from grillestack.model.sheet_choices import DimensionShift, MakingChoices, Paper, SheetChoices, SheetView


def a_radiator(part_id: str = "radiator-1", x_mm: float = 120.0) -> Core:
    """Return an invented cross-flow radiator, 700 × 420 mm over all with a core of 600 × 400 mm."""
    return Core(
        id=part_id,
        name="Invented radiator",
        placement=Placement(x_mm=x_mm, z_mm=650.0),
        depth_mm=56.0,
        weight_kg=9.5,
        ports=(
            Port(
                purpose=PortPurpose.INLET,
                u_mm=-320.0,
                v_mm=160.0,
                facing=Facing.REAR,
                bore_mm=38.0,
                clock_deg=15.0,
                outside_mm=42.0,
                bead_mm=2.0,
            ),
        ),
        mounts=(Mount(u_mm=-200.0, v_mm=-212.0, w_mm=28.0, hole_mm=12.0, kind_text="pin"),),
        pressure_rating_pa=110_000.0,
        price_text="invented",
        role=CoreRole.RADIATOR,
        overall=centred_rect(700.0, 420.0),
        core_width_mm=600.0,
        core_height_mm=400.0,
        solids=(
            Solid(
                kind=SolidKind.TANK, rect=Rect(u_min_mm=-350, v_min_mm=-210, u_max_mm=-300, v_max_mm=210), depth_mm=60
            ),
            Solid(kind=SolidKind.TANK, rect=Rect(u_min_mm=300, v_min_mm=-210, u_max_mm=350, v_max_mm=210), depth_mm=60),
        ),
        tubes=TubeDirection.CROSS_FLOW,
        description=CoreDescription(
            core_type=CoreType.ALUMINIUM_TWO_ROW,
            rating=RatingPoint(
                heat_w=60_000.0, face_velocity_m_s=8.0, air_inlet_degc=25.0, tube_inlet_degc=95.0, tube_flow_kg_s=2.0
            ),
            table=MeasuredTable(
                inlet_difference_k=60.0,
                air_inlet_degc=35.0,
                tube_flow_kg_s=2.0,
                points=(
                    TablePoint(face_velocity_m_s=2.0, heat_w=30_000.0, air_loss_pa=40.0),
                    TablePoint(face_velocity_m_s=8.0, heat_w=70_000.0, air_loss_pa=380.0),
                ),
            ),
        ),
    )


def a_charge_air_cooler(part_id: str = "charge-air-cooler-1", x_mm: float = 40.0) -> Core:
    """Return an invented bar-and-plate charge-air cooler, described by its construction."""
    return Core(
        id=part_id,
        name="Invented charge-air cooler",
        placement=Placement(x_mm=x_mm, y_mm=-60.0, z_mm=560.0, quarter_turns=1, flipped=True, tilt_deg=4.0),
        depth_mm=64.0,
        role=CoreRole.CHARGE_AIR_COOLER,
        overall=centred_rect(520.0, 200.0),
        core_width_mm=400.0,
        core_height_mm=190.0,
        description=CoreDescription(
            core_type=CoreType.BAR_AND_PLATE_CHARGE_AIR,
            construction=Construction(
                tube_pitch_mm=15.0,
                tube_thickness_mm=7.0,
                tube_depth_mm=64.0,
                tube_wall_mm=0.5,
                fin_height_mm=8.0,
                fin_pitch_mm=1.3,
                fin_thickness_mm=0.1,
                louvre_pitch_mm=1.2,
                louvre_length_mm=6.5,
                louvre_angle_deg=27.0,
                inner_fin=InnerFin(spacing_mm=2.0, height_mm=6.0, thickness_mm=0.2, strip_length_mm=3.2),
            ),
        ),
    )


def a_shroud(part_id: str = "shroud-1", x_mm: float = 180.0) -> Shroud:
    """Return an invented shroud of the radiator's core size."""
    return Shroud(
        id=part_id,
        name="Invented shroud",
        placement=Placement(x_mm=x_mm, z_mm=650.0),
        depth_mm=50.0,
        own_sizes=True,
        width_mm=600.0,
        height_mm=400.0,
    )


def a_fan(part_id: str = "fan-1", x_mm: float = 230.0) -> Fan:
    """Return an invented 12 V fan, locked in its place, with three points of its curve."""
    return Fan(
        id=part_id,
        name="Invented fan",
        placement=Placement(x_mm=x_mm, y_mm=0.0, z_mm=650.0),
        depth_mm=85.0,
        locked=True,
        ring_diameter_mm=406.0,
        motor_diameter_mm=130.0,
        curve=(
            FanPoint(flow_m3_s=0.0, pressure_pa=250.0),
            FanPoint(flow_m3_s=0.6, pressure_pa=150.0),
            FanPoint(flow_m3_s=1.1, pressure_pa=0.0),
        ),
        free_flow_m3_s=1.1,
        rated_voltage_v=12.0,
        running_current_a=19.0,
    )


# One grey picture of 32 × 24 pixels, drawn and written as PNG for these tests.
GREY_PNG = "iVBORw0KGgoAAAANSUhEUgAAACAAAAAYCAAAAAC+OKDoAAAAFElEQVR42mOYQAAwjCoYVTDyFAAAajywEIju93UAAAAASUVORK5CYII="


def a_photo() -> Photo:
    """Return a plain grey picture as a photo, tied to an invented plate of 520 × 110 mm."""
    return Photo(
        image=PhotoImage(data_base64=GREY_PNG, width_px=32, height_px=24),
        tied=FourCorners(
            corners=(Mark(8.0, 18.0), Mark(24.5, 17.5), Mark(24.0, 14.0), Mark(8.5, 14.25)),
            width_mm=520.0,
            height_mm=110.0,
            bottom_z_mm=480.0,
        ),
    )


def a_nose() -> Nose:
    """Return an invented nose with one opening, a support window, a beam, a bonnet line and a photo."""
    return Nose(
        name="Invented nose",
        about_text="Invented for tests: no such vehicle exists.",
        openings=(
            Opening(
                id="opening-1",
                name="Grille",
                outline=rectangle_outline(-350.0, 500.0, 350.0, 800.0),
                free_area_frac=0.8,
            ),
        ),
        support_window=SupportWindow(outline=rectangle_outline(-380.0, 420.0, 380.0, 860.0), x_mm=30.0),
        obstructions=(
            Obstruction(
                id="obstruction-1",
                name="Beam",
                outline=(Point(-500.0, 450.0), Point(500.0, 450.0), Point(0.0, 520.0)),
                x_front_mm=-80.0,
                x_rear_mm=-20.0,
            ),
        ),
        stations=DepthStations(pulley_x_mm=420.0, bonnet_line=(SidePoint(0.0, 850.0), SidePoint(400.0, 930.0))),
        photo=a_photo(),
        mounts=(
            NoseMount(
                id="mount-1", name="Left rail", x_mm=60.0, y_mm=-320.0, z_mm=430.0, hole_mm=10.5, is_structure=True
            ),
        ),
    )


def a_full_project() -> Project:
    """Return an invented project that uses every kind of value of the model."""
    return Project(
        title="Invented vehicle “A”",
        nose=a_nose(),
        parts=(a_charge_air_cooler(), a_radiator(), a_shroud(), a_fan()),
        engine=EngineSheet(
            name="Invented engine",
            rated_power_w=150_000.0,
            heat_to_coolant_w=90_000.0,
            glycol_frac=0.5,
            connections=(
                EngineConnection(
                    purpose=ConnectionPurpose.CHARGE_IN,
                    side=EngineSide.LEFT,
                    x_mm=700.0,
                    y_mm=-210.0,
                    bore_mm=63.5,
                    clock_angles_deg=(0.0, -90.0),
                ),
            ),
        ),
        environment=Environment(design_ambient_degc=38.0, altitude_m=1_500.0, seal=Seal.ROUGH, ram_recovery_frac=0.85),
        notes_text="Invented for tests.\nThe second line: ½ × 3 ≈ 1,5.",
        next_number=2,
        variant_name="Wide cooler",
        variant_note_text="The cooler of the catalogue.",
        sheet=SheetChoices(
            paper=Paper.LETTER,
            views=(SheetView.REPORT,),
            scale_factor=5.0,
            making=MakingChoices(bend_neutral_frac=0.44),
            shifts=(DimensionShift(key="front:radiator-1:width", dx_mm=4.0, is_off=True),),
        ),
        variants=(Variant(name="No fan", parts=(a_charge_air_cooler(), a_radiator()), note_text="½ the price"),),
    )
