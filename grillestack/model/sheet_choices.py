"""How the drawings of a project are to look, and how brackets and shroud are to be made."""

from __future__ import annotations

import enum
from typing import Annotated

from msgspec import Meta

from grillestack.model.values import CoordinateMm, SizeMm, Text, Value


class Paper(enum.Enum):
    """Sheet sizes: ISO 216 A series, and the North American ones."""

    A4 = "A4"
    A3 = "A3"
    A2 = "A2"
    A1 = "A1"
    LETTER = "Letter"
    TABLOID = "Tabloid"
    ANSI_D = "ANSI D"


class Projection(enum.Enum):
    """How the views of a drawing stand to each other (ISO 5456-2)."""

    FIRST_ANGLE = "first angle"
    THIRD_ANGLE = "third angle"


class DrawingUnits(enum.Enum):
    """In what dimensions are written."""

    MILLIMETRES = "mm"
    INCH_FRACTIONS = "inch fractions"
    INCH_DECIMALS = "inch decimals"
    BOTH = "mm and inches"


class WeldSymbols(enum.Enum):
    """After which standard welds are marked."""

    ISO_2553 = "ISO 2553"
    AWS_A2_4 = "AWS A2.4"


class SheetView(enum.Enum):
    """What may be put on paper."""

    PACK = "pack"
    BRACKETS = "brackets"
    SHROUD = "shroud"
    PARTS_LIST = "parts list"
    TEMPLATE = "template"
    REPORT = "report"


class DimensionShift(Value, frozen=True, kw_only=True):
    """What was done to one dimension by hand: moved on the paper, or switched off; `key` names the dimension."""

    key: Annotated[str, Meta(min_length=1, max_length=200)]
    dx_mm: CoordinateMm = 0.0
    dy_mm: CoordinateMm = 0.0
    is_off: bool = False


class MakingChoices(Value, frozen=True, kw_only=True):
    """What brackets and shroud are made of; `None` where the marked default is to stand in."""

    bracket_material_text: Text = ""
    bracket_thickness_mm: SizeMm | None = None
    shroud_material_text: Text = ""
    shroud_thickness_mm: SizeMm | None = None
    bend_radius_mm: SizeMm | None = None
    bend_neutral_frac: Annotated[float, Meta(gt=0, lt=1)] | None = None


class SheetChoices(Value, frozen=True, kw_only=True):
    """The choices of the drawings; a scale of `None` is chosen to fill the sheet, otherwise 1 : `scale_factor`."""

    paper: Paper = Paper.A3
    projection: Projection = Projection.THIRD_ANGLE
    units: DrawingUnits = DrawingUnits.MILLIMETRES
    weld_symbols: WeldSymbols = WeldSymbols.ISO_2553
    scale_factor: Annotated[float, Meta(ge=0.1, le=100)] | None = None
    views: Annotated[tuple[SheetView, ...], Meta(max_length=6)] = (
        SheetView.PACK,
        SheetView.BRACKETS,
        SheetView.SHROUD,
        SheetView.PARTS_LIST,
    )
    document_number_text: Text = ""
    revision_text: Text = ""
    drawn_by_text: Text = ""
    approved_by_text: Text = ""
    owner_text: Text = ""
    date_text: Text = ""
    making: MakingChoices = MakingChoices()
    shifts: Annotated[tuple[DimensionShift, ...], Meta(max_length=2_000)] = ()
