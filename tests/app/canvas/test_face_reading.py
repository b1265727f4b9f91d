"""Does the painted face say what the assessment says."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.app.canvas.face_reading import legend_of, patches_of
from grillestack.app.canvas.items.face_item import Met
from grillestack.assess.assess import assess
from grillestack.model.edits import move_parts, remove_parts
from grillestack.units.display import UnitSystem


def area(ring) -> float:
    """Area of a polygon by the shoelace rule."""
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))) / 2


def painted(assessment) -> dict[Met, float]:
    found = dict.fromkeys(Met, 0.0)
    for patch in patches_of(assessment):
        found[patch.met] += area(patch.ring_mm)
    return found


def test_the_painted_patches_cover_the_face_once_with_the_areas_of_the_verdict(project):
    assessment = assess(project)
    face, areas = assessment.radiator, painted(assessment)
    assert sum(areas.values()) == pytest.approx(620 * 440)
    assert areas[Met.FRESH] == pytest.approx(face.exposed_mm2)
    assert areas[Met.BEHIND_ONE] + areas[Met.BEHIND_MORE] == pytest.approx(face.behind_mm2)
    assert areas[Met.OFF_OPENING] == pytest.approx(face.off_opening_mm2)
    assert areas[Met.BLOCKED] == pytest.approx(face.blocked_mm2)


def test_where_condenser_and_cac_lie_over_each_other_the_face_is_behind_two(project):
    # Plain rectangles: condenser y ±230, z 610…880; CAC core y ±300, z 550…710: 460 × 100 mm in common.
    assert painted(assess(project))[Met.BEHIND_MORE] == pytest.approx(460 * 100)


def test_the_legend_names_the_cores_in_the_way(project):
    entries = {entry.met: entry.words for entry in legend_of(assess(project), UnitSystem.METRIC).entries}
    assert entries[Met.FRESH] == "fresh air"
    assert set(entries[Met.BEHIND_ONE].removeprefix("behind ").split(" or ")) == {"condenser", "CAC"}
    assert set(entries[Met.BEHIND_MORE].removeprefix("behind ").split(" and ")) == {"condenser", "CAC"}


def test_a_shade_that_does_not_occur_is_not_in_the_legend(project):
    alone = remove_parts(project, ["condenser-1", "cac-1"])
    mets = [entry.met for entry in legend_of(assess(alone), UnitSystem.METRIC).entries]
    assert Met.BEHIND_ONE not in mets
    assert Met.BEHIND_MORE not in mets
    assert mets[0] is Met.FRESH


def test_a_face_without_an_opening_is_off_the_opening_throughout(project):
    closed = replace(project, nose=replace(project.nose, openings=(), support_window=None))
    closed = move_parts(remove_parts(closed, ["condenser-1", "cac-1"]), ["radiator-1"])
    areas = painted(assess(closed))
    assert areas[Met.OFF_OPENING] == pytest.approx(620 * 440)


def test_without_a_radiator_or_an_answer_nothing_is_painted(project):
    assert patches_of(None) == ()
    assert legend_of(None, UnitSystem.METRIC) is None
    assert patches_of(assess(remove_parts(project, ["radiator-1"]))) == ()
