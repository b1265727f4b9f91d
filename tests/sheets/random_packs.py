"""Packs drawn by lot, as a workshop might lay them out, good and bad: for the placing of dimensions."""

from __future__ import annotations

import random

from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.nose import DepthStations, Nose, Obstruction, Opening, SupportWindow
from grillestack.model.outline import Rect, SidePoint, rectangle_outline
from grillestack.model.parts import (
    Core,
    CoreRole,
    Facing,
    Fan,
    Mount,
    Part,
    Placement,
    Port,
    PortPurpose,
    Shroud,
    Solid,
    SolidKind,
    TubeDirection,
)
from grillestack.model.project import Project
from grillestack.model.sheet_choices import DrawingUnits, Paper, Projection, SheetChoices

_ROLES = {
    CoreRole.CONDENSER: (CoreType.PARALLEL_FLOW_CONDENSER, (14, 22)),
    CoreRole.CHARGE_AIR_COOLER: (CoreType.TUBE_AND_FIN_CHARGE_AIR, (40, 90)),
    CoreRole.COOLER: (CoreType.PLATE_OIL_COOLER, (25, 50)),
    CoreRole.RADIATOR: (CoreType.ALUMINIUM_ONE_ROW, (26, 60)),
}


def random_pack(seed: int) -> Project:
    """Return the pack of that number; equal numbers give equal packs."""
    lot = random.Random(seed)
    parts: list[Part] = []
    x = float(lot.randint(20, 120))
    roles = [CoreRole.CONDENSER, CoreRole.CHARGE_AIR_COOLER, CoreRole.COOLER, CoreRole.RADIATOR]
    for role in roles:
        if role is CoreRole.RADIATOR or lot.random() < 0.65:
            core = _core(lot, role, f"{role.value}-{len(parts) + 1}", x)
            parts.append(core)
            x += core.depth_mm + lot.choice((0.0, 2.0, 10.0, 15.0, 22.5, -5.0))
    middle = parts[-1].placement
    if lot.random() < 0.75:
        width, height = lot.randint(300, 700), lot.randint(250, 550)
        at = Placement(x_mm=x, y_mm=middle.y_mm, z_mm=middle.z_mm)
        parts.append(
            Shroud(
                id=f"shroud-{len(parts) + 1}",
                name="Shroud",
                placement=at,
                depth_mm=lot.randint(40, 110),
                width_mm=width,
                height_mm=height,
                mounts=_corner_mounts(lot, width / 2 - 10, height / 2 - 10),
            )
        )
    fans = lot.choice((0, 1, 1, 2))
    for number in range(fans):
        ring = lot.choice((280.0, 320.0, 385.0, 406.4, 430.0))
        side = 0.0 if fans == 1 else (number - 0.5) * (ring + 10)
        at = Placement(x_mm=x + 45, y_mm=middle.y_mm + side, z_mm=middle.z_mm + lot.choice((0.0, 13.7)))
        parts.append(
            Fan(
                id=f"fan-{len(parts) + 1}",
                name="Fan",
                placement=at,
                depth_mm=lot.randint(55, 95),
                ring_diameter_mm=ring,
                motor_diameter_mm=lot.choice((0.0, 110.0)),
                mounts=_corner_mounts(lot, ring * 0.37, ring * 0.37),
            )
        )
    lot.shuffle(parts)
    return Project(title=f"Invented pack {seed}", nose=_nose(lot, x), parts=tuple(parts), sheet=_choices(lot))


def _choices(lot: random.Random) -> SheetChoices:
    return SheetChoices(
        paper=lot.choice((Paper.A3, Paper.A3, Paper.A2, Paper.A1, Paper.TABLOID, Paper.ANSI_D)),
        projection=lot.choice(tuple(Projection)),
        units=lot.choice(tuple(DrawingUnits)),
    )


