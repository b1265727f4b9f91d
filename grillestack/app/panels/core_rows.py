"""The rows that say what a core can do: its type, and what is known better than that."""

from __future__ import annotations

import functools
from typing import Any

from msgspec.structs import replace

from grillestack.app.panels.construction_rows import construction_rows
from grillestack.app.panels.cooler_rows import cooler_rows
from grillestack.app.panels.core_knowledge import (
    Better,
    better_section,
    description_of,
    description_slot,
    nested_slot,
    set_known,
)
from grillestack.app.panels.draft import Wanted
from grillestack.app.panels.form import Form
from grillestack.app.panels.lines_field import LinesField
from grillestack.app.session import Session
from grillestack.assess.defaults import default_for
from grillestack.model.core_description import (
    CoreDescription,
    CoreType,
    MeasuredTable,
    RatingPoint,
    TablePoint,
)
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import Project
from grillestack.model.values import ModelError
from grillestack.units.quantity import Dimension

_TYPES = tuple((core_type.value.replace("-", " "), core_type) for core_type in CoreType)

RATING = (
    Wanted(key="heat_w", label="Heat", dimension=Dimension.POWER),
    Wanted(key="face_velocity_m_s", label="Air at the face", dimension=Dimension.FLOW_SPEED),
    Wanted(key="air_inlet_degc", label="Air inlet", dimension=Dimension.TEMPERATURE),
    Wanted(key="tube_inlet_degc", label="Tube inlet", dimension=Dimension.TEMPERATURE),
    Wanted(key="tube_flow_kg_s", label="Flow in the tubes", dimension=Dimension.MASS_FLOW),
    Wanted(key="air_loss_pa", label="Air pressure loss", dimension=Dimension.AIR_PRESSURE, optional=True),
)
_TABLE_HEAD = (
    Wanted(key="inlet_difference_k", label="Inlet difference", dimension=Dimension.TEMPERATURE_DIFFERENCE),
    Wanted(
        key="air_inlet_degc",
        label="Air inlet",
        dimension=Dimension.TEMPERATURE,
        optional=True,
        default=default_for("air_inlet_degc"),
    ),
    Wanted(key="tube_flow_kg_s", label="Flow in the tubes", dimension=Dimension.MASS_FLOW),
)
TABLE_COLUMNS = (
    ("air", Dimension.FLOW_SPEED),
    ("heat", Dimension.POWER),
    ("air loss", Dimension.AIR_PRESSURE),
)


def description_form(session: Session, core: Core) -> Form:
    """Return the rows about what the core can do."""
    form = Form(session)
    form.choice("Built as", _TYPES, description_slot(core.id, "core_type"))
    form.note(_known_as(core.description))
    if core.role is CoreRole.COOLER:
        cooler_rows(form, core)
    _rating_rows(form, session, core)
    _table_rows(form, session, core)
    construction_rows(form, session, core)
    return form


def _known_as(description: CoreDescription) -> str:
    if description.table is not None:
        return "Known by a measured table."
    if description.rating is not None:
        return "Known by one rating point."
    if description.construction is not None:
        return "Known by its construction."
    return "Known by its type alone: the least sure. A rating point or a table from the parts page makes it better."


def _rating_rows(form: Form, session: Session, core: Core) -> None:
    if core.description.rating is None:
        form.whole(better_section(form, session, core.id, Better("rating", "Add a rating point", RATING, RatingPoint)))
        return
    form.note("Rating point")
    for line in RATING:
        if line.dimension is not None:
            form.quantity(line.label, line.dimension, nested_slot(core.id, "rating", line.key), optional=line.optional)
    form.act("Remove the rating point", lambda: set_known(session, core.id, "remove rating point", rating=None))


def _table_rows(form: Form, session: Session, core: Core) -> None:
    columns = LinesField("Measured table", TABLE_COLUMNS)
    if core.description.table is None:
        make = functools.partial(_table, columns)
        form.whole(
            better_section(form, session, core.id, Better("table", "Add a measured table", _TABLE_HEAD, make, columns))
        )
        form.follow(lambda _project: columns.show_rows((), session.units))
        return
    form.note("Measured table")
    for line in _TABLE_HEAD:
        if line.dimension is not None:
            place = nested_slot(core.id, "table", line.key)
            form.quantity(line.label, line.dimension, place, optional=line.optional, default=line.default)

    def take(rows: tuple[tuple[float, float, float], ...]) -> None:
        try:
            points = _points(rows)
            table = description_of(session.project, core.id).table
            set_known(session, core.id, "change measured table", table=table and replace(table, points=points))
        except ModelError as error:
            columns.complain(str(error))

    def show(project: Project) -> None:
        table = description_of(project, core.id).table
        if table is not None:
            columns.show_rows([(p.face_velocity_m_s, p.heat_w, p.air_loss_pa) for p in table.points], session.units)

    columns.committed.connect(take)
    form.whole(columns)
    form.follow(show)
    form.act("Remove the table", lambda: set_known(session, core.id, "remove measured table", table=None))


def _table(columns: LinesField, **head: Any) -> MeasuredTable:
    try:
        rows = columns.typed_rows()
    except ValueError as error:
        columns.complain(str(error))
        raise ModelError("points", "The table was not taken: correct the line named above.") from error
    return MeasuredTable(points=_points(rows), **head)


def _points(rows: tuple[tuple[float, ...], ...]) -> tuple[TablePoint, ...]:
    if len(rows) < 2:
        raise ModelError("points", "A table needs at least two lines: type the second one, or give a rating point.")
    return tuple(TablePoint(face_velocity_m_s=air, heat_w=heat, air_loss_pa=loss) for air, heat, loss in rows)
