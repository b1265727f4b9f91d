"""Invented packs and catalogues for tests of the search: the failing demo with a plain nose, coolers in many sizes."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.outline import Rect, centred_rect
from grillestack.model.parts import Core, CoreRole, Facing, Port, PortPurpose, Solid, SolidKind
from grillestack.model.project import Project
from grillestack.storage.catalogue import bundled_parts
from grillestack.storage.project_file import read_project

DEMOS = Path(__file__).parents[2] / "demo_projects"


def failing() -> Project:
    return read_project(DEMOS / "3-pick-up-fails.grillestack")


def passing() -> Project:
    return read_project(DEMOS / "1-farm-truck-passes.grillestack")


def close() -> Project:
    return read_project(DEMOS / "2-delivery-van-is-close.grillestack")


def coolers() -> list[Core]:
    return [p for p in bundled_parts() if isinstance(p, Core) and p.role is CoreRole.CHARGE_AIR_COOLER]


def a_cooler(part_id: str, width_mm: float, height_mm: float, depth_mm: float = 64.0, tank_mm: float = 50.0) -> Core:
    """Return a bar-and-plate cooler of that core, tanks at both sides, ports out of their ends."""
    w, h = width_mm / 2, height_mm / 2
    tanks = tuple(
        Solid(kind=SolidKind.TANK, rect=Rect(u_min_mm=a, v_min_mm=-h, u_max_mm=b, v_max_mm=h), depth_mm=depth_mm)
        for a, b in ((-w - tank_mm, -w), (w, w + tank_mm))
    )
    ports = tuple(
        Port(purpose=p, u_mm=u, v_mm=0.0, w_mm=depth_mm / 2, facing=f, bore_mm=54.0)
        for p, u, f in (
            (PortPurpose.INLET, -w - tank_mm, Facing.LEFT),
            (PortPurpose.OUTLET, w + tank_mm, Facing.RIGHT),
        )
    )
    return Core(
        id=part_id,
        name=f"Invented cooler {part_id}",
        depth_mm=depth_mm,
        role=CoreRole.CHARGE_AIR_COOLER,
        overall=centred_rect(width_mm + 2 * tank_mm, height_mm),
        core_width_mm=width_mm,
        core_height_mm=height_mm,
        solids=tanks,
        ports=ports,
        description=CoreDescription(core_type=CoreType.BAR_AND_PLATE_CHARGE_AIR),
    )


def scaled(part: Core, number: int, wide: float, high: float) -> Core:
    """Return an invented cooler as another one, wider and higher by these factors."""

    def rect(old: Rect) -> Rect:
        return Rect(
            u_min_mm=old.u_min_mm * wide,
            v_min_mm=old.v_min_mm * high,
            u_max_mm=old.u_max_mm * wide,
            v_max_mm=old.v_max_mm * high,
        )

    return replace(
        part,
        id=f"scaled-{number}",
        name=f"Invented cooler {number}",
        overall=rect(part.overall),
        core_width_mm=part.core_width_mm * wide,
        core_height_mm=part.core_height_mm * high,
        solids=tuple(replace(s, rect=rect(s.rect)) for s in part.solids),
        ports=tuple(replace(p, u_mm=p.u_mm * wide, v_mm=p.v_mm * high) for p in part.ports),
        mounts=tuple(replace(m, u_mm=m.u_mm * wide, v_mm=m.v_mm * high) for m in part.mounts),
    )


def many_coolers(count: int) -> list[Core]:
    """Return so many coolers of sizes between small and far too large."""
    basis = coolers()
    return [
        scaled(basis[k % len(basis)], k, 0.6 + 0.013 * (k // len(basis)), 1.6 - 0.02 * (7 * k % 50))
        for k in range(count)
    ]
