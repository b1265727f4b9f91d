"""In which order a part is measured, and what is said at each step."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import Final

from grillestack.units.quantity import Dimension


class StepName(enum.Enum):
    """The steps, in the order in which one measures."""

    WHAT = "What it is"
    CORE = "The core"
    OVERALL = "Over everything"
    TANKS = "The tanks"
    PORTS = "The ports"
    MOUNTS = "Pins and holes"
    WEIGHT = "Weight and name"


@dataclass(frozen=True, slots=True)
class Asked:
    """One line of a step: which measure, its label, what it takes, whether it may stay empty and what then stands in."""

    key: str
    label: str
    dimension: Dimension = Dimension.LENGTH
    if_empty: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """One page of the form."""

    name: StepName
    words: str
    asked: tuple[Asked, ...] = ()


STEPS: Final = (
    Step(StepName.WHAT, "Lay the part on the bench with its front face up, as the air meets it."),
    Step(
        StepName.CORE,
        "The finned area only: no tanks, no side plates, no brackets.",
        (Asked("core_width_mm", "Width"), Asked("core_height_mm", "Height"), Asked("depth_mm", "Depth")),
    ),
    Step(
        StepName.OVERALL,
        "Over tanks and side plates, but not over ports and pins.",
        (
            Asked("overall_width_mm", "Width over all"),
            Asked("overall_height_mm", "Height over all"),
            Asked("core_right_mm", "Right edge to core", if_empty="core in the middle"),
            Asked("core_low_mm", "Lower edge to core", if_empty="core in the middle"),
        ),
    ),
    Step(
        StepName.TANKS,
        "Where they are, and how deep: a tank is often deeper than the core.",
        (
            Asked("tank_depth_mm", "Tank, front to back", if_empty="as deep as the core"),
            Asked("tank_ahead_mm", "Tank ahead of core", if_empty="the same ahead and behind"),
        ),
    ),
    Step(StepName.PORTS, "Measure to the middle of each port, from the corner that is easiest to reach."),
    Step(
        StepName.MOUNTS,
        "Pins, ears and bolt holes, measured like the ports. Leave them out if you make brackets anyway.",
    ),
    Step(
        StepName.WEIGHT,
        "Empty and dry. The name is what you will look for on the shelf.",
        (Asked("weight_kg", "Weight", Dimension.MASS, if_empty="not known"),),
    ),
)

PORT: Final = (
    Asked("across_mm", "Sideways from corner"),
    Asked("along_mm", "Up or down from it"),
    Asked("behind_mm", "Behind the front", if_empty="half the core's depth"),
    Asked("bore_mm", "Bore"),
)
MOUNT: Final = (
    Asked("across_mm", "Sideways from corner"),
    Asked("along_mm", "Up or down from it"),
    Asked("hole_mm", "Hole or pin"),
)


def step_of(key: str) -> int:
    """Return at which step a field stands; one of a list is named as `ports.0.bore_mm`."""
    name = StepName.PORTS if key.startswith("ports.") else StepName.MOUNTS if key.startswith("mounts.") else None
    for place, step in enumerate(STEPS):
        if step.name is name or any(asked.key == key for asked in step.asked):
            return place
    raise ValueError(f"no step asks for {key}")
