"""A small picture of the part as far as it is measured, with what is meant by the current field drawn over it."""

from __future__ import annotations

import dataclasses
from typing import Final, NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from grillestack.app.palette import Palette
from grillestack.app.tape.taped import Front, Tanks, Taped, TapedMount, TapedPort, edges, front_of, place_of, tank_place
from grillestack.model.outline import Rect
from grillestack.model.parts import Facing
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

# What is drawn where nothing is measured yet, in mm: a middling radiator; only the picture uses it.
_WIDTH, _HEIGHT, _DEPTH, _TANK, _PLATE = 600.0, 420.0, 50.0, 55.0, 12.0
_ACROSS, _ALONG = 30.0, 70.0
_MARGIN_PX: Final = 34.0
_BETWEEN_PX: Final = 44.0
_LEAST_SIDE_PX: Final = 26.0
_ARROW_PX: Final = 5.0
_STUB_PX: Final = 13.0
_WAYS: Final = {
    Facing.LEFT: QPointF(1, 0),
    Facing.RIGHT: QPointF(-1, 0),
    Facing.UP: QPointF(0, -1),
    Facing.DOWN: QPointF(0, 1),
}


class Span(NamedTuple):
    """A dimension line: from, to, and how far it is drawn from what it measures."""

    start: QPointF
    end: QPointF
    value_mm: float | None


