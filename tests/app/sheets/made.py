"""A small sheet to look at, and a worker that answers with it."""

from __future__ import annotations

import msgspec

from grillestack.app.workers.messages import Answer, AskSheets, Stop
from grillestack.app.workers.sheet_travel import SheetAnswer, packed_sheets
from grillestack.model.sheet_choices import Paper, SheetView
from grillestack.sheets.draw_list import (
    ADJACENT,
    CENTRE,
    HIDDEN,
    OUTLINE,
    Arc,
    Axis,
    Circle,
    Fill,
    Hatch,
    Leader,
    Line,
    LinearDimension,
    LineGroup,
    OrdinateDimension,
    Point,
    Polyline,
    Sheet,
    Text,
)
from tests.app.workers.made import TalkingWorker

WIDTH = LinearDimension(
    key="width",
    first=Point(60, 60),
    second=Point(160, 60),
    direction_deg=0.0,
    line_at=Point(60, 45),
    text_at=Point(110, 47.5),
    text="500",
    measured_mm=500.0,
)
HOLE = OrdinateDimension(
    key="hole",
    axis=Axis.UP,
    datum=Point(60, 60),
    feature=Point(160, 90),
    leader=(Point(160, 90), Point(180, 90)),
    text_at=Point(186, 90),
    text="150",
    measured_mm=150.0,
)
NOTE = Leader(
    key="note", points=(Point(110, 110), Point(130, 140)), text_at=Point(131, 140), lines=("weld", "all round")
)


def a_sheet(key="pack", **fields):
    """Return one sheet with every kind of mark on it."""
    corner = (Point(60, 60), Point(160, 60), Point(160, 110), Point(60, 110))
    marks = (
        Polyline(points=corner, is_closed=True, stroke=OUTLINE),
        # 100 mm across, the bar that proves a print
        Line(start=Point(40, 20), end=Point(140, 20), stroke=OUTLINE),
        Line(start=Point(60, 85), end=Point(160, 85), stroke=CENTRE),
        Line(start=Point(60, 75), end=Point(160, 75), stroke=HIDDEN),
        Line(start=Point(40, 130), end=Point(100, 150), stroke=ADJACENT),
        Circle(centre=Point(110, 85), radius_mm=20),
        Arc(centre=Point(200, 60), radius_mm=15, start_deg=300, end_deg=80),
        Fill(points=(Point(200, 100), Point(210, 100), Point(205, 110))),
        Hatch(points=(Point(220, 100), Point(240, 100), Point(240, 130), Point(220, 130))),
        Text(at=Point(40, 170), text="Invented pack", height_mm=5.0, is_bold=True),
        WIDTH,
        HOLE,
        NOTE,
    )
    known = {
        "key": key,
        "title": "Cooling pack, arrangement",
        "view": SheetView.PACK,
        "paper": Paper.A4,
        "width_mm": 297.0,
        "height_mm": 210.0,
        "scale_factor": 5.0,
        "line_group": LineGroup(wide_mm=0.5, narrow_mm=0.25),
        "marks": marks,
    }
    return Sheet(**{**known, **fields})


class Draughtsman(TalkingWorker):
    """Notes what is asked about drawings and answers when a test lets it."""

    @property
    def sheets_asked(self):
        return [one for one in self.heard if isinstance(one, AskSheets)]

    @property
    def stopped(self):
        return [one.number for one in self.heard if isinstance(one, Stop)]

    def answer(self, *sheets, number=None, **fields):
        made = SheetAnswer(sheets=packed_sheets(sheets), sheet_count=len(sheets), **fields)
        wanted = self.sheets_asked[-1].number if number is None else number
        self.said.emit(Answer(number=wanted, result=msgspec.Raw(msgspec.json.encode(made))))
