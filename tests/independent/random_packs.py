"""Invented packs by number: every edge on the grid, every figure of the engine sheet and of the day given."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

from grillestack.model.core_description import Construction, CoreDescription, CoreMetal, CoreType, InnerFin
from grillestack.model.engine import DutyCase, EngineSheet, Environment, Seal
from grillestack.model.nose import Nose, Obstruction, Opening, SupportWindow
from grillestack.model.outline import Rect, rectangle_outline
from grillestack.model.parts import (
    Core,
    CoreRole,
    Facing,
    Fan,
    FanDrive,
    FanPoint,
    Placement,
    Port,
    PortPurpose,
    Shroud,
    Solid,
    SolidKind,
    TubeDirection,
)
from grillestack.model.project import Project

TILT_COSINE = 0.9
# Tube pitch, tube, fin height, fin pitch, louvre pitch, louvre length, angle, fin, rows, tube depth, depth, wall: mm, invented.
_RADIATORS = (
    (7.6, 1.6, 6.0, 1.2, 0.9, 5.0, 27.0, 0.07, 1, 16.0, 16.0, 0.25),
    (8.8, 1.8, 7.0, 1.3, 1.1, 6.0, 27.0, 0.07, 1, 26.0, 26.0, 0.27),
    (9.8, 1.9, 7.9, 1.45, 1.2, 6.8, 27.0, 0.08, 1, 36.0, 36.0, 0.3),
    (10.0, 2.0, 8.0, 1.6, 1.3, 6.8, 26.0, 0.08, 2, 22.0, 48.0, 0.32),
    (11.5, 2.3, 9.2, 2.3, 1.6, 7.4, 24.0, 0.055, 3, 16.0, 52.0, 0.13),
)
_CONDENSER = (8.4, 1.8, 6.6, 1.3, 1.1, 5.6, 27.0, 0.08, 1, 16.0, 16.0, 0.3)
_CHARGE = (
    ((17.0, 7.5, 9.5, 3.0, 2.0, 7.6, 22.0, 0.12, 1, 64.0, 64.0, 0.5), (1.9, 6.3, 0.12, 3.2)),
    ((16.5, 7.0, 9.5, 2.8, 1.7, 7.8, 24.0, 0.1, 1, 62.0, 62.0, 0.45), (2.6, 5.9, 0.12, 3.2)),
    ((12.0, 4.0, 8.0, 2.0, 1.5, 6.8, 25.0, 0.1, 1, 50.0, 50.0, 0.4), None),
)


@dataclass
class _Draw:
    """A seeded stream of choices on a grid."""

    seed: int
    random: random.Random
    grid_mm: float

    def length(self, low_mm: float, high_mm: float, step: int = 1) -> float:
        unit = self.grid_mm * step
        return unit * self.random.randint(math.ceil(low_mm / unit), math.floor(high_mm / unit))

    def chance(self, share: float) -> bool:
        return self.random.random() < share

    def number(self, low: float, high: float) -> float:
        return self.random.uniform(low, high)


def random_pack(seed: int, grid_mm: float) -> Project:
    """Return pack number `seed`; all its edges are multiples of `grid_mm`."""
    draw = _Draw(seed, random.Random(seed), grid_mm)
    cores = _cores(draw)
    radiator = next(c for c in cores if c.role is CoreRole.RADIATOR)
    ahead = min(c.placement.x_mm for c in cores)
    behind = _shrouds_and_fans(draw, radiator, ahead)
    return Project(
        title=f"Invented pack {seed}",
        nose=_nose(draw, cores, ahead),
        parts=(*cores, *behind),
        engine=_engine(draw, radiator),
        environment=_environment(draw),
        cases=(_case(draw, has_fan=any(isinstance(p, Fan) for p in behind)),),
    )


def _construction(row, inner=None, **more) -> Construction:
    names = (
        "tube_pitch_mm",
        "tube_thickness_mm",
        "fin_height_mm",
        "fin_pitch_mm",
        "louvre_pitch_mm",
        "louvre_length_mm",
        "louvre_angle_deg",
        "fin_thickness_mm",
        "tube_rows",
        "tube_depth_mm",
    )
    strip = None
    if inner is not None:
        strip = InnerFin(spacing_mm=inner[0], height_mm=inner[1], thickness_mm=inner[2], strip_length_mm=inner[3])
    return Construction(**dict(zip(names, row, strict=False)), tube_wall_mm=row[11], inner_fin=strip, **more)


def _core(
    draw: _Draw,
    role: CoreRole,
    size_mm: tuple[float, float],
    at_mm: tuple[float, float, float],
    built: Construction,
    depth_mm: float,
    *,
    tank_mm: float,
    passes: int = 1,
    tilted: bool = False,
    heat_w: float | None = None,
) -> Core:
    """Return a core of that height and width as seen from ahead, tanks at the ends of its tubes, side plates now and then."""
    tubes = draw.random.choice(list(TubeDirection))
    turns = draw.random.choice([0, 0, 0, 1, 2, 3])
    width_mm, height_mm = size_mm if turns % 2 == 0 else size_mm[::-1]
    w, h = width_mm / 2, height_mm / 2
    plate_mm = draw.grid_mm if draw.chance(0.3) else 0.0
    side, end = (tank_mm, plate_mm) if tubes is TubeDirection.CROSS_FLOW else (plate_mm, tank_mm)
    # A tilt shortens heights in the picture; the true ones are longer, so that the picture stays on the grid.
    longer = 1.0 / TILT_COSINE if tilted else 1.0
    if turns % 2:
        w, side = w * longer, side * longer
    else:
        h, end = h * longer, end * longer
    rects = [(-w - side, -h, -w, h), (w, -h, w + side, h), (-w, -h - end, w, -h), (-w, h, w, h + end)]
    kinds = (SolidKind.TANK, SolidKind.SIDE_PLATE)
    if tubes is TubeDirection.DOWN_FLOW:
        kinds = kinds[::-1]
    solids = tuple(
        Solid(
            kind=kinds[n // 2], rect=Rect(u_min_mm=r[0], v_min_mm=r[1], u_max_mm=r[2], v_max_mm=r[3]), depth_mm=depth_mm
        )
        for n, r in enumerate(rects)
        if r[2] > r[0] and r[3] > r[1]
    )
    ports = ()
    if draw.chance(0.6):
        u, v = draw.random.choice([-1, 1]) * 0.9 * w, draw.random.choice([-1, 1]) * 0.9 * h
        ports = (Port(purpose=PortPurpose.INLET, u_mm=u, v_mm=v, facing=Facing.REAR, bore_mm=40.0),)
    return Core(
        id=role.value,
        name=f"Invented {role.value}",
        role=role,
        placement=Placement(
            x_mm=at_mm[0],
            y_mm=at_mm[1],
            z_mm=at_mm[2],
            quarter_turns=turns,
            flipped=draw.chance(0.3),
            tilt_deg=math.degrees(math.acos(TILT_COSINE)) if tilted else 0.0,
        ),
        depth_mm=depth_mm,
        overall=Rect(u_min_mm=-w - side, v_min_mm=-h - end, u_max_mm=w + side, v_max_mm=h + end),
        core_width_mm=2 * w,
        core_height_mm=2 * h,
        solids=solids,
        tubes=tubes,
        passes=passes,
        ports=ports,
        description=CoreDescription(core_type=_TYPE_OF[role], construction=built),
        given_heat_w=heat_w,
    )


_TYPE_OF = {
    CoreRole.RADIATOR: CoreType.ALUMINIUM_ONE_ROW,
    CoreRole.CONDENSER: CoreType.PARALLEL_FLOW_CONDENSER,
    CoreRole.CHARGE_AIR_COOLER: CoreType.BAR_AND_PLATE_CHARGE_AIR,
    CoreRole.COOLER: CoreType.PLATE_OIL_COOLER,
}


def _cores(draw: _Draw) -> tuple[Core, ...]:
    row = draw.random.choice(_RADIATORS)
    size = (draw.length(360, 720, 4), draw.length(280, 520, 4))
    built = _construction(
        row,
        metal=CoreMetal.COPPER_BRASS if row[8] == 3 else CoreMetal.ALUMINIUM,
        dimpled_tubes=draw.chance(0.2),
        tube_enhancement_factor=draw.random.choice([1.0, 1.0, 1.2]),
    )
    found = [
        _core(
            draw,
            CoreRole.RADIATOR,
            size,
            (240.0, draw.length(-40, 40), draw.length(-40, 40)),
            built,
            row[10],
            tank_mm=draw.length(40, 60),
            passes=draw.random.choice([1, 1, 2]),
            tilted=draw.chance(0.1),
        )
    ]
    if draw.chance(0.6):
        found.append(_before(draw, CoreRole.CONDENSER, _construction(_CONDENSER), 16.0, x_mm=100.0))
    if draw.chance(0.7):
        row, inner = draw.random.choice(_CHARGE)
        found.append(_before(draw, CoreRole.CHARGE_AIR_COOLER, _construction(row, inner), row[10], x_mm=140.0))
    if draw.chance(0.4):
        x_mm = draw.random.choice([90.0, 120.0, 220.0])
        found.append(
            _before(draw, CoreRole.COOLER, _construction(_RADIATORS[2]), 36.0, x_mm=x_mm, heat_w=draw.number(1e3, 6e3))
        )
    return tuple(found)


def _before(
    draw: _Draw, role: CoreRole, built: Construction, depth_mm: float, *, x_mm: float, heat_w: float | None = None
) -> Core:
    small = role is CoreRole.COOLER
    size = (draw.length(160, 320 if small else 640, 4), draw.length(80, 240 if small else 440, 4))
    return _core(
        draw,
        role,
        size,
        (x_mm, draw.length(-160, 160), draw.length(-160, 160)),
        built,
        depth_mm,
        tank_mm=draw.length(20, 60),
        passes=draw.random.choice([1, 1, 2]) if role is CoreRole.CHARGE_AIR_COOLER else 1,
        heat_w=heat_w,
    )


def _nose(draw: _Draw, cores: tuple[Core, ...], ahead_mm: float) -> Nose:
    openings = []
    bottom = draw.length(-260, -60)
    for number in range(draw.random.choice([1, 1, 2])):
        width, height = draw.length(320, 760), draw.length(100, 320)
        left = draw.length(-width / 2 - 60, -width / 2 + 60)
        openings.append(
            Opening(
                id=f"opening-{number + 1}",
                name="Invented opening",
                outline=rectangle_outline(left, bottom, left + width, bottom + height),
                x_mm=draw.random.choice([0.0, 20.0]),
                free_area_frac=draw.random.choice([0.4, 0.6, 0.8, 1.0]),
            )
        )
        bottom += height + draw.length(0, 120)
    window = None
    if draw.chance(0.4):
        y, z = draw.length(240, 460), draw.length(200, 360)
        window = SupportWindow(outline=rectangle_outline(-y, -z, y, z), x_mm=200.0)
    obstructions = ()
    if draw.chance(0.35):
        low, across = draw.length(-160, 100), draw.length(100, 460)
        front, rear = draw.random.choice([(30.0, ahead_mm - 10.0), (30.0, ahead_mm - 10.0), (200.0, 230.0)])
        obstructions = (
            Obstruction(
                id="beam",
                name="Invented beam",
                outline=rectangle_outline(-across, low, across, low + draw.length(20, 120)),
                x_front_mm=front,
                x_rear_mm=rear,
            ),
        )
    return Nose(openings=tuple(openings), support_window=window, obstructions=obstructions)


def _shrouds_and_fans(draw: _Draw, radiator: Core, ahead_mm: float) -> tuple[Shroud | Fan, ...]:
    at, turned = radiator.placement, radiator.placement.quarter_turns % 2
    cos = math.cos(math.radians(at.tilt_deg))
    width, height = radiator.core_width_mm, radiator.core_height_mm
    width, height = (height, width) if turned else (width, height)
    # As seen from ahead, where a tilt shortens heights.
    height = round(height * cos / draw.grid_mm) * draw.grid_mm
    width = round(width / draw.grid_mm) * draw.grid_mm
    kind = draw.random.choice(["none", "one", "one", "one", "two", "two", "bare", "pusher"])
    if kind == "none":
        return ()
    if kind in ("bare", "pusher"):
        x_mm = 300.0 if kind == "bare" else ahead_mm - 70.0
        place = (x_mm, at.y_mm + draw.length(-80, 80), at.z_mm + draw.length(-60, 60))
        return (_fan(draw, 1, place, draw.number(240, 420)),)
    parts: list[Shroud | Fan] = []
    # Depths come from a stream of their own: all else about pack number so-and-so stays as it was.
    deep = random.Random(f"depths of pack {draw.seed}")
    if kind == "one":
        share = draw.random.choice([1.0, 1.0, 0.75])
        spans = [(at.y_mm - width / 2, at.y_mm - width / 2 + _on_grid(draw, share * width))]
    else:
        middle = at.y_mm + draw.length(-80, 80)
        gap = draw.length(0, 40)
        spans = [(at.y_mm - width / 2, middle), (middle + gap, at.y_mm + width / 2)]
    for left, right in spans:
        tall = height if draw.chance(0.7) else height - draw.length(40, 120, 2)
        shroud_id = f"shroud-{len(parts) + 1}"
        parts.append(
            Shroud(
                id=shroud_id,
                name="Invented shroud",
                placement=Placement(x_mm=290.0, y_mm=(left + right) / 2, z_mm=at.z_mm),
                depth_mm=deep.choice([80.0, 80.0, 30.0, 120.0]),
                width_mm=right - left,
                height_mm=tall,
                flap_area_mm2=draw.number(5e3, 3e4) if draw.chance(0.2) else 0.0,
            )
        )
        for fan in range(draw.random.choice([1, 1, 2])):
            y_mm = (left + right) / 2 + (fan - 0.5 if len(spans) == 1 else 0.0) * 60.0
            x_mm = deep.choice([330.0, 330.0, 300.0, 310.0, 360.0])
            parts.append(_fan(draw, len(parts) + 1, (x_mm, y_mm, at.z_mm), draw.number(240, 400)))
    return tuple(parts)


def _on_grid(draw: _Draw, length_mm: float) -> float:
    return draw.grid_mm * round(length_mm / draw.grid_mm)


def _fan(draw: _Draw, number: int, at_mm: tuple[float, float, float], diameter_mm: float) -> Fan:
    most, free = draw.number(150, 350), draw.number(0.4, 1.3)
    bent = draw.number(0.2, 1.0)
    flows = [free * n / 5 for n in range(6)]
    points = tuple(
        FanPoint(flow_m3_s=q, pressure_pa=max(most * (1 - (1 - bent) * q / free - bent * (q / free) ** 2), 0.0))
        for q in flows
    )
    belt = draw.chance(0.15)
    return Fan(
        id=f"fan-{number}",
        name="Invented fan",
        placement=Placement(x_mm=at_mm[0], y_mm=at_mm[1], z_mm=at_mm[2]),
        depth_mm=60.0,
        ring_diameter_mm=diameter_mm,
        curve=points,
        rated_voltage_v=13.0,
        drive=FanDrive.BELT if belt else FanDrive.ELECTRIC,
        drive_ratio_factor=draw.number(0.8, 1.3) if belt else None,
        curve_speed_rpm=2400.0 if belt else None,
        clutch_slip_frac=draw.random.choice([0.0, 0.1, 0.8]) if belt else 0.0,
    )


def _engine(draw: _Draw, radiator: Core) -> EngineSheet:
    face_m2 = radiator.core_width_mm * radiator.core_height_mm * 1e-6
    return EngineSheet(
        heat_to_coolant_w=face_m2 * draw.number(4e4, 1.8e5),
        coolant_flow_m3_s=face_m2 * draw.number(4e-3, 9e-3),
        top_tank_limit_degc=draw.number(98.0, 112.0),
        glycol_frac=draw.random.choice([0.3, 0.4, 0.5, 0.6]),
        charge_flow_kg_s=draw.number(0.05, 0.25),
        charge_inlet_degc=draw.number(120.0, 190.0),
        charge_inlet_pa=draw.number(1.8e5, 3e5),
        charge_reference_ambient_degc=25.0,
        condenser_heat_w=draw.number(3e3, 1.1e4),
    )


def _environment(draw: _Draw) -> Environment:
    def now_and_then(share: float) -> Seal | None:
        return draw.random.choice(list(Seal)) if draw.chance(share) else None

    return Environment(
        design_ambient_degc=38.0,
        ram_recovery_frac=draw.number(0.7, 1.0),
        exit_pressure_factor=draw.number(-0.3, 0.1),
        bay_loss_factor=draw.number(1.5, 5.0),
        jet_spread_deg=0.0,
        seal=draw.random.choice(list(Seal)),
        seal_top=now_and_then(0.2),
        seal_bottom=now_and_then(0.2),
        seal_left=now_and_then(0.2),
        seal_right=now_and_then(0.2),
        supply_voltage_v=draw.number(10.0, 14.0) if draw.chance(0.4) else None,
        opening_closed_off=draw.chance(0.5),
        dirty_core=draw.chance(0.3),
        surface_heat_w=draw.random.choice([0.0, 0.0, 2000.0]),
    )


def _case(draw: _Draw, *, has_fan: bool) -> DutyCase:
    """Return a day; something always moves the air: the road, or a fan."""
    fans_on = draw.chance(0.8)
    slow = [0.0, 0.0, draw.number(0.0, 12.0)] if has_fan and fans_on else [draw.number(6.0, 12.0)]
    return DutyCase(
        id="case-1",
        name="Invented day",
        road_speed_m_s=draw.random.choice([*slow, draw.number(12.0, 35.0), draw.number(12.0, 35.0)]),
        heat_frac=draw.number(0.2, 1.0),
        coolant_frac=draw.number(0.3, 1.0),
        charge_frac=draw.number(0.2, 1.0),
        ambient_degc=draw.number(-10.0, 48.0),
        altitude_m=draw.random.choice([0.0, draw.number(0.0, 3500.0)]),
        air_conditioning_on=draw.chance(0.6),
        fans_on=fans_on,
        engine_speed_rpm=draw.number(700.0, 3500.0),
    )
