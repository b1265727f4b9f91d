"""The parts of a pack: cores with their tanks, shrouds and fans, and where each is put."""

from __future__ import annotations

import enum
from typing import Annotated

from msgspec import Meta

from grillestack.model.core_description import CoreDescription
from grillestack.model.outline import Rect
from grillestack.model.values import (
    AngleDeg,
    ClockDeg,
    CoordinateMm,
    Identifier,
    ModelError,
    Name,
    SizeMm,
    TemperatureDegc,
    Text,
    ThicknessMm,
    Value,
)


class CoreRole(enum.Enum):
    """What a core does in the pack."""

    CONDENSER = "condenser"
    CHARGE_AIR_COOLER = "charge-air-cooler"
    COOLER = "cooler"
    RADIATOR = "radiator"


class TubeDirection(enum.Enum):
    """Which way the tubes run in the part's own frame."""

    CROSS_FLOW = "cross-flow"
    DOWN_FLOW = "down-flow"


class SolidKind(enum.Enum):
    """What a solid piece of a part is."""

    TANK = "tank"
    SIDE_PLATE = "side plate"
    FRAME = "frame"


class PortPurpose(enum.Enum):
    """What flows through a port."""

    INLET = "inlet"
    OUTLET = "outlet"
    VENT = "vent"
    FILL = "fill"
    DRAIN = "drain"


class Facing(enum.Enum):
    """Which way a port points in the part's own frame, as mounted without turn or flip; left and right are the vehicle's."""

    LEFT = "left"
    RIGHT = "right"
    UP = "up"
    DOWN = "down"
    FRONT = "front"
    REAR = "rear"


class Placement(Value, frozen=True, kw_only=True):
    """Where a part is: the centre of its core's (or its own) front face, then its pose.

    Pose, in this order: flip (a half turn about the part's vertical axis, never a mirror image), quarter turns about x
    (each takes the vehicle's right to up: clockwise as seen from ahead), tilt (about y, positive leans the top rearward).
    """

    x_mm: CoordinateMm = 0.0
    y_mm: CoordinateMm = 0.0
    z_mm: CoordinateMm = 0.0
    quarter_turns: Annotated[int, Meta(ge=0, le=3)] = 0
    flipped: bool = False
    tilt_deg: AngleDeg = 0.0


class Port(Value, frozen=True, kw_only=True):
    """A connection of a part, placed from the centre of the front face; w is rearward.

    `clock_deg` turns the spout from the way it faces, clockwise as seen from ahead. `bead_mm` is the height of the bead
    over the tube, 0 for a plain end.
    """

    purpose: PortPurpose
    u_mm: CoordinateMm
    v_mm: CoordinateMm
    w_mm: CoordinateMm = 0.0
    facing: Facing
    bore_mm: SizeMm
    fitting_text: Text = ""
    clock_deg: ClockDeg = 0.0
    outside_mm: SizeMm | None = None
    bead_mm: ThicknessMm | None = None


class Mount(Value, frozen=True, kw_only=True):
    """A pin, ear or bolt hole, placed from the centre of the front face."""

    u_mm: CoordinateMm
    v_mm: CoordinateMm
    w_mm: CoordinateMm = 0.0
    hole_mm: SizeMm
    kind_text: Text = ""


class Solid(Value, frozen=True, kw_only=True):
    """A tank, side plate or frame: no air passes; `front_mm` is where it begins, rearward of the core's front face."""

    kind: SolidKind
    rect: Rect
    front_mm: CoordinateMm = 0.0
    depth_mm: SizeMm


class PartBase(Value, frozen=True, kw_only=True):
    """What every part has.

    A locked part is not moved by hand; a hidden one is not drawn on the canvas, but is there for air, heat and paper.
    """

    id: Identifier
    name: Name
    placement: Placement = Placement()
    depth_mm: SizeMm
    own_sizes: bool = False
    locked: bool = False
    hidden: bool = False
    weight_kg: Annotated[float, Meta(gt=0, le=500)] | None = None
    ports: tuple[Port, ...] = ()
    mounts: tuple[Mount, ...] = ()
    pressure_rating_pa: Annotated[float, Meta(gt=0, le=1e8)] | None = None
    price_text: Text = ""
    supplier_text: Text = ""
    order_number_text: Text = ""
    notes_text: Text = ""


class TubeFluid(enum.Enum):
    """What runs through the tubes of a further cooler."""

    OIL = "oil"
    COOLANT = "coolant"


