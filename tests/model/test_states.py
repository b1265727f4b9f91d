"""Locking and hiding are edits that share all they do not change."""

import pytest

from grillestack.model.states import set_hidden, set_locked
from grillestack.model.values import UnknownIdError
from tests.model.examples import a_full_project


def test_only_the_named_parts_change():
    project = a_full_project()
    first, second = project.parts[:2]
    locked = set_locked(project, [first.id], locked=True)
    assert locked.part(first.id).locked
    assert locked.part(second.id) is second
    assert set_locked(locked, [first.id], locked=False) == project
    hidden = set_hidden(project, [second.id], hidden=True)
    assert hidden.part(second.id).hidden
    assert hidden.part(first.id) is first


def test_what_is_so_already_is_the_same_project():
    project = a_full_project()
    assert set_locked(project, [project.parts[0].id], locked=False) is project
    assert set_hidden(project, [], hidden=True) is project


def test_an_unknown_part_is_refused():
    with pytest.raises(UnknownIdError):
        set_hidden(a_full_project(), ["no-such-part"], hidden=True)
