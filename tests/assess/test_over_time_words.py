"""What is said beside the curves."""

from __future__ import annotations

from msgspec.structs import replace

from grillestack.assess.asked import asked_cases
from grillestack.assess.heat_shed import HeatShed
from grillestack.assess.heat_stored import heat_stores
from grillestack.assess.over_time_words import basis_over_time, notes_over_time
from grillestack.model import edits
from tests.assess import packs

PACK = packs.half_height_pack()
(ASKED,) = asked_cases(PACK)


def _shed(steady_degc: float | None) -> HeatShed:
    return HeatShed(steady_degc=steady_degc, corner_degc=(88.0, 122.0), corner_heat_w=(0.0, 1.0))


def _note(found: HeatShed | None) -> str:
    return " ".join(notes_over_time((ASKED,), (found,), 88.0))


def test_each_peculiar_case_has_its_sentence_and_an_ordinary_one_has_none():
    assert _note(_shed(100.0)) == ""
    assert "the thermostat holds the coolant at 88 °C" in _note(_shed(70.0))
    assert "leads to 110.0 °C, above the limit" in _note(_shed(110.0))
    assert "would lead to 133 °C: above 122 °C" in _note(_shed(133.0))
    assert "until it boils" in _note(_shed(None))
    assert "did not settle" in _note(None)


def test_a_case_that_comes_twice_is_told_once():
    assert len(notes_over_time((ASKED, ASKED, ASKED), (_shed(70.0),) * 3, 88.0)) == 1
    assert "add one" in notes_over_time((ASKED, ASKED, None), (_shed(100.0),) * 2, 88.0)[0]


def test_the_basis_says_which_thermostat_it_was_and_lists_all_that_stores_heat():
    guessed = {one.figure: one for one in basis_over_time(PACK, heat_stores(PACK))}
    typed_pack = edits.set_engine(PACK, replace(packs.SHEET, thermostat_degc=91.0))
    typed = {one.figure: one for one in basis_over_time(typed_pack, heat_stores(typed_pack))}
    assert guessed["thermostat"].source.startswith("default: ")
    assert "shut below 88 °C" in guessed["thermostat"].method
    assert typed["thermostat"].source == "engine sheet"
    assert "shut below 91 °C" in typed["thermostat"].method
    assert sum(figure.startswith("heat stored in ") for figure in guessed) == 3
