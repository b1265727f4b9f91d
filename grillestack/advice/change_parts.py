"""What could be exchanged for another part of the catalogue: the fans for stronger ones, the radiator for a thicker or larger one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from grillestack.advice.change import Candidate, Change, Situation
from grillestack.advice.change_shroud import covering, covers
from grillestack.advice.room import window_bounds
from grillestack.assess.fan_figures import fan_figures
from grillestack.geometry.projection import project_part
from grillestack.model import edits
from grillestack.model.parts import Core, CoreRole, Fan, FanDrive, Placement
from grillestack.model.project import Project, fans, radiator, shrouds
from grillestack.physics.fan_curve import fan_pressure_pa

_CATALOGUE_AIR_KG_M3: Final = 1.2
# A stronger fan gives more pressure at each of these shares of the present one's free flow.
_COMPARED_AT_FRAC: Final = (0.5, 0.75, 1.0)
# A core counts as thicker, not larger, while its face stays within these shares of the present one.
_SAME_FACE_FRAC: Final = (0.9, 1.05)
_THICKER_MM: Final = 5.0


def stronger_fans(situation: Situation) -> Iterator[Candidate]:
    """Exchange each fan for the next stronger one that fits in its place, equal fans alike."""
    project = situation.project
    exchanged: list[tuple[Fan, Fan]] = []
    for equal in _equal_fans(situation.project):
        for entry in _stronger(situation, equal[0]):
            pairs = [(old, replace(entry, id=old.id, placement=old.placement)) for old in equal]
            changed = project
            for _old, new in pairs:
                changed = edits.replace_part(changed, new)
            if all(_ring_stays_in_its_shroud(project, *pair) for pair in pairs) and situation.has_room(changed):
                project = changed
                exchanged += pairs
                break
    if exchanged:
        names = ", ".join(dict.fromkeys(f"“{new.name}”" for _old, new in exchanged))
        yield Candidate(
            kind="fans",
            title=f"Take the next stronger fan{'s' if len(exchanged) > 1 else ''}: {names}",
            words=_what_they_draw(situation, [old for old, _ in exchanged], [new for _, new in exchanged]),
            project=project,
            parts=tuple(old.id for old, _ in exchanged),
        )


def other_radiators(situation: Situation) -> Iterator[Candidate]:
    """Exchange the radiator for a thicker or a larger one that fits."""
    old = radiator(situation.project)
    if old is None:
        return
    for entry in situation.catalogue:
        if not isinstance(entry, Core) or entry.role is not CoreRole.RADIATOR:
            continue
        face = _face_mm2(entry) / _face_mm2(old)
        larger = face > _SAME_FACE_FRAC[1]
        thicker = face >= _SAME_FACE_FRAC[0] and entry.depth_mm >= old.depth_mm + _THICKER_MM
        if not (larger or thicker):
            continue
        changed = _with_radiator(situation.project, old, entry)
        if situation.has_room(changed):
            yield Candidate(
                kind="larger radiator" if larger else "thicker radiator",
                title=f"Take a {'larger' if larger else 'thicker'} radiator: “{entry.name}”",
                words=_what_it_is(situation, old, entry),
                project=changed,
                parts=(old.id,),
            )


CHANGES: tuple[Change, ...] = (stronger_fans, other_radiators)


def _equal_fans(project: Project) -> list[list[Fan]]:
    alike: dict[Fan, list[Fan]] = {}
    for fan in fans(project):
        alike.setdefault(replace(fan, id="fan", placement=Placement()), []).append(fan)
    return list(alike.values())


def _stronger(situation: Situation, old: Fan) -> list[Fan]:
    """Return the stronger electric fans of the catalogue, weakest first."""
    curve = fan_figures(old).curve
    if curve is None:
        return []
    free_m3_s = _free_flow_m3_s(old)
    found = []
    for entry in situation.catalogue:
        its = fan_figures(entry).curve if isinstance(entry, Fan) else None
        if not isinstance(entry, Fan) or its is None or not _same_supply(entry, old):
            continue
        if all(
            fan_pressure_pa(its, share * free_m3_s, 1.0, _CATALOGUE_AIR_KG_M3)
            > fan_pressure_pa(curve, share * free_m3_s, 1.0, _CATALOGUE_AIR_KG_M3) + 1.0
            for share in _COMPARED_AT_FRAC
        ):
            found.append(entry)
    return sorted(found, key=_free_flow_m3_s)


def _same_supply(one: Fan, other: Fan) -> bool:
    """Return whether one electric fan can run on what the other runs on; a belt fan is no fan of the catalogue's."""
    volts = (one.rated_voltage_v, other.rated_voltage_v)
    electric = one.drive is other.drive is FanDrive.ELECTRIC
    return electric and (None in volts or volts[0] == volts[1])


