"""Bundled files are found in a checkout and in an installed package, and a missing one is named."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest

from grillestack.assets import locate

CHECKOUT = Path(__file__).resolve().parents[2]


@pytest.fixture
def elsewhere(tmp_path, monkeypatch):
    """Return a folder in which the package stands as if it were there."""
    package = tmp_path / "site-packages" / "grillestack"
    package.mkdir(parents=True)
    monkeypatch.setattr(locate, "_PACKAGE", package)
    return package


def _put(path: Path) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("x", encoding="utf-8")
    return path


def test_in_a_checkout_the_top_level_folder_is_found():
    assert locate.resource("schema") == CHECKOUT / "resources" / "schema"
    assert locate.resource() == CHECKOUT / "resources"


def test_in_an_installed_package_the_bundled_folder_is_found(elsewhere):
    inside = _put(elsewhere / "_bundled" / "resources" / "catalogue" / "fans.json")
    assert locate.resource("catalogue", "fans.json") == inside


def test_what_is_bundled_goes_before_a_folder_that_happens_to_stand_beside_the_package(elsewhere):
    _put(elsewhere.parent / "resources" / "a.json")
    inside = _put(elsewhere / "_bundled" / "resources" / "a.json")
    assert locate.resource("a.json") == inside


def test_a_missing_file_is_named_with_the_remedy(elsewhere):
    with pytest.raises(
        locate.MissingResourceError, match=r"“resources/fonts/a\.ttf” is missing .*: install .* again\.$"
    ):
        locate.resource("fonts", "a.ttf")


def test_demo_projects_come_in_the_order_of_their_names_and_nothing_else_does(elsewhere):
    folder = elsewhere / "_bundled" / "demo_projects"
    for name in ("b.grillestack", "a.grillestack", "readme.txt", ".gitkeep"):
        _put(folder / name)
    assert [path.name for path in locate.demo_projects()] == ["a.grillestack", "b.grillestack"]


def test_missing_demo_projects_are_named(elsewhere):
    with pytest.raises(locate.MissingResourceError, match="demo_projects"):
        locate.demo_projects()


def test_the_wheel_carries_resources_and_demo_projects_where_the_package_looks(tmp_path):
    # hatchling is the build back end named in pyproject.toml; it needs no network.
    wheel = pytest.importorskip("hatchling.builders.wheel")
    (built,) = wheel.WheelBuilder(str(CHECKOUT)).build(directory=str(tmp_path), versions=["standard"])
    names = zipfile.ZipFile(built).namelist()
    schema = "grillestack/_bundled/resources/schema/project-1.schema.json"
    assert schema in names
    assert any(name.startswith("grillestack/_bundled/demo_projects/") for name in names)
    zipfile.ZipFile(built).extractall(tmp_path / "there")
    assert locate._bundled(tmp_path / "there" / "grillestack", "resources", "schema", "project-1.schema.json").is_file()
