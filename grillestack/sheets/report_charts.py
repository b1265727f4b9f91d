"""The charts of the report: where the degrees go, step by step, and how sure the hottest day is."""

from __future__ import annotations

import math
from collections.abc import Iterator

from grillestack.assess.confidence import Confidence
from grillestack.assess.waterfall import Waterfall
from grillestack.sheets.draw_list import (
    CENTRE,
    OUTLINE,
    THIN,
    Across,
    Hatch,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Text,
    Upright,
)
from grillestack.sheets.flat_part import rectangle
from grillestack.sheets.lettering import text_width_mm
from grillestack.sheets.paper import Area
from grillestack.sheets.report_flow import Figure
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_ROW_FRAC, _PAD_MM = 2.3, 2.0


def waterfall_figure(result: Waterfall, width_mm: float, text_mm: float, units: UnitSystem) -> Figure | None:
    """Return one bar for each step, from the hottest day before it to that after it; none where nothing is known."""
    days = [d for d in (result.start_degc, *(s.after_degc for s in result.steps)) if d is not None]
    if not days:
        return None
    row = _ROW_FRAC * text_mm
    names = ["Radiator alone, open nose", *(step.name for step in result.steps), "The pack as it stands"]
    left = max(text_width_mm(name, text_mm) for name in names) + _PAD_MM
    right = max(text_width_mm(text, text_mm) for text in (_degrees(min(days), units), "−00.0 °C")) + 2 * _PAD_MM
    low, high = min(days), max(days)
    span = max(high - low, 1.0)
    low, high = low - 0.08 * span, high + 0.02 * span
    room = max(width_mm - left - right, 20.0)

    def at(day_degc: float) -> float:
        return left + (day_degc - low) / (high - low) * room

    marks: list[Mark] = []
    bars: list[tuple[str, float | None, float | None, str]] = [
        (names[0], low, result.start_degc, _degrees(result.start_degc, units))
    ]
    bars += [(s.name, s.before_degc, s.after_degc, _change(s.change_k, units)) for s in result.steps]
    bars.append((names[-1], low, result.end_degc, _degrees(result.end_degc, units)))
    for place, (name, before, after, said) in enumerate(bars):
        middle = -(place + 0.5) * row
        marks.append(_text(Point(0.0, middle), name, text_mm))
        marks.append(_text(Point(width_mm, middle), said, text_mm, Across.RIGHT))
        if before is None or after is None:
            continue
        x0, x1 = sorted((at(before), at(after)))
        bar = Area(x0, middle - 0.32 * row, max(x1, x0 + 0.2), middle + 0.32 * row)
        marks.append(Polyline(points=rectangle(bar), is_closed=True, stroke=OUTLINE, layer=Layer.OUTLINE))
        if place in (0, len(bars) - 1):
            marks.append(Hatch(points=rectangle(bar), spacing_mm=1.2, angle_deg=45.0))
        elif after < before:
            marks.append(Hatch(points=rectangle(bar), spacing_mm=0.6, angle_deg=135.0))
    return Figure(marks=tuple(marks), width_mm=width_mm, height_mm=len(bars) * row)


def band_figure(
    result: Confidence, design_degc: float | None, width_mm: float, text_mm: float, units: UnitSystem
) -> Figure | None:
    """Return the band from P10 to P90 with its middle and the design day; none where the heat often never goes away."""
    p10, p50, p90 = result.p10_degc, result.p50_degc, result.p90_degc
    if p10 is None or p50 is None or p90 is None:
        return None
    shown = [p10, p50, p90, *([design_degc] if design_degc is not None else [])]
    low, high = math.floor(min(shown)) - 1.0, math.ceil(max(shown)) + 1.0
    pad = text_width_mm("−00 °C", text_mm)

    def at(day_degc: float) -> float:
        return pad + (day_degc - low) / (high - low) * (width_mm - 2 * pad)

    middle, half = -3.2 * text_mm, 0.9 * text_mm
    band = Area(at(p10), middle - half, at(p90), middle + half)
    marks: list[Mark] = [
        Polyline(points=rectangle(band), is_closed=True, stroke=OUTLINE, layer=Layer.OUTLINE),
        Hatch(points=rectangle(band), spacing_mm=1.2, angle_deg=45.0),
        Line(
            start=Point(at(p50), band.y0_mm - 0.8),
            end=Point(at(p50), band.y1_mm + 0.8),
            stroke=OUTLINE,
            layer=Layer.OUTLINE,
        ),
    ]
    marks += _scale_marks(low, high, at(low), at(high), band.y0_mm - 1.6, text_mm, units)
    if design_degc is not None:
        x = at(design_degc)
        ends = Point(x, band.y0_mm - 1.2), Point(x, band.y1_mm + 1.6)
        marks.append(Line(start=ends[0], end=ends[1], stroke=CENTRE, layer=Layer.CENTRE))
        said = f"design day {_degrees(design_degc, units)}"
        half_text = text_width_mm(said, text_mm) / 2
        middle_x = min(max(x, half_text), width_mm - half_text)
        marks.append(_text(Point(middle_x, band.y1_mm + 1.8 + 0.9 * text_mm), said, text_mm, Across.CENTRE))
    return Figure(marks=tuple(marks), width_mm=width_mm, height_mm=-(band.y0_mm - 1.6 - 2.6 * text_mm))


def _scale_marks(
    low: float, high: float, x0: float, x1: float, y: float, text_mm: float, units: UnitSystem
) -> Iterator[Mark]:
    yield Line(start=Point(x0, y), end=Point(x1, y), stroke=THIN, layer=Layer.OUTLINE)
    step = next((s for s in (1.0, 2.0, 5.0, 10.0, 20.0, 50.0) if (high - low) / s <= 8), 100.0)
    day = math.ceil(low / step) * step
    while day <= high:
        x = x0 + (day - low) / (high - low) * (x1 - x0)
        yield Line(start=Point(x, y), end=Point(x, y - 1.0), stroke=THIN, layer=Layer.OUTLINE)
        yield _text(Point(x, y - 1.2 - 0.7 * text_mm), _degrees(day, units), text_mm, Across.CENTRE)
        day += step


def _text(at: Point, text: str, text_mm: float, across: Across = Across.LEFT) -> Text:
    return Text(at=at, text=text, height_mm=text_mm, across=across, upright=Upright.MIDDLE, layer=Layer.NOTE)


def _degrees(value: float | None, units: UnitSystem) -> str:
    return "no day" if value is None else show_quantity(value, Dimension.TEMPERATURE, units)


def _change(change_k: float | None, units: UnitSystem) -> str:
    if change_k is None:
        return "no answer"
    said = show_quantity(abs(change_k), Dimension.TEMPERATURE_DIFFERENCE, units)
    return f"{'−' if change_k < 0 else '+'}{said}"
