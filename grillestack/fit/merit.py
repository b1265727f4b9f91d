"""Which of many parts that fit are worth assessing: a figure from their sizes alone, the same for any order and run."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from grillestack.assess.fan_figures import fan_figures
from grillestack.fit.slots import Kind
from grillestack.geometry.projection import Box, project_part
from grillestack.model.parts import Core, Fan, Part, Shroud
from grillestack.model.project import Project, radiator

# A charge-air cooler of about half the radiator, the rest of it in fresh air, is the usual aim (common practice, no source).
AIM_FRAC: Final = 0.5
# So many parts are assessed at most.
SHORT_LIST: Final = 40


def merit_of(project: Project, kind: Kind, placed: Part) -> float:
    """Return how much a placed part lacks of what is usually aimed at: 0 is best, more is worse.

    Notes
    -----
    With A the part's core, R the radiator's, both seen from ahead, and T what its tanks and plates cover of R, all as
    shares of R: a charge-air cooler |A − 0.5| + T; a condenser max(0, 1 − A) + T; an oil cooler A + T; a radiator
    1/A in m²; a fan 1/(free flow); a shroud what it reaches beyond the radiator's core, as a share of it.
    Without a radiator the part's own size stands for R, and T is 0.
    """
    main = radiator(project)
    if isinstance(placed, Fan):
        curve = fan_figures(placed).curve
        flow = max((point.flow_m3_s for point in placed.curve), default=placed.free_flow_m3_s or 0.0)
        return 1.0 / flow if curve is not None and flow > 0 else 1e9
    if isinstance(placed, Shroud):
        face = 0.0 if main is None else main.core_width_mm * main.core_height_mm
        return abs(placed.width_mm * placed.height_mm - face) / (face or 1.0)
    if kind is Kind.RADIATOR:
        return 1e6 / (placed.core_width_mm * placed.core_height_mm)
    own = placed.core_width_mm * placed.core_height_mm
    its = own if main is None else main.core_width_mm * main.core_height_mm
    area, tanks = own / its, _over_mm2(placed, main) / its
    if kind is Kind.CHARGE_AIR_COOLER:
        return abs(area - AIM_FRAC) + tanks
    return (max(0.0, 1.0 - area) if kind is Kind.CONDENSER else area) + tanks


def short_list(merits: Sequence[tuple[float, str]], most: int = SHORT_LIST) -> tuple[int, ...]:
    """Return the places of those to assess, best first: least merit figure, then by catalogue number."""
    order = sorted(range(len(merits)), key=lambda place: (round(merits[place][0], 9), merits[place][1]))
    return tuple(order[:most])


def _over_mm2(placed: Core, main: Core | None) -> float:
    core = None if main is None else project_part(main).core_box
    if core is None:
        return 0.0
    return sum(_shared_mm2(box, core) for box in project_part(placed).solid_boxes)


def _shared_mm2(one: Box, other: Box) -> float:
    across = min(one.y1_mm, other.y1_mm) - max(one.y0_mm, other.y0_mm)
    up = min(one.z1_mm, other.z1_mm) - max(one.z0_mm, other.z0_mm)
    return max(0.0, across) * max(0.0, up)
