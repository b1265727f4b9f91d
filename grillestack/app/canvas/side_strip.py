"""The vehicle's left side beside the front view: what stands ahead of what, and how much room is between."""

from __future__ import annotations

import dataclasses

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QFont, QPainter
from PySide6.QtWidgets import QWidget

from grillestack.app.canvas.front_sheet import is_other_document
from grillestack.app.canvas.gestures.draw import DrawTool
from grillestack.app.canvas.gestures.drawn_things import Drawn
from grillestack.app.canvas.gestures.gesture import Gesture, Pointer
from grillestack.app.canvas.gestures.grid import Grid
from grillestack.app.canvas.gestures.move_fore_aft import MoveForeAftGesture
from grillestack.app.canvas.gestures.pick import selection_after_click, under_side
from grillestack.app.canvas.gestures.pull_station import PullStationGesture
from grillestack.app.canvas.gestures.side_holds import SideHold, line_hold_at, point_hold_at
from grillestack.app.canvas.height_ruler import HeightRuler, WantedHeights
from grillestack.app.canvas.items.drawing_marks import paint_drawing, paint_points, sides_drawn
from grillestack.app.canvas.items.grid_lines import paint_grid
from grillestack.app.canvas.items.kept_picture import KeptPicture
from grillestack.app.canvas.items.measure_marks import measured_px, paint_measured
from grillestack.app.canvas.items.overlay import Over, paint_focus, paint_marks, paint_next_step
from grillestack.app.canvas.items.pointer_tag import TagLine, paint_tag, place_tag, tag_lines
from grillestack.app.canvas.items.ruler_ticks import RulerScale
from grillestack.app.canvas.items.rulers import (
    level_place,
    level_ruler_px,
    paint_level_mark,
    paint_level_ruler,
)
from grillestack.app.canvas.items.sheet_words import sheet_font
from grillestack.app.canvas.items.side_item import SidePartItem, side_rect
from grillestack.app.canvas.items.side_nose_item import SideNoseItem
from grillestack.app.canvas.items.side_words import paint_side_words
from grillestack.app.canvas.items.typed_field import paint_typed_field, place_typed_field
from grillestack.app.canvas.mm_view import MmView
from grillestack.app.canvas.sheet_names import in_words, part_numbers
from grillestack.app.canvas.spoken import SpokenThing, tell_selection
from grillestack.app.canvas.spoken_things import side_things
from grillestack.app.locked import free_to_move, seen_among
from grillestack.app.palette import Palette
from grillestack.app.session import Session
from grillestack.model.project import Project, stack

_ACROSS_SIGN = 1
_FREE_ASIDE_PX = 16.0
_FREE_ABOVE_PX = 40.0
_NARROWEST = 0.4
_FOOT_NAMES_PX = 20.0  # where the planes are named
_AHEAD_MM = 60.0  # so much ahead of the grille plane stays in sight, where beams and lamps stand


