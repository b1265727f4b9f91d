"""What was measured of a core with a tape, and the core that follows from it."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import Final

from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.outline import Rect
from grillestack.model.parts import (
    Core,
    CoreRole,
    Facing,
    Mount,
    Port,
    PortPurpose,
    Solid,
    SolidKind,
    TubeDirection,
)


class Tanks(enum.Enum):
    """Where the tanks of a core are."""

    SIDES = "at the sides"
    ENDS = "above and below"


class Corner(enum.Enum):
    """From which corner of the overall size something is measured; right and left are the vehicle's."""

    UPPER_RIGHT = "upper right"
    UPPER_LEFT = "upper left"
    LOWER_RIGHT = "lower right"
    LOWER_LEFT = "lower left"

    @property
    def is_right(self) -> bool:
        """Return whether it is on the vehicle's right."""
        return self in (Corner.UPPER_RIGHT, Corner.LOWER_RIGHT)

    @property
    def is_upper(self) -> bool:
        """Return whether it is one of the upper two."""
        return self in (Corner.UPPER_RIGHT, Corner.UPPER_LEFT)


@dataclass(frozen=True, slots=True, kw_only=True)
class TapedPort:
    """A port as it is measured: from a corner inward, and behind the core's front face."""

    purpose: PortPurpose = PortPurpose.INLET
    facing: Facing = Facing.REAR
    corner: Corner = Corner.UPPER_RIGHT
    across_mm: float | None = None
    along_mm: float | None = None
    behind_mm: float | None = None
    bore_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TapedMount:
    """A pin, ear or bolt hole, measured like a port."""

    kind_text: str = ""
    corner: Corner = Corner.LOWER_RIGHT
    across_mm: float | None = None
    along_mm: float | None = None
    hole_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Taped:
    """Everything that was measured so far; what is `None` was not, and stays a question or gets a usual value.

    `core_right_mm` and `core_low_mm` are from the overall size's right and lower edge to the core, `tank_ahead_mm` is how far
    the tanks stand ahead of the core's front face.
    """

    name: str = ""
    role: CoreRole = CoreRole.RADIATOR
    core_type: CoreType | None = None
    core_width_mm: float | None = None
    core_height_mm: float | None = None
    depth_mm: float | None = None
    overall_width_mm: float | None = None
    overall_height_mm: float | None = None
    core_right_mm: float | None = None
    core_low_mm: float | None = None
    tanks: Tanks = Tanks.SIDES
    tank_depth_mm: float | None = None
    tank_ahead_mm: float | None = None
    ports: tuple[TapedPort, ...] = ()
    mounts: tuple[TapedMount, ...] = ()
    weight_kg: float | None = None


NAMES: Final = {
    CoreRole.RADIATOR: "Measured radiator",
    CoreRole.CHARGE_AIR_COOLER: "Measured charge-air cooler",
    CoreRole.CONDENSER: "Measured condenser",
    CoreRole.COOLER: "Measured oil cooler",
}
USUAL_TYPES: Final = {
    CoreRole.RADIATOR: CoreType.ALUMINIUM_TWO_ROW,
    CoreRole.CHARGE_AIR_COOLER: CoreType.BAR_AND_PLATE_CHARGE_AIR,
    CoreRole.CONDENSER: CoreType.PARALLEL_FLOW_CONDENSER,
    CoreRole.COOLER: CoreType.PLATE_OIL_COOLER,
}
"""How such a core is usually built; common practice, from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Front:
    """The front view of what was measured, in the core's own frame: u to the vehicle's right, v up."""

    core: Rect
    overall: Rect


def front_of(taped: Taped) -> Front | None:
    """Return the front view, or nothing while a size of core or overall is missing."""
    width, height = taped.core_width_mm, taped.core_height_mm
    over_width, over_height = taped.overall_width_mm, taped.overall_height_mm
    if width is None or height is None or over_width is None or over_height is None:
        return None
    # Two readings of a tape may differ; the core is never let out of the whole by that.
    over_width, over_height = max(over_width, width), max(over_height, height)
    right = _between(taped.core_right_mm, over_width - width)
    low = _between(taped.core_low_mm, over_height - height)
    u_max, v_min = width / 2 + right, -height / 2 - low
    return Front(
        core=Rect(u_min_mm=-width / 2, v_min_mm=-height / 2, u_max_mm=width / 2, v_max_mm=height / 2),
        overall=Rect(u_min_mm=u_max - over_width, v_min_mm=v_min, u_max_mm=u_max, v_max_mm=v_min + over_height),
    )


def place_of(front: Front, one: TapedPort | TapedMount) -> tuple[float, float] | None:
    """Return u and v of something measured from a corner, or nothing while that was not measured."""
    if one.across_mm is None or one.along_mm is None:
        return None
    box = front.overall
    u = box.u_max_mm - one.across_mm if one.corner.is_right else box.u_min_mm + one.across_mm
    v = box.v_max_mm - one.along_mm if one.corner.is_upper else box.v_min_mm + one.along_mm
    return u, v


def tank_place(taped: Taped) -> tuple[float, float]:
    """Return where the tanks begin, rearward of the core's front face, and how deep they are; as deep as the core if not said."""
    depth = taped.depth_mm or 0.0
    deep = depth if taped.tank_depth_mm is None else taped.tank_depth_mm
    begins = -(deep - depth) / 2 if taped.tank_ahead_mm is None else -taped.tank_ahead_mm
    return begins, deep


