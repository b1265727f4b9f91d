"""The rows about a part's sizes: to change on a part made to own sizes, to read on a bought one."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from msgspec.structs import replace

from grillestack.app.panels.form import Form, Slot
from grillestack.app.panels.lines_field import LinesField
from grillestack.app.panels.slots import part_slot
from grillestack.app.resize import resize_core, resize_shroud, with_tanks
from grillestack.app.session import Session
from grillestack.model.edits import replace_part
from grillestack.model.parts import Core, Fan, FanDrive, FanPoint, Part, Shroud, SolidKind, TubeDirection
from grillestack.model.project import Project
from grillestack.model.values import ModelError, SizeMm, ThicknessMm, Value
from grillestack.units.quantity import Dimension

BOUGHT = "A bought part keeps its size; make it to own sizes first if yours differs."
_DRIVES = tuple((drive.value, drive) for drive in FanDrive)
_TUBES = (("across (cross-flow)", TubeDirection.CROSS_FLOW), ("downward (down-flow)", TubeDirection.DOWN_FLOW))


def sizes_form(session: Session, part: Part) -> Form:
    """Return the rows about the sizes of the part."""
    form = Form(session)
    locked = "" if part.own_sizes else BOUGHT
    if isinstance(part, Core):
        _core_rows(form, part, locked)
    elif isinstance(part, Shroud):
        _shroud_rows(form, part, locked)
    else:
        form.quantity("Ring diameter", Dimension.LENGTH, part_slot(part.id, "ring_diameter_mm"), locked=locked)
        form.quantity("Motor diameter", Dimension.LENGTH, part_slot(part.id, "motor_diameter_mm"), locked=locked)
    form.quantity("Depth", Dimension.LENGTH, part_slot(part.id, "depth_mm"), locked=locked)
    if locked:
        form.note(BOUGHT)
        form.act("Make it to own sizes", lambda: _make_own(session, part.id))
    return form


def fan_form(session: Session, fan: Fan) -> Form:
    """Return the rows about what a fan moves."""
    form = Form(session)
    curve = LinesField("Fan curve", [("flow", Dimension.AIR_FLOW), ("static pressure", Dimension.AIR_PRESSURE)])

    def take(rows: tuple[tuple[float, float], ...]) -> None:
        try:
            points = tuple(FanPoint(flow_m3_s=flow, pressure_pa=pressure) for flow, pressure in rows)
            part = replace(session.project.part(fan.id), curve=points)
        except ModelError as error:
            curve.complain(str(error))
            return
        session.apply("change fan curve", replace_part(session.project, part))

    def show(project: Project) -> None:
        shown = project.part(fan.id)
        if isinstance(shown, Fan):
            curve.show_rows([(p.flow_m3_s, p.pressure_pa) for p in shown.curve], session.units)

    curve.committed.connect(take)
    form.choice("Driven by", _DRIVES, part_slot(fan.id, "drive"))
    form.quantity("Flow, free air", Dimension.AIR_FLOW, part_slot(fan.id, "free_flow_m3_s"), optional=True)
    if fan.drive is FanDrive.BELT:
        form.quantity("Turns per engine turn", Dimension.COUNT, part_slot(fan.id, "drive_ratio_factor"), optional=True)
        form.quantity("Curve at, rev/min", Dimension.COUNT, part_slot(fan.id, "curve_speed_rpm"), optional=True)
        form.quantity("Clutch slip", Dimension.FRACTION, part_slot(fan.id, "clutch_slip_frac"))
    else:
        form.quantity("Rated voltage", Dimension.VOLTAGE, part_slot(fan.id, "rated_voltage_v"), optional=True)
        form.quantity("Running current", Dimension.CURRENT, part_slot(fan.id, "running_current_a"), optional=True)
    form.whole(curve)
    form.follow(show)
    at = "its speed above" if fan.drive is FanDrive.BELT else "the rated voltage"
    form.note(f"Curve at {at} and 1.2 kg/m³. Without one it is derived from the free flow, which is less sure.")
    return form


def _core_rows(form: Form, core: Core, locked: str) -> None:
    form.quantity("Core width", Dimension.LENGTH, _size_slot(core.id, "core_width_mm", _core_width), locked=locked)
    form.quantity("Core height", Dimension.LENGTH, _size_slot(core.id, "core_height_mm", _core_height), locked=locked)
    if core.own_sizes:
        form.quantity("Tanks, each", Dimension.LENGTH, _size_slot(core.id, tank_mm, _set_tanks))
        form.quantity("Side plates, each", Dimension.LENGTH, _size_slot(core.id, plate_mm, _set_plates))
        form.choice("Tubes run", _TUBES, _size_slot(core.id, "tubes", _set_tubes))
    else:
        form.quantity("Overall width", Dimension.LENGTH, _overall_slot(core.id, "width_mm"), locked=locked)
        form.quantity("Overall height", Dimension.LENGTH, _overall_slot(core.id, "height_mm"), locked=locked)
        form.reading("Tubes run", lambda project: _tube_words(project.part(core.id)))
    form.quantity("Passes", Dimension.COUNT, _passes_slot(core.id), locked=locked)


def _shroud_rows(form: Form, shroud: Shroud, locked: str) -> None:
    def wide(part: Shroud, value: float) -> Part:
        return resize_shroud(part, value, part.height_mm)

    def high(part: Shroud, value: float) -> Part:
        return resize_shroud(part, part.width_mm, value)

    form.quantity("Width", Dimension.LENGTH, _size_slot(shroud.id, "width_mm", wide), locked=locked)
    form.quantity("Height", Dimension.LENGTH, _size_slot(shroud.id, "height_mm", high), locked=locked)
    form.quantity("Relief flaps, open", Dimension.AREA, part_slot(shroud.id, "flap_area_mm2"))


class _Size(Value, frozen=True, kw_only=True):
    """A size on its own, so that an impossible one is refused in the model's words before anything is scaled by it."""

    core_width_mm: SizeMm = 1.0
    core_height_mm: SizeMm = 1.0


