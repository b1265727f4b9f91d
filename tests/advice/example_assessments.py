"""Assessments built by hand from an invented vehicle, one per verdict: figures chosen to be told apart, not computed."""

from __future__ import annotations

import functools
from dataclasses import replace as change

from msgspec.structs import replace

from grillestack.assess.result import (
    Assessment,
    Basis,
    CaseResult,
    CoreFlow,
    FanPointOfWork,
    Finding,
    RadiatorFace,
    Severity,
    Verdict,
    ZoneFlow,
)
from grillestack.geometry.depth import BONNET_LINE, PULLEY_PLANE, Clearance, DepthReport, Gap, StackPlace
from grillestack.geometry.exposure import CoreFace, core_faces
from grillestack.geometry.overlay import build_overlay
from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.engine import EngineSheet, Environment
from grillestack.model.nose import DepthStations, Nose, Obstruction, Opening
from grillestack.model.outline import SidePoint, centred_rect, rectangle_outline
from grillestack.model.parts import Core, CoreRole, Fan, FanPoint, Placement, Shroud
from grillestack.model.project import Project

RADIATOR = Core(
    id="radiator-1",
    name="Crossflow 660",
    placement=Placement(x_mm=180.0, z_mm=640.0),
    depth_mm=56.0,
    role=CoreRole.RADIATOR,
    overall=centred_rect(780.0, 480.0),
    core_width_mm=660.0,
    core_height_mm=440.0,
    description=CoreDescription(core_type=CoreType.ALUMINIUM_TWO_ROW),
)
CHARGE_AIR_COOLER = Core(
    id="charge-air-cooler-1",
    name="Bar-and-plate 550",
    placement=Placement(x_mm=100.0, z_mm=540.0),
    depth_mm=64.0,
    role=CoreRole.CHARGE_AIR_COOLER,
    overall=centred_rect(700.0, 240.0),
    core_width_mm=550.0,
    core_height_mm=220.0,
    description=CoreDescription(core_type=CoreType.BAR_AND_PLATE_CHARGE_AIR),
)
CONDENSER = Core(
    id="condenser-1",
    name="Condenser 600",
    placement=Placement(x_mm=60.0, z_mm=640.0),
    depth_mm=18.0,
    role=CoreRole.CONDENSER,
    overall=centred_rect(640.0, 400.0),
    core_width_mm=600.0,
    core_height_mm=380.0,
    description=CoreDescription(core_type=CoreType.PARALLEL_FLOW_CONDENSER),
)
SHROUD = Shroud(
    id="shroud-1",
    name="Shroud",
    placement=Placement(x_mm=236.0, z_mm=640.0),
    depth_mm=40.0,
    own_sizes=True,
    width_mm=660.0,
    height_mm=440.0,
)
FAN = Fan(
    id="fan-1",
    name="Fan 406",
    placement=Placement(x_mm=262.0, z_mm=640.0),
    depth_mm=70.0,
    ring_diameter_mm=406.0,
    curve=(
        FanPoint(flow_m3_s=0.0, pressure_pa=250.0),
        FanPoint(flow_m3_s=0.6, pressure_pa=150.0),
        FanPoint(flow_m3_s=1.1, pressure_pa=0.0),
    ),
    running_current_a=19.0,
)


def project() -> Project:
    """Return an invented nose with condenser, charge-air cooler, radiator, shroud and fan."""
    return Project(
        title="Invented farm truck",
        nose=Nose(
            name="Invented nose",
            openings=(Opening(id="opening-1", name="Grille", outline=rectangle_outline(-325.0, 425.0, 325.0, 855.0)),),
            obstructions=(
                Obstruction(
                    id="obstruction-1",
                    name="Bumper beam",
                    outline=rectangle_outline(-600.0, 300.0, 600.0, 400.0),
                    x_front_mm=-60.0,
                    x_rear_mm=20.0,
                ),
            ),
            stations=DepthStations(pulley_x_mm=380.0, bonnet_line=(SidePoint(0.0, 920.0), SidePoint(400.0, 960.0))),
        ),
        parts=(CONDENSER, CHARGE_AIR_COOLER, RADIATOR, SHROUD, FAN),
        engine=EngineSheet(name="Invented engine", heat_to_coolant_w=95_000.0, charge_flow_kg_s=0.22),
        environment=Environment(design_ambient_degc=38.0),
    )