def _core(lot: random.Random, role: CoreRole, part_id: str, x_mm: float) -> Core:
    core_type, depths = _ROLES[role]
    small = role is CoreRole.COOLER
    width = lot.randint(180, 320) if small else lot.randint(420, 760)
    height = lot.randint(100, 220) if small else lot.randint(160, 520)
    depth = float(lot.randint(*depths))
    across = lot.random() < 0.75
    tank, plate = float(lot.randint(20, 65)), float(lot.choice((0, 5, 8, 10)))
    u, v = width / 2, height / 2
    over_u, over_v = (tank, plate) if across else (plate, tank)
    overall = Rect(u_min_mm=-u - over_u, v_min_mm=-v - over_v, u_max_mm=u + over_u, v_max_mm=v + over_v)
    ends = (
        [(-u - tank, -v - plate, -u, v + plate), (u, -v - plate, u + tank, v + plate)]
        if across
        else [(-u - plate, -v - tank, u + plate, -v), (-u - plate, v, u + plate, v + tank)]
    )
    solids = tuple(
        Solid(
            kind=SolidKind.TANK,
            rect=Rect(u_min_mm=a, v_min_mm=b, u_max_mm=c, v_max_mm=d),
            front_mm=-float(lot.randint(0, 6)),
            depth_mm=depth + lot.randint(0, 14),
        )
        for a, b, c, d in ends
    )
    place = Placement(
        x_mm=x_mm,
        y_mm=lot.choice((0.0, 0.0, float(lot.randint(-120, 120)), lot.uniform(-60, 60))),
        z_mm=700.0 + lot.choice((0.0, float(lot.randint(-120, 120)), lot.uniform(-50, 50))),
        quarter_turns=lot.choice((0, 0, 0, 1, 2)) if small else lot.choice((0, 0, 0, 2)),
        flipped=lot.random() < 0.15,
        tilt_deg=lot.choice((0.0, 0.0, 0.0, 0.0, 5.0, -12.5)),
    )
    return Core(
        id=part_id,
        name=role.value.replace("-", " ").capitalize(),
        placement=place,
        depth_mm=depth,
        role=role,
        overall=overall,
        core_width_mm=width,
        core_height_mm=height,
        solids=solids,
        tubes=TubeDirection.CROSS_FLOW if across else TubeDirection.DOWN_FLOW,
        description=CoreDescription(core_type=core_type),
        ports=_ports(lot, overall, depth),
        mounts=_corner_mounts(lot, overall.u_max_mm - 9, overall.v_max_mm - lot.choice((0, 9, 12))),
        weight_kg=lot.choice((None, 4.2)),
    )


def _ports(lot: random.Random, overall: Rect, depth_mm: float) -> tuple[Port, ...]:
    purposes = (PortPurpose.INLET, PortPurpose.OUTLET, PortPurpose.VENT)[: lot.choice((0, 2, 2, 3))]
    return tuple(
        Port(
            purpose=purpose,
            u_mm=lot.choice((overall.u_min_mm + 15, overall.u_max_mm - 15)),
            v_mm=lot.choice((overall.v_min_mm + 20, overall.v_max_mm - 20, 0.0)),
            w_mm=depth_mm / 2,
            facing=lot.choice(tuple(Facing)),
            bore_mm=lot.choice((8.0, 38.0, 45.0, 63.5)),
            clock_deg=lot.choice((0.0, 0.0, 30.0)),
            bead_mm=lot.choice((None, 0.0, 2.0)),
        )
        for purpose in purposes
    )


def _corner_mounts(lot: random.Random, u_mm: float, v_mm: float) -> tuple[Mount, ...]:
    if lot.random() < 0.15:
        return ()
    hole = lot.choice((6.5, 7.0, 9.0, 12.7))
    at = ((-u_mm, v_mm), (u_mm, v_mm), (-u_mm, -v_mm), (u_mm, -v_mm))
    return tuple(Mount(u_mm=u, v_mm=v, hole_mm=hole, kind_text="round hole") for u, v in at)


def _nose(lot: random.Random, rear_mm: float) -> Nose:
    wide, low, high = lot.randint(200, 420), lot.randint(380, 560), lot.randint(760, 980)
    opening = Opening(id="opening-1", name="Grille opening", outline=rectangle_outline(-wide, low, wide, high))
    window = SupportWindow(outline=rectangle_outline(-wide - 60, low - 40, wide + 60, high + 40), x_mm=150.0)
    beam = Obstruction(
        id="beam-1",
        name="Bumper beam",
        outline=rectangle_outline(-800, 520, 800, 590),
        x_front_mm=-120.0,
        x_rear_mm=-10.0,
    )
    return Nose(
        name="Invented nose",
        openings=(opening,),
        support_window=window if lot.random() < 0.6 else None,
        obstructions=(beam,) if lot.random() < 0.6 else (),
        stations=DepthStations(
            pulley_x_mm=lot.choice((None, rear_mm + 190.0)),
            bonnet_line=(SidePoint(-60.0, 1060.0), SidePoint(450.0, 1120.0)) if lot.random() < 0.5 else (),
        ),
    )
