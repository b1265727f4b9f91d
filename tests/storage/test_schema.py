"""The JSON Schemas in resources say what the program reads, judged by an independent validator."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
from hypothesis import HealthCheck, given, settings

from grillestack.model.project import Project
from grillestack.storage.catalogue import CatalogueFile
from grillestack.storage.envelope import encoded
from grillestack.storage.migrations import CATALOGUE_FORMAT, PROJECT_FORMAT
from grillestack.storage.project_file import project_bytes
from grillestack.storage.schema import catalogue_schema, project_schema, schema_bytes
from tests.model.examples import a_fan, a_full_project, a_radiator
from tests.model.random_projects import projects

FOLDER = Path(__file__).resolve().parents[2] / "resources" / "schema"
JUDGE = jsonschema.Draft202012Validator(project_schema())
CATALOGUE_JUDGE = jsonschema.Draft202012Validator(catalogue_schema())


@pytest.mark.parametrize(
    ("name", "schema"),
    [
        (f"project-{PROJECT_FORMAT}.schema.json", project_schema),
        (f"parts-{CATALOGUE_FORMAT}.schema.json", catalogue_schema),
    ],
)
def test_the_kept_schema_is_that_of_the_model(golden, name, schema):
    golden(FOLDER / name, schema_bytes(schema()))


@pytest.mark.parametrize("schema", [project_schema, catalogue_schema])
def test_each_schema_is_a_schema_of_draft_2020_12_with_title_and_description(schema):
    jsonschema.Draft202012Validator.check_schema(schema())
    assert schema()["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema()["title"]
    assert schema()["description"]


@pytest.mark.parametrize("project", [Project(), a_full_project()], ids=["empty", "full"])
def test_written_projects_fit_the_schema(project):
    JUDGE.validate(json.loads(project_bytes(project)))


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(projects())
def test_any_written_project_fits_the_schema(project):
    JUDGE.validate(json.loads(project_bytes(project)))


def test_written_catalogues_fit_the_schema():
    CATALOGUE_JUDGE.validate(json.loads(encoded(CatalogueFile(about="Invented.", parts=(a_fan(), a_radiator())))))


def _changed(change) -> bool:
    data = json.loads(project_bytes(a_full_project()))
    change(data)
    return JUDGE.is_valid(data)


@pytest.mark.parametrize(
    "change",
    [
        lambda data: data.update(kind="other"),
        lambda data: data.update(format=2),
        lambda data: data.pop("format"),
        lambda data: data.update(more=1),
        lambda data: data["project"]["parts"][1].update(core_width_mm=-1),
        lambda data: data["project"]["parts"][1].update(core_width_mm="600"),
        lambda data: data["project"]["parts"][1].update(part="heater"),
        lambda data: data["project"]["parts"][1].update(widht_mm=1),
        lambda data: data["project"]["nose"]["openings"][0]["outline"].__delitem__(slice(0, 2)),
        lambda data: data["project"]["nose"]["openings"][0]["outline"][0].pop(),
        lambda data: data["project"]["nose"]["openings"][0].update(id="No Id"),
    ],
)
def test_what_the_program_refuses_the_schema_refuses_too(change):
    assert _changed(lambda _data: None)
    assert not _changed(change)


def test_every_figure_in_the_schema_says_its_unit():
    definitions = project_schema()["$defs"]
    assert definitions["Core"]["properties"]["core_width_mm"]["description"] == "core width in mm"
    assert definitions["DutyCase"]["properties"]["road_speed_m_s"]["description"] == "road speed in m/s"
