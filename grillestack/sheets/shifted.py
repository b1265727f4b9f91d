"""Dimensions as they were moved on the paper or switched off by hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from grillestack.model.sheet_choices import DimensionShift
from grillestack.sheets.draw_list import Dimension, Leader, LinearDimension, Mark, OrdinateDimension, Point


def shifted(marks: Sequence[Mark], shifts: Sequence[DimensionShift]) -> Iterator[Mark]:
    """Return the marks with these shifts done; what a shift names and is not on the sheet stays without effect.

    A linear dimension takes its line along, an ordinate and a leader the end of their line; features stay where they are.
    """
    by_key = {shift.key: shift for shift in shifts}
    for mark in marks:
        shift = by_key.get(mark.key) if isinstance(mark, (LinearDimension, OrdinateDimension, Leader)) else None
        if shift is None or not isinstance(mark, (LinearDimension, OrdinateDimension, Leader)):
            yield mark
        elif not shift.is_off:
            yield _moved(mark, shift)


def _moved(mark: Dimension, shift: DimensionShift) -> Dimension:
    if isinstance(mark, LinearDimension):
        return replace(mark, line_at=_at(mark.line_at, shift), text_at=_at(mark.text_at, shift))
    if isinstance(mark, OrdinateDimension):
        # The last piece keeps its direction, so that the text still stands along it.
        kept = mark.leader[:-2] if len(mark.leader) > 2 else mark.leader[:1]
        leader = (*kept, *(_at(point, shift) for point in mark.leader[-2:]))
        return replace(mark, leader=leader, text_at=_at(mark.text_at, shift))
    points = (*mark.points[:1], *(_at(point, shift) for point in mark.points[1:]))
    return replace(mark, points=points, text_at=_at(mark.text_at, shift))


def _at(point: Point, shift: DimensionShift) -> Point:
    return Point(point.x_mm + shift.dx_mm, point.y_mm + shift.dy_mm)
