"""From a project to its assessment."""

from __future__ import annotations

from grillestack.assess.result import Assessment
from grillestack.model.project import Project


def assess(project: Project, previous: Assessment | None = None) -> Assessment:
    """Return what the pack of this project does."""
    raise NotImplementedError
