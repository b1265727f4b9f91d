"""A worker that answers a search as a test lets it, and rows it may answer with."""

from __future__ import annotations

import msgspec
from msgspec.structs import replace

from grillestack.app.workers.fit_rows import FitList, FitRow, NearRow
from grillestack.app.workers.messages import NOTHING, Answer, AskFit, Failure
from grillestack.model.parts import Placement
from tests.app.workers.made import TalkingWorker
from tests.fit.packs import a_cooler

SQUARE = ((-20.0, 500.0), (40.0, 500.0), (40.0, 700.0), (-20.0, 700.0))
HOLE = ((0.0, 580.0), (10.0, 580.0), (10.0, 590.0), (0.0, 590.0))


class Searcher(TalkingWorker):
    """Notes what is asked and answers when told."""

    @property
    def fits_asked(self):
        return [message for message in self.heard if isinstance(message, AskFit)]

    @property
    def parts_asked(self):
        """Return which parts were asked about, in order; nothing stands for the list of all."""
        return [part_of(ask) for ask in self.fits_asked]

    def tell(self, result):
        """Answer the last question."""
        raw = msgspec.Raw(msgspec.json.encode(result))
        self.said.emit(Answer(number=self.fits_asked[-1].number, result=raw))

    def break_off(self):
        self.said.emit(Failure(number=self.fits_asked[-1].number))


def part_of(ask):
    return None if bytes(ask.fit) == bytes(NOTHING) else msgspec.json.decode(ask.fit)


def row(part_id, order=0.0, *, assessed=False, **fields) -> FitRow:
    """Return a row of an invented cooler; its figures are what a test says."""
    part = a_cooler(part_id, 500.0, 200.0)
    known = {"hottest_degc": 40.0, "lost_frac": 0.3, "charge_degc": 60.0, "loss_pa": 5000.0} if assessed else {}
    given = {
        "part": part,
        "placement": Placement(x_mm=60.0, y_mm=10.0, z_mm=620.0),
        "fit": msgspec.Raw(msgspec.json.encode(part_id)),
        "is_assessed": assessed,
        "order_factor": (0.0 if assessed else 1.0, order),
        "name": f"{part_id} core",
        "size": "600 × 200 × 64 mm",
        "way": "as listed",
        "place": "60 mm back, 10 mm to the right, centre 620 mm high",
        "margin": "5 mm",
        "margins": "5 mm left, 6 mm right, 7 mm down, 8 mm up",
        "hottest": "40 °C" if assessed else "",
        "lost": "30 %" if assessed else "",
        "charge": "60 °C" if assessed else "",
        "loss": "5 kPa" if assessed else "",
        "ports": "not known",
        "verdict": "pass" if assessed else "fits, not assessed",
        "within_limits": True,
        "margin_mm": 5.0,
        "hottest_degc": None,
        "lost_frac": None,
        "charge_degc": None,
        "loss_pa": None,
        "outline_mm": (-300.0, -100.0, 300.0, 100.0),
        "room_mm": ((SQUARE, HOLE),) if assessed else (),
    }
    return FitRow(**{**given, **known, **fields})


def assessed(found: FitRow, **fields) -> FitRow:
    """Return a row as it comes back from its assessment."""
    return replace(row(found.part.id, found.order_factor[1], assessed=True), **fields)


def a_list(*rows, short_count=None, near=()) -> FitList:
    return FitList(
        headline=f"Of {len(rows) + len(near)} charge-air coolers tried, {len(rows)} fit.",
        remarks=("The engine sheet names no connections.",),
        rows=rows,
        short_count=len(rows) if short_count is None else short_count,
        near=tuple(near),
    )


NEAR = NearRow(
    name="900 × 640 × 64",
    size="1000 × 640 × 64 mm",
    said=("It is 50 mm too wide for the support window.", "Least change: a smaller one."),
)
