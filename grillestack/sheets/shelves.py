"""Details put on sheets: side by side in rows, row under row, sheet after sheet, at the largest scale that holds them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grillestack.sheets.detail_block import Block, Detail, Lettering, detail_block
from grillestack.sheets.draw_list import Mark, View
from grillestack.sheets.move_marks import moved
from grillestack.sheets.paper import Area, scales_from

_GUTTER_MM = 6.0
# A smaller picture shows nothing.
_SMALLEST = 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelved:
    """The details of one sheet."""

    scale_factor: float
    marks: tuple[Mark, ...]
    views: tuple[View, ...]
    lowest_mm: float


def shelved(
    details: Sequence[Detail], area: Area, lettering: Lettering, most_sheets: int
) -> tuple[Shelved, ...] | None:
    """Return the details on at most so many sheets at the largest scale of ISO 5455 that does it, else on as few as can be.

    Nothing, where one of them fits the area at no scale.
    """
    best: tuple[Shelved, ...] | None = None
    for scale in scales_from():
        if scale > _SMALLEST:
            break
        whole = _blocks(details, scale, area, lettering)
        if whole is None:
            continue
        sheets = _filled(whole, area, scale)
        if best is None or len(sheets) < len(best):
            best = sheets
        if len(sheets) <= most_sheets:
            return sheets
    return best


def _blocks(
    details: Sequence[Detail], scale_factor: float, area: Area, lettering: Lettering
) -> tuple[Block, ...] | None:
    """Return the details at that scale, or nothing as soon as one does not fit the area."""
    pictures = [picture.area for detail in details for picture in detail.pictures]
    if any(p.width_mm > area.width_mm * scale_factor or p.height_mm > area.height_mm * scale_factor for p in pictures):
        return None
    blocks: list[Block] = []
    for detail in details:
        block = detail_block(detail, scale_factor, lettering, area.width_mm)
        if block is None or block.width_mm > area.width_mm or block.height_mm > area.height_mm:
            return None
        blocks.append(block)
    return tuple(blocks)


def _filled(blocks: Sequence[Block], area: Area, scale_factor: float) -> tuple[Shelved, ...]:
    """Return the sheets; in a row the tops of the details are level."""
    sheets: list[Shelved] = []
    placed: list[tuple[Block, float, float]] = []
    x, top, row = area.x0_mm, area.y1_mm, 0.0
    for block in blocks:
        if x > area.x0_mm and x + block.width_mm > area.x1_mm:
            x, top, row = area.x0_mm, top - row - _GUTTER_MM, 0.0
        if placed and top - block.height_mm < area.y0_mm:
            sheets.append(_sheet(placed, scale_factor))
            placed = []
            x, top, row = area.x0_mm, area.y1_mm, 0.0
        placed.append((block, x, top - block.height_mm))
        x += block.width_mm + _GUTTER_MM
        row = max(row, block.height_mm)
    if placed:
        sheets.append(_sheet(placed, scale_factor))
    return tuple(sheets)


def _sheet(placed: Sequence[tuple[Block, float, float]], scale_factor: float) -> Shelved:
    return Shelved(
        scale_factor=scale_factor,
        marks=tuple(mark for block, x, y in placed for mark in moved(block.marks, x, y)),
        views=tuple(
            View(
                name=block.key,
                scale_factor=scale_factor,
                x0_mm=x,
                y0_mm=y,
                x1_mm=x + block.width_mm,
                y1_mm=y + block.height_mm,
            )
            for block, x, y in placed
        ),
        lowest_mm=min(y for _, _, y in placed),
    )
