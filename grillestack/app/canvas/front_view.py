"""The nose seen from ahead: the picture in which the pack is laid out by hand."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QFont,
    QPainter,
)
from PySide6.QtWidgets import QWidget

from grillestack.app.canvas.better_layer import BetterLayer
from grillestack.app.canvas.face_layer import FaceLayer
from grillestack.app.canvas.front_edges import FrontEdges
from grillestack.app.canvas.front_sheet import FrontSheet, drawn_bounds, is_other_document
from grillestack.app.canvas.front_words import FrontScene, paint_front_words
from grillestack.app.canvas.gestures.draw import DrawTool
from grillestack.app.canvas.gestures.drawn_things import Drawn
from grillestack.app.canvas.gestures.drop import DropGesture
from grillestack.app.canvas.gestures.gesture import Gesture, Pointer
from grillestack.app.canvas.gestures.grid import Grid
from grillestack.app.canvas.gestures.move import MoveGesture
from grillestack.app.canvas.gestures.move_photo import MovePhotoGesture
from grillestack.app.canvas.gestures.outline_hand import OutlineHand
from grillestack.app.canvas.gestures.pick import handle_under, selection_after_click, under_front
from grillestack.app.canvas.gestures.rubber_band import RubberBandGesture
from grillestack.app.canvas.gestures.shift import name_of, outline_of
from grillestack.app.canvas.gestures.snap import united
from grillestack.app.canvas.gestures.stretch import (
    StretchGesture,
    can_stretch,
    handle_cursor,
    keeps_its_size,
)
from grillestack.app.canvas.height_ruler import HeightRuler, WantedHeights
from grillestack.app.canvas.items.grid_lines import paint_grid
from grillestack.app.canvas.items.legend import paint_legend
from grillestack.app.canvas.items.overlay import Over, paint_focus
from grillestack.app.canvas.items.part_item import rect_of
from grillestack.app.canvas.items.photo_item import PhotoLayer
from grillestack.app.canvas.items.ruler_ticks import RulerScale
from grillestack.app.canvas.items.rulers import level_ruler_px, upright_ruler_px
from grillestack.app.canvas.items.sheet_words import sheet_font
from grillestack.app.canvas.mm_view import MmView
from grillestack.app.canvas.sheet_names import front_names, in_words
from grillestack.app.canvas.shelf_drop import ShelfDrop
from grillestack.app.canvas.spoken import SpokenThing, tell_selection
from grillestack.app.canvas.spoken_things import front_things
from grillestack.app.canvas.zoom import zoom_to_rect
from grillestack.app.locked import free_to_move, seen_among
from grillestack.app.palette import Palette
from grillestack.app.session import Session
from grillestack.model.parts import Part
from grillestack.model.project import Project

_ACROSS_SIGN = -1
_FREE_ABOVE_PX = 74.0
_FREE_BELOW_PX = 34.0
_FREE_ASIDE_PX = 22.0


def _no_shelf(_catalogue_id: str) -> Part | None:
    return None


class FrontView(MmView):
    """Draws the nose from ahead and feeds the hand's gestures to the session."""

    def __init__(
        self,
        session: Session,
        palette: Palette,
        find_part: Callable[[str], Part | None] = _no_shelf,
        heights: HeightRuler | None = None,
        parent: QWidget | None = None,
    ) -> None:
        self._session = session
        self.grid = Grid()
        self._edges = FrontEdges()
        self._label_choices: dict[str, int] = {}
        self._held_document: Project | None = None
        self._was_selected = False
        self.outline_hand = OutlineHand(session)
        self._mirrored = False
        super().__init__(palette, heights or HeightRuler(), _ACROSS_SIGN, parent)
        self.key_taker = self.outline_hand
        self._drop = ShelfDrop(self, find_part, lambda part: DropGesture(session, part, grid_on=self.grid.is_on))
        self._sheet = FrontSheet(self.sheet_scene, palette)
        self.better = BetterLayer(session, lambda: self.in_gesture, self.sheet_scene, palette)
        self.better.changed.connect(self.viewport().update)
        self.photo = PhotoLayer(session, self.sheet_scene)
        self.face = FaceLayer(session, self.viewport(), self._sheet)
        self.face.changed.connect(lambda: self._show_assessment(session.assessment))
        self.heights.join(self._wanted_heights)
        self.heights.fitted.connect(self.across_fit)
        self.setAcceptDrops(True)
        self.viewport().setAcceptDrops(True)
        self.setAccessibleName("Front view of the nose")
        session.project_changed.connect(self._show_project)
        session.assessment_changed.connect(self._show_assessment)
        session.selection_changed.connect(self._show_selection)
        session.units_changed.connect(self._show_units)
        self._show_project(session.shown, session.shown)
        self._show_assessment(session.assessment)
        self.face.stand_in(self._legend_strip)

    # --- what is shown ----------------------------------------------------------------------------------------------

    def show_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        self.sheet_palette = palette
        self.better.show_palette(palette)
        self._show_project(self._session.shown, self._session.shown)
        self._show_assessment(self._session.assessment)

    def zoom_to_fit(self) -> None:
        """Show the whole nose and pack, in the side strip too."""
        self.heights.fit()

    def zoom_to_parts(self, names: Sequence[str]) -> bool:
        """Show these parts or things of the nose as large as there is room; say whether there were any."""
        held = united(outline_of(self._session.shown, name) for name in names)
        if held is not None:
            zoom_to_rect(self, rect_of(held), self.sheet_area())
        return held is not None

    def across_fit(self) -> None:
        """Move the sheet across so that the nose stands in the middle of the free area."""
        bounds = drawn_bounds(self._session.shown)
        middle = bounds.center().x() if bounds is not None else 0.0
        self.show_across(middle - _ACROSS_SIGN * self.sheet_area().center().x() / self.heights.px_per_mm)

    def sheet_area(self) -> QRectF:
        """Return the pixels that rulers and legend leave to the drawing."""
        level, upright = self.ruler_strips()
        legend = self.face.legend_px(self._font(), level.width())
        return QRectF(0.0, 0.0, float(upright.left()), level.top() - legend)

    def _legend_strip(self) -> QRectF:
        area, (level, _) = self.sheet_area(), self.ruler_strips()
        return QRectF(0.0, area.bottom(), level.width(), level.top() - area.bottom())

    def ruler_strips(self) -> tuple[QRect, QRect]:
        """Return where the level and the upright ruler are in the viewport."""
        view, font = self.viewport().rect(), sheet_font(self._font(), 1.0)
        high, wide = level_ruler_px(font), upright_ruler_px(font)
        return (
            QRect(0, view.height() - high, view.width() - wide, high),
            QRect(view.width() - wide, 0, wide, view.height() - high),
        )

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Lay the paper, and the grid if it is on."""
        painter.fillRect(rect, self.sheet_palette.paper)
        if self.grid.is_on:
            paint_grid(painter, QRectF(rect), (0.0, 0.0), self._session.units, self.sheet_palette)

    def drawForeground(self, painter: QPainter, rect: QRectF | QRect) -> None:  # noqa: ARG002  Qt's signature
        """Lay words, sizes, marks, legend and rulers over the sheet."""
        session = self._session
        over = Over(
            to_px=self.px_of,
            area=self.sheet_area(),
            palette=self.sheet_palette,
            units=session.units,
            font=self._font(),
            hand_factor=self.hand_factor,
        )
        scene = FrontScene(
            project=session.shown,
            selection=session.selection,
            base=session.base_assessment,
            now=session.assessment,
            marks=self.marks,
            pointer=self._drop.at_px or self.hover_at,
            in_gesture=self.in_gesture,
            outline=None
            if self.tool is not None
            else self.outline_hand.marks(self.heights.px_per_mm / self.hand_factor),
        )
        painter.save()
        painter.resetTransform()
        if self.exposes(over.area):
            painter.save()
            painter.setClipRect(over.area, Qt.ClipOperation.IntersectClip)
            paint_front_words(painter, over, scene, self._label_choices, self.better.paint(painter, over))
            self.better.paint_best(painter, over)
            painter.restore()
        self._paint_edges(painter, over, scene.pointer)
        if self.keyboard_is_here:
            paint_focus(painter, over)
        painter.restore()

    def _paint_edges(self, painter: QPainter, over: Over, pointer: QPointF | None) -> None:
        scale = self.heights.px_per_mm
        y_first, z_first = self.sheet_at(QPointF(0.0, 0.0))
        along_y = RulerScale(first_mm=y_first, mm_per_px=_ACROSS_SIGN / scale, units=over.units, both_ways=True)
        along_z = RulerScale(first_mm=z_first, mm_per_px=-1.0 / scale, units=over.units)
        level, upright = self.ruler_strips()
        strips = QRectF(level), QRectF(upright)
        self._edges.paint(painter, over, strips, (along_y, along_z), pointer)
        legend = self.face.shown_legend(over.font, level.width())
        if legend is not None:
            strip = self._legend_strip()
            painter.fillRect(strip, over.palette.label_paper)
            strip.setTop(strip.top() + self.face.switch_over_px(over.font))
            paint_legend(painter, legend, strip, over.palette, over.font, self.face.switch_px)

    def _font(self) -> QFont:
        return sheet_font(self.font(), 0.5)

    def _selected_parts(self, project: Project) -> list[Part]:
        return [part for part in project.parts if part.id in self._session.selection and not part.hidden]

    # --- answers to the session -------------------------------------------------------------------------------------

    def _show_project(self, old: Project, new: Project) -> None:
        if self.in_gesture and self._session.project is not self._held_document:
            # Undo by keyboard while a part is held: the hand lets go rather than bring back what was undone.
            self.cancel_gesture()
        self._sheet.show_project(new, self._session.selection, self.sheet_palette)
        self.setAccessibleDescription(in_words(new))
        self.viewport().update()
        if is_other_document(old, new):
            self.put_tool_away()
            self.zoom_to_fit()

    def _show_assessment(self, assessment: object) -> None:  # noqa: ARG002  the session already holds it
        self.face.show_face(self.sheet_palette)
        self.viewport().update()

    def _show_selection(self, _ids: tuple[str, ...]) -> None:
        if self.face.follows_selection:
            self.face.show_face(self.sheet_palette)
        self._sheet.show_project(self._session.shown, self._session.selection, self.sheet_palette)
        self.viewport().update()
        tell_selection(self, self.spoken_things)

    def _show_units(self, _units: object) -> None:
        self._show_assessment(self._session.assessment)

    # --- the hand ---------------------------------------------------------------------------------------------------

    def under(self, at: Pointer) -> tuple[str, ...]:
        """Return the ids of all that lies there, foremost first."""
        return under_front(self._session.shown, at)

    def press_selects(self, pressed: Pointer) -> None:
        """Select the foremost thing under the pointer, unless something selected lies there already."""
        self._was_selected = True
        if self._handle_at(pressed) is not None or self.outline_hand.press(pressed):
            return
        under = under_front(self._session.shown, pressed)
        self._was_selected = any(name in self._session.selection for name in under)
        if under and not pressed.adds and not self._was_selected:
            self._session.select(under[:1])

    def shape_of_pointer(self, at: Pointer) -> Qt.CursorShape:
        """Return arrows over a handle, four arrows over what a drag would move, else the plain pointer."""
        held = self._selected_parts(self._session.shown)
        if len(held) == 1 and can_stretch(held[0]):
            handle = handle_under(held[0], at)
            if handle is not None:
                return handle_cursor(handle)
        if self.outline_hand.hover(at):
            self.viewport().update()
        if self.outline_hand.handle_under(at) is not None:
            return Qt.CursorShape.PointingHandCursor
        under = under_front(self._session.shown, at)
        movable = any(name in self._session.selection for name in under)
        movable = movable or (not under and self.photo.may_be_pushed(at.across_mm, at.z_mm))
        return Qt.CursorShape.SizeAllCursor if movable else Qt.CursorShape.ArrowCursor

    def click(self, at: Pointer, *, repeated: bool) -> None:
        """Select the foremost thing at first, what lies behind it at each further click, or nothing."""
        if self._handle_at(at) is not None or self.outline_hand.handle_under(at) is not None:
            return
        under = under_front(self._session.shown, at)
        self._session.select(selection_after_click(under, self._session.selection, adds=at.adds, repeated=repeated))

    def spoken_things(self) -> tuple[SpokenThing, ...]:
        """Return what is on the sheet in words, in the order of Tab."""
        return front_things(self._session.shown, self._session.selection, self._session.units)

    def hold_document(self) -> None:
        """Take the document as it is for what the hand holds."""
        self._held_document = self._session.project

    def gesture_for_drag(self, pressed: Pointer) -> Gesture | None:
        """Return stretch on a handle, move on a selected part, else a rubber band."""
        project = self._held_document = self._session.project
        held = self._selected_parts(project)
        pulled = self._handle_at(pressed)
        if pulled is not None and len(held) == 1:
            return pulled
        by_outline = self.outline_hand.gesture(pressed)
        if by_outline is not None:
            return by_outline
        under = under_front(project, pressed)
        if not under and not pressed.adds and self.photo.may_be_pushed(pressed.across_mm, pressed.z_mm):
            return MovePhotoGesture(self._session)
        if pressed.adds or not under:
            return RubberBandGesture(self._session)
        if not any(name in under for name in self._session.selection):
            return None
        if not held and not self._was_selected:
            # What was measured on the vehicle is not pushed away by a hand that meant a part.
            name = name_of(project, self._session.selection[0])
            self._session.message.emit(f"The {name} belongs to the vehicle: it is selected now, drag again to move it.")
            return None
        if len(held) == 1 and handle_under(held[0], pressed) is not None and not held[0].locked:
            self._session.message.emit(keeps_its_size(held[0]))
        free = free_to_move(self._session, seen_among(project, self._session.selection))
        return MoveGesture(self._session, free, grid_on=self.grid.is_on) if free else None

    def double_click(self, at: Pointer) -> bool:
        """Put a corner on a side of the selected outline."""
        return self._handle_at(at) is None and self.outline_hand.double_click(at)

    # --- drawing ----------------------------------------------------------------------------------------------------

    @property
    def draws_mirrored(self) -> bool:
        """Return whether outlines are drawn with their other half."""
        return self.tool.is_mirrored if isinstance(self.tool, DrawTool) else self._mirrored

    def draw(self, drawn: Drawn) -> None:
        """Let the hand draw such an outline by clicks."""
        self.take_tool(DrawTool(self._session, drawn, mirrored=self._mirrored))

    def draw_mirrored(self, *, mirrored: bool) -> None:
        """Draw outlines with their other half from now on, also the one under way."""
        self._mirrored = mirrored
        if isinstance(self.tool, DrawTool):
            self.tool.set_mirrored(mirrored=mirrored)
        self.viewport().update()

    def _handle_at(self, at: Pointer) -> StretchGesture | None:
        held = self._selected_parts(self._session.project)
        if len(held) != 1:
            return None
        handle = handle_under(held[0], at)
        if handle is None or not can_stretch(held[0]):
            return None
        return StretchGesture(self._session, held[0].id, handle)

    def focusNextPrevChild(self, next: bool) -> bool:  # noqa: A002, FBT001  Qt's signature
        """Let Tab walk through the parts from front to back and the outlines of the nose, then leave the view."""
        order = [name.key for name in front_names(self._session.shown)]
        chosen = [place for place, name in enumerate(order) if name in self._session.selection]
        forward = chosen[-1] + 1 if chosen else 0
        back = chosen[0] - 1 if chosen else len(order) - 1
        wanted = forward if next else back
        if 0 <= wanted < len(order):
            self._session.select((order[wanted],))
            return True
        return super().focusNextPrevChild(next)

    # --- parts from the shelf ---------------------------------------------------------------------------------------

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take a part of the shelf over the sheet."""
        self._held_document = self._session.project
        self._drop.enter(event)

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        """Show the part under the pointer."""
        self._drop.move(event)

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        """Take the part away again."""
        self._drop.leave(event)

    def dropEvent(self, event: QDropEvent) -> None:
        """Leave the part in the pack."""
        self._drop.drop(event)

    def _wanted_heights(self) -> WantedHeights | None:
        bounds = drawn_bounds(self._session.shown)
        if bounds is None:
            return None
        area = self.sheet_area()
        return WantedHeights(
            z_min_mm=bounds.top(),
            z_max_mm=bounds.bottom(),
            largest_px_per_mm=max(1.0, area.width() - 2 * _FREE_ASIDE_PX) / max(1.0, bounds.width()),
            free_above_px=_FREE_ABOVE_PX,
            free_below_px=_FREE_BELOW_PX + self.viewport().height() - area.bottom(),
            height_px=float(self.viewport().height()),
        )
