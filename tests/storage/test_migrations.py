"""Old files are brought up to today's format, one step after the other."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from grillestack.model.project import Project
from grillestack.storage.autosave import RecoveryFile
from grillestack.storage.catalogue import CatalogueFile
from grillestack.storage.envelope import FileKind, decoded
from grillestack.storage.migrations import (
    CATALOGUE_FORMAT,
    CATALOGUE_STEPS,
    PROJECT_FORMAT,
    PROJECT_STEPS,
    MigrationError,
    migrated,
)
from grillestack.storage.project_file import ProjectFile, ProjectFileError, project_bytes, read_project
from tests.model.examples import a_full_project

OLD_PROJECTS = Path(__file__).parent / "old_projects"


def _heading_became_title(contents):
    """Return the contents after a pretended change: the title was once called heading."""
    project = dict(contents["project"])
    project["title"] = project.pop("heading")
    return {**contents, "project": project}


def _title_in_quotes(contents):
    return {**contents, "project": {**contents["project"], "title": f"“{contents['project']['title']}”"}}


PRETENDED = {1: _heading_became_title, 2: _title_in_quotes}


def test_steps_are_taken_in_order_from_the_format_of_the_file_to_the_newest():
    old = {"project": {"heading": "a"}}
    assert migrated(old, 1, 3, PRETENDED) == {"project": {"title": "“a”"}}
    assert migrated({"project": {"title": "a"}}, 2, 3, PRETENDED) == {"project": {"title": "“a”"}}


def test_a_file_of_the_newest_format_takes_no_step():
    contents = {"project": {}}
    assert migrated(contents, 3, 3, PRETENDED) is contents


def test_a_step_leaves_what_it_was_given_as_it_was():
    old = {"project": {"heading": "a"}}
    migrated(old, 1, 3, PRETENDED)
    assert old == {"project": {"heading": "a"}}


@pytest.mark.parametrize("contents", [{}, {"project": 3}, {"project": {}}, {"project": None}])
def test_contents_that_are_not_of_their_format_are_told_with_the_format(contents):
    with pytest.raises(MigrationError, match="format 1 does not hold what it should"):
        migrated(contents, 1, 2, PRETENDED)


def _pretended_kind(newest: int) -> FileKind:
    return FileKind(kind="grillestack project", newest_format=newest, steps=PRETENDED, error=ProjectFileError)


def _old_bytes() -> bytes:
    data = json.loads(project_bytes(a_full_project()))
    data["project"]["heading"] = data["project"].pop("title")
    return json.dumps(data).encode()


def test_a_whole_file_of_an_earlier_format_is_read_through_its_steps():
    class NextProjectFile(ProjectFile, frozen=True, kw_only=True):
        format: int = 2

    kind = _pretended_kind(newest=2)
    assert decoded(Path("old"), _old_bytes(), kind, NextProjectFile).project == a_full_project()


def test_a_damaged_file_of_an_earlier_format_is_told_in_a_sentence():
    data = {"kind": "grillestack project", "format": 1, "project": {"no heading": 1}}
    with pytest.raises(ProjectFileError, match=r"“old” cannot be opened: format 1 does not hold what it should, so"):
        decoded(Path("old"), json.dumps(data).encode(), _pretended_kind(newest=2), ProjectFile)


def test_files_are_written_in_the_newest_format():
    assert ProjectFile(project=Project()).format == PROJECT_FORMAT
    assert RecoveryFile(session_id="0a", project=Project()).format == PROJECT_FORMAT
    assert CatalogueFile(about="").format == CATALOGUE_FORMAT


def test_every_earlier_format_has_its_step():
    assert sorted(PROJECT_STEPS) == list(range(1, PROJECT_FORMAT))
    assert sorted(CATALOGUE_STEPS) == list(range(1, CATALOGUE_FORMAT))


@pytest.mark.parametrize("number", range(1, PROJECT_FORMAT + 1))
def test_a_file_of_each_format_is_kept_and_still_says_the_same(number):
    project = read_project(OLD_PROJECTS / f"format-{number}.grillestack")
    # Facts of the kept file, read off it by hand.
    assert project.title == "Invented vehicle, kept since format 1"
    assert [part.id for part in project.parts] == ["charge-air-cooler-1", "radiator-1", "shroud-1", "fan-1"]
    assert project.part("radiator-1").core_width_mm == 600.0
    assert project.part("fan-1").curve[1].pressure_pa == 150.0
    assert project.nose.openings[0].outline[2].z_mm == 800.0
    assert project.engine.heat_to_coolant_w == 90_000.0
    assert len(project.cases) == 4
    assert project.variants == ()  # several layouts came later
