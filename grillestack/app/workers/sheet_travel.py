"""Sheets on their way between the two processes: every mark with its name, so that the other side knows what it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

import msgspec

from grillestack.model.sheet_choices import Paper, SheetView
from grillestack.sheets.draw_list import (
    Arc,
    Circle,
    Fill,
    Hatch,
    Leader,
    Line,
    LinearDimension,
    LineGroup,
    Mark,
    OrdinateDimension,
    Polyline,
    Sheet,
    Text,
    View,
)

_KINDS: Final = (Line, Polyline, Circle, Arc, Text, Fill, Hatch, LinearDimension, OrdinateDimension, Leader)
_DECODERS: Final[Mapping[str, msgspec.json.Decoder[Mark]]] = {
    kind.__name__: msgspec.json.Decoder(kind) for kind in _KINDS
}


class PackedSheet(msgspec.Struct, frozen=True, kw_only=True):
    """A sheet as it travels."""

    key: str
    title: str
    view: SheetView
    paper: Paper
    width_mm: float
    height_mm: float
    scale_factor: float
    line_group: LineGroup
    marks: tuple[tuple[str, msgspec.Raw], ...]
    views: tuple[View, ...]
    warnings: tuple[str, ...]


class SheetAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """The sheets, or the files that hold them by what comes behind their name, or the sentence why there are none."""

    sheets: tuple[PackedSheet, ...] = ()
    files: dict[str, bytes] = {}
    sheet_count: int = 0
    trouble: str = ""


def packed_sheets(sheets: Sequence[Sheet]) -> tuple[PackedSheet, ...]:
    """Return the sheets as they travel."""
    return tuple(
        PackedSheet(
            key=sheet.key,
            title=sheet.title,
            view=sheet.view,
            paper=sheet.paper,
            width_mm=sheet.width_mm,
            height_mm=sheet.height_mm,
            scale_factor=sheet.scale_factor,
            line_group=sheet.line_group,
            marks=tuple((type(mark).__name__, msgspec.Raw(msgspec.json.encode(mark))) for mark in sheet.marks),
            views=sheet.views,
            warnings=sheet.warnings,
        )
        for sheet in sheets
    )


def unpacked_sheets(packed: Sequence[PackedSheet]) -> tuple[Sheet, ...]:
    """Return the sheets that travelled.

    Raises
    ------
    msgspec.DecodeError
        If a mark is none.
    """
    return tuple(
        Sheet(
            key=one.key,
            title=one.title,
            view=one.view,
            paper=one.paper,
            width_mm=one.width_mm,
            height_mm=one.height_mm,
            scale_factor=one.scale_factor,
            line_group=one.line_group,
            marks=tuple(_DECODERS[name].decode(raw) for name, raw in one.marks),
            views=one.views,
            warnings=one.warnings,
        )
        for one in packed
    )