class Core(PartBase, frozen=True, kw_only=True, tag_field="part", tag="core"):
    """A heat exchanger: the finned core, its tanks and side plates inside the overall size.

    The frame's origin is the centre of the core's front face; `overall` is given in that frame. A further cooler either
    gives off `given_heat_w`, or its heat follows from what flows in: `tube_fluid`, `tube_inlet_degc` and `tube_flow_m3_s`
    (a condenser takes its load from the engine sheet).
    """

    role: CoreRole
    overall: Rect
    core_width_mm: SizeMm
    core_height_mm: SizeMm
    solids: tuple[Solid, ...] = ()
    tubes: TubeDirection = TubeDirection.CROSS_FLOW
    passes: Annotated[int, Meta(ge=1, le=4)] = 1
    description: CoreDescription
    given_heat_w: Annotated[float, Meta(ge=0, le=200_000)] | None = None
    tube_fluid: TubeFluid | None = None
    tube_inlet_degc: TemperatureDegc | None = None
    tube_flow_m3_s: Annotated[float, Meta(gt=0, le=0.05)] | None = None

    def __post_init__(self) -> None:
        super().__post_init__()
        core = self.core
        if not self.overall.contains(core):
            raise ModelError(
                "core_width_mm",
                f"The core of “{self.name}” ({self.core_width_mm:g} × {self.core_height_mm:g} mm) is larger than its overall "
                f"size ({self.overall.width_mm:g} × {self.overall.height_mm:g} mm): measure the core without tanks and plates.",
            )
        for solid in self.solids:
            if not self.overall.contains(solid.rect):
                raise ModelError(
                    "solids",
                    f"A {solid.kind.value} of “{self.name}” ({solid.rect.width_mm:g} × {solid.rect.height_mm:g} mm) reaches outside "
                    f"its overall size ({self.overall.width_mm:g} × {self.overall.height_mm:g} mm): "
                    f"enlarge the overall size or correct the {solid.kind.value}.",
                )
            if solid.rect.overlaps(core):
                raise ModelError(
                    "solids",
                    f"A {solid.kind.value} of “{self.name}” lies over its own core: the core is the finned area only, "
                    f"so shorten the {solid.kind.value} or the core.",
                )

    @property
    def core(self) -> Rect:
        """Return the finned area in the part's own frame."""
        w, h = self.core_width_mm / 2, self.core_height_mm / 2
        return Rect(u_min_mm=-w, v_min_mm=-h, u_max_mm=w, v_max_mm=h)


class Shroud(PartBase, frozen=True, kw_only=True, tag_field="part", tag="shroud"):
    """A box that leads the air of the face in front of it to its fans; the origin is the centre of its front face.

    `flap_area_mm2` is the free area of its relief flaps, which open to the rear only.
    """

    width_mm: SizeMm
    height_mm: SizeMm
    flap_area_mm2: Annotated[float, Meta(ge=0, le=1e6)] = 0.0


class FanDrive(enum.Enum):
    """What turns a fan."""

    ELECTRIC = "electric"
    BELT = "belt"


class FanPoint(Value, frozen=True, kw_only=True):
    """One point of a fan's curve at its rated voltage and standard air (1.2 kg/m³): static pressure and flow."""

    flow_m3_s: Annotated[float, Meta(ge=0, le=20)]
    pressure_pa: Annotated[float, Meta(ge=0, le=5_000)]


class Fan(PartBase, frozen=True, kw_only=True, tag_field="part", tag="fan"):
    """A fan in its ring; the origin is the centre of the ring's front plane. It always moves air rearward.

    A belt fan turns `drive_ratio_factor` times for each turn of the engine, less what its clutch slips; its curve holds
    at `curve_speed_rpm`.
    """

    ring_diameter_mm: SizeMm
    motor_diameter_mm: ThicknessMm = 0.0
    curve: tuple[FanPoint, ...] = ()
    free_flow_m3_s: Annotated[float, Meta(ge=0.001, le=20)] | None = None
    rated_voltage_v: Annotated[float, Meta(gt=0, le=1_000)] | None = None
    running_current_a: Annotated[float, Meta(gt=0, le=1_000)] | None = None
    drive: FanDrive = FanDrive.ELECTRIC
    drive_ratio_factor: Annotated[float, Meta(gt=0, le=10)] | None = None
    curve_speed_rpm: Annotated[float, Meta(gt=0, le=20_000)] | None = None
    clutch_slip_frac: Annotated[float, Meta(ge=0, le=1)] = 0.0


Part = Core | Shroud | Fan
