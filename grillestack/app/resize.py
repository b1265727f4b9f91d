"""What becomes of a part made to own sizes when its size changes: tanks, plates, ports and mounts travel with their edge."""

from __future__ import annotations

from typing import TypeVar

from msgspec.structs import replace

from grillestack.model.outline import Rect
from grillestack.model.parts import Core, Mount, Port, Shroud, Solid, SolidKind

Placed = TypeVar("Placed", Port, Mount)


def resize_core(core: Core, width_mm: float, height_mm: float) -> Core:
    """Return the core with that finned area; what sits beyond an edge moves with it and keeps its own size."""
    widths, heights = (core.core_width_mm, width_mm), (core.core_height_mm, height_mm)
    return replace(
        core,
        core_width_mm=width_mm,
        core_height_mm=height_mm,
        overall=_moved_rect(core.overall, widths, heights),
        solids=tuple(replace(s, rect=_moved_rect(s.rect, widths, heights)) for s in core.solids),
        ports=_moved_points(core.ports, widths, heights),
        mounts=_moved_points(core.mounts, widths, heights),
    )


def resize_shroud(shroud: Shroud, width_mm: float, height_mm: float) -> Shroud:
    """Return the shroud with that front face; mounts on an edge move with it."""
    widths, heights = (shroud.width_mm, width_mm), (shroud.height_mm, height_mm)
    return replace(
        shroud,
        width_mm=width_mm,
        height_mm=height_mm,
        ports=_moved_points(shroud.ports, widths, heights),
        mounts=_moved_points(shroud.mounts, widths, heights),
    )


def with_tanks(core: Core, tank_mm: float, plate_mm: float, *, at_the_sides: bool) -> Core:
    """Return the core with two tanks of that width and, if wanted, two side plates on the other edges, and nothing else."""
    half_width, half_height = core.core_width_mm / 2, core.core_height_mm / 2
    side = tank_mm if at_the_sides else plate_mm
    end = plate_mm if at_the_sides else tank_mm
    u, v = half_width + side, half_height + end
    across = (
        Rect(u_min_mm=-u, v_min_mm=-v, u_max_mm=-half_width, v_max_mm=v) if side > 0 else None,
        Rect(u_min_mm=half_width, v_min_mm=-v, u_max_mm=u, v_max_mm=v) if side > 0 else None,
    )
    # The tanks or plates at the sides take the corners, so that no two pieces overlap.
    upright = (
        Rect(u_min_mm=-half_width, v_min_mm=half_height, u_max_mm=half_width, v_max_mm=v) if end > 0 else None,
        Rect(u_min_mm=-half_width, v_min_mm=-v, u_max_mm=half_width, v_max_mm=-half_height) if end > 0 else None,
    )
    kinds = (SolidKind.TANK, SolidKind.SIDE_PLATE) if at_the_sides else (SolidKind.SIDE_PLATE, SolidKind.TANK)
    solids = [Solid(kind=kinds[0], rect=r, depth_mm=core.depth_mm) for r in across if r is not None]
    solids += [Solid(kind=kinds[1], rect=r, depth_mm=core.depth_mm) for r in upright if r is not None]
    return replace(core, overall=Rect(u_min_mm=-u, v_min_mm=-v, u_max_mm=u, v_max_mm=v), solids=tuple(solids))


def _moved_rect(rect: Rect, widths: tuple[float, float], heights: tuple[float, float]) -> Rect:
    return Rect(
        u_min_mm=_moved(rect.u_min_mm, *widths),
        v_min_mm=_moved(rect.v_min_mm, *heights),
        u_max_mm=_moved(rect.u_max_mm, *widths),
        v_max_mm=_moved(rect.v_max_mm, *heights),
    )


def _moved_points(
    points: tuple[Placed, ...], widths: tuple[float, float], heights: tuple[float, float]
) -> tuple[Placed, ...]:
    return tuple(replace(p, u_mm=_moved(p.u_mm, *widths), v_mm=_moved(p.v_mm, *heights)) for p in points)


def _moved(place_mm: float, old_mm: float, new_mm: float) -> float:
    """Return where a place goes: on the core it keeps its share of the size, beyond an edge its distance from the edge."""
    if abs(place_mm) <= old_mm / 2:
        return place_mm * new_mm / old_mm
    return place_mm + (new_mm - old_mm) / 2 * (1 if place_mm > 0 else -1)
