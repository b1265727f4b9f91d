"""Title block, projection symbol, weld symbols and schedules."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.model.sheet_choices import Paper, Projection, WeldSymbols
from grillestack.sheets.collisions import collisions
from grillestack.sheets.datum import datum_of
from grillestack.sheets.draw_list import Circle, Layer, LineKind, Point, Polyline, Text
from grillestack.sheets.fittings import fittings_of, hole_schedule, port_schedule
from grillestack.sheets.lettering import MissingLetterError
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.projection_symbol import projection_symbol
from grillestack.sheets.weld_symbol import Weld, WeldNote, weld_marks
from tests.sheets.drawn import demo, demo_sheets, on_layer, pack_sheets


def block_words(sheet) -> list[str]:
    return [mark.text for mark in on_layer(sheet, Layer.TITLE) if isinstance(mark, Text)]


def test_the_block_has_the_fields_that_iso_7200_asks_for():
    """ISO 7200, from memory: owner, number, date of issue, sheet, title, approved by, created by, document type."""
    words = block_words(demo_sheets(1)[0])
    for field in ("Legal owner", "Document number", "Date of issue", "Sheet", "Title", "Approved by", "Created by"):
        assert field in words
    assert "Document type" in words
    assert "2026-11-25" in words
    assert f"1 / {len(demo_sheets(1))}" in words


def test_what_is_not_given_is_a_dash_and_not_a_guess():
    assert block_words(demo_sheets(1)[0]).count("–") >= 3


def test_a_long_title_stays_in_its_field():
    project = replace(demo(3), title="A very long invented title " * 6)
    sheet = pack_sheets(project)[0]
    assert collisions(sheet.marks) == ()


def test_a_letter_that_cannot_be_written_is_named():
    with pytest.raises(MissingLetterError, match=r"the letter “漢”.*“漢”"):
        pack_sheets(replace(demo(3), title="漢"))


@pytest.mark.parametrize("paper", Paper)
def test_frame_and_block_are_free_of_collisions_on_any_paper(paper):
    sheet = demo_sheets(3, paper)[0] if paper in (Paper.A3, Paper.A1) else None
    if sheet is not None:
        assert collisions([*on_layer(sheet, Layer.TITLE), *on_layer(sheet, Layer.FRAME)]) == ()


def test_the_symbol_stands_as_its_projection_does():
    """ISO 5456-2: seen from its left, small end, the cone shows two circles; third angle puts them at that end."""
    for projection, at_small_end in ((Projection.THIRD_ANGLE, True), (Projection.FIRST_ANGLE, False)):
        marks = projection_symbol(projection, Point(0.0, 0.0), 10.0)
        circle = next(mark for mark in marks if isinstance(mark, Circle))
        cone = next(mark for mark in marks if isinstance(mark, Polyline))
        heights = {}
        for point in cone.points:
            heights.setdefault(point.x_mm, []).append(point.y_mm)
        small = min(heights, key=lambda x: max(heights[x]) - min(heights[x]))
        large = max(heights, key=lambda x: max(heights[x]) - min(heights[x]))
        nearer_small = abs(circle.centre.x_mm - small) < abs(circle.centre.x_mm - large)
        assert nearer_small is at_small_end
        assert small < large


def test_the_two_weld_standards_put_the_arrow_side_where_they_say():
    """ISO 2553 system A: on the continuous line, with a dashed line beside it; AWS A2.4: one line, below it. From memory."""
    note = WeldNote(tip=Point(0.0, 0.0), elbow=Point(20.0, 20.0), weld=Weld.FILLET, size_text="a3", length_text="40")
    iso, aws = weld_marks(note, WeldSymbols.ISO_2553), weld_marks(note, WeldSymbols.AWS_A2_4)
    dashed = [mark for mark in iso if getattr(mark, "stroke", None) and mark.stroke.kind is LineKind.DASHED]
    assert len(dashed) == 1
    assert not [mark for mark in aws if getattr(mark, "stroke", None) and mark.stroke.kind is LineKind.DASHED]
    heights = [[p.y_mm for p in m.points] for m in (iso[2], aws[2])]
    assert max(heights[0]) > 20.0
    assert min(heights[1]) < 20.0
    assert collisions([mark for mark in iso if isinstance(mark, Text)]) == ()


def test_a_schedule_lists_every_hole_and_port_with_its_place():
    project = demo(2)
    datum = datum_of(project)
    holes, ports = hole_schedule(project, datum), port_schedule(project, datum)
    assert len(holes.rows) == sum(len(part.mounts) for part in project.parts)
    assert len(ports.rows) == sum(len(part.ports) for part in project.parts)
    # By hand: the radiator's inlet at u −247, v 289, w 53 of a part at y 0, z 700, x 192; the datum at 322, 382, 192.
    inlet = next(row for row in ports.rows if row[1] == "RAD inlet")
    assert inlet[5:8] == ("569", "607", "53")
    assert inlet[2] == "Ø42"
    assert inlet[8] == "rear, 0°"


def test_what_is_not_known_of_a_port_is_said_so():
    row = port_schedule(demo(2), datum_of(demo(2))).rows[0]
    assert row[3:5] == ("not known", "not known")


def test_numbers_run_through_and_tags_are_the_trades_own():
    project = demo(1)
    names = [fitting.name for fitting in fittings_of(project)]
    assert len(set(names)) == len(names)
    assert [tag.tag for tag in part_tags(project).values()] == ["COND", "CAC", "RAD", "SHROUD", "FAN 1", "FAN 2"]
    assert [tag.item for tag in part_tags(project).values()] == [1, 2, 3, 4, 5, 6]
