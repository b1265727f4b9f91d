"""The project file: how a project is read and written, our own JSON with the ending `assets.locate.PROJECT_ENDING`."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from grillestack.model.project import Project
from grillestack.model.values import Value
from grillestack.storage.envelope import FileKind, encoded, read_file, write_file
from grillestack.storage.migrations import PROJECT_FORMAT, PROJECT_STEPS
from grillestack.storage.trouble import StoredFileError


class ProjectFileError(StoredFileError):
    """A project file could not be read or written; the message is a sentence for the person at the bench."""


class ProjectFile(Value, frozen=True, kw_only=True):
    """A grillestack project: the layout of one cooling pack in the nose of one vehicle."""

    kind: Literal["grillestack project"] = "grillestack project"
    format: Literal[1] = 1
    project: Project


PROJECT_KIND = FileKind(
    kind="grillestack project", newest_format=PROJECT_FORMAT, steps=PROJECT_STEPS, error=ProjectFileError
)


def read_project(path: Path) -> Project:
    """Return the project in the file.

    Raises
    ------
    ProjectFileError
        If there is none that fits; nothing of it is then taken over.
    """
    return read_file(path, PROJECT_KIND, ProjectFile).project


def write_project(project: Project, path: Path) -> None:
    """Write the project to the file, whole or not at all.

    Raises
    ------
    ProjectFileError
        If it cannot be written; the file is then as it was.
    """
    write_file(path, PROJECT_KIND, ProjectFile(project=project))


def project_bytes(project: Project) -> bytes:
    """Return the bytes that a file of this project holds; equal projects give equal bytes."""
    return encoded(ProjectFile(project=project))
