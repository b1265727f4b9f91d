"""The top tank against the boiling point under the cap.

Check values: an equal mixture boils at 129.5 °C under a 1 bar cap at sea level and at 124 °C at 3000 m (computed from Raoult's law
apart from this program; handbooks give about 129 °C, from memory).
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.advice.boiling import coolant_near_boiling
from grillestack.assess.assess import assess
from grillestack.assess.result import Assessment, Severity
from grillestack.assets.locate import demo_projects
from grillestack.model import edits
from grillestack.model.project import radiator
from grillestack.storage.project_file import read_project
from grillestack.units.display import UnitSystem
from tests.advice import example_assessments as example
from tests.advice.rule_results import found_by


def _with(
    pack: Assessment, *, limit_degc: float, altitude_m: float = 0.0, rating_pa: float | None = None
) -> Assessment:
    project = replace(
        pack.project,
        engine=replace(pack.project.engine, top_tank_limit_degc=limit_degc, glycol_frac=0.5),
        environment=replace(pack.project.environment, altitude_m=altitude_m),
    )
    project = edits.replace_part(project, replace(radiator(project), pressure_rating_pa=rating_pa))
    return example.change(pack, project=project)


@pytest.mark.parametrize(("altitude_m", "boils_degc"), [(0.0, 129.5), (3000.0, 124.0)])
def test_a_limit_within_five_kelvin_of_boiling_is_a_warning_with_the_numbers(altitude_m, boils_degc):
    near = _with(example.passing(), limit_degc=boils_degc - 4.5, altitude_m=altitude_m)
    (finding,) = found_by(coolant_near_boiling, near)
    assert finding.severity is Severity.WARNING
    assert "the top tank's limit" in finding.text
    assert "a cap of 100 kPa, as usual" in finding.text
    assert "Never open a hot system." in finding.text
    assert finding.parts == ("radiator-1",)
    assert found_by(coolant_near_boiling, _with(near, limit_degc=boils_degc - 5.6, altitude_m=altitude_m)) == []


def test_a_limit_over_the_boiling_point_is_serious():
    (finding,) = found_by(coolant_near_boiling, _with(example.passing(), limit_degc=131.0))
    assert finding.severity is Severity.SERIOUS
    assert "K over the" in finding.text


def test_a_top_tank_as_computed_counts_as_well():
    hot = example.with_case(_with(example.passing(), limit_degc=107.0), top_tank_degc=128.0)
    (finding,) = found_by(coolant_near_boiling, hot)
    assert finding.text.startswith("Grade pull: the top tank of 128 °C is ")


def test_a_radiator_rated_for_less_than_a_usual_cap_sets_the_pressure():
    """At 0.3 bar over the air of sea level an equal mixture boils at about 115 °C."""
    assert found_by(coolant_near_boiling, _with(example.passing(), limit_degc=112.0)) == []
    (finding,) = found_by(coolant_near_boiling, _with(example.passing(), limit_degc=112.0, rating_pa=3e4))
    assert "30 kPa that the radiator is rated for" in finding.text
    assert found_by(coolant_near_boiling, _with(example.passing(), limit_degc=112.0, rating_pa=2e5)) == []


def test_in_inches_the_sentence_speaks_so():
    near = _with(example.passing(), limit_degc=127.0, altitude_m=300.0)
    (finding,) = found_by(coolant_near_boiling, near, UnitSystem.INCH)
    assert "°F" in finding.text
    assert "°C" not in finding.text
    assert "ft above the sea" in finding.text


@pytest.mark.parametrize("path", demo_projects(), ids=lambda path: path.name)
def test_no_demo_is_near_boiling(path):
    assert found_by(coolant_near_boiling, assess(read_project(path))) == []
