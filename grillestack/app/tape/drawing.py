"""Where on the picture of a part everything lies: both views in pixels, and the dimension line that a field means."""

from __future__ import annotations

import dataclasses
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF

from grillestack.app.tape.taped import Front, Tanks, Taped, TapedMount, TapedPort, front_of, place_of, tank_place
from grillestack.model.outline import Rect

# What is drawn where nothing is measured yet, in mm: a middling radiator; only the picture uses it.
_WIDTH, _HEIGHT, _DEPTH, _TANK, _PLATE = 600.0, 420.0, 50.0, 55.0, 12.0
_ACROSS, _ALONG = 30.0, 70.0
_MARGIN_PX: Final = 34.0
_BETWEEN_PX: Final = 44.0
_LEAST_SIDE_PX: Final = 26.0


class Span(NamedTuple):
    """A dimension line: from, to, and how far it is drawn from what it measures."""

    start: QPointF
    end: QPointF
    value_mm: float | None


@dataclasses.dataclass(frozen=True, slots=True)
class Frame:
    """From the core's own mm to pixels; seen from ahead, the vehicle's right is at the left."""

    left_px: float
    top_px: float
    scale_px_per_mm: float
    overall: Rect

    def point(self, u_mm: float, v_mm: float) -> QPointF:
        """Return the pixel of a place."""
        x = self.left_px + (self.overall.u_max_mm - u_mm) * self.scale_px_per_mm
        return QPointF(x, self.top_px + (self.overall.v_max_mm - v_mm) * self.scale_px_per_mm)

    def rect(self, rect: Rect) -> QRectF:
        """Return the box in pixels."""
        return QRectF(self.point(rect.u_max_mm, rect.v_max_mm), self.point(rect.u_min_mm, rect.v_min_mm))

    def corner(self, right: bool, upper: bool) -> QPointF:  # noqa: FBT001  two halves of one place
        """Return a corner of the overall size."""
        box = self.overall
        return self.point(box.u_max_mm if right else box.u_min_mm, box.v_max_mm if upper else box.v_min_mm)


