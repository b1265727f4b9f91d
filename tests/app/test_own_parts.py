"""The shelf has the bundled parts, the user's own and starters, and one bad file does not empty it."""

from grillestack.app.own_parts import own_size_starters, shelf_parts
from grillestack.model.parts import Core, CoreRole, Placement, Shroud
from grillestack.storage.catalogue import bundled_parts, own_parts_path, save_own_part


def test_every_starter_is_to_own_sizes_at_the_origin_and_has_an_id_of_its_own():
    starters = own_size_starters()
    assert all(part.own_sizes and part.placement == Placement() for part in starters)
    assert len({part.id for part in starters}) == len(starters)
    assert {part.role for part in starters if isinstance(part, Core)} == set(CoreRole)
    assert any(isinstance(part, Shroud) for part in starters)


def test_no_starter_claims_more_than_its_type():
    for part in own_size_starters():
        if isinstance(part, Core):
            known = part.description
            assert (known.construction, known.rating, known.table) == (None, None, None)
        assert part.ports == ()
        assert part.weight_kg is None


def test_bundled_and_own_parts_stand_together():
    saved = save_own_part(own_size_starters()[0])
    parts, complaints = shelf_parts()
    assert complaints == []
    assert parts == (*bundled_parts(), saved)


def test_damaged_own_parts_are_told_and_the_bundled_ones_are_there():
    own_parts_path().parent.mkdir(parents=True)
    own_parts_path().write_text("{ cut", encoding="utf-8")
    parts, complaints = shelf_parts()
    assert parts == bundled_parts()
    assert len(complaints) == 1
    assert "own_parts.json" in complaints[0]
