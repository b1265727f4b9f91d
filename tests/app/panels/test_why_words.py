"""What is said of a figure, in the units of the session."""

from grillestack.app.panels.why_words import quantity_words, source_lines, title_words, whole_words
from grillestack.assess.figure import Input, Quantity, Why
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension

WHY = Why(
    title="Hottest day, Grade pull",
    quantity=Quantity(value=40.0, dimension=Dimension.TEMPERATURE),
    says="The hottest day.",
    method="Solved.",
    inputs=(
        Input(
            name="Top tank limit",
            quantity=Quantity(value=107.0, dimension=Dimension.TEMPERATURE),
            origin="default: usual",
        ),
    ),
    sources=("J1393", "UNKNOWN1"),
    source_words="the solver",
    spread="Some.",
)


def test_values_are_shown_in_the_units_asked_for():
    assert title_words(WHY, UnitSystem.METRIC) == "Hottest day, Grade pull: 40 °C"
    assert title_words(WHY, UnitSystem.INCH) == "Hottest day, Grade pull: 104 °F"


def test_a_figure_without_a_value_has_its_name_alone_and_an_unknown_one_says_so():
    assert (
        title_words(Why(title="Over time", quantity=Quantity(), says="", method=""), UnitSystem.METRIC) == "Over time"
    )
    unknown = Why(title="Day", quantity=Quantity(dimension=Dimension.TEMPERATURE), says="", method="")
    assert title_words(unknown, UnitSystem.METRIC) == "Day: not known"
    assert quantity_words(Quantity(words="no day"), UnitSystem.METRIC) == "no day"


def test_sources_stand_with_their_titles_and_an_id_nobody_lists_stays_an_id():
    lines = source_lines(WHY, {"J1393": "SAE J1393, cooling tests"})
    assert lines == ["[J1393] SAE J1393, cooling tests", "UNKNOWN1", "The solver."]


def test_read_aloud_it_holds_every_input_with_its_origin():
    words = whole_words(WHY, UnitSystem.METRIC, {})
    assert "Top tank limit: 107 °C (default: usual)" in words
    assert words.endswith("How far it may be out: Some.")