@dataclasses.dataclass(frozen=True, slots=True)
class Drawing:
    """The picture of what was measured, in a box of that many pixels."""

    taped: Taped
    width_px: float
    height_px: float

    @property
    def front(self) -> Front:
        """Return the front view, stand-ins included."""
        front = front_of(self._shown())
        if front is None:
            raise ValueError("every size has a stand-in")
        return front

    def span(self, meant: str) -> Span | None:
        """Return the dimension line of the field of that name, in pixels, or nothing if the field is no length."""
        front, frame = self.front, self.frame()
        box, core, side = frame.rect(front.overall), frame.rect(front.core), self.side_box()
        taped = self.taped
        above, left = box.top() - 15, box.left() - 15
        spans = {
            "core_width_mm": Span(QPointF(core.left(), above), QPointF(core.right(), above), taped.core_width_mm),
            "core_height_mm": Span(QPointF(left, core.bottom()), QPointF(left, core.top()), taped.core_height_mm),
            "overall_width_mm": Span(QPointF(box.left(), above), QPointF(box.right(), above), taped.overall_width_mm),
            "overall_height_mm": Span(QPointF(left, box.bottom()), QPointF(left, box.top()), taped.overall_height_mm),
            "core_right_mm": Span(QPointF(box.left(), above), QPointF(core.left(), above), taped.core_right_mm),
            "core_low_mm": Span(QPointF(left, box.bottom()), QPointF(left, core.bottom()), taped.core_low_mm),
            "depth_mm": Span(QPointF(side.left(), above), QPointF(side.right(), above), taped.depth_mm),
        }
        if meant in ("tank_depth_mm", "tank_ahead_mm"):
            return self._tank_span(meant, frame, side, above)
        if meant.startswith(("ports.", "mounts.")):
            return self._thing_span(meant)
        return spans.get(meant)

    def _shown(self) -> Taped:
        """Return what was measured, with stand-ins for what the picture needs and nobody measured yet."""
        taped = self.taped
        width = _sound(taped.core_width_mm, _WIDTH)
        height = _sound(taped.core_height_mm, _HEIGHT)
        at_sides = taped.tanks is Tanks.SIDES
        across, up = (_TANK, _PLATE) if at_sides else (_PLATE, _TANK)
        return dataclasses.replace(
            taped,
            core_width_mm=width,
            core_height_mm=height,
            depth_mm=_sound(taped.depth_mm, _DEPTH),
            overall_width_mm=max(_sound(taped.overall_width_mm, width + 2 * across), width),
            overall_height_mm=max(_sound(taped.overall_height_mm, height + 2 * up), height),
        )

    def frame(self) -> Frame:
        """Return how mm become pixels."""
        front, shown = self.front, self._shown()
        begins, deep = tank_place(shown)
        reach = max(shown.depth_mm or 0.0, begins + deep) - min(0.0, begins)
        room_across = self.width_px - 2 * _MARGIN_PX - _BETWEEN_PX
        room_up = self.height_px - 2 * _MARGIN_PX
        scale = min(room_across / (front.overall.width_mm + reach), room_up / front.overall.height_mm)
        scale = max(scale, 1e-3)
        used = front.overall.width_mm * scale + _BETWEEN_PX + max(reach * scale, _LEAST_SIDE_PX)
        left = (self.width_px - used) / 2
        top = (self.height_px - front.overall.height_mm * scale) / 2
        return Frame(left, top, scale, front.overall)

    def side_box(self) -> QRectF:
        """Return the core in the side view."""
        front, frame = self.front, self.frame()
        shown, box = self._shown(), frame.rect(front.overall)
        begins, _ = tank_place(shown)
        left = box.right() + _BETWEEN_PX + max(0.0, -begins) * frame.scale_px_per_mm
        core = frame.rect(front.core)
        return QRectF(left, core.top(), max((shown.depth_mm or 0.0) * frame.scale_px_per_mm, 6.0), core.height())

    def _tank_span(self, meant: str, frame: Frame, side: QRectF, above: float) -> Span:
        begins, deep = tank_place(self._shown())
        left = side.left() + begins * frame.scale_px_per_mm
        if meant == "tank_ahead_mm":
            return Span(QPointF(left, above), QPointF(side.left(), above), self.taped.tank_ahead_mm)
        return Span(QPointF(left, above), QPointF(left + deep * frame.scale_px_per_mm, above), self.taped.tank_depth_mm)

    def _thing_span(self, meant: str) -> Span | None:
        kind, number, name = meant.split(".")
        things: tuple[TapedPort | TapedMount, ...] = self.taped.ports if kind == "ports" else self.taped.mounts
        if int(number) >= len(things) or name not in ("across_mm", "along_mm"):
            return None
        one = things[int(number)]
        at, corner = self.place(one), self.frame().corner(one.corner.is_right, one.corner.is_upper)
        if name == "across_mm":
            return Span(QPointF(corner.x(), at.y()), at, one.across_mm)
        return Span(QPointF(at.x(), corner.y()), at, one.along_mm)

    def place(self, one: TapedPort | TapedMount) -> QPointF:
        """Return where a port or mount is, or would be as long as it is not measured."""
        known = dataclasses.replace(
            one,
            across_mm=_ACROSS if one.across_mm is None else one.across_mm,
            along_mm=_ALONG if one.along_mm is None else one.along_mm,
        )
        place = place_of(self.front, known) or (0.0, 0.0)
        return self.frame().point(*place)

    def tank_box(self) -> QRectF:
        """Return the tank in the side view."""
        side, box, scale = self.side_box(), self.frame().rect(self.front.overall), self.frame().scale_px_per_mm
        begins, deep = tank_place(self._shown())
        return QRectF(side.left() + begins * scale, box.top(), max(deep * scale, 6.0), box.height())


def _sound(measured: float | None, stand_in: float) -> float:
    return stand_in if measured is None or measured <= 0 else measured
