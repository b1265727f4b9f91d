"""What each figure rests on."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from msgspec.structs import replace

import grillestack.physics
from grillestack.assess.assess import assess
from grillestack.assess.basis import basis_of
from grillestack.model import edits
from grillestack.model.engine import EngineSheet
from grillestack.model.project import Project, cores, fans
from tests.assess import packs

LISTED = set(
    re.findall(
        r"^\d+\. \*\*\[(\w+)\]\*\*",
        (Path(grillestack.physics.__file__).parent / "SOURCES.md").read_text(encoding="utf-8"),
        re.MULTILINE,
    )
)
# A source that is no id of the list says so in these words.
IN_WORDS = {
    "geometry",
    "definition of this program",
    "engine sheet",
    "estimated from the rated power",
    "not given",
}


def _all(project: Project):
    return basis_of(project, cores(project))


def _of(project: Project, figure: str):
    return next(basis for basis in _all(project) if basis.figure == figure)


def _whole_pack(sheet: EngineSheet = packs.SHEET) -> Project:
    return packs.with_part(packs.half_height_pack(sheet=sheet), packs.condenser(), 80.0, 400.0)


@pytest.mark.parametrize("project", [_whole_pack(), packs.behind(packs.project()), Project()])
def test_every_source_is_an_id_of_the_list_or_words_that_say_there_is_none(project):
    for basis in _all(project):
        assert basis.source in IN_WORDS or set(basis.source.split(", ")) <= LISTED, basis


def test_every_basis_names_its_inputs_and_its_spread():
    for basis in _all(_whole_pack()):
        assert basis.inputs, basis.figure
        assert basis.spread, basis.figure


def test_every_core_and_every_fan_has_a_basis_of_its_own():
    project = _whole_pack()
    figures = [basis.figure for basis in _all(project)]
    assert len(set(figures)) == len(figures) - 1  # the two fans of the pack carry one name
    for part in (*cores(project), *fans(project)):
        assert any(part.name in figure for figure in figures)


def test_an_input_says_whether_it_comes_from_the_sheet_or_stands_in():
    heat = _of(_whole_pack(), "heat to the coolant")
    assert heat.source == "engine sheet"
    guessed = _of(_whole_pack(EngineSheet(rated_power_w=112_000.0)), "heat to the coolant")
    assert guessed.source == "estimated from the rated power"
    assert guessed.spread != heat.spread
    inputs = _of(_whole_pack(), "limiting ambient temperature").inputs
    assert "top tank limit (engine sheet)" in inputs
    assert "ram recovery (default: common practice, no source)" in inputs


def test_charge_air_and_condenser_have_a_basis_only_where_they_are():
    bare = {basis.figure for basis in _all(packs.behind(packs.project()))}
    whole = {basis.figure for basis in _all(_whole_pack())}
    alone = {"charge-air temperature", "charge pressure loss", "condensing temperature"}
    assert not alone & bare
    assert alone <= whole


def test_a_fan_without_curve_and_flow_is_not_known_and_one_with_a_free_flow_is_wider():
    project = packs.behind(packs.project())
    fan = fans(project)[0]
    derived = edits.replace_part(project, replace(fan, name="Plain fan", curve=(), free_flow_m3_s=1.0))
    assert "free flow" in _of(derived, "air of “Plain fan”").inputs
    blind = edits.replace_part(project, replace(fan, name="Plain fan", curve=()))
    assert _of(blind, "air of “Plain fan”").method == "not known"


def test_an_assessment_carries_the_basis_of_its_own_project():
    project = packs.half_height_pack()
    assert assess(project).basis == _all(project)
