"""The rows that say what a core can do: its type, and what is known better than that."""

from __future__ import annotations

import functools
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from msgspec.structs import replace
from PySide6.QtWidgets import QWidget

from grillestack.app.panels.draft import DraftForm, Wanted
from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.form import Form, Slot, in_a_sentence
from grillestack.app.panels.lines_field import LinesField
from grillestack.app.panels.slots import part_slot
from grillestack.app.session import Session
from grillestack.model.core_description import (
    Construction,
    CoreDescription,
    CoreMetal,
    CoreType,
    InnerFin,
    MeasuredTable,
    RatingPoint,
    TablePoint,
)
from grillestack.model.edits import replace_part
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import Project
from grillestack.model.values import ModelError, Value
from grillestack.units.quantity import Dimension

_TYPES = tuple((core_type.value.replace("-", " "), core_type) for core_type in CoreType)
_METALS = tuple((metal.value.replace("-", "/"), metal) for metal in CoreMetal)

RATING = (
    Wanted(key="heat_w", label="Heat", dimension=Dimension.POWER),
    Wanted(key="face_velocity_m_s", label="Air at the face", dimension=Dimension.FLOW_SPEED),
    Wanted(key="air_inlet_degc", label="Air inlet", dimension=Dimension.TEMPERATURE),
    Wanted(key="tube_inlet_degc", label="Tube inlet", dimension=Dimension.TEMPERATURE),
    Wanted(key="tube_flow_kg_s", label="Flow in the tubes", dimension=Dimension.MASS_FLOW),
    Wanted(key="air_loss_pa", label="Air pressure loss", dimension=Dimension.AIR_PRESSURE, optional=True),
)
CONSTRUCTION = (
    Wanted(key="tube_pitch_mm", label="Tube pitch", dimension=Dimension.LENGTH),
    Wanted(key="tube_thickness_mm", label="Tube thickness", dimension=Dimension.LENGTH),
    Wanted(key="tube_depth_mm", label="Tube depth", dimension=Dimension.LENGTH),
    Wanted(key="tube_rows", label="Tube rows", dimension=Dimension.COUNT, initial=1.0),
    Wanted(key="tube_wall_mm", label="Tube wall", dimension=Dimension.LENGTH),
    Wanted(key="fin_height_mm", label="Fin height", dimension=Dimension.LENGTH),
    Wanted(key="fin_pitch_mm", label="Fin pitch", dimension=Dimension.LENGTH),
    Wanted(key="fin_thickness_mm", label="Fin thickness", dimension=Dimension.LENGTH),
    Wanted(key="louvre_pitch_mm", label="Louvre pitch", dimension=Dimension.LENGTH),
    Wanted(key="louvre_length_mm", label="Louvre length", dimension=Dimension.LENGTH),
    Wanted(key="louvre_angle_deg", label="Louvre angle", dimension=Dimension.ANGLE),
)
INNER_FIN = (
    Wanted(key="spacing_mm", label="Clear spacing", dimension=Dimension.LENGTH),
    Wanted(key="height_mm", label="Clear height", dimension=Dimension.LENGTH),
    Wanted(key="thickness_mm", label="Thickness", dimension=Dimension.LENGTH),
    Wanted(key="strip_length_mm", label="Strip length", dimension=Dimension.LENGTH),
)
_TABLE_HEAD = (
    Wanted(key="inlet_difference_k", label="Inlet difference", dimension=Dimension.TEMPERATURE_DIFFERENCE),
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
    form.choice("Built as", _TYPES, _description_slot(core.id, "core_type"))
    form.note(_known_as(core.description))
    if core.role is CoreRole.COOLER:
        form.quantity("Heat it gives off", Dimension.POWER, part_slot(core.id, "given_heat_w"), optional=True)
    _rating_rows(form, session, core)
    _table_rows(form, session, core)
    _construction_rows(form, session, core)
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
        form.whole(_draft(form, session, core.id, Better("rating", "Add a rating point", RATING, RatingPoint)))
        return
    form.note("Rating point")
    for line in RATING:
        if line.dimension is not None:
            form.quantity(line.label, line.dimension, _nested_slot(core.id, "rating", line.key), optional=line.optional)
    form.act("Remove the rating point", lambda: _set(session, core.id, "remove rating point", rating=None))


def _construction_rows(form: Form, session: Session, core: Core) -> None:
    if core.description.construction is None:
        better = Better("construction", "Add fins and tubes as measured", CONSTRUCTION, _built)
        form.whole(_draft(form, session, core.id, better))
        return
    form.note("Fins and tubes")
    form.choice("Metal", _METALS, _nested_slot(core.id, "construction", "metal"))
    for line in CONSTRUCTION:
        if line.dimension is not None:
            form.quantity(line.label, line.dimension, _nested_slot(core.id, "construction", line.key))
    enhancement = _nested_slot(core.id, "construction", "tube_enhancement_factor")
    form.quantity("Tube side, times plain", Dimension.COUNT, enhancement)
    form.switch("Dimpled tubes", _nested_slot(core.id, "construction", "dimpled_tubes"))
    _inner_fin_rows(form, session, core)
    form.act("Remove fins and tubes", lambda: _set(session, core.id, "remove construction", construction=None))


def _inner_fin_rows(form: Form, session: Session, core: Core) -> None:
    """Add the offset strip fin inside the tubes of a charge-air cooler."""

    def set_fin(label: str, fin: InnerFin | None) -> None:
        construction = _description(session.project, core.id).construction
        _set(session, core.id, label, construction=construction and replace(construction, inner_fin=fin))

    if core.description.construction is None:
        return
    if core.description.construction.inner_fin is None:
        draft = DraftForm(
            "", INNER_FIN, session.units, lambda values: set_fin("add fin inside the tubes", InnerFin(**values))
        )
        section = FoldingSection("Add a fin inside the tubes", draft, is_open=False)
        draft.cancelled.connect(lambda: section.button.setChecked(False))
        form.follow(lambda _project: draft.show_units(session.units))
        form.whole(section)
        return
    form.note("Fin inside the tubes")
    for line in INNER_FIN:
        if line.dimension is not None:
            form.quantity(line.label, line.dimension, _inner_fin_slot(core.id, line.key))
    form.act("Remove the fin inside", lambda: set_fin("remove fin inside the tubes", None))


def _inner_fin_slot(part_id: str, field: str) -> Slot:
    outer = _nested_slot(part_id, "construction", "inner_fin")
    return Slot(
        lambda project: getattr(outer.read(project), field),
        lambda project, value: outer.write(project, replace(outer.read(project), **{field: value})),
    )


def _table_rows(form: Form, session: Session, core: Core) -> None:
    columns = LinesField("Measured table", TABLE_COLUMNS)
    if core.description.table is None:
        make = functools.partial(_table, columns)
        form.whole(_draft(form, session, core.id, Better("table", "Add a measured table", _TABLE_HEAD, make, columns)))
        form.follow(lambda _project: columns.show_rows((), session.units))
        return
    form.note("Measured table")
    for line in _TABLE_HEAD:
        if line.dimension is not None:
            form.quantity(line.label, line.dimension, _nested_slot(core.id, "table", line.key))

    def take(rows: tuple[tuple[float, float, float], ...]) -> None:
        try:
            points = _points(rows)
            table = _description(session.project, core.id).table
            _set(session, core.id, "change measured table", table=table and replace(table, points=points))
        except ModelError as error:
            columns.complain(str(error))

    def show(project: Project) -> None:
        table = _description(project, core.id).table
        if table is not None:
            columns.show_rows([(p.face_velocity_m_s, p.heat_w, p.air_loss_pa) for p in table.points], session.units)

    columns.committed.connect(take)
    form.whole(columns)
    form.follow(show)
    form.act("Remove the table", lambda: _set(session, core.id, "remove measured table", table=None))


@dataclass(frozen=True, slots=True)
class Better:
    """One further line of knowledge of a core: where it belongs, its form, and what is made of what was typed."""

    field: str
    heading: str
    wanted: tuple[Wanted, ...]
    make: Callable[..., Value]
    extra: QWidget | None = None


def _draft(form: Form, session: Session, part_id: str, better: Better) -> FoldingSection:
    def take(values: Mapping[str, Any]) -> None:
        _set(session, part_id, in_a_sentence(better.heading), **{better.field: better.make(**values)})

    draft = DraftForm("", better.wanted, session.units, take, extra=better.extra)
    section = FoldingSection(better.heading, draft, is_open=False)
    draft.cancelled.connect(lambda: section.button.setChecked(False))
    form.follow(lambda _project: draft.show_units(session.units))
    return section


def _built(**values: Any) -> Construction:
    rows = values["tube_rows"]
    return Construction(**{**values, "tube_rows": int(rows) if rows == int(rows) else rows})


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


def _description(project: Project, part_id: str) -> CoreDescription:
    core = project.part(part_id)
    if not isinstance(core, Core):
        raise ModelError("id", f"“{core.name}” is no core, so it has no fins and tubes: select a core.")
    return core.description


def _set(session: Session, part_id: str, label: str, **changes: Any) -> None:
    core = session.project.part(part_id)
    changed = replace(core, description=replace(_description(session.project, part_id), **changes))
    session.apply(label, replace_part(session.project, changed))


def _description_slot(part_id: str, field: str) -> Slot:
    def write(project: Project, value: Any) -> Project:
        changed = replace(_description(project, part_id), **{field: value})
        return replace_part(project, replace(project.part(part_id), description=changed))

    return Slot(lambda project: getattr(_description(project, part_id), field), write)


def _nested_slot(part_id: str, field: str, inner: str) -> Slot:
    outer = _description_slot(part_id, field)

    def read(project: Project) -> Any:
        value = getattr(outer.read(project), inner)
        return float(value) if isinstance(value, int) and not isinstance(value, bool) else value

    def write(project: Project, value: Any) -> Project:
        whole = (
            isinstance(getattr(outer.read(project), inner), int) and isinstance(value, float) and value == int(value)
        )
        return outer.write(project, replace(outer.read(project), **{inner: int(value) if whole else value}))

    return Slot(read, write)
