"""The rows about the nose: one opening, one obstruction, the support window, and the vehicle's own lines."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Any

from msgspec.structs import replace

from grillestack.app.panels.form import Form, Slot
from grillestack.app.panels.free_area_rows import FreeArea
from grillestack.app.panels.lines_field import LinesField
from grillestack.app.panels.place_rows import outline_centre
from grillestack.app.panels.slots import (
    nose_slot,
    obstruction,
    opening,
    put_obstruction,
    put_opening,
    put_window,
    stations_slot,
)
from grillestack.app.session import SUPPORT_WINDOW_ID, Session
from grillestack.assess.defaults import default_for
from grillestack.model.outline import Point, SidePoint, rectangle_outline
from grillestack.model.project import Project
from grillestack.model.values import ModelError, SizeMm, Value
from grillestack.units.quantity import Dimension

OutlineReader = Callable[[Project], tuple[Point, ...]]
OutlineWriter = Callable[[Project, tuple[Point, ...]], Project]


def opening_form(session: Session, opening_id: str) -> Form:
    """Return the rows of one opening."""

    def slot(field: str) -> Slot:
        return Slot(
            lambda project: getattr(opening(project, opening_id), field),
            lambda project, value: put_opening(project, replace(opening(project, opening_id), **{field: value})),
        )

    form = Form(session)
    form.text("Name", slot("name"))
    _outline_rows(form, session, slot("outline"))
    form.quantity("Rearward", Dimension.LENGTH, slot("x_mm"))
    form.quantity(
        "Free area", Dimension.FRACTION, slot("free_area_frac"), optional=True, default=default_for("free_area_frac")
    )
    form.note("Free area is what bars or mesh leave open.")
    FreeArea(form, session, slot("free_area_frac"))
    return form


def obstruction_form(session: Session, obstruction_id: str) -> Form:
    """Return the rows of one obstruction."""

    def slot(field: str) -> Slot:
        def write(project: Project, value: Any) -> Project:
            return put_obstruction(project, replace(obstruction(project, obstruction_id), **{field: value}))

        return Slot(lambda project: getattr(obstruction(project, obstruction_id), field), write)

    form = Form(session)
    form.text("Name", slot("name"))
    _outline_rows(form, session, slot("outline"))
    form.quantity("Front at", Dimension.LENGTH, slot("x_front_mm"))
    form.quantity("Rear at", Dimension.LENGTH, slot("x_rear_mm"))
    return form


def window_form(session: Session) -> Form:
    """Return the rows of the support window; the project must have one."""

    def slot(field: str) -> Slot:
        def write(project: Project, value: Any) -> Project:
            window = project.nose.support_window
            return put_window(project, window and replace(window, **{field: value}))

        return Slot(lambda project: getattr(project.nose.support_window, field), write)

    form = Form(session)
    _outline_rows(form, session, slot("outline"))
    form.quantity("Rearward", Dimension.LENGTH, slot("x_mm"))
    form.note("Outside the window the core support lets no air through.")
    return form


def nose_form(session: Session) -> Form:
    """Return the rows of the nose itself."""
    form = Form(session)
    form.text("Vehicle", nose_slot("name"))
    form.quantity("Grille plane", Dimension.LENGTH, stations_slot("grille_x_mm"))
    form.quantity("Fan or pulley at", Dimension.LENGTH, stations_slot("pulley_x_mm"), optional=True)
    form.paragraph("About it", nose_slot("about_text"))
    _bonnet_rows(form, session)
    nose = session.shown.nose
    names = [(o.id, o.name) for o in nose.openings] + [(o.id, o.name) for o in nose.obstructions]
    for identifier, name in names:
        form.act(f"Select {name}", functools.partial(session.select, [identifier]))
    if nose.support_window is not None:
        form.act("Select support window", functools.partial(session.select, [SUPPORT_WINDOW_ID]))
    return form


def _bonnet_rows(form: Form, session: Session) -> None:
    """Add the bonnet line, the lowest metal above the pack, as points from front to back."""
    line = LinesField("Bonnet line", [("rearward", Dimension.LENGTH), ("height", Dimension.LENGTH)])
    slot = stations_slot("bonnet_line")

    def take(rows: tuple[tuple[float, float], ...]) -> None:
        try:
            points = tuple(SidePoint(x_mm, z_mm) for x_mm, z_mm in rows)
            project = slot.write(session.project, points)
        except ModelError as error:
            line.complain(str(error))
            return
        session.apply("change bonnet line", project)

    line.committed.connect(take)
    form.note("Bonnet line: the lowest metal above the pack")
    form.whole(line)
    form.follow(lambda project: line.show_rows([(p.x_mm, p.z_mm) for p in slot.read(project)], session.units))


class _RectangleSize(Value, frozen=True, kw_only=True):
    """The size of an opening, so that an impossible one is refused in the model's words."""

    width_mm: SizeMm
    height_mm: SizeMm


