"""A drawing as data: every mark on a sheet in mm of paper, x to the right and y up from the lower left corner.

All three writers and the preview draw from this list and from nothing else. A dimension is kept as what it means, not as
lines: `dimension_marks` takes it apart for those who only draw. Text heights are those of capital letters (ISO 3098).
"""

from __future__ import annotations

import enum
from dataclasses import dataclass

from grillestack.model.sheet_choices import Paper, SheetView


@dataclass(frozen=True, slots=True)
class Point:
    """A place on the paper."""

    x_mm: float
    y_mm: float


class LineKind(enum.Enum):
    """Line types of ISO 128-2 that a pack needs; each says what it is used for."""

    CONTINUOUS = "continuous"  # visible outlines if wide; dimensions, leaders, hatching if narrow
    DASHED = "dashed"  # hidden outlines
    CHAIN = "long-dashed dotted"  # centre lines
    DOUBLE_CHAIN = "long-dashed double-dotted"  # adjacent parts: what belongs to the vehicle; bend lines


class Weight(enum.Enum):
    """The two line widths of a drawing, and the one of its frame; the line group of the sheet says how many mm."""

    WIDE = "wide"
    NARROW = "narrow"
    FRAME = "frame"


@dataclass(frozen=True, slots=True)
class Stroke:
    """How a line is drawn."""

    kind: LineKind = LineKind.CONTINUOUS
    weight: Weight = Weight.NARROW


OUTLINE = Stroke(LineKind.CONTINUOUS, Weight.WIDE)
THIN = Stroke(LineKind.CONTINUOUS, Weight.NARROW)
HIDDEN = Stroke(LineKind.DASHED, Weight.NARROW)
CENTRE = Stroke(LineKind.CHAIN, Weight.NARROW)
ADJACENT = Stroke(LineKind.DOUBLE_CHAIN, Weight.NARROW)
FRAME = Stroke(LineKind.CONTINUOUS, Weight.FRAME)


@dataclass(frozen=True, slots=True, kw_only=True)
class LineGroup:
    """The line widths of a sheet."""

    wide_mm: float
    narrow_mm: float
    frame_mm: float = 0.7

    def width_mm(self, weight: Weight) -> float:
        """Return the width of a line of this weight."""
        return {Weight.WIDE: self.wide_mm, Weight.NARROW: self.narrow_mm, Weight.FRAME: self.frame_mm}[weight]


class Layer(enum.Enum):
    """What a mark belongs to: layers of a DXF file, groups of an SVG file."""

    OUTLINE = "OUTLINE"
    HIDDEN = "HIDDEN"
    CENTRE = "CENTRE"
    VEHICLE = "VEHICLE"
    HATCH = "HATCH"
    DIMENSION = "DIMENSION"
    NOTE = "NOTE"
    WELD = "WELD"
    CUT = "CUT"
    BEND = "BEND"
    TABLE = "TABLE"
    TITLE = "TITLE"
    FRAME = "FRAME"


