"""Parts for the shelf: bundled and own, each under its own id, none with a place in a vehicle."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace

from grillestack.assets.locate import MissingResourceError
from grillestack.model.parts import Placement
from grillestack.storage import catalogue
from grillestack.storage.catalogue import (
    CATALOGUE_KIND,
    CatalogueFile,
    CatalogueFileError,
    bundled_parts,
    load_catalogue,
    own_parts,
    own_parts_path,
    read_parts,
    save_own_part,
)
from grillestack.storage.envelope import decoded, encoded
from tests.model.examples import a_charge_air_cooler, a_fan, a_radiator, a_shroud
from tests.model.random_projects import parts


def _shelved(part, part_id):
    return replace(part, id=part_id, placement=Placement())


def _put(path: Path, *shelved) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(encoded(CatalogueFile(about="Invented for tests.", parts=shelved)))
    return path


@pytest.fixture
def bundled(tmp_path, monkeypatch):
    """Return a folder that stands for the bundled catalogues."""
    folder = tmp_path / "catalogue"
    folder.mkdir()
    monkeypatch.setattr(catalogue, "resource", lambda *_parts: folder)
    return folder


def test_a_catalogue_is_read_as_it_was_written(tmp_path):
    path = _put(
        tmp_path / "a.json", _shelved(a_radiator(), "r-1"), _shelved(a_fan(), "f-1"), _shelved(a_shroud(), "s-1")
    )
    assert [part.id for part in read_parts(path)] == ["r-1", "f-1", "s-1"]
    assert read_parts(path)[0] == _shelved(a_radiator(), "r-1")


@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(parts())
def test_any_part_survives_the_catalogue_file(part):
    content = encoded(CatalogueFile(about="", parts=(part,)))
    assert decoded(Path("a"), content, CATALOGUE_KIND, CatalogueFile).parts == (part,)


def test_all_files_are_loaded_in_the_order_of_their_names_and_own_parts_last(bundled):
    _put(bundled / "b.json", _shelved(a_fan(), "f-1"))
    _put(bundled / "a.json", _shelved(a_radiator(), "r-1"))
    (bundled / "readme.txt").write_text("not a catalogue", encoding="utf-8")
    own = save_own_part(a_shroud())
    assert [part.id for part in load_catalogue()] == ["r-1", "f-1", own.id]
    assert [part.id for part in bundled_parts()] == ["r-1", "f-1"]


def test_an_empty_shelf_is_legal(bundled):
    assert load_catalogue() == own_parts() == ()


def test_one_id_twice_is_refused_in_a_file_and_over_all_files(bundled):
    path = _put(bundled / "a.json", _shelved(a_fan(), "f-1"), _shelved(a_radiator(), "f-1"))
    with pytest.raises(CatalogueFileError, match="the id “f-1” of the part “Invented radiator” is in use already"):
        read_parts(path)
    _put(bundled / "a.json", _shelved(a_fan(), "f-1"))
    _put(bundled / "b.json", _shelved(a_fan(), "f-1"))
    with pytest.raises(CatalogueFileError, match=r"“b\.json” cannot be opened: the id “f-1”"):
        load_catalogue()
    (bundled / "b.json").unlink()
    _put(own_parts_path(), _shelved(a_shroud(), "f-1"))
    with pytest.raises(CatalogueFileError, match=r"“own_parts\.json” cannot be opened: the id “f-1”"):
        load_catalogue()


def test_a_part_that_has_a_place_already_is_refused_by_name(tmp_path):
    with pytest.raises(CatalogueFileError, match="the part “Invented fan” already has a place in a vehicle"):
        read_parts(_put(tmp_path / "a.json", a_fan()))


def test_errors_name_the_file_the_part_and_the_field(tmp_path):
    path = _put(tmp_path / "fans.json", _shelved(a_fan(), "f-1"))
    data = json.loads(path.read_bytes())
    data["parts"][0]["ring_diameter_mm"] = -1
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(CatalogueFileError) as refused:
        read_parts(path)
    assert str(refused.value) == (
        "“fans.json” cannot be opened: in the part “Invented fan”, the ring diameter is -1 mm, but must be at least 0.001 mm, "
        "so correct the figure or its unit."
    )


def test_a_project_is_not_taken_for_a_catalogue(tmp_path):
    (tmp_path / "a.json").write_text('{"kind": "grillestack project", "format": 1, "project": {}}', encoding="utf-8")
    with pytest.raises(CatalogueFileError, match="it is a “grillestack project”, not a “grillestack parts”"):
        read_parts(tmp_path / "a.json")


def test_missing_bundled_catalogues_are_told(monkeypatch):
    def missing(*_parts):
        raise MissingResourceError("The bundled file “resources/catalogue” is missing: install grillestack again.")

    monkeypatch.setattr(catalogue, "resource", missing)
    with pytest.raises(CatalogueFileError, match="install grillestack again"):
        load_catalogue()


def test_an_own_part_is_kept_at_the_origin_under_an_id_made_from_its_name(bundled):
    saved = save_own_part(replace(a_charge_air_cooler(), name="Ladeluftkühler, 60 × 30 cm"))
    assert saved.id == "own-ladeluftkuhler-60-30-cm"
    assert saved.placement == Placement()
    assert own_parts() == (saved,)


@pytest.mark.parametrize(
    ("name", "part_id"), [("散热器", "own-part"), ("  !", "own-part"), ("x" * 200, "own-" + "x" * 60)]
)
def test_any_name_gives_an_id(bundled, name, part_id):
    assert save_own_part(replace(a_fan(), name=name)).id == part_id


def test_two_own_parts_of_one_name_are_two_parts(bundled):
    first, second = save_own_part(a_fan()), save_own_part(replace(a_fan(), weight_kg=3.0))
    assert (first.id, second.id) == ("own-invented-fan", "own-invented-fan-2")
    assert own_parts() == (first, second)


def test_an_own_part_saved_again_under_its_id_takes_its_own_place(bundled):
    first, second = save_own_part(a_fan()), save_own_part(a_shroud())
    heavier = save_own_part(replace(first, weight_kg=3.0, name="Renamed"))
    assert own_parts() == (heavier, second)
    assert heavier.id == first.id


def test_damaged_own_parts_are_told_and_not_written_over(bundled):
    save_own_part(a_fan())
    damaged = own_parts_path().read_bytes()[:100]
    own_parts_path().write_bytes(damaged)
    with pytest.raises(CatalogueFileError, match=r"“own_parts\.json” cannot be opened: it is cut off"):
        save_own_part(a_shroud())
    assert own_parts_path().read_bytes() == damaged


def test_a_data_folder_that_cannot_be_made_is_told(bundled):
    own_parts_path().parent.parent.mkdir(parents=True, exist_ok=True)
    own_parts_path().parent.write_text("a file where the folder should be", encoding="utf-8")
    with pytest.raises(CatalogueFileError, match="was not saved"):
        save_own_part(a_fan())


def test_the_bundled_catalogues_can_be_read_and_leave_the_ids_of_own_parts_free():
    assert bundled_parts()
    assert not [part.id for part in bundled_parts() if part.id.startswith("own-")]
