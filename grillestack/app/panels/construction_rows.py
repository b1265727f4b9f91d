"""The rows of a core's fins and tubes as one can measure them, and of the fin inside the tubes."""

from __future__ import annotations

from typing import Any

from msgspec.structs import replace

from grillestack.app.panels.core_knowledge import Better, better_section, description_of, nested_slot, set_known
from grillestack.app.panels.draft import DraftForm, Wanted
from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.form import Form, Slot
from grillestack.app.session import Session
from grillestack.model.core_description import Construction, CoreMetal, InnerFin
from grillestack.model.parts import Core
from grillestack.units.quantity import Dimension

_METALS = tuple((metal.value.replace("-", "/"), metal) for metal in CoreMetal)
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


def construction_rows(form: Form, session: Session, core: Core) -> None:
    """Add the rows of fins and tubes, or the form to type them in."""
    if core.description.construction is None:
        better = Better("construction", "Add fins and tubes as measured", CONSTRUCTION, _built)
        form.whole(better_section(form, session, core.id, better))
        return
    form.note("Fins and tubes")
    form.choice("Metal", _METALS, nested_slot(core.id, "construction", "metal"))
    for line in CONSTRUCTION:
        if line.dimension is not None:
            form.quantity(line.label, line.dimension, nested_slot(core.id, "construction", line.key))
    enhancement = nested_slot(core.id, "construction", "tube_enhancement_factor")
    form.quantity("Tube side, times plain", Dimension.COUNT, enhancement)
    form.switch("Dimpled tubes", nested_slot(core.id, "construction", "dimpled_tubes"))
    _inner_fin_rows(form, session, core)
    form.act("Remove fins and tubes", lambda: set_known(session, core.id, "remove construction", construction=None))


def _inner_fin_rows(form: Form, session: Session, core: Core) -> None:
    """Add the offset strip fin inside the tubes of a charge-air cooler."""

    def set_fin(label: str, fin: InnerFin | None) -> None:
        construction = description_of(session.project, core.id).construction
        set_known(session, core.id, label, construction=construction and replace(construction, inner_fin=fin))

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
    outer = nested_slot(part_id, "construction", "inner_fin")
    return Slot(
        lambda project: getattr(outer.read(project), field),
        lambda project, value: outer.write(project, replace(outer.read(project), **{field: value})),
    )


def _built(**values: Any) -> Construction:
    rows = values["tube_rows"]
    return Construction(**{**values, "tube_rows": int(rows) if rows == int(rows) else rows})
