"""Situations for the tests of changes: an invented pack, and a small invented catalogue made to measure for it."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from grillestack.advice.change import Candidate, Change, Situation
from grillestack.geometry.depth import depth_report
from grillestack.model.core_description import CoreType
from grillestack.model.parts import Core, CoreRole, Fan, FanPoint, Part
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem
from tests.assess import packs


def situation(project: Project, catalogue: Sequence[Part] = (), units: UnitSystem = UnitSystem.METRIC) -> Situation:
    """Return what a change of this project may look at."""
    return Situation(project=project, depth=depth_report(project), catalogue=catalogue, units=units)


def candidates(change: Change, project: Project, catalogue: Sequence[Part] = ()) -> list[Candidate]:
    """Return what one change offers for this project."""
    return list(change(situation(project, catalogue)))


def radiator(
    number: int, width_mm: float, height_mm: float, depth_mm: float, kind: CoreType = CoreType.ALUMINIUM_ONE_ROW
) -> Core:
    """Return a radiator of the catalogue."""
    made = packs.core(CoreRole.RADIATOR, kind, width_mm, height_mm, depth_mm)
    return replace(made, id=f"inv-r-{number}", name=f"Invented radiator {number}")


def fan(number: int, ring_mm: float, strength: float = 1.0, volts: float | None = None) -> Fan:
    """Return a fan of the catalogue: the usual one of the packs, its flow and pressure times its strength."""
    curve = tuple(
        FanPoint(flow_m3_s=strength * point.flow_m3_s, pressure_pa=strength * point.pressure_pa)
        for point in packs.FAN_CURVE
    )
    return replace(
        packs.fan(),
        id=f"inv-f-{number}",
        name=f"Invented fan {number}",
        ring_diameter_mm=ring_mm,
        curve=curve,
        rated_voltage_v=volts,
    )
