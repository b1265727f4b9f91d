"""A sheet as DXF R2010 in mm, drawn at full size of its main scale, with real DIMENSION entities.

The geometry is the sheet's times the denominator of its scale, so that a drawing at 1 : 5 holds the pack at 1 : 1 and the
frame five times as large. Each dimension carries its definition points, which any program measures anew, and a block of
lines with which it looks as on paper. A dimension of a view in another scale carries the factor DIMLFAC.
"""

from __future__ import annotations

import io
import math
from typing import Any

from grillestack.sheets.dimension_marks import dimension_marks, feet_of
from grillestack.sheets.draw_list import (
    THIN,
    Across,
    Arc,
    Axis,
    Circle,
    Fill,
    Hatch,
    Layer,
    Leader,
    Line,
    LinearDimension,
    LineKind,
    Mark,
    OrdinateDimension,
    Point,
    Polyline,
    Sheet,
    Stroke,
    Text,
    Upright,
    Weight,
)
from grillestack.sheets.hatch_lines import hatch_lines
from grillestack.sheets.lettering import text_width_mm
from grillestack.sheets.line_styles import dashes_mm

_MM = 4  # $INSUNITS
_STYLE, _BOLD, _DIMSTYLE = "SHEET", "SHEET_BOLD", "SHEET"
_LINETYPES = {
    LineKind.CONTINUOUS: "CONTINUOUS",
    LineKind.DASHED: "SHEET_DASHED",
    LineKind.CHAIN: "SHEET_CHAIN",
    LineKind.DOUBLE_CHAIN: "SHEET_DOUBLE_CHAIN",
}
# Group code 70 of a DIMENSION: kind, and that its block belongs to it alone and its text was placed
_LINEAR, _ORDINATE, _ACROSS, _OWN_BLOCK, _TEXT_PLACED = 0, 6, 64, 32, 128
_SAME_FRAC = 1e-6


def dxf_bytes(sheet: Sheet) -> bytes:
    """Return the sheet as a DXF file."""
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    before = options.write_fixed_meta_data_for_testing
    # Otherwise the file tells the time it was written, and no two are alike.
    options.write_fixed_meta_data_for_testing = True
    try:
        doc = new("R2010", units=_MM)
        _set_up(doc, sheet)
        space = doc.modelspace()
        for mark in sheet.marks:
            _draw(space, mark, sheet)
        stream = io.StringIO()
        doc.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return stream.getvalue().encode(doc.output_encoding, errors="dxfreplace")


def _set_up(doc: Any, sheet: Sheet) -> None:
    doc.header["$MEASUREMENT"] = 1
    doc.header["$LTSCALE"] = 1.0
    doc.styles.new(_STYLE, dxfattribs={"font": "DejaVuSans.ttf"})
    doc.styles.new(_BOLD, dxfattribs={"font": "DejaVuSans-Bold.ttf"})
    for kind, name in _LINETYPES.items():
        lengths = dashes_mm(Stroke(kind, Weight.NARROW), sheet.line_group)
        if lengths:
            pattern = [n * (1 if place % 2 == 0 else -1) * sheet.scale_factor for place, n in enumerate(lengths)]
            doc.linetypes.add(name, [sum(abs(n) for n in pattern), *pattern], description=kind.value)
    for layer in Layer:
        doc.layers.add(layer.value, lineweight=round(100 * sheet.line_group.narrow_mm))
    style = doc.dimstyles.new(_DIMSTYLE)
    style.dxf.dimtxt = 2.5 * sheet.scale_factor
    style.dxf.dimasz = 2.5 * sheet.scale_factor
    style.dxf.dimexe = 1.5 * sheet.scale_factor
    style.dxf.dimexo = 1.0 * sheet.scale_factor
    style.dxf.dimgap = 0.8 * sheet.scale_factor
    style.dxf.dimtad = 1
    style.dxf.dimdec = 2
    style.dxf.dimtxsty = _STYLE


def _draw(space: Any, mark: Mark, sheet: Sheet) -> None:
    if isinstance(mark, LinearDimension):
        _linear(space, mark, sheet)
    elif isinstance(mark, OrdinateDimension):
        _ordinate(space, mark, sheet)
    elif isinstance(mark, Leader):
        for simple in dimension_marks(mark):
            _draw(space, simple, sheet)
    elif isinstance(mark, Text):
        _write(space, mark, sheet)
    elif isinstance(mark, Fill):
        _fill(space, mark, sheet)
    elif isinstance(mark, Hatch):
        for start, end in hatch_lines(mark):
            space.add_line(_at(start, sheet), _at(end, sheet), dxfattribs=_look(THIN, mark.layer, sheet))
    else:
        _outline(space, mark, sheet)


