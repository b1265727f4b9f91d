"""Layouts that cannot work are drawn, judged or said to be unknown, and reported in words; the window never gives up."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPointF

from grillestack.assess.result import Severity, Verdict
from grillestack.model.edits import move_parts, remove_parts, set_nose
from grillestack.model.engine import EngineSheet
from grillestack.model.nose import DepthStations, Nose, Obstruction
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores, fans, radiator, shrouds
from tests.end_to_end.bench import MOVE, PRESS, RELEASE


def without(project, parts):
    return remove_parts(project, [part.id for part in parts])


def cooler_inside_the_radiator(project):
    cooler = cores(project, CoreRole.CHARGE_AIR_COOLER)[0]
    return move_parts(project, [cooler.id], dx_mm=radiator(project).placement.x_mm - cooler.placement.x_mm)


def no_opening(project):
    return set_nose(project, replace(project.nose, openings=()))


def no_fan(project):
    return without(project, fans(project))


def no_fan_and_no_shroud(project):
    return without(project, (*fans(project), *shrouds(project)))


def no_radiator(project):
    return without(project, [radiator(project)])


def no_part(project):
    return without(project, project.parts)


def no_heat(project):
    return replace(project, engine=EngineSheet())


def no_case(project):
    return replace(project, cases=())


def a_wall_before_everything(project):
    wall = Obstruction(
        id="wall", name="Wall", outline=rectangle_outline(-2000, 0, 2000, 2000), x_front_mm=-50, x_rear_mm=-40
    )
    return set_nose(project, replace(project.nose, obstructions=(*project.nose.obstructions, wall)))


def no_depth(project):
    return set_nose(project, replace(project.nose, stations=DepthStations()))


def far_away(project):
    return move_parts(project, [radiator(project).id], dy_mm=3000.0)


def all_behind_the_pulley(project):
    return move_parts(project, [part.id for part in project.parts], dx_mm=1500.0)


def nothing_at_all(_project):
    return Project()


def only_a_nose(project):
    return Project(nose=project.nose)


def only_parts(project):
    return replace(project, nose=Nose())


LAYOUTS = [
    # layout, words that a finding must hold, the verdicts it may have
    (cooler_inside_the_radiator, "same space|overlap", {Verdict.FAIL, Verdict.CLOSE, Verdict.PASS, Verdict.UNKNOWN}),
    (no_opening, "no opening", {Verdict.FAIL, Verdict.UNKNOWN}),
    (no_fan, "no fan", {Verdict.FAIL, Verdict.UNKNOWN}),
    (no_fan_and_no_shroud, "no fan", {Verdict.FAIL, Verdict.UNKNOWN}),
    (no_radiator, "no radiator", {Verdict.UNKNOWN}),
    (no_part, "no radiator", {Verdict.UNKNOWN}),
    (no_heat, "heat to coolant is not known", {Verdict.UNKNOWN}),
    (no_case, "duty case", {Verdict.UNKNOWN}),
    (a_wall_before_everything, "Wall|opening", {Verdict.FAIL, Verdict.UNKNOWN}),
    (no_depth, "hottest day is", {Verdict.FAIL}),
    (far_away, "core support outside its window covers", {Verdict.FAIL, Verdict.UNKNOWN}),
    (all_behind_the_pulley, "pulley", {Verdict.FAIL, Verdict.CLOSE, Verdict.PASS, Verdict.UNKNOWN}),
    (nothing_at_all, "no opening", {Verdict.UNKNOWN}),
    (only_a_nose, "no radiator", {Verdict.UNKNOWN}),
    (only_parts, "no opening", {Verdict.FAIL, Verdict.UNKNOWN}),
]


@pytest.mark.parametrize(("layout", "words", "verdicts"), LAYOUTS, ids=[layout.__name__ for layout, *_ in LAYOUTS])
def test_a_bad_layout_is_drawn_and_reported(failing, layout, words, verdicts):
    before = failing.session.project
    failing.session.apply("spoil it", layout(before))
    assessment = failing.session.assessment
    assert assessment is not None
    assert assessment.verdict in verdicts
    assert failing.verdict_word().casefold().replace("not known", "unknown") == assessment.verdict.value
    said = " ".join(failing.findings()).casefold()
    assert any(word.casefold() in said for word in words.split("|")), failing.findings()
    serious = [r.finding for r in failing.window.verdict.findings_list.rows if r.finding.severity is Severity.SERIOUS]
    assert serious, "nothing serious is reported"
    failing.look()
    failing.session.undo_stack.undo()
    assert failing.session.project is before
    assert failing.verdict_word() == "Fail"


def test_an_unknown_verdict_shows_no_number_in_the_place_of_the_unknown(failing):
    failing.session.apply("spoil it", no_heat(failing.session.project))
    (days,) = [words for words in failing.words() if words.startswith("Hottest day: ")]
    assert "Hottest day not known" in days
    assert failing.verdict_word() == "Not known"


def test_a_part_dragged_through_all_of_the_window_never_loses_the_window(failing):
    port = failing.window.front.viewport().rect()
    failing.mouse(PRESS, failing.middle_px(failing.charge_air_cooler().id))
    ways = [(x, y) for x in (-300, 5, port.width() // 2, port.width() + 300) for y in (-300, 5, port.height() + 300)]
    for x, y in ways:
        failing.mouse(MOVE, QPointF(x, y))
        assert failing.session.assessment is not None
        failing.look()
    failing.mouse(RELEASE, QPointF(*ways[-1]))
    assert failing.session.undo_stack.count() == 1
    assert failing.session.assessment is not None
