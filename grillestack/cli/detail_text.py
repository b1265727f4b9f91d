"""What every core, fan and zone does, as tables of the text report."""

from __future__ import annotations

from collections.abc import Iterator

from grillestack.assess.result import Assessment, CaseResult
from grillestack.cli.text_table import table
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


def face_details(assessment: Assessment, units: UnitSystem) -> Iterator[str]:
    """Return one line per core with the areas of its face."""
    if not assessment.faces:
        return
    yield "Faces of all cores"
    rows = [
        [
            assessment.project.part(face.part_id).name,
            *(
                show_quantity(area, Dimension.AREA, units)
                for area in (
                    face.core_mm2,
                    face.exposed_mm2,
                    face.behind_mm2,
                    face.blocked_mm2,
                    face.off_opening_mm2,
                    face.unshrouded_mm2,
                )
            ),
        ]
        for face in assessment.faces.values()
    ]
    yield from table(["core", "area", "exposed", "behind", "blocked", "off opening", "no shroud"], rows, words=1)


def case_details(case: CaseResult, project: Project, units: UnitSystem) -> Iterator[str]:
    """Return what the cores, fans and zones do in one duty case."""
    blocks = [*_cores(case, project, units), *_fans(case, project, units), *_zones(case, project, units)]
    if blocks:
        yield f"{case.name}, in detail"
        yield from blocks


def _cores(case: CaseResult, project: Project, units: UnitSystem) -> Iterator[str]:
    temperature = Dimension.TEMPERATURE
    rows = [
        [
            project.part(core.part_id).name,
            show_quantity(core.air_kg_s, Dimension.MASS_FLOW, units),
            show_quantity(core.heat_w, Dimension.POWER, units),
            *(
                show_quantity(value, temperature, units)
                for value in (core.air_in_degc, core.air_out_degc, core.tube_in_degc, core.tube_out_degc)
            ),
            show_quantity(core.tube_flow_kg_s, Dimension.MASS_FLOW, units),
            "not known" if core.conductance_w_per_k is None else f"{core.conductance_w_per_k:.0f} W/K",
        ]
        for core in case.cores
    ]
    if rows:
        head = ["core", "air", "heat", "air in", "air out", "tubes in", "tubes out", "tube flow", "conductance"]
        yield from table(head, rows, words=1)


def _fans(case: CaseResult, project: Project, units: UnitSystem) -> Iterator[str]:
    rows = [
        [
            project.part(fan.part_id).name,
            show_quantity(fan.flow_m3_s, Dimension.AIR_FLOW, units),
            show_quantity(fan.pressure_pa, Dimension.AIR_PRESSURE, units),
        ]
        for fan in case.fans
    ]
    if rows:
        yield from table(["fan", "air", "pressure"], rows, words=1)


def _zones(case: CaseResult, project: Project, units: UnitSystem) -> Iterator[str]:
    rows = [
        [
            ", ".join(project.part(part_id).name for part_id in zone.cores) or "no core",
            "in the jet" if zone.in_jet else "beside it",
            show_quantity(zone.area_mm2, Dimension.AREA, units),
            show_quantity(zone.air_kg_s, Dimension.MASS_FLOW, units),
            show_quantity(zone.air_in_degc, Dimension.TEMPERATURE, units),
            show_quantity(zone.air_out_degc, Dimension.TEMPERATURE, units),
        ]
        for zone in case.zones
    ]
    if rows:
        yield from table(["zone of", "where", "area", "air", "air in", "air out"], rows, words=2)