class Sketch(QWidget):
    """Paints front and side view; the field in hand is one dimension line in the accent."""

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._taped = Taped()
        self._meant = ""
        self._units = UnitSystem.METRIC
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Picture of the part")

    @property
    def meant(self) -> str:
        """Return which field is drawn."""
        return self._meant

    def show_taped(self, taped: Taped, meant: str, units: UnitSystem) -> None:
        """Show what was measured, and what the field of that name means."""
        self._taped, self._meant, self._units = taped, meant, units
        span = self.span()
        self.setAccessibleDescription("" if span is None else f"Shows where to measure: {_value(span.value_mm, units)}")
        self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.update()

    def sizeHint(self) -> QSize:
        """Return a comfortable size."""
        return QSize(420, 260)

    def minimumSizeHint(self) -> QSize:
        """Return the least size at which the picture can be read."""
        return QSize(280, 170)

    def span(self) -> Span | None:
        """Return the dimension line of the field in hand, in pixels, or nothing if the field is no length."""
        front, frame = self._front(), self._frame()
        box, core, side = frame.rect(front.overall), frame.rect(front.core), self._side_box(frame, front)
        taped = self._taped
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
        if self._meant in ("tank_depth_mm", "tank_ahead_mm"):
            return self._tank_span(frame, side, above)
        if self._meant.startswith(("ports.", "mounts.")):
            return self._thing_span(frame, front)
        return spans.get(self._meant)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint both views and the dimension in hand."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette, front, frame = self._palette, self._front(), self._frame()
        painter.fillRect(self.rect(), palette.paper)
        self._paint_front(painter, frame, front)
        self._paint_side(painter, frame, front)
        for number, port in enumerate(self._taped.ports):
            self._paint_thing(painter, frame, front, port, meant=self._meant.startswith(f"ports.{number}."))
        for number, mount in enumerate(self._taped.mounts):
            self._paint_thing(painter, frame, front, mount, meant=self._meant.startswith(f"mounts.{number}."))
        span = self.span()
        if span is not None:
            self._paint_span(painter, span)
        self._paint_words(painter, frame, front)
        painter.end()

    def _shown(self) -> Taped:
        """Return what was measured, with stand-ins for what the picture needs and nobody measured yet."""
        taped = self._taped
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

    def _front(self) -> Front:
        front = front_of(self._shown())
        if front is None:
            raise ValueError("every size has a stand-in")
        return front

    def _frame(self) -> _Frame:
        front, shown = self._front(), self._shown()
        begins, deep = tank_place(shown)
        reach = max(shown.depth_mm or 0.0, begins + deep) - min(0.0, begins)
        room_across = self.width() - 2 * _MARGIN_PX - _BETWEEN_PX
        room_up = self.height() - 2 * _MARGIN_PX
        scale = min(room_across / (front.overall.width_mm + reach), room_up / front.overall.height_mm)
        scale = max(scale, 1e-3)
        used = front.overall.width_mm * scale + _BETWEEN_PX + max(reach * scale, _LEAST_SIDE_PX)
        left = (self.width() - used) / 2
        top = (self.height() - front.overall.height_mm * scale) / 2
        return _Frame(left, top, scale, front.overall)

    def _side_box(self, frame: _Frame, front: Front) -> QRectF:
        shown, box = self._shown(), frame.rect(front.overall)
        begins, _ = tank_place(shown)
        left = box.right() + _BETWEEN_PX + max(0.0, -begins) * frame.scale_px_per_mm
        core = frame.rect(front.core)
        return QRectF(left, core.top(), max((shown.depth_mm or 0.0) * frame.scale_px_per_mm, 6.0), core.height())

    def _tank_span(self, frame: _Frame, side: QRectF, above: float) -> Span:
        begins, deep = tank_place(self._shown())
        left = side.left() + begins * frame.scale_px_per_mm
        if self._meant == "tank_ahead_mm":
            return Span(QPointF(left, above), QPointF(side.left(), above), self._taped.tank_ahead_mm)
        return Span(
            QPointF(left, above), QPointF(left + deep * frame.scale_px_per_mm, above), self._taped.tank_depth_mm
        )

    def _thing_span(self, frame: _Frame, front: Front) -> Span | None:
        kind, number, name = self._meant.split(".")
        things: tuple[TapedPort | TapedMount, ...] = self._taped.ports if kind == "ports" else self._taped.mounts
        if int(number) >= len(things) or name not in ("across_mm", "along_mm"):
            return None
        one = things[int(number)]
        at, corner = self._place(frame, front, one), frame.corner(one.corner.is_right, one.corner.is_upper)
        if name == "across_mm":
            return Span(QPointF(corner.x(), at.y()), at, one.across_mm)
        return Span(QPointF(at.x(), corner.y()), at, one.along_mm)

    def _place(self, frame: _Frame, front: Front, one: TapedPort | TapedMount) -> QPointF:
        known = dataclasses.replace(
            one,
            across_mm=_ACROSS if one.across_mm is None else one.across_mm,
            along_mm=_ALONG if one.along_mm is None else one.along_mm,
        )
        place = place_of(front, known) or (0.0, 0.0)
        return frame.point(*place)

    def _paint_front(self, painter: QPainter, frame: _Frame, front: Front) -> None:
        palette, core = self._palette, frame.rect(front.core)
        beside, upright = edges(front)
        tanks, plates = (beside, upright) if self._taped.tanks is Tanks.SIDES else (upright, beside)
        painter.setPen(QPen(palette.ink, 1.2))
        painter.setBrush(palette.tank_wash)
        for rect in tanks:
            painter.drawRect(frame.rect(rect))
            painter.fillRect(frame.rect(rect), _hatched(palette.tank_ink))
        painter.setBrush(palette.panel)
        for rect in plates:
            painter.drawRect(frame.rect(rect))
        painter.setBrush(palette.paper)
        painter.drawRect(core)
        painter.setPen(QPen(palette.rule, 1))
        lines = 14
        if self._taped.tanks is Tanks.SIDES:
            for row in range(1, lines):
                y = core.top() + core.height() * row / lines
                painter.drawLine(QPointF(core.left() + 1, y), QPointF(core.right() - 1, y))
        else:
            for column in range(1, lines):
                x = core.left() + core.width() * column / lines
                painter.drawLine(QPointF(x, core.top() + 1), QPointF(x, core.bottom() - 1))
        painter.setPen(QPen(palette.ink, 1.2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(frame.rect(front.overall))

    def _paint_side(self, painter: QPainter, frame: _Frame, front: Front) -> None:
        palette, side, box = self._palette, self._side_box(frame, front), frame.rect(front.overall)
        begins, deep = tank_place(self._shown())
        tank = QRectF(
            side.left() + begins * frame.scale_px_per_mm,
            box.top(),
            max(deep * frame.scale_px_per_mm, 6.0),
            box.height(),
        )
        painter.setPen(QPen(palette.ink, 1.2))
        painter.setBrush(palette.tank_wash)
        painter.drawRect(tank)
        painter.fillRect(tank, _hatched(palette.tank_ink))
        painter.setBrush(palette.paper)
        painter.drawRect(side)

    def _paint_thing(
        self, painter: QPainter, frame: _Frame, front: Front, one: TapedPort | TapedMount, *, meant: bool
    ) -> None:
        palette, at = self._palette, self._place(frame, front, one)
        painter.setPen(QPen(palette.accent if meant else palette.ink, 1.6 if meant else 1.2))
        painter.setBrush(palette.paper)
        if isinstance(one, TapedMount):
            painter.drawLine(at + QPointF(-6, 0), at + QPointF(6, 0))
            painter.drawLine(at + QPointF(0, -6), at + QPointF(0, 6))
            painter.drawEllipse(at, 3.0, 3.0)
            return
        way = _WAYS.get(one.facing)
        if way is not None:
            aside = QPointF(-way.y(), way.x()) * 4
            end = at + way * _STUB_PX
            painter.drawPolygon(QPolygonF([at + aside, end + aside, end - aside, at - aside]))
        painter.drawEllipse(at, 6.0, 6.0)
        if one.facing is Facing.FRONT:
            painter.setBrush(painter.pen().color())
            painter.drawEllipse(at, 2.0, 2.0)
        elif one.facing is Facing.REAR:
            painter.drawLine(at + QPointF(-4, -4), at + QPointF(4, 4))
            painter.drawLine(at + QPointF(-4, 4), at + QPointF(4, -4))

    def _paint_span(self, painter: QPainter, span: Span) -> None:
        palette = self._palette
        painter.setPen(QPen(palette.accent, 1.8))
        painter.drawLine(span.start, span.end)
        along = span.end - span.start
        length = max((along.x() ** 2 + along.y() ** 2) ** 0.5, 1e-6)
        unit = along / length
        aside = QPointF(-unit.y(), unit.x())
        painter.setBrush(palette.accent)
        for end, inward in ((span.start, unit), (span.end, -unit)):
            tip = [end, end + inward * _ARROW_PX + aside * 3, end + inward * _ARROW_PX - aside * 3]
            painter.drawPolygon(QPolygonF(tip))
            painter.drawLine(end + aside * 6, end - aside * 6)
        words = _value(span.value_mm, self._units)
        metrics = painter.fontMetrics()
        box = QRectF(0, 0, metrics.horizontalAdvance(words) + 8.0, metrics.height() + 2.0)
        box.moveCenter((span.start + span.end) / 2)
        # Words that are longer than their line stand beside it, not on it.
        if abs(unit.y()) < 0.5 and box.width() + 2 * _ARROW_PX > length:
            box.moveBottom(span.start.y() - 8)
        elif abs(unit.y()) >= 0.5 and 2 * box.height() > length:
            box.moveLeft(span.start.x() + 12)
        box.moveLeft(min(max(box.left(), 2.0), self.width() - box.width() - 2))
        box.moveTop(max(box.top(), 1.0))
        painter.fillRect(box, palette.paper)
        painter.setPen(palette.accent)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)

    def _paint_words(self, painter: QPainter, frame: _Frame, front: Front) -> None:
        box, line = frame.rect(front.overall), painter.fontMetrics().height() + 2.0
        painter.setPen(self._palette.faint_ink)
        below = QRectF(box.left() - 20, box.bottom() + 6, box.width() + 40, line)
        painter.drawText(below, Qt.AlignmentFlag.AlignLeft, "◄ vehicle RIGHT")
        painter.drawText(below, Qt.AlignmentFlag.AlignRight, "LEFT ►")
        side = self._side_box(frame, front)
        painter.drawText(QRectF(side.left() - 18, box.bottom() + 6, 90, line), Qt.AlignmentFlag.AlignLeft, "◄ front")


@dataclasses.dataclass(frozen=True, slots=True)
class _Frame:
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


def _hatched(ink: QColor) -> QColor:
    faint = QColor(ink)
    faint.setAlpha(40)
    return faint


def _sound(measured: float | None, stand_in: float) -> float:
    return stand_in if measured is None or measured <= 0 else measured


def _value(value_mm: float | None, units: UnitSystem) -> str:
    return "?" if value_mm is None else show_quantity(value_mm, Dimension.LENGTH, units)