def _outline_rows(form: Form, session: Session, slot: Slot) -> None:
    """Add width, height and place; any other outline than a rectangle keeps its shape and is stretched as a whole."""
    form.quantity("Width", Dimension.LENGTH, Slot(lambda p: _size(slot.read(p))[0], _stretch(slot, 0)))
    form.quantity("Height", Dimension.LENGTH, Slot(lambda p: _size(slot.read(p))[1], _stretch(slot, 1)))
    form.quantity(
        "Centre to the right", Dimension.LENGTH, Slot(lambda p: outline_centre(slot.read(p))[0], _shift(slot, 0))
    )
    form.quantity("Lower edge at", Dimension.LENGTH, Slot(lambda p: min(c.z_mm for c in slot.read(p)), _shift(slot, 1)))
    corners = len(slot.read(session.shown))
    if corners != 4:
        form.note(f"An outline of {corners} corners: it keeps its shape when width or height change.")


def _size(outline: tuple[Point, ...]) -> tuple[float, float]:
    ys, zs = [p.y_mm for p in outline], [p.z_mm for p in outline]
    return max(ys) - min(ys), max(zs) - min(zs)


def _stretch(slot: Slot, axis: int) -> Callable[[Project, float], Project]:
    """Return the edit that gives the outline another size, about its middle sideways and its lower edge upward."""

    def write(project: Project, value: float) -> Project:
        outline: tuple[Point, ...] = slot.read(project)
        width, height = _size(outline)
        _RectangleSize(width_mm=value if axis == 0 else width, height_mm=value if axis == 1 else height)
        if min(width, height) <= 0:
            raise ModelError("outline", "This outline encloses nothing: remove it and add a new one.")
        middle = outline_centre(outline)[0]
        bottom = min(p.z_mm for p in outline)
        stretched = tuple(
            Point(middle + (p.y_mm - middle) * value / width, p.z_mm)
            if axis == 0
            else Point(p.y_mm, bottom + (p.z_mm - bottom) * value / height)
            for p in outline
        )
        return slot.write(project, stretched)

    return write


def _shift(slot: Slot, axis: int) -> Callable[[Project, float], Project]:
    """Return the edit that puts the outline's middle, or its lower edge, there."""

    def write(project: Project, value: float) -> Project:
        outline: tuple[Point, ...] = slot.read(project)
        by = value - (outline_centre(outline)[0] if axis == 0 else min(p.z_mm for p in outline))
        moved = (Point(p.y_mm + by, p.z_mm) if axis == 0 else Point(p.y_mm, p.z_mm + by) for p in outline)
        return slot.write(project, tuple(moved))

    return write


def typed_rectangle(width_mm: float, height_mm: float, centre_mm: float, bottom_mm: float) -> tuple[Point, ...]:
    """Return a rectangle of the front view from what one types: sizes, middle to the right, lower edge."""
    size = _RectangleSize(width_mm=width_mm, height_mm=height_mm)
    half = size.width_mm / 2
    return rectangle_outline(centre_mm - half, bottom_mm, centre_mm + half, bottom_mm + size.height_mm)
