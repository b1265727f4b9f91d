"""What paper there is, how its frame, line widths and lettering are, and which scales may be used.

Sizes after ISO 216 and, for Letter, Tabloid and ANSI D, ASME Y14.1; borders and frame after ISO 5457 (20 mm at the left
edge for filing, 10 mm elsewhere, frame line 0.7 mm); widths after ISO 128; letter heights after ISO 3098; scales after
ISO 5455. All from memory.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from grillestack.model.sheet_choices import Paper
from grillestack.sheets.draw_list import LineGroup

# 1 : n for reductions, 1 / n for enlargements, largest picture first
ISO_5455 = (
    *(0.02, 0.05, 0.1, 0.2, 0.5, 1.0),
    *(2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 10000.0),
)
LEFT_BORDER_MM, BORDER_MM = 20.0, 10.0
_INCH_MM = 25.4
_SMALL = LineGroup(wide_mm=0.5, narrow_mm=0.25)
_LARGE = LineGroup(wide_mm=0.7, narrow_mm=0.35)


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperForm:
    """One size of paper as it lies before the reader, and what is drawn with on it."""

    width_mm: float
    height_mm: float
    line_group: LineGroup
    text_mm: float

    @property
    def frame(self) -> Area:
        """Return the area inside the frame."""
        return Area(LEFT_BORDER_MM, BORDER_MM, self.width_mm - BORDER_MM, self.height_mm - BORDER_MM)


@dataclass(frozen=True, slots=True)
class Area:
    """An upright rectangle on the paper."""

    x0_mm: float
    y0_mm: float
    x1_mm: float
    y1_mm: float

    @property
    def width_mm(self) -> float:
        """Return the size across."""
        return self.x1_mm - self.x0_mm

    @property
    def height_mm(self) -> float:
        """Return the size upwards."""
        return self.y1_mm - self.y0_mm

    def overlaps(self, other: Area) -> bool:
        """Return whether the two share some area."""
        return (
            self.x0_mm < other.x1_mm
            and other.x0_mm < self.x1_mm
            and self.y0_mm < other.y1_mm
            and other.y0_mm < self.y1_mm
        )

    def holds(self, other: Area) -> bool:
        """Return whether the other lies wholly inside."""
        return (
            self.x0_mm <= other.x0_mm
            and other.x1_mm <= self.x1_mm
            and self.y0_mm <= other.y0_mm
            and other.y1_mm <= self.y1_mm
        )

    def grown(self, by_mm: float) -> Area:
        """Return the area with that much more on each side."""
        return Area(self.x0_mm - by_mm, self.y0_mm - by_mm, self.x1_mm + by_mm, self.y1_mm + by_mm)

    def moved(self, dx_mm: float, dy_mm: float) -> Area:
        """Return the area moved."""
        return Area(self.x0_mm + dx_mm, self.y0_mm + dy_mm, self.x1_mm + dx_mm, self.y1_mm + dy_mm)


# A4 and Letter stand upright, the others lie (ISO 5457).
_FORMS: Mapping[Paper, PaperForm] = {
    Paper.A4: PaperForm(width_mm=210.0, height_mm=297.0, line_group=_SMALL, text_mm=2.5),
    Paper.A3: PaperForm(width_mm=420.0, height_mm=297.0, line_group=_SMALL, text_mm=2.5),
    Paper.A2: PaperForm(width_mm=594.0, height_mm=420.0, line_group=_LARGE, text_mm=3.5),
    Paper.A1: PaperForm(width_mm=841.0, height_mm=594.0, line_group=_LARGE, text_mm=3.5),
    Paper.LETTER: PaperForm(width_mm=8.5 * _INCH_MM, height_mm=11 * _INCH_MM, line_group=_SMALL, text_mm=2.5),
    Paper.TABLOID: PaperForm(width_mm=17 * _INCH_MM, height_mm=11 * _INCH_MM, line_group=_SMALL, text_mm=2.5),
    Paper.ANSI_D: PaperForm(width_mm=34 * _INCH_MM, height_mm=22 * _INCH_MM, line_group=_LARGE, text_mm=3.5),
}


def paper_form(paper: Paper) -> PaperForm:
    """Return what this paper is like."""
    return _FORMS[paper]


def scales_from(largest_factor: float = 1.0) -> Iterator[float]:
    """Return the scales 1 : n of ISO 5455, the largest picture first, beginning with 1 : `largest_factor`."""
    return (factor for factor in ISO_5455 if factor >= largest_factor)


def scale_words(scale_factor: float) -> str:
    """Return a scale as it is written: "1:5", "2:1"."""
    if scale_factor >= 1:
        return f"1:{scale_factor:g}"
    return f"{1 / scale_factor:g}:1"
