"""A sheet in mm under the pointer: scale, place, wheel, panning, and which gesture the mouse feeds."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPaintEvent,
    QRegion,
    QResizeEvent,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import QGraphicsView, QWidget

from grillestack.app.canvas.bare_sheet import lay_bare_sheet
from grillestack.app.canvas.gestures.feed import GestureFeed
from grillestack.app.canvas.gestures.gesture import Gesture, KeyTaker, Marks, Pointer, Tool
from grillestack.app.canvas.gestures.keys import is_meant_for, is_tab_for
from grillestack.app.canvas.height_ruler import HeightRuler
from grillestack.app.canvas.hover import near_in_strip, pointer_on
from grillestack.app.canvas.newest_move import NewestMove
from grillestack.app.canvas.zoom import pinch, push_view, turn_wheel, zoom_view
from grillestack.app.palette import Palette

_NO_KEYS = Qt.KeyboardModifier.NoModifier


class MmView(QGraphicsView):
    """Base of both views; `across_sign` is -1 where the sheet's first axis runs to the viewer's left."""

    pointer_moved = Signal(float, float)
    moved_across = Signal()
    tool_ended = Signal()
    menu_wanted = Signal(object, object)  # what lies there, nothing if a key asks for the menu; where it opens

    def __init__(self, palette: Palette, heights: HeightRuler, across_sign: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sheet_palette = palette
        self.heights = heights
        self.across_sign = across_sign
        self.hand_factor = 1.0  # by how much further than a mouse the hand reaches
        self._across_left_mm = 0.0
        self._across_share = 1.0
        self._drawn_scale = heights.px_per_mm
        self.hand = GestureFeed(self)
        self.newest = NewestMove(self._lead, self)
        self.tool: Tool | None = None
        # What gets keys while no tool is in the hand
        self.key_taker: KeyTaker | None = None
        self._panned_from: QPointF | None = None
        self._space_held = False
        self.hover_at: QPointF | None = None
        self.keyboard_is_here = False
        self._exposed = QRegion()
        self.sheet_scene = lay_bare_sheet(self)  # a view does not own its scene: this reference keeps it
        heights.changed.connect(self.follow_heights)
        self.follow_heights()

    # --- what the two views add -------------------------------------------------------------------------------------

    def gesture_for_drag(self, pressed: Pointer) -> Gesture | None:
        """Return what a drag that began there does."""
        raise NotImplementedError

    def press_selects(self, pressed: Pointer) -> None:
        """Select what a press there takes hold of."""
        raise NotImplementedError

    def click(self, at: Pointer, *, repeated: bool) -> None:
        """Answer a click; `repeated` if the click before was at the same place."""
        raise NotImplementedError

    def shape_of_pointer(self, at: Pointer) -> Qt.CursorShape:
        """Return the pointer's shape over that place: what a press there would do."""
        raise NotImplementedError

    def double_click(self, at: Pointer) -> bool:  # noqa: ARG002  a view may take it
        """Answer the second press of a double click; say whether it was taken, else it is a press like any other."""
        return False

    def under(self, at: Pointer) -> tuple[str, ...]:
        """Return the ids of all that lies there, foremost first."""
        raise NotImplementedError

    def across_fit(self) -> None:
        """Move the sheet across so that everything is in sight."""
        raise NotImplementedError

    # --- tools ------------------------------------------------------------------------------------------------------

    def take_tool(self, tool: Tool) -> None:
        """Put a tool in the hand; one that was there is given up."""
        self.cancel_gesture()
        self.put_tool_away()
        self.tool = tool
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self.viewport().setCursor(Qt.CursorShape.CrossCursor)
        self.viewport().update()

    def put_tool_away(self) -> None:
        """Give up the tool in the hand, if there is one."""
        if self.tool is not None:
            self.tool.cancel()
            self._after_tool()

    def _after_tool(self) -> None:
        if self.tool is not None and self.tool.is_over:
            self.tool = None
            self.viewport().unsetCursor()
            self.tool_ended.emit()
        self.viewport().update()

    def _taker(self) -> KeyTaker | None:
        if self.tool is not None:
            return self.tool
        if self.hand.under_way:
            return self.hand
        return None if self.hand.button_held else self.key_taker

    # --- place and scale --------------------------------------------------------------------------------------------

    def follow_heights(self) -> None:
        """Take scale and heights from the shared ruler; what is in the middle across stays there."""
        half_px = self.across_sign * self.viewport().width() / 2
        self._across_left_mm += half_px / self._drawn_scale - half_px / self.across_scale
        self._drawn_scale = self.across_scale
        self.setTransform(QTransform.fromScale(self.across_sign * self.across_scale, -self.heights.px_per_mm))
        self._scroll()
        self.viewport().update()

    def _scroll(self) -> None:
        # Qt scrolls in whole pixels from the sheet's corner; both views round the same heights alike.
        self.horizontalScrollBar().setValue(round(self.across_sign * self._across_left_mm * self.across_scale))
        self.verticalScrollBar().setValue(round(-self.heights.z_top_mm * self.heights.px_per_mm))

    @property
    def across_scale(self) -> float:
        """Return the pixels per mm across; less than upwards only where a view narrows its sheet."""
        return self.heights.px_per_mm * self._across_share

    @property
    def across_share(self) -> float:
        """Return how wide the sheet is drawn against how wide it is: 1 is true to scale."""
        return self._across_share

    def narrow_across(self, share_frac: float) -> None:
        """Draw the sheet narrower than it is, by this share; 1 is true to scale."""
        self._across_share = share_frac
        self.follow_heights()

    @property
    def across_left_mm(self) -> float:
        """Return the across coordinate at the view's left edge."""
        return self._across_left_mm

    def show_across(self, left_mm: float) -> None:
        """Put this across coordinate at the view's left edge."""
        self._across_left_mm = left_mm
        self._scroll()
        self.moved_across.emit()
        self.viewport().update()

    def sheet_at(self, px: QPointF) -> tuple[float, float]:
        """Return the across coordinate and the height under a pixel of the viewport."""
        at = self.viewportTransform().inverted()[0].map(px)
        return at.x(), at.y()

    def px_of(self, across_mm: float, z_mm: float) -> QPointF:
        """Return the pixel of the viewport at a place of the sheet."""
        return self.viewportTransform().map(QPointF(across_mm, z_mm))

    def rect_px(self, rect: QRectF) -> QRectF:
        """Return the pixels that a rectangle of the sheet covers."""
        return self.viewportTransform().mapRect(rect)

    def zoom_by(self, factor: float, around_px: QPointF | None = None) -> None:
        """Zoom; what lies under the given pixel, or under the middle, stays there."""
        zoom_view(self, factor, around_px if around_px is not None else QRectF(self.viewport().rect()).center())

    def pan_by(self, dx_px: float, dy_px: float) -> None:
        """Push the sheet by so many pixels."""
        push_view(self, dx_px, dy_px)

    def pointer_at(self, px: QPointF, modifiers: Qt.KeyboardModifier) -> Pointer:
        """Return where that pixel is on the sheet, with the keys that matter."""
        return pointer_on(self.sheet_at(px), self.across_scale / self.hand_factor, modifiers)

    # --- gestures ---------------------------------------------------------------------------------------------------

    @property
    def marks(self) -> Marks:
        """Return what the gesture under way wants drawn."""
        return self.hand.marks if self.tool is None else self.tool.marks

    @property
    def in_gesture(self) -> bool:
        """Return whether a gesture is under way."""
        return self.hand.under_way

    def cancel_gesture(self) -> None:
        """Put back what the gesture under way has changed."""
        self.newest.forget()
        self.hand.cancel()
        self.viewport().update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of what lies there, or of the sheet."""
        event.accept()
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        left = event.button() == Qt.MouseButton.LeftButton
        if event.button() == Qt.MouseButton.MiddleButton or (left and self._space_held):
            self._panned_from = event.position()
            self.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
        elif left and self.tool is not None:
            self.tool.press(self.pointer_at(event.position(), event.modifiers()))
            self._after_tool()
        elif left:
            self.hand.press(event.position(), event.modifiers())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Pan, or let the hand move on."""
        event.accept()
        self._hover(event.position())
        if self._panned_from is not None:
            step = event.position() - self._panned_from
            self._panned_from = event.position()
            self.pan_by(step.x(), step.y())
            return
        if self.tool is not None:
            self.tool.hover(self.pointer_at(event.position(), event.modifiers()))
            self.viewport().update()
            return
        if event.spontaneous() and self.hand.under_way:
            self.newest.come(event.position(), event.modifiers())
        else:
            self._lead(event.position(), event.modifiers())

    def _lead(self, px: QPointF, keys: Qt.KeyboardModifier) -> None:
        self.hand.move(px, keys)
        if self.hand.under_way:
            self.viewport().update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go of the sheet, or of what is held."""
        event.accept()
        self.newest.forget()
        if self._panned_from is not None:
            self._panned_from = None
            self._show_plain_pointer()
        elif event.button() == Qt.MouseButton.LeftButton:
            if self.tool is not None:
                self.tool.release(self.pointer_at(event.position(), event.modifiers()))
            self.hand.release(event.position(), event.modifiers())
            self.viewport().update()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Offer the second press of a double click to the tool or the view; else it is like any press."""
        at = self.pointer_at(event.position(), event.modifiers())
        if event.button() != Qt.MouseButton.LeftButton or self._space_held:
            self.mousePressEvent(event)
        elif self.tool is not None:
            event.accept()
            self.tool.double_click(at)
            self._after_tool()
        elif self.double_click(at):
            event.accept()
            self.viewport().update()
        else:
            self.mousePressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Keep keys that a tool, a drag or a chosen corner wants from the window's shortcuts, and Tab from leaving."""
        if event.type() == QEvent.Type.ShortcutOverride and is_meant_for(self._taker(), event):
            event.accept()
            return True
        if isinstance(event, QKeyEvent) and is_tab_for(self._taker(), event):
            # Qt would lead the keyboard on before the view hears of the key.
            self.keyPressEvent(event)
            return True
        return super().event(event)

    def viewportEvent(self, event: QEvent) -> bool:
        """Zoom by two fingers on a pad or on the screen."""
        return pinch(self, event) or super().viewportEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Ask for the menu of what lies there, or of what is selected if a key asks."""
        event.accept()
        if self.tool is None and not self.hand.under_way:
            by_key = event.reason() is QContextMenuEvent.Reason.Keyboard
            there = None if by_key else self.under(self.pointer_at(event.pos().toPointF(), _NO_KEYS))
            middle = self.viewport().rect().center()
            self.menu_wanted.emit(there, self.viewport().mapToGlobal(middle) if by_key else event.globalPos())

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom at the pointer; with Shift push the sheet sideways."""
        turn_wheel(self, event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys go to the tool or chosen corner first; Esc puts the gesture back, Space held pans, the window gets the rest."""
        taker = self._taker()
        if taker is not None and is_meant_for(taker, event):
            taker.key(event.key(), event.text())
            self._after_tool()
            event.accept()
        elif event.key() == Qt.Key.Key_Escape and (self.hand.under_way or self.hand.button_held):
            self.cancel_gesture()
            event.accept()
        elif event.key() == Qt.Key.Key_Space:
            self._space_held = True
            if not event.isAutoRepeat() and self._panned_from is None:
                self.viewport().setCursor(Qt.CursorShape.OpenHandCursor)
            event.accept()
        else:
            event.ignore()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Space let go ends panning."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._let_go_of_space()
            event.accept()
        else:
            event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show where the keyboard is if it came here by a key."""
        by_key = (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason, Qt.FocusReason.ShortcutFocusReason)
        self.keyboard_is_here = event.reason() in by_key
        super().focusInEvent(event)
        self.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Forget a held Space when the keyboard goes elsewhere."""
        self._let_go_of_space()
        self.keyboard_is_here = False
        super().focusOutEvent(event)
        self.viewport().update()

    def leaveEvent(self, event: QEvent) -> None:
        """Take the pointer's mark off the rulers."""
        self.hover_at = None
        self.viewport().update()
        super().leaveEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit again if nobody has zoomed or panned since; else keep the upper left corner of the sheet where it is."""
        super().resizeEvent(event)
        if self.heights.is_fitted:
            self.heights.fit()
        self._scroll()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Remember what is repainted: a moving pointer touches the rulers only, and words cost more than all items."""
        self._exposed = QRegion(event.region())
        super().paintEvent(event)
        self.newest.painted()

    def exposes(self, area: QRectF) -> bool:
        """Return whether any of this area is being repainted."""
        return self._exposed.intersects(area.toAlignedRect())

    def scrollContentsBy(self, dx: int, dy: int) -> None:
        """Repaint everything: rulers and words stand still while the sheet moves."""
        super().scrollContentsBy(dx, dy)
        self.viewport().update()

    def _let_go_of_space(self) -> None:
        self._space_held = False
        if self._panned_from is None:
            self._show_plain_pointer()

    def _show_plain_pointer(self) -> None:
        if self.tool is None:
            self.viewport().unsetCursor()
        else:
            self.viewport().setCursor(Qt.CursorShape.CrossCursor)

    def _hover(self, px: QPointF) -> None:
        old, self.hover_at = self.hover_at, px
        across, z = self.sheet_at(px)
        self.pointer_moved.emit(across, z)
        idle = self.tool is None and not self.hand.under_way
        if idle and self._panned_from is None and not self._space_held:
            self.viewport().setCursor(self.shape_of_pointer(self.pointer_at(px, _NO_KEYS)))
        for at in (old, px):
            if at is not None and not self.hand.under_way:
                for strip in self.ruler_strips():
                    self.viewport().update(near_in_strip(strip, at))

    def ruler_strips(self) -> tuple[QRect, ...]:
        """Return where the rulers are in the viewport."""
        return ()
