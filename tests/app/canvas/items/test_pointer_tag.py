"""What the tag at the pointer says."""

from __future__ import annotations

from dataclasses import replace

from grillestack.app.canvas.items.pointer_tag import tag_lines
from grillestack.units.display import UnitSystem


def told(base, now, units=UnitSystem.METRIC):
    return {line.words: (line.now_text, line.change_text) for line in tag_lines(base, now, units)}


def test_changes_are_told_from_where_the_drag_began(session):
    base = session.base_assessment
    face = replace(base.radiator, exposed_mm2=base.radiator.exposed_mm2 + 12_300, effective_mm2=None)
    case = replace(base.deciding_case, limiting_ambient_degc=base.deciding_case.limiting_ambient_degc - 1.2)
    now = replace(base, radiator=face, deciding_case=case)
    words = told(base, now)
    assert words["exposed face"][1] == "+123 cm²"
    assert words["hottest day"][1] == "−1.2 K"


def test_a_change_in_inches_is_a_difference_not_a_temperature(session):
    base = session.base_assessment
    warmer = replace(base.deciding_case, limiting_ambient_degc=base.deciding_case.limiting_ambient_degc + 10)
    words = told(base, replace(base, deciding_case=warmer), UnitSystem.INCH)
    assert words["hottest day"][1] == "+18.0 °F"  # 10 K are 18 °F of difference


def test_what_is_not_known_says_so_and_claims_no_change(session):
    words = told(session.base_assessment, session.base_assessment)
    assert words["effective face"] == ("not known", "")
    assert words["exposed face"][1] == "no change"
    assert told(None, None)["hottest day"] == ("not known", "")