class _Edge(Value, frozen=True, kw_only=True):
    """The same for a tank or plate, which may be none."""

    tank_or_plate_mm: ThicknessMm


def _core_width(core: Core, value: float) -> Part:
    return resize_core(core, _Size(core_width_mm=value).core_width_mm, core.core_height_mm)


def _core_height(core: Core, value: float) -> Part:
    return resize_core(core, core.core_width_mm, _Size(core_height_mm=value).core_height_mm)


def _tube_words(part: Part) -> str:
    tubes = part.tubes if isinstance(part, Core) else None
    return next((words for words, value in _TUBES if value is tubes), "")


def tank_mm(core: Core) -> float:
    """Return how far the tanks reach beyond the core at each end, or the mean of the two ends."""
    return _beyond(core, at_the_sides=core.tubes is TubeDirection.CROSS_FLOW)


def plate_mm(core: Core) -> float:
    """Return how far the side plates reach beyond the core, or the mean of the two."""
    return _beyond(core, at_the_sides=core.tubes is TubeDirection.DOWN_FLOW)


def _beyond(core: Core, *, at_the_sides: bool) -> float:
    overall = core.overall
    if at_the_sides:
        return (overall.width_mm - core.core_width_mm) / 2
    return (overall.height_mm - core.core_height_mm) / 2


def _set_tanks(core: Core, value: float) -> Part:
    size = _Edge(tank_or_plate_mm=value).tank_or_plate_mm
    return with_tanks(core, size, plate_mm(core), at_the_sides=core.tubes is TubeDirection.CROSS_FLOW)


def _set_plates(core: Core, value: float) -> Part:
    size = _Edge(tank_or_plate_mm=value).tank_or_plate_mm
    return with_tanks(core, tank_mm(core), size, at_the_sides=core.tubes is TubeDirection.CROSS_FLOW)


def _set_tubes(core: Core, tubes: TubeDirection) -> Part:
    if tubes is core.tubes:
        return replace(core)
    turned = replace(core, tubes=tubes)
    if not any(solid.kind is not SolidKind.FRAME for solid in core.solids):
        return turned
    return with_tanks(turned, tank_mm(core), plate_mm(core), at_the_sides=tubes is TubeDirection.CROSS_FLOW)


def _size_slot(part_id: str, read: str | Callable[[Any], Any], write: Callable[[Any, Any], Part]) -> Slot:
    def get(project: Project) -> Any:
        part = project.part(part_id)
        return read(part) if callable(read) else getattr(part, read)

    return Slot(get, lambda project, value: replace_part(project, write(project.part(part_id), value)))


def _overall_slot(part_id: str, field: str) -> Slot:
    return _size_slot(part_id, lambda core: getattr(core.overall, field), lambda core, _value: core)


def _passes_slot(part_id: str) -> Slot:
    def write(core: Core, value: float) -> Part:
        # A broken number goes to the model as it is, which refuses it in its own words.
        return replace(core, passes=int(value) if value == int(value) else value)

    return _size_slot(part_id, lambda core: float(core.passes), write)


def _make_own(session: Session, part_id: str) -> None:
    part = replace(session.project.part(part_id), own_sizes=True)
    session.apply("make to own sizes", replace_part(session.project, part))