def case(number: int = 1, verdict: Verdict = Verdict.PASS, **figures: object) -> CaseResult:
    """Return the result of one of the usual duty cases, all figures known, some given."""
    names = ("Grade pull", "Crawl", "Motorway", "Idle with A/C")
    known: dict[str, object] = {
        "heat_target_w": 95_000.0,
        "heat_capacity_w": 104_500.0,
        "top_tank_degc": 102.0,
        "top_tank_limit_degc": 107.0,
        "limiting_ambient_degc": 43.2,
        "design_ambient_degc": 38.0,
        "air_kg_s": 1.234,
        "face_velocity_m_s": 3.75,
        "effective_mm2": 223_000.0,
        "required_mm2": 201_000.0,
        "charge_out_degc": 61.0,
        "charge_out_limit_degc": 75.0,
        "charge_loss_pa": 6_200.0,
        "charge_loss_limit_pa": 13_500.0,
        "charge_effectiveness_frac": 0.82,
        "condensing_degc": 58.0,
        "recirculated_frac": 0.0,
        "bypassed_frac": 0.06,
        "bay_degc": 71.0,
    }
    return CaseResult(case_id=f"case-{number}", name=names[number - 1], verdict=verdict, **{**known, **figures})  # type: ignore[arg-type]


def radiator_face(**areas: float | None) -> RadiatorFace:
    """Return the radiator's face, some areas given."""
    known: dict[str, float | None] = {
        "core_mm2": 290_400.0,
        "exposed_mm2": 121_000.0,
        "behind_mm2": 150_000.0,
        "blocked_mm2": 9_400.0,
        "off_opening_mm2": 10_000.0,
        "unshrouded_mm2": 0.0,
        "unswept_mm2": 160_900.0,
        "effective_mm2": 223_000.0,
        "required_mm2": 201_000.0,
    }
    return RadiatorFace(part_id="radiator-1", **{**known, **areas})  # type: ignore[arg-type]


def depth() -> DepthReport:
    """Return a depth report in which nothing is too near."""
    return DepthReport(
        stack=(StackPlace("radiator-1", 180.0, 236.0),),
        gaps=(
            Gap("condenser-1", "charge-air-cooler-1", 22.0),
            Gap("charge-air-cooler-1", "radiator-1", 16.0),
            Gap("radiator-1", "shroud-1", 0.0),
            Gap("radiator-1", "fan-1", 26.0),
        ),
        clearances=(
            Clearance("radiator-1", BONNET_LINE, 48.0),
            Clearance("fan-1", PULLEY_PLANE, 48.0),
            Clearance("condenser-1", "obstruction-1", 40.0),
        ),
        overlaps=(),
    )


@functools.cache
def faces() -> dict[str, CoreFace]:
    """Return the faces of the three cores, as geometry finds them."""
    return core_faces(build_overlay(project(), 7.0), project())


def passing() -> Assessment:
    """Return a pack that passes in all duty cases."""
    cases = (
        case(1),
        case(2, limiting_ambient_degc=45.0, top_tank_degc=100.0),
        case(3, limiting_ambient_degc=51.0, top_tank_degc=94.0),
        case(4, limiting_ambient_degc=47.0, top_tank_degc=98.0, recirculated_frac=0.04),
    )
    return Assessment(
        project=project(),
        verdict=Verdict.PASS,
        deciding_case=cases[0],
        radiator=radiator_face(),
        cases=cases,
        faces=faces(),
        depth=depth(),
        remarks=(),
        basis=(
            Basis(
                figure="Radiator's heat", method="type alone with typical values", source="common practice, from memory"
            ),
            Basis(figure="Heat to the coolant", method="the engine maker's installation sheet", source="given"),
        ),
    )


def close() -> Assessment:
    """Return a pack that is close in its deciding case."""
    good = passing()
    deciding = case(1, Verdict.CLOSE, limiting_ambient_degc=39.4, top_tank_degc=105.6, heat_capacity_w=96_900.0)
    return change(
        good,
        verdict=Verdict.CLOSE,
        deciding_case=deciding,
        cases=(deciding, *good.cases[1:]),
        radiator=radiator_face(effective_mm2=223_000.0, required_mm2=218_600.0),
    )


