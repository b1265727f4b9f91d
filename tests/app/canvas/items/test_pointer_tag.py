"""What the tag at the pointer says."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFont

from grillestack.app.canvas.items.pointer_tag import TagLine, place_tag, tag_lines
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


def test_a_change_below_what_the_figures_hold_gets_no_digits(session):
    base = session.base_assessment
    face = replace(base.radiator, effective_mm2=201_700.0)
    before = replace(base, radiator=face)
    case = replace(base.deciding_case, limiting_ambient_degc=base.deciding_case.limiting_ambient_degc - 0.019)
    words = told(before, replace(base, radiator=replace(face, effective_mm2=201_620.0), deciding_case=case))
    assert words["effective face"][1] == "hardly any"
    assert words["hottest day"][1] == "hardly any"


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


def test_the_tag_stays_inside_a_narrow_view_and_keeps_the_changes(qapp):
    lines = (TagLine("exposed face", "2149 cm²", "+38 cm²"), TagLine("hottest day", "not known", ""))
    font, narrow = QFont("DejaVu Sans", 9), QRectF(0, 0, 190, 600)
    tag = place_tag(font, "rearward 25 mm", lines, QPointF(90, 300), narrow, [QRectF(80, 200, 20, 200)])
    assert narrow.contains(tag.rect)
    assert [line.change_text for line in tag.lines] == ["+38 cm²", "not known"]
    wide = place_tag(font, "rearward 25 mm", lines, QPointF(90, 300), QRectF(0, 0, 600, 600), [])
    assert wide.lines == lines


def test_the_tag_keeps_off_what_is_held(qapp):
    lines = (TagLine("exposed face", "2149 cm²", "+38 cm²"),)
    held = QRectF(150, 250, 300, 80)
    tag = place_tag(QFont("DejaVu Sans", 9), "up 3 mm", lines, QPointF(300, 290), QRectF(0, 0, 600, 600), [held])
    assert not tag.rect.intersects(held)
