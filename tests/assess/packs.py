"""Whole projects for the tests of the assessment: an invented nose with an invented pack, made to measure."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.model import edits
from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.engine import DutyCase, EngineSheet
from grillestack.model.nose import Nose, Opening, SupportWindow
from grillestack.model.outline import Rect, rectangle_outline
from grillestack.model.parts import (
    Core,
    CoreRole,
    Fan,
    FanPoint,
    Placement,
    Shroud,
    Solid,
    SolidKind,
    TubeDirection,
)
from grillestack.model.project import Project

RADIATOR, CAC, CONDENSER = CoreRole.RADIATOR, CoreRole.CHARGE_AIR_COOLER, CoreRole.CONDENSER
FAN_CURVE = tuple(
    FanPoint(flow_m3_s=flow, pressure_pa=pressure)
    for flow, pressure in ((0.0, 260.0), (0.3, 225.0), (0.6, 170.0), (0.9, 95.0), (1.15, 0.0))
)


def core(
    role: CoreRole,
    core_type: CoreType,
    width_mm: float,
    height_mm: float,
    depth_mm: float,
    *,
    tank_mm: float = 55.0,
    tubes: TubeDirection = TubeDirection.CROSS_FLOW,
) -> Core:
    """Return a core with a tank at either end of its tubes and no side plates."""
    w, h = width_mm / 2, height_mm / 2
    if tubes is TubeDirection.CROSS_FLOW:
        overall = Rect(u_min_mm=-w - tank_mm, v_min_mm=-h, u_max_mm=w + tank_mm, v_max_mm=h)
        tanks = (
            Rect(u_min_mm=-w - tank_mm, v_min_mm=-h, u_max_mm=-w, v_max_mm=h),
            Rect(u_min_mm=w, v_min_mm=-h, u_max_mm=w + tank_mm, v_max_mm=h),
        )
    else:
        overall = Rect(u_min_mm=-w, v_min_mm=-h - tank_mm, u_max_mm=w, v_max_mm=h + tank_mm)
        tanks = (
            Rect(u_min_mm=-w, v_min_mm=-h - tank_mm, u_max_mm=w, v_max_mm=-h),
            Rect(u_min_mm=-w, v_min_mm=h, u_max_mm=w, v_max_mm=h + tank_mm),
        )
    return Core(
        id=role.value,
        name=role.value.replace("-", " ").capitalize(),
        depth_mm=depth_mm,
        role=role,
        overall=overall,
        core_width_mm=width_mm,
        core_height_mm=height_mm,
        solids=tuple(Solid(kind=SolidKind.TANK, rect=rect, depth_mm=depth_mm) for rect in tanks),
        tubes=tubes,
        description=CoreDescription(core_type=core_type),
    )


def radiator(width_mm: float = 700.0, height_mm: float = 460.0) -> Core:
    """Return a one-row aluminium radiator 36 mm deep."""
    return core(RADIATOR, CoreType.ALUMINIUM_ONE_ROW, width_mm, height_mm, 36.0)


def charge_air_cooler(
    width_mm: float = 560.0, height_mm: float = 230.0, tubes: TubeDirection = TubeDirection.CROSS_FLOW
) -> Core:
    """Return a bar-and-plate cooler 64 mm deep."""
    return core(CAC, CoreType.BAR_AND_PLATE_CHARGE_AIR, width_mm, height_mm, 64.0, tank_mm=60.0, tubes=tubes)


def condenser(width_mm: float = 560.0, height_mm: float = 330.0) -> Core:
    """Return a parallel-flow condenser 16 mm deep."""
    return core(CONDENSER, CoreType.PARALLEL_FLOW_CONDENSER, width_mm, height_mm, 16.0, tank_mm=20.0)


def fan() -> Fan:
    """Return a good electric fan of 380 mm."""
    return Fan(
        id="fan", name="Fan 380", depth_mm=60.0, ring_diameter_mm=380.0, motor_diameter_mm=110.0, curve=FAN_CURVE
    )


def warm_day(**changes: object) -> DutyCase:
    """Return full load at 90 km/h, 35 °C, A/C off."""
    case = DutyCase(
        id="case-1",
        name="Warm day",
        road_speed_m_s=25.0,
        heat_frac=1.0,
        coolant_frac=1.0,
        charge_frac=1.0,
        ambient_degc=35.0,
        air_conditioning_on=False,
    )
    return replace(case, **changes)


SHEET = EngineSheet(
    rated_power_w=112_000.0, heat_to_coolant_w=59_800.0, top_tank_limit_degc=107.2, charge_flow_kg_s=0.16
)


def nose(width_mm: float = 680.0, height_mm: float = 300.0, free_frac: float = 0.7) -> Nose:
    """Return a nose with one rectangular opening above z = 60 and a generous support window."""
    return Nose(
        name="Invented nose",
        openings=(
            Opening(
                id="opening-1",
                name="Grille",
                outline=rectangle_outline(-width_mm / 2, 60.0, width_mm / 2, 60.0 + height_mm),
                free_area_frac=free_frac,
            ),
        ),
        support_window=SupportWindow(outline=rectangle_outline(-420.0, -30.0, 420.0, 550.0), x_mm=180.0),
    )


def project(*cases: DutyCase, sheet: EngineSheet = SHEET, front: Nose | None = None) -> Project:
    """Return a project without parts."""
    return Project(title="Invented", nose=front or nose(), engine=sheet, cases=cases or (warm_day(),))


def with_part(base: Project, part: Core | Shroud | Fan, x_mm: float, z_mm: float = 255.0, y_mm: float = 0.0) -> Project:
    """Return the project with the part put there."""
    return edits.add_part(base, part, Placement(x_mm=x_mm, y_mm=y_mm, z_mm=z_mm))[0]


def behind(base: Project, *, fans: bool = True, shroud: bool = True) -> Project:
    """Return the project with a radiator, a full shroud and two fans at the rear."""
    base = with_part(base, radiator(), 195.0)
    if shroud:
        base = with_part(
            base, Shroud(id="shroud", name="Shroud", depth_mm=90.0, width_mm=700.0, height_mm=460.0), 235.0
        )
    if fans:
        for y_mm in (-195.0, 195.0):
            base = with_part(base, fan(), 275.0, y_mm=y_mm)
    return base


def half_height_pack(*cases: DutyCase, sheet: EngineSheet = SHEET) -> Project:
    """Return radiator, shroud, two fans and a half-height CAC before the lower half of the core."""
    return behind(with_part(project(*cases, sheet=sheet), charge_air_cooler(), 115.0, 145.0))


def full_height_pack(*cases: DutyCase, sheet: EngineSheet = SHEET) -> Project:
    """Return the same with a full-height CAC whose tanks stand before the radiator's core."""
    return behind(with_part(project(*cases, sheet=sheet), charge_air_cooler(560.0, 460.0), 115.0))
