"""Figures are read with the decimal mark of the reader; what is typed with a comma is asked about, with every meaning it may have."""

from __future__ import annotations

import pytest

from grillestack.units.display import DecimalMark, UnitSystem
from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import CommaQuestionError, Dimension, QuantityError
from grillestack.units.scale_marks import scale_between
from grillestack.units.show import show_bare, show_quantity


@pytest.mark.parametrize("system", list(UnitSystem))
def test_a_system_and_its_mark_are_taken_apart_and_put_together(system):
    assert system.base.with_mark(system.mark) is system
    assert system.base.mark is DecimalMark.POINT
    assert system.base.base is system.base


def test_a_figure_has_the_comma_only_where_it_is_chosen():
    assert show_quantity(26.5, Dimension.LENGTH, UnitSystem.METRIC) == "26.5 mm"
    assert show_quantity(26.5, Dimension.LENGTH, UnitSystem.METRIC_COMMA) == "26,5 mm"
    assert show_quantity(4400.0, Dimension.POWER, UnitSystem.METRIC_COMMA) == "4,4 kW"
    assert show_bare(0.0065, Dimension.FRACTION, UnitSystem.METRIC_COMMA) == "0,65 %"
    assert show_quantity(-12.25, Dimension.LENGTH, UnitSystem.METRIC_COMMA) == "-12,3 mm"
    assert show_quantity(None, Dimension.LENGTH, UnitSystem.METRIC_COMMA) == "not known"


def test_fractions_of_an_inch_have_no_decimal_mark_at_all():
    # 26 3/16 in = 665.1625 mm, by the inch of 25.4 mm (ISO 80000-3)
    assert show_quantity(665.1625, Dimension.LENGTH, UnitSystem.INCH_COMMA) == "26 3/16 in"


def test_figures_along_a_scale_have_the_mark_too():
    marks = scale_between(0.0, 2.0, Dimension.FLOW_SPEED, UnitSystem.METRIC_COMMA).marks
    assert "0,5" in [mark.text for mark in marks]


def answers_to(text: str) -> tuple[str, ...]:
    with pytest.raises(CommaQuestionError) as asked:
        parse_quantity(text, Dimension.LENGTH, "mm")
    return asked.value.answers


@pytest.mark.parametrize(
    ("text", "meant_mm"),
    [
        ("26,5", (26.5, 265.0)),
        ("26,5 cm", (265.0, 2650.0)),
        ("-0,4", (-0.4,)),
        ("1,234", (1.234, 1234.0)),
        ("1,234.5", (1234.5,)),
        ("1.234,5", (1234.5,)),
    ],
)
def test_each_meaning_of_a_comma_can_be_read_without_doubt(text, meant_mm):
    found = answers_to(text)
    assert [parse_quantity(answer, Dimension.LENGTH, "mm") for answer in found] == pytest.approx(list(meant_mm))


def test_a_comma_that_can_mean_nothing_is_refused_without_a_question():
    with pytest.raises(QuantityError) as refused:
        parse_quantity("1,2,3", Dimension.LENGTH, "mm")
    assert not isinstance(refused.value, CommaQuestionError)