class Across(enum.Enum):
    """Which part of a line of text stands at its place, along the line."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


class Upright(enum.Enum):
    """Which part of a line of text stands at its place, across the line; the middle is that of the capital letters."""

    BASELINE = "baseline"
    MIDDLE = "middle"
    TOP = "top"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    stroke: Stroke = THIN
    layer: Layer = Layer.OUTLINE


@dataclass(frozen=True, slots=True, kw_only=True)
class Polyline:
    """Straight lines through several points; closed without repeating the first."""

    points: tuple[Point, ...]
    is_closed: bool = False
    stroke: Stroke = THIN
    layer: Layer = Layer.OUTLINE


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A full circle."""

    centre: Point
    radius_mm: float
    stroke: Stroke = THIN
    layer: Layer = Layer.OUTLINE


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """An arc from one angle to another, anticlockwise; 0° points to the right."""

    centre: Point
    radius_mm: float
    start_deg: float
    end_deg: float
    stroke: Stroke = THIN
    layer: Layer = Layer.OUTLINE


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text; `angle_deg` turns it anticlockwise about its place."""

    at: Point
    text: str
    height_mm: float = 2.5
    across: Across = Across.LEFT
    upright: Upright = Upright.BASELINE
    angle_deg: float = 0.0
    is_bold: bool = False
    layer: Layer = Layer.NOTE


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """An area filled with ink, such as an arrow head; its corners in order."""

    points: tuple[Point, ...]
    layer: Layer = Layer.DIMENSION


@dataclass(frozen=True, slots=True, kw_only=True)
class Hatch:
    """An area hatched with narrow lines `spacing_mm` apart, at an angle to the right; its corners in order."""

    points: tuple[Point, ...]
    spacing_mm: float = 2.5
    angle_deg: float = 45.0
    layer: Layer = Layer.HATCH


@dataclass(frozen=True, slots=True, kw_only=True)
class LinearDimension:
    """The distance of two points along a direction (0° across, 90° up), after ISO 129-1.

    `line_at` is any point of the dimension line; `text_at` the middle of the text, which stands along the line unless
    `text_is_level`, when it is read from below beside the line.
    `measured_mm` is the true size, `text` what is written. The key is stable: it names the dimension in the project.
    """

    key: str
    first: Point
    second: Point
    direction_deg: float
    line_at: Point
    text_at: Point
    text: str
    measured_mm: float
    text_height_mm: float = 2.5
    arrows_outside: bool = False
    text_is_level: bool = False
    layer: Layer = Layer.DIMENSION


class Axis(enum.Enum):
    """Along what an ordinate measures."""

    ACROSS = "across"
    UP = "up"


@dataclass(frozen=True, slots=True, kw_only=True)
class OrdinateDimension:
    """The distance of a point from the datum, written at the end of a line with a jog where it needs room.

    The leader runs from near the feature to the text, which stands along its last piece, in as many lines as it has line
    breaks; `text_at` is the middle of it all. ACROSS measures to the right (its leader runs up or down), UP measures upwards.
    """

    key: str
    axis: Axis
    datum: Point
    feature: Point
    leader: tuple[Point, ...]
    text_at: Point
    text: str
    measured_mm: float
    text_height_mm: float = 2.5
    layer: Layer = Layer.DIMENSION


@dataclass(frozen=True, slots=True, kw_only=True)
class Leader:
    """A note at the end of a line that points at something, with an arrow head at its first point; lines run downwards.

    `text_at` is where the first line begins (or ends, if it is anchored at the right), at half the height of its letters.
    """

    key: str
    points: tuple[Point, ...]
    text_at: Point
    lines: tuple[str, ...]
    text_height_mm: float = 2.5
    across: Across = Across.LEFT
    layer: Layer = Layer.DIMENSION


Dimension = LinearDimension | OrdinateDimension | Leader
Mark = Line | Polyline | Circle | Arc | Text | Fill | Hatch | Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One view on a sheet: 1 : `scale_factor`, and where it lies on the paper, its dimensions included."""

    name: str
    scale_factor: float
    x0_mm: float
    y0_mm: float
    x1_mm: float
    y1_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet of paper with everything on it.

    The key is stable ("pack", "parts-list", "parts-list-2"); `scale_factor` is the main scale 1 : n, at whose full size a
    DXF file is written. `warnings` are sentences for whoever prints it.
    """

    key: str
    title: str
    view: SheetView
    paper: Paper
    width_mm: float
    height_mm: float
    scale_factor: float
    line_group: LineGroup
    marks: tuple[Mark, ...]
    views: tuple[View, ...] = ()
    warnings: tuple[str, ...] = ()


def dimensions(sheet: Sheet) -> tuple[Dimension, ...]:
    """Return the dimensions and leaders of a sheet, in their order."""
    return tuple(mark for mark in sheet.marks if isinstance(mark, (LinearDimension, OrdinateDimension, Leader)))
