"""Of what brackets and shroud are made and how they are bent: the project's choice, or a default that is marked as one."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.model.sheet_choices import DrawingUnits, MakingChoices
from grillestack.sheets.bend import Bend
from grillestack.sheets.say_length import said_length

# Common practice, no source: mild steel that any welder has, aluminium sheet that bends and welds.
BRACKET_MATERIAL, BRACKET_THICKNESS_MM = "steel S235JR", 3.0
SHROUD_MATERIAL, SHROUD_THICKNESS_MM = "aluminium EN AW-5754 H111", 1.5
# Inside radius as a multiple of the thickness, and the neutral fibre of air bending; common practice, from memory.
RADIUS_FACTOR, NEUTRAL_FRAC = 1.0, 0.44
DEFAULT_MARK = "(default)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """Material and bend of one kind of work, and in words with defaults marked."""

    material_text: str
    bend: Bend
    material_words: str
    bend_words: str

    @property
    def thickness_mm(self) -> float:
        """Return the thickness of the sheet."""
        return self.bend.thickness_mm


def bracket_making(choices: MakingChoices, units: DrawingUnits) -> Making:
    """Return how brackets and rails are made."""
    given = (choices.bracket_material_text, choices.bracket_thickness_mm)
    return _making(given, (BRACKET_MATERIAL, BRACKET_THICKNESS_MM), choices, units)


def shroud_making(choices: MakingChoices, units: DrawingUnits) -> Making:
    """Return how the shroud is made."""
    given = (choices.shroud_material_text, choices.shroud_thickness_mm)
    return _making(given, (SHROUD_MATERIAL, SHROUD_THICKNESS_MM), choices, units)


def _making(
    given: tuple[str, float | None], default: tuple[str, float], choices: MakingChoices, units: DrawingUnits
) -> Making:
    material, thickness = given[0].strip() or default[0], given[1] or default[1]
    radius = choices.bend_radius_mm or RADIUS_FACTOR * thickness
    neutral = choices.bend_neutral_frac or NEUTRAL_FRAC
    bend = Bend(thickness_mm=thickness, radius_mm=radius, neutral_frac=neutral)
    is_default = (
        not given[0].strip(),
        given[1] is None,
        choices.bend_radius_mm is None,
        choices.bend_neutral_frac is None,
    )
    marks = [f" {DEFAULT_MARK}" if one else "" for one in is_default]
    return Making(
        material_text=material,
        bend=bend,
        material_words=f"{material}{marks[0]}, {said_length(thickness, units)} thick{marks[1]}",
        bend_words=(
            f"inside radius {said_length(radius, units)}{marks[2]}, neutral fibre at {neutral:g} of the thickness{marks[3]}"
        ),
    )
