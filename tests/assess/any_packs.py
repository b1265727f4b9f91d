"""Any pack by number: what the independent judge's invented packs leave out is put on top, each now and then.

Cores in any pose and described in any of the four ways, oil and coolant in further coolers, rounded noses and spreading air,
openings that miss the pack, packs without any air, next to no tube flow, thin air.
"""

from __future__ import annotations

import math
import random

from msgspec.structs import replace

from grillestack.model.nose import Nose, SupportWindow
from grillestack.model.outline import Point, rectangle_outline
from grillestack.model.parts import Core, CoreRole, Fan, Part, Shroud, TubeFluid
from grillestack.model.project import Project
from tests.assess.measured import described, rating_of, table_of
from tests.independent.random_packs import random_pack

_GRID_MM = 2.0


def any_pack(seed: int) -> Project:
    """Return pack number `seed`."""
    draw = random.Random(f"any pack {seed}")
    project = random_pack(seed, _GRID_MM)
    parts = tuple(_any_part(draw, part) for part in project.parts)
    return replace(
        project,
        parts=parts,
        nose=_any_nose(draw, project.nose),
        environment=replace(
            project.environment,
            jet_spread_deg=draw.choice([0.0, 7.0, 7.0, 15.0]),
            altitude_m=draw.uniform(0.0, 4500.0),
            supply_voltage_v=draw.choice([None, draw.uniform(8.0, 15.0)]),
        ),
        cases=(_any_case(draw, project),),
    )


def _any_part(draw: random.Random, part: Part) -> Part:
    moved = replace(
        part.placement,
        y_mm=part.placement.y_mm + draw.choice([0.0, draw.uniform(-150.0, 150.0)]),
        z_mm=part.placement.z_mm + draw.choice([0.0, draw.uniform(-150.0, 150.0)]),
    )
    if isinstance(part, Core):
        moved = replace(
            moved,
            quarter_turns=draw.randrange(4),
            flipped=draw.random() < 0.5,
            tilt_deg=draw.choice([0.0, 0.0, draw.uniform(-30.0, 30.0)]),
        )
        part = replace(_any_description(draw, part), passes=draw.choice([1, 1, 2, 3]))
        if part.role is CoreRole.COOLER and draw.random() < 0.6:
            part = _with_what_flows_in(draw, part)
    elif isinstance(part, Shroud):
        part = replace(part, flap_area_mm2=draw.choice([0.0, 0.0, draw.uniform(1e3, 6e4)]))
    elif isinstance(part, Fan) and draw.random() < 0.2:
        # Before, between or behind the cores, at the shroud or away from it.
        moved = replace(moved, x_mm=draw.uniform(0.0, 400.0))
    return replace(part, placement=moved)


def _any_description(draw: random.Random, core: Core) -> Core:
    """Return the core described by fins and tubes, by its type alone, by a rating or by a table around what fins and tubes give."""
    known = draw.choice(["construction", "construction", "type", "rating", "table"])
    if known == "construction":
        return core
    if known == "type":
        return replace(core, description=replace(core.description, construction=None))
    hot_degc, flow_kg_s, factor = draw.uniform(80.0, 140.0), draw.uniform(0.1, 1.5), draw.uniform(0.7, 1.2)
    if known == "rating":
        loss = draw.choice([None, draw.uniform(0.5, 2.0)])
        return described(
            core, rating=rating_of(core, 4.0, 30.0, hot_degc, flow_kg_s, heat_factor=factor, loss_factor=loss)
        )
    return described(core, table=table_of(core, hot_degc - 25.0, flow_kg_s, heat_factor=factor))


def _with_what_flows_in(draw: random.Random, core: Core) -> Core:
    fluid = draw.choice(list(TubeFluid))
    return replace(
        core,
        given_heat_w=None,
        tube_fluid=fluid,
        tube_inlet_degc=draw.uniform(40.0, 140.0),
        tube_flow_m3_s=draw.uniform(5e-6, 6e-4),
    )


def _any_nose(draw: random.Random, nose: Nose) -> Nose:
    kind = draw.choice(["as it is"] * 5 + ["rounded"] * 3 + ["sloping", "far off", "walled up", "narrow"])
    if kind == "rounded":
        return replace(
            nose,
            openings=tuple(replace(o, corner_radii_mm=_radii(draw, o.outline)) for o in nose.openings),
            obstructions=tuple(replace(o, corner_radii_mm=_radii(draw, o.outline)) for o in nose.obstructions),
            support_window=nose.support_window
            and replace(nose.support_window, corner_radii_mm=_radii(draw, nose.support_window.outline)),
        )
    if kind == "sloping":
        return replace(nose, openings=tuple(replace(o, outline=_leaning(draw, o.outline)) for o in nose.openings))
    if kind == "far off":
        return replace(
            nose,
            openings=tuple(
                replace(o, outline=tuple(Point(y_mm=p.y_mm + 900.0, z_mm=p.z_mm) for p in o.outline))
                for o in nose.openings
            ),
        )
    if kind == "walled up":
        hole = rectangle_outline(1500.0, 1500.0, 1600.0, 1600.0)
        return replace(nose, support_window=SupportWindow(outline=hole, x_mm=200.0))
    if kind == "narrow":
        slit = rectangle_outline(-5.0, -5.0, 5.0, 5.0)
        return replace(nose, openings=(replace(nose.openings[0], outline=slit),))
    return nose


def _radii(draw: random.Random, outline: tuple[Point, ...]) -> tuple[float, ...]:
    y, z = [p.y_mm for p in outline], [p.z_mm for p in outline]
    room = min(max(y) - min(y), max(z) - min(z)) / 2
    return (draw.uniform(0.1, 0.99) * room,) * len(outline)


def _leaning(draw: random.Random, outline: tuple[Point, ...]) -> tuple[Point, ...]:
    lean = draw.uniform(-0.5, 0.5)
    return tuple(Point(y_mm=p.y_mm + lean * p.z_mm, z_mm=p.z_mm) for p in outline)


def _any_case(draw: random.Random, project: Project):
    case = replace(
        project.cases[0],
        heat_frac=draw.choice([project.cases[0].heat_frac, draw.uniform(0.01, 1.2)]),
        ambient_degc=draw.uniform(-30.0, 52.0),
        altitude_m=None,
    )
    kind = draw.random()
    if kind < 0.06:
        return replace(case, road_speed_m_s=0.0, fans_on=False)
    if kind < 0.12:
        return replace(case, coolant_frac=math.exp(draw.uniform(math.log(1e-6), math.log(1e-2))))
    if kind < 0.18:
        return replace(case, charge_frac=math.exp(draw.uniform(math.log(1e-6), math.log(1e-2))))
    return case
