"""Charts of the report: bars as long as their degrees, the band where its percentiles are."""

from __future__ import annotations

import pytest

from grillestack.assess.confidence import Confidence
from grillestack.assess.waterfall import Waterfall, WaterfallStep
from grillestack.sheets.draw_list import OUTLINE, Polyline
from grillestack.sheets.report_charts import band_figure, waterfall_figure
from grillestack.units.display import UnitSystem

FALL = Waterfall(
    case_name="Grade pull",
    start_degc=60.0,
    steps=(
        WaterfallStep(name="Opening", before_degc=60.0, after_degc=50.0),
        WaterfallStep(name="Condenser", before_degc=50.0, after_degc=45.0),
        WaterfallStep(name="Shroud", before_degc=45.0, after_degc=47.5),
    ),
)


def _bars(figure):
    spans = []
    for mark in figure.marks:
        if isinstance(mark, Polyline) and mark.stroke == OUTLINE:
            xs = [p.x_mm for p in mark.points]
            spans.append((min(xs), max(xs)))
    return spans


def test_bars_are_as_long_as_their_degrees_and_begin_where_the_last_ended():
    start, opening, condenser, shroud, end = _bars(waterfall_figure(FALL, 180.0, 2.5, UnitSystem.METRIC))
    length = opening[1] - opening[0]
    assert condenser[1] - condenser[0] == pytest.approx(length / 2)
    assert shroud[1] - shroud[0] == pytest.approx(length / 4)
    assert start[1] == pytest.approx(opening[1])
    assert opening[0] == pytest.approx(condenser[1])
    assert condenser[0] == pytest.approx(shroud[0])
    assert end[1] == pytest.approx(shroud[1])


def test_a_waterfall_without_any_day_has_no_chart():
    assert waterfall_figure(Waterfall(case_name="x", start_degc=None, steps=()), 180.0, 2.5, UnitSystem.METRIC) is None


def test_a_step_without_an_answer_has_no_bar():
    step = WaterfallStep(name="Condenser", before_degc=60.0, after_degc=None)
    figure = waterfall_figure(Waterfall(case_name="x", start_degc=60.0, steps=(step,)), 180.0, 2.5, UnitSystem.METRIC)
    assert len(_bars(figure)) == 1
    assert any(getattr(mark, "text", "") == "no answer" for mark in figure.marks)


def _band(p10):
    return Confidence(
        case_name="x", p10_degc=p10, p50_degc=35.0, p90_degc=45.0, meets_design_day_frac=0.4, drivers=(), samples=1000
    )


def test_the_band_is_drawn_to_scale():
    figure = band_figure(_band(25.0), 38.0, 180.0, 2.5, UnitSystem.METRIC)
    ((low, high),) = _bars(figure)
    lines = [m for m in figure.marks if type(m).__name__ == "Line" and m.start.x_mm == m.end.x_mm]
    xs = sorted(m.start.x_mm for m in lines if low < m.start.x_mm < high)
    middle = low + (high - low) * (35.0 - 25.0) / 20.0
    design = low + (high - low) * (38.0 - 25.0) / 20.0
    assert any(x == pytest.approx(middle) for x in xs)
    assert any(x == pytest.approx(design) for x in xs)


def test_a_band_whose_cold_end_is_not_known_is_not_drawn():
    assert band_figure(_band(None), 38.0, 180.0, 2.5, UnitSystem.METRIC) is None
