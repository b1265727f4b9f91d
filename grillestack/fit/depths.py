"""At which depths in its slot is a part tried."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from grillestack.fit.slots import Kind, Slot
from grillestack.geometry.setting import Setting
from grillestack.geometry.taken_space import BODIES, Matter
from grillestack.model.parts import Core
from grillestack.model.project import Project

# Between the least gap and the largest, with room to clean (from memory).
USUAL_GAP_MM: Final = 15.0
# A shroud lies on the core's frame: so much behind the fins.
SHROUD_GAP_MM: Final = 2.0
# Better than the least distance between fan and fins (published, seen in summary).
USUAL_FAN_GAP_MM: Final = 25.0

Floats = NDArray[np.float64]


def depths_mm(project: Project, slot: Slot, setting: Setting, reach: tuple[Floats, Floats, Floats]) -> Floats:
    """Return the depths to try, one row for each way to stand, best first; nan where it would leave its slot.

    Parameters
    ----------
    reach
        How far each part's front and rear stand from its place, and how deep its core is [mm].

    Notes
    -----
    Cores stand at the usual gap ahead of what is behind them, where the taken-out part stood, at the least gap, likewise
    behind what is ahead of them, likewise with single pieces of these, wholly ahead of the support plate, or just behind an obstruction. A radiator stands as far
    ahead of its shroud as a shroud's flange asks for; a fan at the better or the least distance behind the fins.
    """
    front, rear, depth = reach
    last, first = _edge(setting, slot.behind, front=True), _edge(setting, slot.ahead, front=False)
    rows: list[Floats] = []
    at = project.part(slot.taken_out).placement.x_mm if slot.taken_out else None
    clear = setting.clearances
    if slot.kind in (Kind.FAN, Kind.SHROUD):
        first = _fins_rear(setting, slot, first)
    if slot.kind is Kind.FAN:
        rows += [first + gap - front for gap in (USUAL_FAN_GAP_MM, clear.fan_mm)]
        if setting.pulley_x_mm is not None:
            rows.append(setting.pulley_x_mm - clear.pulley_mm - rear)
    elif slot.kind is Kind.SHROUD:
        flange = first + SHROUD_GAP_MM - front
        rows += [flange, np.maximum(flange, _edge(setting, slot.ahead, front=False) - front)]
    else:
        gaps = (USUAL_GAP_MM, clear.gap_mm)
        if slot.kind is Kind.RADIATOR:
            rows.append(last - SHROUD_GAP_MM - depth)
        rows += [last - gap - rear for gap in gaps]
        rows += [first + gap - front for gap in gaps]
        # Tanks stand out of their cores: what is small enough may come nearer than they let the others.
        rows += [edge - clear.gap_mm - rear for edge in _core_edges(setting, slot.behind, front=True)]
        rows += [edge + clear.gap_mm - front for edge in _core_edges(setting, slot.ahead, front=False)]
        rows.append(setting.hole_x_mm - rear if setting.hole is not None else np.full_like(rear, np.nan))
        obstructions = sorted(
            {o.rear_mm for o in setting.obstacles if o.matter not in BODIES and o.thing_id not in _ids(project)}
        )
        rows += [x + clear.obstruction_mm - front for x in obstructions]
    if at is not None:
        rows.insert(0 if slot.kind in (Kind.FAN, Kind.SHROUD) else 1, np.full_like(front, at))
    table = np.vstack(rows)
    low, high = _order_limits(project, slot)
    table = np.where((table > low) & (table < high) & np.isfinite(table), table, np.nan)
    for row in range(1, len(table)):
        twin = (np.abs(table[:row] - table[row]) < 1e-6).any(axis=0)
        table[row, twin] = np.nan
    return table


def _ids(project: Project) -> set[str]:
    return {part.id for part in project.parts}


def _edge(setting: Setting, part_ids: tuple[str, ...], *, front: bool) -> float:
    """Return where the cores, shrouds and fans behind begin, or those ahead end; nan if there are none."""
    found = [o for o in setting.obstacles if o.thing_id in part_ids and o.matter in BODIES]
    if not found:
        return float("nan")
    return min(o.front_mm for o in found) if front else max(o.rear_mm for o in found)


def _core_edges(setting: Setting, part_ids: tuple[str, ...], *, front: bool) -> list[float]:
    """Return all places at which a piece of a core behind begins, or of one ahead ends, the nearest first."""
    pieces = [o for o in setting.obstacles if o.thing_id in part_ids and o.matter is Matter.CORE]
    return sorted({o.front_mm for o in pieces}) if front else sorted({o.rear_mm for o in pieces}, reverse=True)


def _fins_rear(setting: Setting, slot: Slot, otherwise_mm: float) -> float:
    """Return where the fins of the rearmost core ahead end: its tanks may stand beside a shroud."""
    fins = [o.rear_mm for o in setting.obstacles if o.thing_id in slot.ahead and o.name == "core"]
    return max(fins, default=otherwise_mm)


def _order_limits(project: Project, slot: Slot) -> tuple[float, float]:
    """Return between which places along x the part keeps its place in the order of the cores."""
    is_core = slot.kind not in (Kind.FAN, Kind.SHROUD)
    ahead = [p.placement.x_mm for i in slot.ahead if isinstance(p := project.part(i), Core)]
    behind = [p.placement.x_mm for i in slot.behind if is_core and isinstance(p := project.part(i), Core)]
    return max(ahead, default=-np.inf), min(behind, default=np.inf)
