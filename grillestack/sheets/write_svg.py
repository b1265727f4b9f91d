"""A sheet as SVG: sizes in mm, one group for each layer, text as text."""

from __future__ import annotations

import math
from collections.abc import Iterator
from xml.sax.saxutils import escape, quoteattr

from grillestack.sheets.collisions import simple_marks
from grillestack.sheets.draw_list import (
    THIN,
    Across,
    Arc,
    Circle,
    Fill,
    Hatch,
    Layer,
    Line,
    Mark,
    Point,
    Polyline,
    Sheet,
    Stroke,
    Text,
    Upright,
)
from grillestack.sheets.hatch_lines import hatch_lines
from grillestack.sheets.lettering import FONT_FAMILY, em_mm, text_width_mm
from grillestack.sheets.line_styles import dashes_mm

_ANCHORS = {Across.LEFT: "start", Across.CENTRE: "middle", Across.RIGHT: "end"}
_INK = "#000000"


def svg_bytes(sheet: Sheet) -> bytes:
    """Return the sheet as an SVG file: black on white, a unit of the picture being a millimetre of paper."""
    width, height = _number(sheet.width_mm), _number(sheet.height_mm)
    by_layer: dict[Layer, list[str]] = {layer: [] for layer in Layer}
    for mark in simple_marks(sheet.marks):
        by_layer[mark.layer].extend(_element(mark, sheet))
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">',
        f"<title>{escape(sheet.title)}</title>",
        f'<rect x="0" y="0" width="{width}" height="{height}" fill="#ffffff"/>',
    ]
    for layer, elements in by_layer.items():
        if elements:
            lines += [f'<g id="{layer.value}" fill="none" stroke="{_INK}" stroke-linecap="butt">', *elements, "</g>"]
    return ("\n".join([*lines, "</svg>"]) + "\n").encode("utf-8")


def _element(mark: Mark, sheet: Sheet) -> Iterator[str]:
    top = sheet.height_mm
    if isinstance(mark, Line):
        yield _line(mark.start, mark.end, mark.stroke, sheet)
    elif isinstance(mark, Polyline):
        name = "polygon" if mark.is_closed else "polyline"
        yield f'<{name} points="{_points(mark.points, top)}" {_stroke(mark.stroke, sheet)}/>'
    elif isinstance(mark, Circle):
        at = _at(mark.centre, top)
        yield f'<circle cx="{at[0]}" cy="{at[1]}" r="{_number(mark.radius_mm)}" {_stroke(mark.stroke, sheet)}/>'
    elif isinstance(mark, Arc):
        yield f'<path d="{_arc(mark, top)}" {_stroke(mark.stroke, sheet)}/>'
    elif isinstance(mark, Fill):
        yield f'<polygon points="{_points(mark.points, top)}" fill="{_INK}" stroke="none"/>'
    elif isinstance(mark, Hatch):
        for start, end in hatch_lines(mark):
            yield _line(start, end, THIN, sheet)
    elif isinstance(mark, Text):
        yield _text(mark, top)


def _line(start: Point, end: Point, stroke: Stroke, sheet: Sheet) -> str:
    (x1, y1), (x2, y2) = _at(start, sheet.height_mm), _at(end, sheet.height_mm)
    return f'<line x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}" {_stroke(stroke, sheet)}/>'


def _text(mark: Text, top_mm: float) -> str:
    # The baseline is put where it belongs here, as readers differ on how they put the middle of letters.
    drop = {Upright.BASELINE: 0.0, Upright.MIDDLE: mark.height_mm / 2, Upright.TOP: mark.height_mm}[mark.upright]
    turn = math.radians(mark.angle_deg)
    at = Point(mark.at.x_mm + drop * math.sin(turn), mark.at.y_mm - drop * math.cos(turn))
    x, y = _at(at, top_mm)
    turned = f' transform="rotate({_number(-mark.angle_deg)} {x} {y})"' if mark.angle_deg else ""
    weight = ' font-weight="bold"' if mark.is_bold else ""
    width = _number(text_width_mm(mark.text, mark.height_mm, is_bold=mark.is_bold))
    size = _number(em_mm(mark.height_mm, is_bold=mark.is_bold))
    return (
        f'<text x="{x}" y="{y}" font-family={quoteattr(FONT_FAMILY)} font-size="{size}"{weight} '
        f'text-anchor="{_ANCHORS[mark.across]}" textLength="{width}" lengthAdjust="spacingAndGlyphs" '
        f'xml:space="preserve" fill="{_INK}" stroke="none"{turned}>{escape(mark.text)}</text>'
    )


def _arc(arc: Arc, top_mm: float) -> str:
    sweep = (arc.end_deg - arc.start_deg) % 360 or 360.0
    ends = []
    for turn in (math.radians(arc.start_deg), math.radians(arc.end_deg)):
        x = arc.centre.x_mm + arc.radius_mm * math.cos(turn)
        ends.append(_at(Point(x, arc.centre.y_mm + arc.radius_mm * math.sin(turn)), top_mm))
    radius = _number(arc.radius_mm)
    return f"M {ends[0][0]} {ends[0][1]} A {radius} {radius} 0 {int(sweep > 180)} 0 {ends[1][0]} {ends[1][1]}"


def _stroke(stroke: Stroke, sheet: Sheet) -> str:
    width = _number(sheet.line_group.width_mm(stroke.weight))
    dashes = " ".join(_number(length) for length in dashes_mm(stroke, sheet.line_group))
    return f'stroke-width="{width}"' + (f' stroke-dasharray="{dashes}"' if dashes else "")


def _points(points: tuple[Point, ...], top_mm: float) -> str:
    return " ".join(",".join(_at(point, top_mm)) for point in points)


def _at(point: Point, top_mm: float) -> tuple[str, str]:
    return _number(point.x_mm), _number(top_mm - point.y_mm)


def _number(value: float) -> str:
    said = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if said in ("-0", "") else said
