"""What surrounds a part in its slot: the nose, the pack without what is taken out, and what it must stay in or cover."""

from __future__ import annotations

from dataclasses import replace

from grillestack.fit.clearances import usual_clearances
from grillestack.fit.slots import Kind, Slot
from grillestack.geometry.projection import Box, project_part
from grillestack.geometry.setting import Setting, setting_of
from grillestack.model.project import Project, fans, radiator, shrouds


def surroundings(project: Project, slot: Slot) -> Setting:
    """Return what surrounds a part in that slot."""
    out = [] if slot.taken_out is None else [slot.taken_out]
    height = project.part(slot.taken_out).placement.z_mm if slot.taken_out else _height(project)
    setting = setting_of(project, out, usual_clearances(), tilt_deg=slot.tilt_deg, lean_z_mm=height)
    return _with_fan_and_shroud(project, slot, setting)


def _height(project: Project) -> float:
    main = radiator(project)
    return 0.0 if main is None else main.placement.z_mm


def _with_fan_and_shroud(project: Project, slot: Slot, setting: Setting) -> Setting:
    """Return the setting in which a fan stays in its shroud, and a shroud covers its core and holds its fans."""
    if slot.kind is Kind.FAN:
        around = _shroud_round(project, slot.taken_out)
        return setting if around is None else replace(setting, inside=around)
    if slot.kind is Kind.SHROUD:
        setting = replace(setting, clearances=replace(setting.clearances, are_brackets_on_core=True))
        main = radiator(project)
        box = project_part(main).core_box if main is not None else None
        held = [] if box is None else [box]
        if slot.taken_out is not None:
            old = project_part(project.part(slot.taken_out)).outline_box
            rings = [project_part(fan).outline_box for fan in fans(project)]
            held += [r for r in rings if old.holds((r.y0_mm + r.y1_mm) / 2, (r.z0_mm + r.z1_mm) / 2)]
        if held:
            return replace(setting, covered=_around(held))
    return setting


def _shroud_round(project: Project, fan_id: str | None) -> Box | None:
    boxes = [project_part(shroud).outline_box for shroud in shrouds(project)]
    if fan_id is None:
        return boxes[0] if boxes else None
    at = project.part(fan_id).placement
    return next((box for box in boxes if box.holds(at.y_mm, at.z_mm)), None)


def _around(boxes: list[Box]) -> Box:
    return Box(
        min(b.y0_mm for b in boxes),
        min(b.z0_mm for b in boxes),
        max(b.y1_mm for b in boxes),
        max(b.z1_mm for b in boxes),
    )