class SideStrip(MmView):
    """Draws the pack from the vehicle's left, front at the left, at the heights of the front view."""

    def __init__(
        self,
        session: Session,
        palette: Palette,
        heights: HeightRuler | None = None,
        parent: QWidget | None = None,
    ) -> None:
        self._session = session
        self.grid = Grid()
        self._items: dict[str, SidePartItem] = {}
        self._ruler = KeptPicture()
        self._held_document: Project | None = None
        super().__init__(palette, heights or HeightRuler(), _ACROSS_SIGN, parent)
        self._nose = SideNoseItem(session.shown.nose, palette)
        self.sheet_scene.addItem(self._nose)
        self.heights.join(self._wanted_heights)
        self.heights.fitted.connect(self.across_fit)
        self.setMinimumWidth(190)
        self.setAccessibleName("Side view of the pack, front at the left")
        session.project_changed.connect(self._show_project)
        session.assessment_changed.connect(self._repaint)
        session.selection_changed.connect(self._show_selection)
        session.units_changed.connect(self._repaint)
        self._show_project(session.shown, session.shown)

    def show_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        self.sheet_palette = palette
        self._show_project(self._session.shown, self._session.shown)

    def across_fit(self) -> None:
        """Put the depth of the pack in the middle of the strip."""
        bounds = depth_bounds(self._session.shown)
        room_px = max(1.0, self.viewport().width() - 2 * _FREE_ASIDE_PX)
        true_px = bounds.width() * self.heights.px_per_mm
        self.narrow_across(min(1.0, max(_NARROWEST, room_px / true_px)))
        self.show_across(bounds.center().x() - self.viewport().width() / 2 / self.across_scale)

    def sheet_area(self) -> QRectF:
        """Return the pixels that the ruler leaves to the drawing."""
        return QRectF(self.viewport().rect()).adjusted(0.0, 0.0, 0.0, -self.ruler_strips()[0].height())

    def ruler_strips(self) -> tuple[QRect, ...]:
        """Return where the ruler is in the viewport."""
        view = self.viewport().rect()
        high = level_ruler_px(sheet_font(self.font(), 1.5))
        return (QRect(0, view.height() - high, view.width(), high),)

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Lay the paper, and the grid if it is on."""
        painter.fillRect(rect, self.sheet_palette.paper)
        if self.grid.is_on:
            paint_grid(
                painter,
                QRectF(rect),
                (self._session.shown.nose.stations.grille_x_mm, 0.0),
                self._session.units,
                self.sheet_palette,
            )

    def drawForeground(self, painter: QPainter, rect: QRectF | QRect) -> None:  # noqa: ARG002  Qt's signature
        """Lay words, gaps, marks and the ruler over the sheet."""
        over = Over(
            to_px=self.px_of,
            area=self.sheet_area(),
            palette=self.sheet_palette,
            units=self._session.units,
            font=sheet_font(self.font(), 0.5),
            hand_factor=self.hand_factor,
        )
        painter.save()
        painter.resetTransform()
        if self.exposes(over.area):
            painter.save()
            painter.setClipRect(over.area, Qt.ClipOperation.IntersectClip)
            self._paint_words(painter, over)
            painter.restore()
        self._paint_ruler(painter, over)
        if self.keyboard_is_here:
            paint_focus(painter, over)
        painter.restore()

    def _paint_words(self, painter: QPainter, over: Over) -> None:
        session = self._session
        project, selection = session.shown, session.selection
        strips = paint_side_words(painter, over, project, session.assessment, selection, self.across_share)
        held = [side_rect(part) for part in project.parts if part.id in selection and not part.hidden]
        moving = self.rect_px(held[0]) if held and self.in_gesture else None
        marks = self.marks
        paint_points(painter, over, [(p.x_mm, p.z_mm) for p in project.nose.stations.bonnet_line])
        if marks.drawing is not None:
            paint_drawing(painter, over, marks.drawing)
        if marks.hint:
            above_names = over.area.adjusted(0.0, 0.0, 0.0, -_FOOT_NAMES_PX)
            paint_next_step(painter, dataclasses.replace(over, area=above_names), marks.hint, alone=False)
        field = place_typed_field(over, marks.typed, moving)
        written = [] if field is None else [field.rect]
        if marks.measured is not None:
            written += [measured_px(over, marks.measured), *paint_measured(painter, over, marks.measured)]
        paint_marks(painter, over, marks, moving, (*strips, *written))
        if field is not None:
            paint_typed_field(painter, over, field)
        if self.hover_at is None or not marks.moved_text:
            return
        lines = tag_lines(session.base_assessment, session.assessment, over.units)
        if marks.facts is not None:
            lines = tuple(TagLine(fact.words, fact.now_text, "") for fact in marks.facts)
        keep_off = [*written, *([] if marks.drawing is None else sides_drawn(over, marks.drawing))]
        if moving is not None:
            # The strip is narrow: the tag stands over or under the part, so that the gaps beside it stay in sight.
            keep_off.append(QRectF(over.area.left(), moving.top(), over.area.width(), moving.height()))
        painter.setFont(over.font)
        tag = place_tag(over.font, marks.moved_text, lines, self.hover_at, over.area, keep_off)
        if not any(tag.rect.intersects(strip) for strip in written):
            paint_tag(painter, tag, over.palette)

    def _paint_ruler(self, painter: QPainter, over: Over) -> None:
        strip = QRectF(self.ruler_strips()[0])
        painter.setFont(QFont(sheet_font(over.font, 1.0)))
        first, _ = self.sheet_at(QPointF(0.0, 0.0))
        scale = RulerScale(first_mm=first, mm_per_px=1.0 / self.across_scale, units=over.units)
        state = (over.palette, painter.font(), scale, strip.getRect())
        self._ruler.paint(painter, strip, state, lambda onto: paint_level_ruler(onto, strip, scale, over.palette))
        paint_level_mark(painter, strip, over.palette, level_place(strip, self.hover_at))

    # --- answers to the session -------------------------------------------------------------------------------------

    def _show_project(self, old: Project, new: Project) -> None:
        if is_other_document(old, new):
            self.put_tool_away()
        if self.in_gesture and self._session.project is not self._held_document:
            self.cancel_gesture()
        wanted = {part.id for part in new.parts if not part.hidden}
        for gone in [name for name in self._items if name not in wanted]:
            self.sheet_scene.removeItem(self._items.pop(gone))
        self._nose.show_nose(new.nose, self.sheet_palette)
        for depth, part in enumerate(stack(new)):
            if part.hidden:
                continue
            selected = part.id in self._session.selection
            item = self._items.get(part.id)
            if item is None:
                item = self._items[part.id] = SidePartItem(part, self.sheet_palette, selected=selected)
                self.sheet_scene.addItem(item)
            else:
                item.show_part(part, self.sheet_palette, selected=selected)
            item.setZValue(900.0 if selected else 1.0 + depth)
        self.setAccessibleDescription(in_words(new))
        self.viewport().update()

    def _show_selection(self, _ids: tuple[str, ...]) -> None:
        self._show_project(self._session.shown, self._session.shown)
        tell_selection(self, self.spoken_things)

    def _repaint(self, _what: object) -> None:
        self.viewport().update()

    # --- the hand ---------------------------------------------------------------------------------------------------

    def under(self, at: Pointer) -> tuple[str, ...]:
        """Return the ids of all parts that lie there, foremost first."""
        return under_side(self._session.shown, at)

    def press_selects(self, pressed: Pointer) -> None:
        """Select the foremost part under the pointer, unless a selected one or a point of the bonnet line lies there."""
        if self._hold_at(pressed) is not None:
            return
        under = under_side(self._session.shown, pressed)
        if under and not pressed.adds and not any(name in self._session.selection for name in under):
            self._session.select(under[:1])

    def shape_of_pointer(self, at: Pointer) -> Qt.CursorShape:
        """Return arrows over what a drag would move, else the plain pointer."""
        if point_hold_at(self._session.shown, at) is not None:
            return Qt.CursorShape.SizeAllCursor
        if self._hold_at(at) is not None:
            return Qt.CursorShape.SplitHCursor
        movable = any(name in self._session.selection for name in under_side(self._session.shown, at))
        return Qt.CursorShape.SizeHorCursor if movable else Qt.CursorShape.ArrowCursor

    def click(self, at: Pointer, *, repeated: bool) -> None:
        """Select the foremost thing at first, what lies behind it at each further click, or nothing."""
        under = under_side(self._session.shown, at)
        self._session.select(selection_after_click(under, self._session.selection, adds=at.adds, repeated=repeated))

    def spoken_things(self) -> tuple[SpokenThing, ...]:
        """Return what is on the sheet in words, in the order of Tab."""
        return side_things(self._session.shown, self._session.selection, self._session.units)

    def hold_document(self) -> None:
        """Take the document as it is for what the hand holds."""
        self._held_document = self._session.project

    def gesture_for_drag(self, pressed: Pointer) -> Gesture | None:
        """Return pulling a place of the nose, or moving the selected parts fore and aft if one of them is held."""
        self._held_document = self._session.project
        hold = self._hold_at(pressed)
        if hold is not None:
            return PullStationGesture(self._session, hold)
        under = under_side(self._session.project, pressed)
        order = part_numbers(self._session.project)
        held = tuple(name for name in self._session.selection if name in order)
        if not any(name in under for name in held):
            return None
        free = free_to_move(self._session, seen_among(self._session.project, held))
        return MoveForeAftGesture(self._session, free, grid_on=self.grid.is_on) if free else None

    def draw_bonnet_line(self) -> None:
        """Let the hand draw the lowest metal over the pack by clicks."""
        self.take_tool(DrawTool(self._session, Drawn.BONNET_LINE))

    def _hold_at(self, at: Pointer) -> SideHold | None:
        """Return what of the nose is held there; where a part lies, only points of the bonnet line are."""
        project = self._session.project
        point = point_hold_at(project, at)
        return point if point is not None or under_side(project, at) else line_hold_at(project, at)

    def _wanted_heights(self) -> WantedHeights | None:
        project = self._session.shown
        was_put_away = self.isHidden() and self.testAttribute(Qt.WidgetAttribute.WA_WState_ExplicitShowHide)
        if was_put_away or (not project.parts and not project.nose.openings):
            return None
        bounds = depth_bounds(project)
        return WantedHeights(
            z_min_mm=bounds.top(),
            z_max_mm=bounds.bottom(),
            free_above_px=_FREE_ABOVE_PX,
            free_below_px=float(self.ruler_strips()[0].height()),
            height_px=float(self.viewport().height()),
        )


def depth_bounds(project: Project) -> QRectF:
    """Return what the pack covers from the side, with grille and pulley plane and the bonnet over it."""
    stations = project.nose.stations
    rects = [side_rect(part) for part in project.parts]
    xs = [stations.grille_x_mm, *(edge for r in rects for edge in (r.left(), r.right()))]
    xs.append(stations.grille_x_mm - _AHEAD_MM)
    if stations.pulley_x_mm is not None:
        xs.append(stations.pulley_x_mm)
    zs = [edge for r in rects for edge in (r.top(), r.bottom())]
    zs += [point.z_mm for o in project.nose.openings for point in o.outline]
    zs += [p.z_mm for p in stations.bonnet_line if min(xs) <= p.x_mm <= max(xs)]
    if not zs:
        zs = [0.0, 1.0]
    return QRectF(min(xs), min(zs), max(1.0, max(xs) - min(xs)), max(1.0, max(zs) - min(zs)))
