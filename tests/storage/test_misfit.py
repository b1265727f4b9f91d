"""What does not fit is told in the words of the pack: which part, which field, what is wrong, what to do."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from grillestack.storage.envelope import decoded
from grillestack.storage.project_file import PROJECT_KIND, ProjectFile, ProjectFileError, project_bytes
from tests.model.examples import a_full_project

GOOD = json.loads(project_bytes(a_full_project()))
COOLER, RADIATOR, SHROUD, FAN = range(4)
REMOVED = object()


def _sentence(path: str, value) -> str:
    """Return what is said after the value at that path was exchanged or removed."""
    data = copy.deepcopy(GOOD)
    steps = [int(step) if step.isdigit() else step for step in path.split(".")]
    inside = data
    for step in steps[:-1]:
        inside = inside[step]
    if value is REMOVED:
        del inside[steps[-1]]
    else:
        inside[steps[-1]] = value
    with pytest.raises(ProjectFileError) as refused:
        decoded(Path("/a/nose.grillestack"), json.dumps(data).encode(), PROJECT_KIND, ProjectFile)
    return str(refused.value).removeprefix("“nose.grillestack” cannot be opened: ")


@pytest.mark.parametrize(
    ("path", "value", "sentence"),
    [
        (
            "project.parts.1.core_width_mm",
            -5,
            "in the part “Invented radiator”, the core width is -5 mm, but must be at least 0.001 mm, so correct the figure or its unit.",
        ),
        (
            "project.parts.1.core_width_mm",
            1e9,
            "in the part “Invented radiator”, the core width is 1000000000 mm, but must be at most 5000 mm, so correct the figure or its unit.",
        ),
        (
            "project.variants.0.parts.1.core_width_mm",
            -5,
            "in the layout “No fan”, the part “Invented radiator”, the core width is -5 mm, but must be at least 0.001 mm, so correct the figure or its unit.",
        ),
        (
            "project.parts.1.core_width_mm",
            10**300,
            "in the part “Invented radiator”, the core width is far too large, but must be at most 5000 mm, so correct the figure or its unit.",
        ),
        (
            "project.parts.1.core_width_mm",
            "600",
            "in the part “Invented radiator”, the core width must be a number, not “600”, so correct it.",
        ),
        (
            "project.parts.1.weight_kg",
            True,
            "in the part “Invented radiator”, the weight must be a number or empty, not true, so correct it.",
        ),
        (
            "project.parts.1.passes",
            1.5,
            "in the part “Invented radiator”, the passes must be a whole number, not 1.5, so correct it.",
        ),
        (
            "project.parts.1.own_sizes",
            1,
            "in the part “Invented radiator”, the own sizes must be true or false, not 1, so correct it.",
        ),
        (
            "project.parts.1.role",
            "frobnicator",
            "in the part “Invented radiator”, the role cannot be “frobnicator”, so choose one this program knows.",
        ),
        (
            "project.parts.1.part",
            "heater",
            "in the part “Invented radiator”, the part cannot be “heater”, so choose one this program knows.",
        ),
        (
            "project.parts.1.part",
            REMOVED,
            "in the part “Invented radiator”, “part” is missing, so put it in or take an earlier copy.",
        ),
        (
            "project.parts.1.id",
            "The Radiator",
            "in the part “Invented radiator”, the id “The Radiator” may hold small letters, digits and hyphens only, so change it.",
        ),
        ("project.parts.1.name", "", "in the part “radiator-1”, the name is empty, so type at least one letter."),
        (
            "project.parts.3.name",
            "x" * 201,
            f"in the part “{'x' * 59}…”, the name is too long, so shorten it to 200 letters.",
        ),
        ("project.parts.2", 7, "part 3 must be a group of fields, not 7, so correct it."),
        ("project.parts.2.name", None, "in the part “shroud-1”, the name must be text, not empty, so correct it."),
        (
            "project.parts.2.widht_mm",
            600,
            "in the part “Invented shroud”, “widht_mm” is a field this program does not know, so remove it or correct its name.",
        ),
        (
            "project.parts.1.ports.0.bore_mm",
            0,
            "in the part “Invented radiator”, port 1, the bore is 0 mm, but must be at least 0.001 mm, so correct the figure or its unit.",
        ),
        (
            "project.parts.1.description.table.points.1.air_loss_pa",
            -1,
            "in the part “Invented radiator”, what is known of it, its measured table, line 2, the air loss is -1 Pa, but must be at least 0 Pa, so correct the figure or its unit.",
        ),
        (
            "project.parts.1.description.table.points",
            [],
            "in the part “Invented radiator”, what is known of it, its measured table, the list of points has too few entries, so give it 2 or more.",
        ),
        (
            "project.parts.1.solids.1.rect",
            [],
            "in the part “Invented radiator”, tank, plate or frame 2, its size must be a group of fields, not a list, so correct it.",
        ),
        (
            "project.parts.0.placement.tilt_deg",
            31,
            "in the part “Invented charge-air cooler”, its place, the tilt is 31 °, but must be at most 30 °, so correct the figure or its unit.",
        ),
        (
            "project.nose.openings.0.outline.2.1",
            "top",
            "in the nose, the opening “Grille”, its outline, corner 3, the height (z) must be a number, not “top”, so correct it.",
        ),
        (
            "project.nose.openings.0.outline.2",
            [1],
            "in the nose, the opening “Grille”, corner 3 has too few entries, so give it 2 or more.",
        ),
        (
            "project.nose.openings.0.outline.2",
            [1, 2, 3],
            "in the nose, the opening “Grille”, corner 3 has too many entries, so leave 2 at most.",
        ),
        (
            "project.nose.openings.0.outline",
            [[1, 2], [3, 4]],
            "in the nose, the opening “Grille”, its outline has too few entries, so give it 3 or more.",
        ),
        (
            "project.nose.stations.bonnet_line.1.0",
            1e5,
            "in the nose, the depth stations, the bonnet line, point 2, the place along the vehicle (x) is 100000 mm, but must be at most 10000 mm, so correct the figure or its unit.",
        ),
        (
            "project.engine.heat_to_coolant_w",
            "54 kW",
            "in the engine sheet, the heat to coolant must be a number or empty, not “54 kW”, so correct it.",
        ),
        (
            "project.cases.1.road_speed_m_s",
            -1e-9,
            "in the duty case “Crawl”, the road speed is -1e-09 m/s, but must be at least 0 m/s, so correct the figure or its unit.",
        ),
        ("project.environment", [], "the environment must be a group of fields, not a list, so correct it."),
        ("project.next_number", 0, "the next number is 0, but must be at least 1, so correct the figure or its unit."),
        ("project", 3, "the project must be a group of fields, not 3, so correct it."),
        ("project", REMOVED, "at its top, “project” is missing, so put it in or take an earlier copy."),
        ("more", 1, "at its top, “more” is a field this program does not know, so remove it or correct its name."),
        # The model's own sentence, with the place it speaks of.
        (
            "project.parts.1.core_width_mm",
            900,
            "the part “Invented radiator”: The core of “Invented radiator” (900 × 400 mm) is larger than its overall size (700 × 420 mm): measure the core without tanks and plates.",
        ),
        (
            "project.parts.1.overall.u_max_mm",
            -400,
            "the part “Invented radiator”, its overall size: The width must be above 0 mm: give the right edge a place right of the left one.",
        ),
        (
            "project.parts.1.id",
            "fan-1",
            "Two things of the kind “part” carry the id “fan-1”: give one of them another id.",
        ),
    ],
)
def test_what_does_not_fit_is_told_with_its_place_and_a_remedy(path, value, sentence):
    assert _sentence(path, value) == sentence


def test_a_field_name_with_quotes_and_line_breaks_is_shown_on_one_line():
    sentence = _sentence("project.parts.2.a`b\nc - at `$", 1)
    assert sentence.startswith("in the part “Invented shroud”, “a`b c - at `$” is a field this program does not know")
