"""The air over a face, piece by piece, adds up to what the assessment says of the whole."""

from __future__ import annotations

import numpy as np
import pytest

from grillestack.assess.asked import asked_cases
from grillestack.assess.assess import assess
from grillestack.assess.face_air import face_air
from grillestack.assets.locate import demo_projects
from grillestack.model import edits
from grillestack.model.project import Project, cores
from grillestack.physics.air import density_kg_m3, pressure_at_altitude_pa
from grillestack.storage.project_file import read_project

DEMOS = [read_project(path) for path in demo_projects()]


def _mass_kg_s(air, project, case):
    """Mass through each piece from what the map says: speed × density × true area."""
    asked = next(one for one in asked_cases(project) if one.case.id == case.case_id)
    pressure = pressure_at_altitude_pa(asked.altitude_m)
    c = air.overlay.core_ids.index(air.part_id)
    area_m2 = air.overlay.area_mm2[air.pieces] * 1e-6 / air.overlay.core_cos_tilt_frac[c]
    density = density_kg_m3(np.nan_to_num(air.air_in_degc, nan=20.0), pressure)
    return np.where(air.runs_forward, -1.0, 1.0) * air.speed_m_s * density * area_m2


@pytest.mark.parametrize("project", DEMOS, ids=lambda project: project.title)
def test_pieces_add_up_to_the_flow_and_mean_temperature_of_each_core(project):
    assessment = assess(project)
    case = assessment.deciding_case
    for core in cores(project):
        air = face_air(assessment, case.case_id, core.id)
        flow = next(flow for flow in case.cores if flow.part_id == core.id)
        mass = _mass_kg_s(air, project, case)
        assert mass.sum() == pytest.approx(flow.air_kg_s, rel=1e-3)
        moves = air.speed_m_s > 0.0
        mean = np.abs(mass[moves]) @ air.air_in_degc[moves] / np.abs(mass[moves]).sum()
        assert mean == pytest.approx(flow.air_in_degc, abs=0.02)


@pytest.mark.parametrize("project", DEMOS, ids=lambda project: project.title)
def test_rings_cover_the_core_once(project):
    assessment = assess(project)
    for part_id, face in assessment.faces.items():
        air = face_air(assessment, assessment.deciding_case.case_id, part_id)
        area = sum(_area(ring) for rings in air.rings() for ring in rings)
        c = air.overlay.core_ids.index(part_id)
        assert area == pytest.approx(face.core_mm2 * air.overlay.core_cos_tilt_frac[c], rel=1e-6)


def test_a_face_in_fresh_air_is_met_by_air_of_the_design_day_and_one_behind_a_cooler_by_warmer_air():
    assessment = assess(DEMOS[2])
    case = assessment.deciding_case
    radiator, front = assessment.radiator.part_id, next(iter(assessment.faces))
    first = face_air(assessment, case.case_id, front)
    assert np.nanmax(first.air_in_degc) == pytest.approx(case.design_ambient_degc, abs=0.5)
    behind = face_air(assessment, case.case_id, radiator)
    assert np.nanmax(behind.air_in_degc) > case.design_ambient_degc + 20.0
    assert np.nanmin(behind.air_in_degc) == pytest.approx(case.design_ambient_degc, abs=0.5)


def test_a_start_nearby_gives_the_same_map():
    project = DEMOS[0]
    assessment = assess(project)
    case, part = assessment.deciding_case, assessment.radiator.part_id
    cold = face_air(assessment, case.case_id, part)
    cooler = cores(project)[0].id
    moved = edits.move_parts(project, [cooler], dz_mm=-7.0)
    elsewhere = face_air(assess(moved), case.case_id, part)
    warm = face_air(assessment, case.case_id, part, elsewhere)
    # A drag settles until the last step moved less than 0.03 K.
    assert warm.air_in_degc == pytest.approx(cold.air_in_degc, abs=0.05, nan_ok=True)
    assert warm.speed_m_s == pytest.approx(cold.speed_m_s, rel=1e-3, abs=1e-4)


def test_what_cannot_be_judged_has_no_map():
    assessment = assess(Project())
    assert face_air(assessment, "case-1", "radiator-1") is None
    whole = assess(DEMOS[0])
    assert face_air(whole, "no such case", whole.radiator.part_id) is None
    assert face_air(whole, whole.deciding_case.case_id, "no such core") is None


def _area(ring):
    y, z = np.array(ring).T
    return 0.5 * abs(float(y @ np.roll(z, -1) - z @ np.roll(y, -1)))