def _outline(space: Any, mark: Line | Polyline | Circle | Arc, sheet: Sheet) -> None:
    look = _look(mark.stroke, mark.layer, sheet)
    if isinstance(mark, Line):
        space.add_line(_at(mark.start, sheet), _at(mark.end, sheet), dxfattribs=look)
    elif isinstance(mark, Polyline):
        space.add_lwpolyline([_at(p, sheet) for p in mark.points], close=mark.is_closed, dxfattribs=look)
    elif isinstance(mark, Circle):
        space.add_circle(_at(mark.centre, sheet), mark.radius_mm * sheet.scale_factor, dxfattribs=look)
    else:
        space.add_arc(
            _at(mark.centre, sheet),
            mark.radius_mm * sheet.scale_factor,
            mark.start_deg,
            mark.end_deg,
            dxfattribs=look,
        )


def _fill(space: Any, mark: Fill, sheet: Sheet) -> None:
    points = [_at(p, sheet) for p in mark.points]
    if len(points) == 3:
        space.add_solid(points, dxfattribs={"layer": mark.layer.value})
        return
    hatch = space.add_hatch(dxfattribs={"layer": mark.layer.value})
    hatch.paths.add_polyline_path(points, is_closed=True)


def _write(space: Any, mark: Text, sheet: Sheet) -> None:
    # Placed by its left end on the baseline, which every reader understands alike.
    width = text_width_mm(mark.text, mark.height_mm, is_bold=mark.is_bold)
    left = {Across.LEFT: 0.0, Across.CENTRE: -width / 2, Across.RIGHT: -width}[mark.across]
    base = {Upright.BASELINE: 0.0, Upright.MIDDLE: -mark.height_mm / 2, Upright.TOP: -mark.height_mm}[mark.upright]
    turn = math.radians(mark.angle_deg)
    at = Point(
        mark.at.x_mm + left * math.cos(turn) - base * math.sin(turn),
        mark.at.y_mm + left * math.sin(turn) + base * math.cos(turn),
    )
    space.add_text(
        # A double percent sign begins a code in DXF; three of them are one sign.
        mark.text.replace("%%", "%%%%%%"),
        height=mark.height_mm * sheet.scale_factor,
        rotation=mark.angle_deg,
        dxfattribs={
            "style": _BOLD if mark.is_bold else _STYLE,
            "layer": mark.layer.value,
            "insert": _at(at, sheet),
        },
    )


def _linear(space: Any, mark: LinearDimension, sheet: Sheet) -> None:
    turn = math.radians(mark.direction_deg)
    drawn = (mark.second.x_mm - mark.first.x_mm) * math.cos(turn) + (mark.second.y_mm - mark.first.y_mm) * math.sin(
        turn
    )
    attributes = {
        "dimtype": _LINEAR | _OWN_BLOCK | _TEXT_PLACED,
        "defpoint": _at(feet_of(mark)[1], sheet),
        "defpoint2": _at(mark.first, sheet),
        "defpoint3": _at(mark.second, sheet),
        "angle": mark.direction_deg,
    }
    _dimension(space, mark, attributes, abs(drawn) * sheet.scale_factor, sheet)


def _ordinate(space: Any, mark: OrdinateDimension, sheet: Sheet) -> None:
    across = mark.axis is Axis.ACROSS
    drawn = mark.feature.x_mm - mark.datum.x_mm if across else mark.feature.y_mm - mark.datum.y_mm
    attributes = {
        "dimtype": _ORDINATE | _OWN_BLOCK | _TEXT_PLACED | (_ACROSS if across else 0),
        "defpoint": _at(mark.datum, sheet),
        "defpoint2": _at(mark.feature, sheet),
        "defpoint3": _at(mark.leader[-1], sheet),
    }
    _dimension(space, mark, attributes, abs(drawn) * sheet.scale_factor, sheet)


def _dimension(
    space: Any, mark: LinearDimension | OrdinateDimension, attributes: dict[str, Any], drawn_mm: float, sheet: Sheet
) -> None:
    block = space.doc.blocks.new_anonymous_block(type_char="D")
    for simple in dimension_marks(mark):
        _draw(block, simple, sheet)
    entity = space.new_entity(
        "DIMENSION",
        {
            **attributes,
            "geometry": block.name,
            "dimstyle": _DIMSTYLE,
            "layer": mark.layer.value,
            "text": mark.text.replace("\n", "\\P"),
            "text_midpoint": _at(mark.text_at, sheet),
            "actual_measurement": mark.measured_mm,
        },
    )
    factor = abs(mark.measured_mm) / drawn_mm if drawn_mm else 1.0
    if abs(factor - 1.0) > _SAME_FRAC:
        override = entity.override()
        override["dimlfac"] = factor
        override.commit()


def _look(stroke: Stroke, layer: Layer, sheet: Sheet) -> dict[str, Any]:
    return {
        "layer": layer.value,
        "linetype": _LINETYPES[stroke.kind],
        "lineweight": round(100 * sheet.line_group.width_mm(stroke.weight)),
    }


def _at(point: Point, sheet: Sheet) -> tuple[float, float]:
    return point.x_mm * sheet.scale_factor, point.y_mm * sheet.scale_factor
