"""What each fan stands before or behind: its shroud, its own ring on the pack's rear, or the front of the pack."""

from __future__ import annotations

import enum
from collections.abc import Sequence

from grillestack.geometry.projection import ProjectedPart
from grillestack.model.parts import CoreRole


class FanDuty(enum.Enum):
    """How a fan moves air through the pack."""

    IN_SHROUD = "in a shroud"
    PULLER = "puller without a shroud"
    PUSHER = "pusher"
    # Between two cores: no chamber of the model fits it, so it is reported instead of guessed at.
    BETWEEN_CORES = "between cores"


def fans_in_shrouds(fans: Sequence[ProjectedPart], shrouds: Sequence[ProjectedPart]) -> tuple[int, ...]:
    """Return, per fan, the index of the shroud it sits in, or -1.

    A fan sits in the first shroud whose outline holds the fan's centre in the front view, unless the fan ends ahead of
    that shroud's front face.
    """
    return tuple(_shroud_of(fan, shrouds) for fan in fans)


def fan_duties(
    fans: Sequence[ProjectedPart], in_shroud: Sequence[int], cores: Sequence[ProjectedPart]
) -> tuple[FanDuty, ...]:
    """Return, per fan, how it moves air; `cores` run from front to back."""
    return tuple(_duty(fan, shroud, cores) for fan, shroud in zip(fans, in_shroud, strict=True))


def _shroud_of(fan: ProjectedPart, shrouds: Sequence[ProjectedPart]) -> int:
    circle = fan.circle
    if circle is None:
        return -1
    for place, shroud in enumerate(shrouds):
        if fan.x_rear_mm > shroud.x_front_mm and shroud.outline_box.holds(circle.y_mm, circle.z_mm):
            return place
    return -1


def _duty(fan: ProjectedPart, shroud: int, cores: Sequence[ProjectedPart]) -> FanDuty:
    if shroud >= 0:
        return FanDuty.IN_SHROUD
    if not cores:
        return FanDuty.PULLER
    if fan.face_x_mm < cores[0].face_x_mm:
        return FanDuty.PUSHER
    last = next((core for core in cores if core.role is CoreRole.RADIATOR), cores[-1])
    return FanDuty.PULLER if fan.face_x_mm > last.face_x_mm else FanDuty.BETWEEN_CORES
