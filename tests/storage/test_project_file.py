"""A project written is the project read, byte for byte; a mangled file gives a sentence or the same project."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from grillestack.assets.locate import demo_projects
from grillestack.model.project import Project
from grillestack.storage.envelope import decoded
from grillestack.storage.project_file import (
    PROJECT_KIND,
    ProjectFile,
    ProjectFileError,
    project_bytes,
    read_project,
    write_project,
)
from tests.model.examples import a_full_project
from tests.model.random_projects import projects

GOOD = project_bytes(a_full_project())
FILE = Path("/a/nose.grillestack")

few = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
many = settings(max_examples=4_000, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def _read(content: bytes) -> Project:
    return decoded(FILE, content, PROJECT_KIND, ProjectFile).project


@pytest.mark.parametrize("project", [Project(), a_full_project()], ids=["empty", "full"])
def test_a_project_written_is_the_project_read(tmp_path, project):
    write_project(project, tmp_path / "a.grillestack")
    assert read_project(tmp_path / "a.grillestack") == project
    assert (tmp_path / "a.grillestack").read_bytes() == project_bytes(project)


def _check_round_trip(project: Project) -> None:
    content = project_bytes(project)
    again = _read(content)
    assert again == project
    assert project_bytes(again) == content
    # An independent reader finds JSON (RFC 8259) without NaN and Infinity, one newline at the end.
    data = json.loads(content, parse_constant=pytest.fail)
    assert list(data) == ["kind", "format", "project"]
    assert content.endswith(b"}\n")
    # Laid out anew or with whole numbers as such, it is still the same project.
    assert _read(json.dumps(data, indent=7, sort_keys=True, ensure_ascii=False).encode()) == project
    assert project_bytes(_read(json.dumps(_whole_numbers_as_such(data)).encode())) == content


def _whole_numbers_as_such(data):
    if isinstance(data, dict):
        return {key: _whole_numbers_as_such(value) for key, value in data.items()}
    if isinstance(data, list):
        return [_whole_numbers_as_such(value) for value in data]
    return int(data) if isinstance(data, float) and data.is_integer() and abs(data) < 1e15 else data


@few
@given(projects())
def test_any_project_survives_the_file_with_the_same_bytes(project):
    _check_round_trip(project)


@pytest.mark.nightly
@settings(many, max_examples=1_000)
@given(projects())
def test_thousands_of_projects_survive_the_file_with_the_same_bytes(project):
    _check_round_trip(project)


def _check_mangled(content: bytes, original: Project) -> None:
    """Check that the content gives one sentence, or a project that is whole: itself writable and readable."""
    try:
        project = _read(content)
    except ProjectFileError as error:
        sentence = str(error)
        assert sentence.startswith("“nose.grillestack” cannot be opened: ")
        assert sentence.endswith(".")
        assert "\n" not in sentence
        assert len(sentence) < 500
        sentence.encode("utf-8")
        return
    assert _read(project_bytes(project)) == project
    assert type(project) is type(original)


def _check_truncated(cut: int) -> None:
    # All but the last newline is needed.
    content = GOOD[: cut % len(GOOD)]
    if content.rstrip() == GOOD.rstrip():
        assert _read(content) == a_full_project()
        return
    with pytest.raises(ProjectFileError, match=r"cut off in line \d+, so take an earlier copy|it is empty"):
        _read(content)


def _check_flipped(flips) -> None:
    content = bytearray(GOOD)
    for at, bits in flips:
        content[at % len(content)] ^= bits
    _check_mangled(bytes(content), a_full_project())


def _spots(data, path=()):
    for key, value in data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ():
        yield (*path, key)
        yield from _spots(value, (*path, key))


SPOTS = list(_spots(json.loads(GOOD)))
STRANGE = st.sampled_from(
    [
        None,
        True,
        0,
        -1,
        1.5,
        -0.0,
        1e9,
        1e308,
        10**17,
        10**400,
        "",
        "x",
        "A b",
        "\n",
        "\0",
        "x" * 30_000,
        [],
        [[]],
        {},
        {"a": 1},
        [1, 2, 3],
        [[0, 0], [1, 1]],
        "core",
        "fan",
        "\u2028",
        "”",
    ]
)


def _check_changed(changes) -> None:
    data = json.loads(GOOD)
    for spot, what, value in changes:
        inside = data
        try:
            for step in spot[:-1]:
                inside = inside[step]
            if what == "delete":
                del inside[spot[-1]]
            elif what == "double" and isinstance(inside, list):
                inside.append(inside[spot[-1]])
            elif what == "add" and isinstance(inside, dict):
                inside["strange `field`"] = value
            else:
                inside[spot[-1]] = value
        except (LookupError, TypeError):
            continue  # an earlier change took this spot away
    _check_mangled(json.dumps(data).encode(), a_full_project())


FLIPS = st.lists(st.tuples(st.integers(0, len(GOOD) - 1), st.integers(1, 255)), min_size=1, max_size=6)
CHANGES = st.lists(
    st.tuples(st.sampled_from(SPOTS), st.sampled_from(["delete", "set", "double", "add"]), STRANGE),
    min_size=1,
    max_size=3,
)
CUTS = st.integers(0, len(GOOD) - 1)


@few
@given(CUTS)
def test_a_file_cut_off_anywhere_says_so(cut):
    _check_truncated(cut)


@few
@given(FLIPS)
def test_a_file_with_flipped_bytes_gives_a_sentence_or_a_whole_project(flips):
    _check_flipped(flips)


@few
@given(CHANGES)
def test_a_file_with_changed_deleted_or_doubled_entries_gives_a_sentence_or_a_whole_project(changes):
    _check_changed(changes)


@few
@given(st.binary(max_size=200))
def test_any_bytes_at_all_give_a_sentence(content):
    with pytest.raises(ProjectFileError):
        _read(content)


@pytest.mark.nightly
def test_a_file_cut_off_at_every_byte_says_so():
    for cut in range(len(GOOD)):
        _check_truncated(cut)


@pytest.mark.nightly
@many
@given(FLIPS)
def test_thousands_of_files_with_flipped_bytes_give_a_sentence_or_a_whole_project(flips):
    _check_flipped(flips)


@pytest.mark.nightly
@many
@given(CHANGES)
def test_thousands_of_files_with_changed_entries_give_a_sentence_or_a_whole_project(changes):
    _check_changed(changes)


def test_a_changed_figure_is_read_as_changed_and_nothing_else_with_it():
    data = json.loads(GOOD)
    data["project"]["parts"][1]["weight_kg"] = 10
    radiator = replace(a_full_project().part("radiator-1"), weight_kg=10.0)
    expected = tuple(radiator if part.id == radiator.id else part for part in a_full_project().parts)
    assert _read(json.dumps(data).encode()) == replace(a_full_project(), parts=expected)


def test_fields_left_out_take_the_defaults_of_the_model():
    assert _read(b'{"kind": "grillestack project", "format": 1, "project": {}}') == Project()


def test_a_parts_catalogue_is_not_taken_for_a_project():
    with pytest.raises(ProjectFileError, match="it is a “grillestack parts”, not a “grillestack project”"):
        _read(b'{"kind": "grillestack parts", "format": 1, "about": "", "parts": []}')


def test_a_file_of_a_newer_program_is_told_with_the_format_this_one_reads():
    with pytest.raises(ProjectFileError, match="it has format 2, but this program reads formats up to 1"):
        _read(b'{"kind": "grillestack project", "format": 2, "project": {"new": "things"}}')


def test_saving_over_a_read_only_file_is_refused_and_the_file_stays(tmp_path):
    path = tmp_path / "a.grillestack"
    write_project(Project(title="old"), path)
    path.chmod(0o444)
    with pytest.raises(ProjectFileError, match=r"“a.grillestack” was not saved: the file or its folder is read-only"):
        write_project(Project(title="new"), path)
    path.chmod(0o644)
    assert read_project(path).title == "old"


def test_saving_into_a_missing_folder_or_over_a_folder_is_refused(tmp_path):
    with pytest.raises(ProjectFileError, match="there is no such folder"):
        write_project(Project(), tmp_path / "nowhere" / "a.grillestack")
    with pytest.raises(ProjectFileError, match="there is a folder of that name"):
        write_project(Project(), tmp_path)


def test_a_failed_read_leaves_the_file_untouched(tmp_path):
    path = tmp_path / "a.grillestack"
    path.write_bytes(GOOD[:1_000])
    os.utime(path, ns=(5, 5))
    with pytest.raises(ProjectFileError):
        read_project(path)
    assert path.read_bytes() == GOOD[:1_000]
    assert path.stat().st_mtime_ns == 5


def test_every_demo_project_can_be_read_and_is_kept_as_the_program_writes_it():
    assert demo_projects()
    for path in demo_projects():
        assert path.read_bytes() == project_bytes(read_project(path)), f"{path.name} is not as write_project writes it"
