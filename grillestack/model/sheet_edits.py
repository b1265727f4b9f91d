"""Every change of the drawings' choices as a pure function: project in, new project out."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from grillestack.model.project import Project
from grillestack.model.sheet_choices import DimensionShift, SheetChoices, SheetView


def set_choice(project: Project, field: str, value: Any) -> Project:
    """Return the project with this value in that field of its choices for the drawings."""
    return replace(project, sheet=replace(project.sheet, **{field: value}))


def set_making(project: Project, field: str, value: Any) -> Project:
    """Return the project with this value in that field of how brackets and shroud are made."""
    return set_choice(project, "making", replace(project.sheet.making, **{field: value}))


def show_view(project: Project, view: SheetView, *, is_wanted: bool) -> Project:
    """Return the project with that drawing among those wanted, or not; they keep the order of the list of all drawings."""
    wanted = {*project.sheet.views} - {view} | ({view} if is_wanted else set())
    return set_choice(project, "views", tuple(one for one in SheetView if one in wanted))


def shift_of(choices: SheetChoices, key: str) -> DimensionShift:
    """Return what a hand did to the dimension of that key; one that stays where it was put if it did nothing."""
    return next((shift for shift in choices.shifts if shift.key == key), DimensionShift(key=key))


def move_dimension(project: Project, key: str, dx_mm: float, dy_mm: float) -> Project:
    """Return the project with that dimension moved over the paper by so much more."""
    old = shift_of(project.sheet, key)
    # A hundredth of a millimetre is finer than any print: what sums up beyond it is dust.
    moved = replace(old, dx_mm=round(old.dx_mm + dx_mm, 2), dy_mm=round(old.dy_mm + dy_mm, 2))
    return _with_shift(project, moved)


def switch_dimension(project: Project, key: str, *, is_on: bool) -> Project:
    """Return the project with that dimension on the paper or off it; where it was moved to is kept."""
    return _with_shift(project, replace(shift_of(project.sheet, key), is_off=not is_on))


def put_dimension_back(project: Project, key: str) -> Project:
    """Return the project with that dimension where and as the drawing puts it."""
    return _with_shift(project, DimensionShift(key=key))


def put_all_back(project: Project) -> Project:
    """Return the project with every dimension where and as the drawing puts it."""
    return set_choice(project, "shifts", ())


def _with_shift(project: Project, shift: DimensionShift) -> Project:
    others = tuple(one for one in project.sheet.shifts if one.key != shift.key)
    does_nothing = shift == DimensionShift(key=shift.key)
    return set_choice(project, "shifts", others if does_nothing else (*others, shift))
