"""The pack seen from above, below the front view and at its scale: y across, x up the sheet, the front at the foot."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QWidget

from grillestack.app.canvas.gestures.gesture import Gesture, Pointer
from grillestack.app.canvas.gestures.grid import Grid
from grillestack.app.canvas.gestures.move import MoveGesture, Sheet
from grillestack.app.canvas.gestures.pick import selection_after_click, under_plan
from grillestack.app.canvas.gestures.snap import Axis
from grillestack.app.canvas.height_ruler import HeightRuler
from grillestack.app.canvas.items.grid_lines import paint_grid
from grillestack.app.canvas.items.overlay import Over, paint_focus, paint_marks
from grillestack.app.canvas.items.plan_item import PlanNoseItem, PlanPartItem, plan_rect
from grillestack.app.canvas.items.plan_words import paint_plan_words
from grillestack.app.canvas.items.pointer_tag import paint_tag, place_tag, tag_lines
from grillestack.app.canvas.items.ruler_ticks import RulerScale
from grillestack.app.canvas.items.rulers import (
    paint_upright_mark,
    paint_upright_ruler,
    upright_place,
    upright_ruler_px,
)
from grillestack.app.canvas.items.sheet_words import sheet_font
from grillestack.app.canvas.items.typed_field import paint_typed_field, place_typed_field
from grillestack.app.canvas.mm_view import MmView
from grillestack.app.canvas.sheet_names import in_words
from grillestack.app.canvas.spoken import SpokenThing, tell_selection
from grillestack.app.canvas.spoken_things import plan_things
from grillestack.app.locked import free_to_move, seen_among
from grillestack.app.palette import Palette
from grillestack.app.session import Session
from grillestack.model.project import Project, stack

_ACROSS_SIGN = -1
_FREE_PX = 18.0


class PlanView(MmView):
    """Draws the pack from above; scale and place across are those of the front view over it."""

    def __init__(self, session: Session, palette: Palette, front: MmView, parent: QWidget | None = None) -> None:
        self._session = session
        self._front = front
        self.grid = Grid()
        self._items: dict[str, PlanPartItem] = {}
        self._held_document: Project | None = None
        self._is_loose = False
        # Its own ruler: what runs up this sheet is x, rearward.
        super().__init__(palette, HeightRuler(), _ACROSS_SIGN, parent)
        self._nose = PlanNoseItem(session.shown.nose, palette)
        self.sheet_scene.addItem(self._nose)
        self.setMinimumHeight(90)
        self.setAccessibleName("View of the pack from above, front at the foot")
        front.heights.changed.connect(self.follow_front)
        front.moved_across.connect(self.follow_front)
        session.project_changed.connect(self._show_project)
        session.assessment_changed.connect(self._repaint)
        session.selection_changed.connect(lambda _ids: tell_selection(self, self.spoken_things))
        session.selection_changed.connect(lambda _ids: self._show_project(session.shown, session.shown))
        session.units_changed.connect(self._repaint)
        self._show_project(session.shown, session.shown)

    # --- what is shown ----------------------------------------------------------------------------------------------

    def show_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        self.sheet_palette = palette
        self._show_project(self._session.shown, self._session.shown)

    def follow_front(self) -> None:
        """Take scale and place across from the front view; the depth in the middle stays there."""
        if not self.isVisible():
            return
        scale = self._front.heights.px_per_mm
        if not self._is_loose:
            self._show_whole_depth()
        elif scale != self.heights.px_per_mm:
            middle_px = self.viewport().height() / 2
            _, middle_mm = self.sheet_at(QPointF(0.0, middle_px))
            self.heights.show_heights(scale, middle_mm + middle_px / scale)
        if self.across_left_mm != self._front.across_left_mm:
            self.show_across(self._front.across_left_mm)

    def across_fit(self) -> None:
        """Stand under the front view."""
        self._is_loose = False
        self.follow_front()

    def sheet_area(self) -> QRectF:
        """Return the pixels that the ruler leaves to the drawing."""
        return QRectF(self.viewport().rect()).adjusted(0.0, 0.0, -float(self.ruler_strips()[0].width()), 0.0)

    def ruler_strips(self) -> tuple[QRect, ...]:
        """Return where the ruler is in the viewport."""
        view = self.viewport().rect()
        wide = upright_ruler_px(sheet_font(self.font(), 1.5))
        return (QRect(view.width() - wide, 0, wide, view.height()),)

    def zoom_by(self, factor: float, around_px: QPointF | None = None) -> None:
        """Zoom both views; what lies under the given pixel, or under the middle, stays there."""
        around = around_px if around_px is not None else QRectF(self.viewport().rect()).center()
        _, x_mm = self.sheet_at(around)
        self._is_loose = True
        self._front.zoom_by(factor, QPointF(around.x(), self._front.viewport().height() / 2))
        scale = self._front.heights.px_per_mm
        self.heights.show_heights(scale, x_mm + around.y() / scale)

    def pan_by(self, dx_px: float, dy_px: float) -> None:
        """Push the sheet; across, the front view goes with it."""
        self._is_loose = True
        if dx_px:
            self._front.pan_by(dx_px, 0.0)
        self.heights.show_heights(self.heights.px_per_mm, self.heights.z_top_mm + dy_px / self.heights.px_per_mm)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Follow the front view, which has the same width."""
        super().resizeEvent(event)
        self.follow_front()

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what happened while nobody saw it."""
        super().showEvent(event)
        self._show_project(self._session.shown, self._session.shown)
        self.across_fit()

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Lay the paper, and the grid if it is on."""
        painter.fillRect(rect, self.sheet_palette.paper)
        if self.grid.is_on:
            paint_grid(
                painter,
                QRectF(rect),
                (0.0, self._session.shown.nose.stations.grille_x_mm),
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
            upward=Axis.X,
            hand_factor=self.hand_factor,
        )
        painter.save()
        painter.resetTransform()
        if self.exposes(over.area):
            painter.save()
            painter.setClipRect(over.area, Qt.ClipOperation.IntersectClip)
            self._paint_words(painter, over)
            painter.restore()
        strip = QRectF(self.ruler_strips()[0])
        painter.setFont(sheet_font(over.font, 1.0))
        first = self.sheet_at(QPointF(0.0, 0.0))[1] - self._session.shown.nose.stations.grille_x_mm
        scale = RulerScale(first_mm=first, mm_per_px=-1.0 / self.heights.px_per_mm, units=over.units)
        paint_upright_ruler(painter, strip, scale, over.palette)
        paint_upright_mark(painter, strip, over.palette, upright_place(strip, self.hover_at))
        if self.keyboard_is_here:
            paint_focus(painter, over)
        painter.restore()

    def _paint_words(self, painter: QPainter, over: Over) -> None:
        session, marks = self._session, self.marks
        project, selection = session.shown, session.selection
        strips = paint_plan_words(painter, over, project, session.assessment, selection)
        held = QRectF()
        for part in project.parts:
            if part.id in selection and not part.hidden:
                held = held.united(plan_rect(part))
        moving = self.rect_px(held) if self.in_gesture and not held.isNull() else None
        field = place_typed_field(over, marks.typed, moving)
        written = [] if field is None else [field.rect]
        paint_marks(painter, over, marks, moving, (*strips, *written))
        if field is not None:
            paint_typed_field(painter, over, field)
        if self.hover_at is None or not marks.moved_text:
            return
        lines = tag_lines(session.base_assessment, session.assessment, over.units)
        painter.setFont(over.font)
        keep_off = [*written, *([] if moving is None else [moving])]
        tag = place_tag(over.font, marks.moved_text, lines, self.hover_at, over.area, keep_off)
        if not any(tag.rect.intersects(strip) for strip in written):
            paint_tag(painter, tag, over.palette)

    # --- answers to the session -------------------------------------------------------------------------------------

    def _show_project(self, _old: Project, new: Project) -> None:
        if self.in_gesture and self._session.project is not self._held_document:
            self.cancel_gesture()
        if not self.isVisible():
            return
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
                item = self._items[part.id] = PlanPartItem(part, self.sheet_palette, selected=selected)
                self.sheet_scene.addItem(item)
            else:
                item.show_part(part, self.sheet_palette, selected=selected)
            item.setZValue(900.0 if selected else 1.0 + depth)
        self.setAccessibleDescription(in_words(new))
        self.viewport().update()

    def _repaint(self, _what: object) -> None:
        self.viewport().update()

    def _show_whole_depth(self) -> None:
        low, high = _depths(self._session.shown)
        scale = self._front.heights.px_per_mm
        spare_mm = self.viewport().height() / scale - (high - low)
        # Where not all of it fits, the front is kept in sight: the sheet is pushed for the rest.
        top = high + spare_mm / 2 if spare_mm >= 0 else low - _FREE_PX / scale + self.viewport().height() / scale
        self.heights.show_heights(scale, top)

    # --- the hand ---------------------------------------------------------------------------------------------------

    def under(self, at: Pointer) -> tuple[str, ...]:
        """Return the ids of all that lies there, the uppermost first."""
        return under_plan(self._session.shown, at)

    def press_selects(self, pressed: Pointer) -> None:
        """Select the uppermost part under the pointer, unless a selected one lies there."""
        under = self.under(pressed)
        if under and not pressed.adds and not any(name in self._session.selection for name in under):
            self._session.select(under[:1])

    def shape_of_pointer(self, at: Pointer) -> Qt.CursorShape:
        """Return four arrows over what a drag would move, else the plain pointer."""
        movable = any(name in self._session.selection for name in self.under(at))
        return Qt.CursorShape.SizeAllCursor if movable else Qt.CursorShape.ArrowCursor

    def click(self, at: Pointer, *, repeated: bool) -> None:
        """Select the uppermost thing at first, what lies below it at each further click, or nothing."""
        self._session.select(
            selection_after_click(self.under(at), self._session.selection, adds=at.adds, repeated=repeated)
        )

    def spoken_things(self) -> tuple[SpokenThing, ...]:
        """Return what is on the sheet in words, in the order of Tab."""
        return plan_things(self._session.shown, self._session.selection, self._session.units)

    def hold_document(self) -> None:
        """Take the document as it is for what the hand holds."""
        self._held_document = self._session.project

    def gesture_for_drag(self, pressed: Pointer) -> Gesture | None:
        """Return moving the selected parts across and along the vehicle if one of them is held."""
        project = self._held_document = self._session.project
        held = tuple(part.id for part in project.parts if part.id in self._session.selection)
        under = under_plan(project, pressed)
        if not any(name in under for name in held):
            return None
        free = free_to_move(self._session, seen_among(project, held))
        return MoveGesture(self._session, free, Sheet.PLAN, grid_on=self.grid.is_on) if free else None


def _depths(project: Project) -> tuple[float, float]:
    stations = project.nose.stations
    xs = [stations.grille_x_mm]
    if stations.pulley_x_mm is not None:
        xs.append(stations.pulley_x_mm)
    for part in project.parts:
        rect = plan_rect(part)
        xs += [rect.top(), rect.bottom()]
    return min(xs), max(max(xs), min(xs) + 1.0)
