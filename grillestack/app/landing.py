"""Where does a part from the shelf land: at the depth where the trade puts its kind, with room made behind it."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.model.edits import add_part, move_parts
from grillestack.model.parts import Core, CoreRole, Fan, Part, Shroud
from grillestack.model.project import Project, fans, radiator, shrouds

USUAL_GAP_MM = 15.0  # common practice, from memory: 10–25 mm between cores with sealed edges
CORE_TO_FAN_MM = 25.0  # at least 13, better 25–50, as a summary of published advice has it
FIRST_STATION_MM = 40.0  # clear of the grille's own bars; common practice, no source
BESIDE_MM = 4.0  # between two fan rings in one shroud; common practice, no source

_CORE_RANK = {CoreRole.CONDENSER: 0, CoreRole.CHARGE_AIR_COOLER: 1, CoreRole.COOLER: 2, CoreRole.RADIATOR: 3}
_SHROUD_RANK = 4
_FAN_RANK = 5


def land_part(project: Project, part: Part, at: tuple[float, float] | None = None) -> tuple[Project, str]:
    """Return the project with the part added at its usual depth, and the new id; `at` is y and z in mm if a hand chose them.

    Cores of a kind that stands further back make room if they must; the part keeps its turn, flip and tilt.
    """
    x_mm, y_mm, z_mm = _station(project, part)
    if at is not None:
        y_mm, z_mm = at
    placement = replace(part.placement, x_mm=x_mm, y_mm=y_mm, z_mm=z_mm)
    behind = _behind(project, part)
    short_mm = _room_wanted(project, part, x_mm, behind)
    if short_mm > 0:
        project = move_parts(project, [p.id for p in behind], dx_mm=short_mm)
    return add_part(project, part, placement)


def usual_rank(part: Part) -> int:
    """Return how far back the trade puts this kind of part: condenser first, fan last."""
    if isinstance(part, Core):
        return _CORE_RANK[part.role]
    return _SHROUD_RANK if isinstance(part, Shroud) else _FAN_RANK


def nose_centre(project: Project) -> tuple[float, float]:
    """Return y and z of the middle of all openings, or of the radiator, or of the vehicle's axis."""
    points = [point for opening in project.nose.openings for point in opening.outline]
    if points:
        ys, zs = [p.y_mm for p in points], [p.z_mm for p in points]
        return (min(ys) + max(ys)) / 2, (min(zs) + max(zs)) / 2
    core = radiator(project)
    return (core.placement.y_mm, core.placement.z_mm) if core else (0.0, 0.0)


def _station(project: Project, part: Part) -> tuple[float, float, float]:
    core = radiator(project)
    if isinstance(part, Shroud) and core is not None:
        return _rear(core), core.placement.y_mm, core.placement.z_mm
    if isinstance(part, Fan):
        return _fan_station(project, part)
    y_mm, z_mm = nose_centre(project)
    ahead = [p for p in project.parts if usual_rank(p) <= usual_rank(part)]
    behind = _behind(project, part)
    grille = project.nose.stations.grille_x_mm
    if ahead:
        return max(_rear(p) for p in ahead) + USUAL_GAP_MM, y_mm, z_mm
    if behind:
        front = min(p.placement.x_mm for p in behind) - USUAL_GAP_MM - part.depth_mm
        return max(front, grille + USUAL_GAP_MM), y_mm, z_mm
    return grille + FIRST_STATION_MM, y_mm, z_mm


def _fan_station(project: Project, fan: Fan) -> tuple[float, float, float]:
    boxes = shrouds(project)
    if boxes:
        box = boxes[-1].placement
        x_mm = max(box.x_mm, _rear(boxes[-1]) - fan.depth_mm)
        y_mm, z_mm = _free_seat(project, boxes[-1], fan)
        return x_mm, box.y_mm + y_mm, box.z_mm + z_mm
    core = radiator(project)
    if core is not None:
        return _rear(core) + CORE_TO_FAN_MM, core.placement.y_mm, core.placement.z_mm
    y_mm, z_mm = nose_centre(project)
    rear = max((_rear(p) for p in project.parts), default=project.nose.stations.grille_x_mm)
    return rear + CORE_TO_FAN_MM, y_mm, z_mm


def _free_seat(project: Project, box: Shroud, fan: Fan) -> tuple[float, float]:
    """Return the first free seat, from the shroud's centre, of as many equal seats as fit along its longer side."""
    turned = box.placement.quarter_turns % 2 == 1
    width, height = (box.height_mm, box.width_mm) if turned else (box.width_mm, box.height_mm)
    longer = max(width, height)
    count = max(1, int(longer // (fan.ring_diameter_mm + BESIDE_MM)))
    offsets = sorted(((i + 0.5) * longer / count - longer / 2 for i in range(count)), key=lambda o: (abs(o), -o))
    seats = [(o, 0.0) if width >= height else (0.0, o) for o in offsets]
    for dy, dz in seats:
        at = (box.placement.y_mm + dy, box.placement.z_mm + dz)
        if all(_apart(other, at) >= (other.ring_diameter_mm + fan.ring_diameter_mm) / 2 for other in fans(project)):
            return dy, dz
    return 0.0, 0.0


def _apart(fan: Fan, at: tuple[float, float]) -> float:
    return float(((fan.placement.y_mm - at[0]) ** 2 + (fan.placement.z_mm - at[1]) ** 2) ** 0.5)


def _behind(project: Project, part: Part) -> list[Part]:
    return [p for p in project.parts if usual_rank(p) > usual_rank(part)]


def _room_wanted(project: Project, part: Part, x_mm: float, behind: list[Part]) -> float:
    """Return how far those behind a new core must give way; a shroud has its fans inside and needs no room."""
    if not isinstance(part, Core) or not behind:
        return 0.0
    first_behind = min(p.placement.x_mm for p in behind)
    last_ahead = max((p.placement.x_mm for p in project.parts if p not in behind), default=first_behind)
    if first_behind < last_ahead:
        return 0.0  # an order of the user's own: leave it alone
    return x_mm + part.depth_mm + USUAL_GAP_MM - first_behind


def _rear(part: Part) -> float:
    return part.placement.x_mm + part.depth_mm