def _free_flow_m3_s(fan: Fan) -> float:
    return max((point.flow_m3_s for point in fan.curve), default=fan.free_flow_m3_s or 0.0)


def _ring_stays_in_its_shroud(project: Project, old: Fan, new: Fan) -> bool:
    """Return whether the new ring stands no further out of the shroud round it than the old one."""
    was, now = project_part(old).outline_box, project_part(new).outline_box
    around = [box for shroud in shrouds(project) if (box := project_part(shroud).outline_box).holds(*_centre(old))]
    return all(
        now.y0_mm >= min(box.y0_mm, was.y0_mm)
        and now.z0_mm >= min(box.z0_mm, was.z0_mm)
        and now.y1_mm <= max(box.y1_mm, was.y1_mm)
        and now.z1_mm <= max(box.z1_mm, was.z1_mm)
        for box in around
    )


def _centre(fan: Fan) -> tuple[float, float]:
    return fan.placement.y_mm, fan.placement.z_mm


def _what_they_draw(situation: Situation, old: list[Fan], new: list[Fan]) -> str:
    ring, its = (max(fan.ring_diameter_mm for fan in group) for group in (new, old))
    rings = f"The ring grows from {situation.length(its)} to {situation.length(ring)}."
    if ring <= its:
        rings = "It stands in the same ring place."
    before, after = (_current_a(group) for group in (old, new))
    if before is None or after is None:
        return f"{rings} Check alternator, wires and fuses for what they draw."
    return f"{rings} Together they draw {after:.0f} A instead of {before:.0f} A: check alternator, wires and fuses."


def _current_a(group: list[Fan]) -> float | None:
    known = [fan.running_current_a for fan in group]
    return None if None in known else sum(amps for amps in known if amps is not None)


def _face_mm2(core: Core) -> float:
    return core.core_width_mm * core.core_height_mm


def _with_radiator(project: Project, old: Core, entry: Core) -> Project:
    """Return the project with that radiator in the old one's place; what stands behind it makes room and its shroud follows."""
    new = _into_the_window(project, replace(entry, id=old.id, placement=old.placement))
    deeper_mm = max(new.depth_mm - old.depth_mm, 0.0)
    behind = [part.id for part in project.parts if part.placement.x_mm > old.placement.x_mm]
    changed = edits.move_parts(edits.replace_part(project, new), behind, dx_mm=deeper_mm)
    present = shrouds(changed)
    if len(present) == 1 and covers(shrouds(project)[0], old):
        changed = edits.replace_part(changed, covering(present[0], new))
    return changed


def _into_the_window(project: Project, core: Core) -> Core:
    window = project.nose.support_window
    if window is None:
        return core
    hole, box, at = window_bounds(window), project_part(core).outline_box, core.placement
    dy_mm = _shift_mm(box.y0_mm, box.y1_mm, hole.y0_mm, hole.y1_mm)
    dz_mm = _shift_mm(box.z0_mm, box.z1_mm, hole.z0_mm, hole.z1_mm)
    return replace(core, placement=replace(at, y_mm=at.y_mm + dy_mm, z_mm=at.z_mm + dz_mm))


def _shift_mm(low_mm: float, high_mm: float, from_mm: float, to_mm: float) -> float:
    """Return the shortest shift that brings one stretch into the other; none if it is too long for it."""
    if high_mm - low_mm > to_mm - from_mm:
        return 0.0
    return max(from_mm - low_mm, 0.0) + min(to_mm - high_mm, 0.0)


def _what_it_is(situation: Situation, old: Core, new: Core) -> str:
    words = f"Core {_size(situation, new)} in place of {_size(situation, old)}"
    deeper_mm = new.depth_mm - old.depth_mm
    words += f"; all behind it moves back {situation.length(deeper_mm)}." if deeper_mm > 0 else "."
    if new.tubes is not old.tubes:
        words += " Its tanks lie on the other sides."
    return words


def _size(situation: Situation, core: Core) -> str:
    return " × ".join(situation.length(size) for size in (core.core_width_mm, core.core_height_mm, core.depth_mm))
