"""What pieces are made of: a choice wins over a default, and only defaults are marked."""

from __future__ import annotations

from grillestack.model.sheet_choices import DrawingUnits, MakingChoices
from grillestack.sheets.making import DEFAULT_MARK, bracket_making, shroud_making

MM = DrawingUnits.MILLIMETRES


def test_defaults_stand_in_and_are_marked_each():
    for made in (bracket_making(MakingChoices(), MM), shroud_making(MakingChoices(), MM)):
        assert (made.material_words + made.bend_words).count(DEFAULT_MARK) == 4


def test_choices_win_and_are_not_marked():
    choices = MakingChoices(
        bracket_material_text="aluminium EN AW-6082",
        bracket_thickness_mm=4.0,
        bend_radius_mm=8.0,
        bend_neutral_frac=0.42,
    )
    made = bracket_making(choices, MM)
    assert made.material_words == "aluminium EN AW-6082, 4 thick"
    assert (made.bend.thickness_mm, made.bend.radius_mm, made.bend.neutral_frac) == (4.0, 8.0, 0.42)
    assert DEFAULT_MARK not in made.bend_words


def test_the_default_radius_is_the_thickness_of_the_sheet():
    made = shroud_making(MakingChoices(shroud_thickness_mm=2.0), MM)
    assert made.bend.radius_mm == 2.0