def failing() -> Assessment:
    """Return a pack that fails by coolant and charge air, in a nose where much is wrong."""
    good = passing()
    deciding = case(
        1,
        Verdict.FAIL,
        limiting_ambient_degc=33.1,
        top_tank_degc=111.9,
        heat_capacity_w=84_100.0,
        charge_out_degc=81.0,
        charge_loss_pa=14_200.0,
        bypassed_frac=0.21,
    )
    crawl = case(2, Verdict.CLOSE, limiting_ambient_degc=40.2, top_tank_degc=104.8)
    idle = case(4, limiting_ambient_degc=47.0, top_tank_degc=98.0, condensing_degc=81.0, recirculated_frac=0.27)
    return change(
        good,
        verdict=Verdict.FAIL,
        deciding_case=deciding,
        cases=(deciding, crawl, good.cases[2], idle),
        radiator=radiator_face(
            exposed_mm2=31_000.0,
            behind_mm2=240_000.0,
            effective_mm2=171_000.0,
            required_mm2=193_200.0,
            unshrouded_mm2=96_000.0,
        ),
        depth=change(
            good.depth,
            gaps=(Gap("charge-air-cooler-1", "radiator-1", 6.0), Gap("radiator-1", "fan-1", 8.0)),
            clearances=(Clearance("fan-1", PULLEY_PLANE, 12.0), Clearance("radiator-1", BONNET_LINE, -9.0)),
        ),
    )


def unknown() -> Assessment:
    """Return a pack of which nobody can say whether it does the job: the engine's heat is not given."""
    good = passing()
    reason = "The engine sheet gives neither heat to the coolant nor rated power: type one of them."
    cases = tuple(
        change(
            each,
            verdict=Verdict.UNKNOWN,
            heat_target_w=None,
            limiting_ambient_degc=None,
            top_tank_degc=None,
            required_mm2=None,
            reasons=(reason,),
        )
        for each in good.cases
    )
    return change(
        good,
        project=replace(good.project, engine=EngineSheet(name="Invented engine")),
        verdict=Verdict.UNKNOWN,
        deciding_case=None,
        radiator=radiator_face(effective_mm2=None, required_mm2=None),
        cases=cases,
        remarks=(Finding(severity=Severity.SERIOUS, text=reason, source="computed for this pack"),),
    )


def with_case(good: Assessment, number: int = 1, verdict: Verdict = Verdict.PASS, **figures: object) -> Assessment:
    """Return the assessment with one case exchanged for one with these figures."""
    changed = case(number, verdict, **figures)
    return change(good, cases=tuple(changed if c.case_id == changed.case_id else c for c in good.cases))


def with_project(good: Assessment, **fields: object) -> Assessment:
    """Return the assessment as if it spoke of a project with these fields; its figures stay."""
    return change(good, project=replace(good.project, **fields))


def with_part(good: Assessment, part: Core | Shroud | Fan) -> Assessment:
    """Return the assessment as if the part of the same id were this one, or as if it were there besides."""
    others = tuple(p for p in good.project.parts if p.id != part.id)
    return with_project(good, parts=(*others, part))


def in_detail() -> Assessment:
    """Return the passing pack with what cores, fans and zones do in its first case."""
    good = passing()
    first = change(
        good.cases[0],
        cores=(
            CoreFlow(
                part_id="radiator-1",
                air_kg_s=1.234,
                heat_w=95_000.0,
                conductance_w_per_k=2_310.0,
                air_in_degc=44.0,
                air_out_degc=81.5,
                tube_in_degc=102.0,
                tube_out_degc=94.1,
                tube_flow_kg_s=2.9,
            ),
            CoreFlow(
                part_id="condenser-1",
                air_kg_s=1.1,
                heat_w=9_000.0,
                conductance_w_per_k=None,
                air_in_degc=38.0,
                air_out_degc=46.1,
                tube_in_degc=None,
                tube_out_degc=None,
                tube_flow_kg_s=None,
            ),
        ),
        zones=(
            ZoneFlow(
                cores=("condenser-1", "radiator-1"),
                area_mm2=150_000.0,
                air_kg_s=0.61,
                air_in_degc=38.0,
                air_out_degc=84.0,
                in_jet=True,
                into="shroud-1",
            ),
        ),
        fans=(FanPointOfWork(part_id="fan-1", flow_m3_s=0.93, pressure_pa=41.0),),
    )
    return change(good, cases=(first, *good.cases[1:]), deciding_case=first)