def edges(front: Front) -> tuple[list[Rect], list[Rect]]:
    """Return what lies beside the core over the whole height, and what lies above and below it."""
    core, box = front.core, front.overall
    beside = [
        _rect(box.u_min_mm, box.v_min_mm, core.u_min_mm, box.v_max_mm),
        _rect(core.u_max_mm, box.v_min_mm, box.u_max_mm, box.v_max_mm),
    ]
    upright = [
        _rect(core.u_min_mm, core.v_max_mm, core.u_max_mm, box.v_max_mm),
        _rect(core.u_min_mm, box.v_min_mm, core.u_max_mm, core.v_min_mm),
    ]
    return [r for r in beside if r is not None], [r for r in upright if r is not None]


def core_from(taped: Taped) -> Core:
    """Return the core that was measured; `faults` must have found none.

    Raises
    ------
    ModelError
        If a size cannot be.
    """
    front = front_of(taped)
    if front is None or taped.depth_mm is None:
        raise ValueError("a size of the core is missing")
    beside, upright = edges(front)
    at_sides = taped.tanks is Tanks.SIDES
    begins, deep = tank_place(taped)
    tanks, plates = (beside, upright) if at_sides else (upright, beside)
    solids = [Solid(kind=SolidKind.TANK, rect=rect, front_mm=begins, depth_mm=deep) for rect in tanks]
    solids += [Solid(kind=SolidKind.SIDE_PLATE, rect=rect, depth_mm=taped.depth_mm) for rect in plates]
    return Core(
        id="measured",
        name=taped.name.strip() or NAMES[taped.role],
        role=taped.role,
        overall=front.overall,
        core_width_mm=front.core.width_mm,
        core_height_mm=front.core.height_mm,
        depth_mm=taped.depth_mm,
        own_sizes=True,
        solids=tuple(solids),
        tubes=TubeDirection.CROSS_FLOW if at_sides else TubeDirection.DOWN_FLOW,
        description=CoreDescription(core_type=taped.core_type or USUAL_TYPES[taped.role]),
        ports=tuple(_port(front, taped, port) for port in taped.ports),
        mounts=tuple(_mount(front, mount) for mount in taped.mounts),
        weight_kg=taped.weight_kg,
    )


def _port(front: Front, taped: Taped, port: TapedPort) -> Port:
    u, v = place_of(front, port) or (0.0, 0.0)
    behind = (taped.depth_mm or 0.0) / 2 if port.behind_mm is None else port.behind_mm
    return Port(purpose=port.purpose, facing=port.facing, u_mm=u, v_mm=v, w_mm=behind, bore_mm=port.bore_mm or 0.0)


def _mount(front: Front, mount: TapedMount) -> Mount:
    u, v = place_of(front, mount) or (0.0, 0.0)
    return Mount(u_mm=u, v_mm=v, hole_mm=mount.hole_mm or 0.0, kind_text=mount.kind_text)


def _between(measured: float | None, whole: float) -> float:
    """Return the measured distance held inside the room there is, the middle of it if nothing was measured."""
    return whole / 2 if measured is None else min(max(measured, 0.0), whole)


def _rect(left: float, bottom: float, right: float, top: float) -> Rect | None:
    # A tenth of a millimetre is no tank: it is what two readings of a tape differ by.
    if right - left <= 0.1 or top - bottom <= 0.1:
        return None
    return Rect(u_min_mm=left, v_min_mm=bottom, u_max_mm=right, v_max_mm=top)
