"""Further coolers in the explanation."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.cli.explain_air import warmed
from grillestack.cli.explain_coolers import further_coolers
from grillestack.cli.explain_text import Explained, explanation
from grillestack.units.display import UnitSystem
from tests.assess.test_further_coolers import BARE, LOW, OIL, flow_of, pack_with


def told(cooler, x_mm: float = 90.0) -> str:
    assessment = assess(pack_with(cooler, x_mm))
    (sentence,) = further_coolers(assessment, assessment.cases[0], UnitSystem.METRIC)
    return sentence


def test_oil_is_told_from_inlet_to_outlet_with_its_heat():
    flow = flow_of(assess(pack_with(OIL)).cases[0])
    assert told(OIL) == (
        f"The oil enters the cooler at 115 °C and leaves it at {flow.tube_out_degc:.0f} °C: it gives off {flow.heat_w / 1000:.1f} kW."
    )


@pytest.mark.parametrize(
    ("cooler", "x_mm", "words"),
    [
        (LOW, 90.0, "The coolant enters the cooler at 65 °C"),
        (replace(LOW, tube_inlet_degc=40.0), 250.0, "it takes up"),
        (replace(OIL, given_heat_w=4_000.0), 90.0, "The cooler gives off 4.0 kW, as typed."),
        (BARE, 90.0, "What the cooler gives off is not known and counted as none."),
    ],
)
def test_each_way_to_its_heat_has_its_words(cooler, x_mm, words):
    assert words in told(cooler, x_mm)


def test_only_what_stands_ahead_is_said_to_warm_the_radiator_s_air():
    ahead, behind = (assess(pack_with(OIL, x_mm)) for x_mm in (90.0, 250.0))
    (before,) = warmed(ahead, ahead.cases[0], UnitSystem.METRIC)
    (after,) = warmed(behind, behind.cases[0], UnitSystem.METRIC)
    assert "warmed by the cooler" in before
    assert "cooler" not in after


def test_the_explanation_has_the_sentence():
    assessment = assess(pack_with(OIL))
    text = explanation(Explained(assessment=assessment, case=assessment.cases[0])).replace("\u00a0", " ")
    assert "The oil enters the cooler at 115 °C" in " ".join(text.split())
