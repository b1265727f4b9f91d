"""A long name breaks at a word into two lines; only what is too long even then ends in an ellipsis."""

import pytest
from PySide6.QtGui import QFont, QFontMetrics

from grillestack.app.panels.part_row import name_lines

LONG = "Cross-flow radiator 520 × 360 × 16, aluminium, one row"


@pytest.fixture
def font(qapp):
    return QFont(qapp.font())


def test_a_short_name_is_one_line(font):
    assert name_lines("Radiator", font, 300) == ["Radiator"]


def test_a_long_name_is_two_whole_lines(font):
    width = QFontMetrics(font).horizontalAdvance(LONG) * 2 // 3
    lines = name_lines(LONG, font, width)
    assert len(lines) == 2
    assert " ".join(lines) == LONG


def test_a_name_too_long_for_two_lines_ends_in_an_ellipsis(font):
    width = QFontMetrics(font).horizontalAdvance(LONG) // 4
    lines = name_lines(LONG, font, width)
    assert len(lines) == 2
    assert lines[1].endswith("…")


@pytest.mark.parametrize("width", [0, -5])
def test_before_there_is_room_the_name_stays_whole(font, width):
    assert name_lines(LONG, font, width) == [LONG]
