"""One sheet on the screen: exactly its marks, to be looked at closely, and its dimensions under the hand."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPen,
    QResizeEvent,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import QFrame, QGraphicsScene, QGraphicsView, QMenu

from grillestack.app.palette import Palette
from grillestack.app.sheets.dimension_hand import DimensionHand
from grillestack.app.sheets.paint import Ink, Letters, draw, inked
from grillestack.app.sheets.placed import Placed, is_movable, nearest, placed, words_of
from grillestack.sheets.draw_list import Dimension, Point, Sheet

_MARGIN_PX = 16.0
_REACH_PX = 6.0
_LEAST_LINE_PX = 0.7
_LARGEST_PX_PER_MM = 40.0
_PAPER, _INK = QColor("#ffffff"), QColor("#000000")
# On the white paper the accent is that of the light look, whatever the window's own is.
_MEANT, _OFF = QColor("#2b4fc4"), QColor(43, 79, 196, 80)
_STEPS = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, 1.0),
    Qt.Key.Key_Down: (0.0, -1.0),
}
_LARGE_STEP = 10.0
_OWN_KEYS = frozenset(
    {
        *_STEPS,
        Qt.Key.Key_Delete,
        Qt.Key.Key_Backspace,
        Qt.Key.Key_Space,
        Qt.Key.Key_Plus,
        Qt.Key.Key_Minus,
        Qt.Key.Key_0,
    }
)


class PaperView(QGraphicsView):
    """Draws one sheet; hands move its dimensions through the session."""

    described = Signal(str)  # what is under the pointer or held, in words; empty if nothing
    zoomed = Signal()

    def __init__(self, hand: DimensionHand, palette: Palette) -> None:
        super().__init__()
        self._hand = hand
        self._palette = palette
        self._letters = Letters()
        self._sheet: Sheet | None = None
        self._base = Ink((), ())
        self._placed: tuple[Placed, ...] = ()
        self._inks: dict[str, Ink] = {}
        self._inked: dict[str, Dimension] = {}
        self._fits = True
        self._pan_from: QPointF | None = None
        self.near_key = ""
        self.held_key = ""
        self._scene = QGraphicsScene(self)  # a view does not own its scene: this reference keeps it
        self.setScene(self._scene)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.FullViewportUpdate)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.AnchorUnderMouse)
        self.setMouseTracking(True)
        self.viewport().setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(260, 200)
        self.setAccessibleName("Sheet")
        hand.changed.connect(self._show_shifts)

    @property
    def sheet(self) -> Sheet | None:
        """Return the sheet shown, as it was made, without shifts."""
        return self._sheet

    @property
    def dimensions(self) -> tuple[Placed, ...]:
        """Return the dimensions as they stand now."""
        return self._placed

    def show_sheet(self, sheet: Sheet | None) -> None:
        """Show this sheet; another size of paper is shown whole."""
        old, self._sheet = self._sheet, sheet
        if sheet is None:
            self._base, self._placed = Ink((), ()), ()
        else:
            still = [mark for mark in sheet.marks if not isinstance(mark, Dimension)]
            self._base = inked(still, sheet.height_mm, self._letters)
            room = QRectF(0.0, 0.0, sheet.width_mm, sheet.height_mm)
            self._scene.setSceneRect(room.adjusted(-30.0, -30.0, 30.0, 30.0))
        self._inked.clear()
        is_other_size = (
            old is None or sheet is None or (old.width_mm, old.height_mm) != (sheet.width_mm, sheet.height_mm)
        )
        self._show_shifts()
        if self._fits or is_other_size:
            self.zoom_to_fit()

    def show_palette(self, palette: Palette) -> None:
        """Lay the sheet on this look's table; the paper stays white."""
        self._palette = palette
        self.viewport().update()

    def zoom_to_fit(self) -> None:
        """Show the whole sheet."""
        self._let_fit(is_whole=True)
        if self._sheet is None:
            return
        view = self.viewport().size()
        across = max(1.0, view.width() - 2 * _MARGIN_PX) / self._sheet.width_mm
        upright = max(1.0, view.height() - 2 * _MARGIN_PX) / self._sheet.height_mm
        self.setTransform(QTransform.fromScale(min(across, upright), min(across, upright)))
        self.centerOn(self._sheet.width_mm / 2, self._sheet.height_mm / 2)
        self.zoomed.emit()

    def zoom_by(self, factor: float) -> None:
        """Look closer, or from further off."""
        scale = self.transform().m11()
        wanted = min(_LARGEST_PX_PER_MM, max(0.3, scale * factor))
        self._let_fit(is_whole=False)
        self.scale(wanted / scale, wanted / scale)
        self.zoomed.emit()

    def hold(self, key: str) -> None:
        """Have the keys act on this dimension from now on; an empty key lets go."""
        self.held_key = key
        self._describe()
        self.viewport().update()

    def place_of(self, pixel: QPointF) -> Point:
        """Return what place of the paper is at this pixel."""
        at = self.viewportTransform().inverted()[0].map(pixel)
        return Point(at.x(), (self._sheet.height_mm if self._sheet else 0.0) - at.y())

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Draw table, paper and everything on it."""
        painter.fillRect(rect, self._palette.rule)
        sheet = self._sheet
        if sheet is None:
            return
        paper = QRectF(0.0, 0.0, sheet.width_mm, sheet.height_mm)
        painter.fillRect(paper, _PAPER)
        least = _LEAST_LINE_PX / self.transform().m11()
        draw(painter, self._base, sheet.line_group, _INK, least)
        for one in self._placed:
            is_held, is_near = one.key == self.held_key, one.key == self.near_key
            colour = _MEANT if is_held or is_near else _OFF if one.is_off else _INK
            draw(painter, self._inks[one.key], sheet.line_group, colour, least)
            if is_held:
                self._draw_frame(painter, self._inks[one.key].bounds, least)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the whole sheet in sight, if it was."""
        super().resizeEvent(event)
        if self._fits:
            self.zoom_to_fit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Look closer about the pointer."""
        turned = event.angleDelta().y()
        if turned:
            self.zoom_by(1.0015**turned)
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of a dimension, or of the paper."""
        if event.button() == Qt.MouseButton.LeftButton:
            found = self._under(event.position())
            self.hold(found.key if found else "")
            if found is not None and not found.is_off and self._can_move:
                self._hand.begin(found.key, self.place_of(event.position()))
                return
        if event.button() in (Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton):
            self._pan_from = event.position()
            self.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Carry the dimension or the paper along, or show what is under the pointer."""
        if self._hand.is_busy:
            self._hand.update(self.place_of(event.position()))
        elif self._pan_from is not None:
            step = event.position() - self._pan_from
            self._pan_from = event.position()
            self._let_fit(is_whole=False)
            across, down = self.horizontalScrollBar(), self.verticalScrollBar()
            across.setValue(across.value() - round(step.x()))
            down.setValue(down.value() - round(step.y()))
        else:
            self._look_at(event.position())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        self._pan_from = None
        if self._hand.is_busy:
            self._hand.finish()
        self._look_at(event.position())

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Switch a dimension off, or on again."""
        found = self._under(event.position())
        if found is not None and self._can_move:
            self._hand.switch(found.key)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Offer what can be done with the dimension."""
        found = self._under(QPointF(event.pos())) if event.reason() is QContextMenuEvent.Reason.Mouse else self._held
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.fill_menu(menu, found)
        menu.popup(event.globalPos())

    def fill_menu(self, menu: QMenu, found: Placed | None) -> None:
        """Put into the menu what can be done with this dimension, and with all of them."""
        if found is not None and self._can_move:
            self.hold(found.key)
            words = "Put it on the sheet again" if found.is_off else "Switch it off"
            menu.addAction(words).triggered.connect(lambda _checked=False: self._hand.switch(found.key))
            back = menu.addAction("Put it back where it was")
            back.setEnabled(self._hand.is_shifted(found.key))
            back.triggered.connect(lambda _checked=False: self._hand.put_back(found.key))
            menu.addSeparator()
        every = menu.addAction("Put all dimensions back")
        every.setEnabled(bool(self._hand.shifts))
        every.triggered.connect(lambda _checked=False: self._hand.put_all_back())
        menu.addSeparator()
        menu.addAction("Show the whole sheet").triggered.connect(lambda _checked=False: self.zoom_to_fit())

    def leaveEvent(self, event: QEvent) -> None:
        """Point at nothing."""
        super().leaveEvent(event)
        self._set_near("")

    def event(self, event: QEvent) -> bool:
        """Keep the keys that act on a dimension from the window's menus."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and self._wants(event):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Move, switch or let go of the held dimension; look closer or from further off."""
        key = Qt.Key(event.key())
        held = self._held
        if key == Qt.Key.Key_Escape and self._wants(event):
            if self._hand.is_busy:
                self._hand.cancel()
            else:
                self.hold("")
        elif key in _STEPS and held is not None and self._can_move:
            size = _LARGE_STEP if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1.0
            self._hand.nudge(held.key, _STEPS[key][0] * size, _STEPS[key][1] * size)
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Space) and held is not None and self._can_move:
            self._hand.switch(held.key)
        elif key == Qt.Key.Key_Backspace and held is not None and self._can_move:
            self._hand.put_back(held.key)
        elif key == Qt.Key.Key_Plus:
            self.zoom_by(1.25)
        elif key == Qt.Key.Key_Minus:
            self.zoom_by(0.8)
        elif key == Qt.Key.Key_0:
            self.zoom_to_fit()
        elif key not in _STEPS and key != Qt.Key.Key_Delete:
            super().keyPressEvent(event)

    def focusNextPrevChild(self, next: bool) -> bool:  # noqa: A002, FBT001  Qt's own signature
        """Go from dimension to dimension, and on to the next widget behind the last one."""
        keys = [one.key for one in self._placed] if self._can_move else []
        at = keys.index(self.held_key) if self.held_key in keys else (-1 if next else len(keys))
        at += 1 if next else -1
        if 0 <= at < len(keys):
            self.hold(keys[at])
            bounds = self._inks[keys[at]].bounds
            self.ensureVisible(bounds, 20, 20)
            return True
        self.hold("")
        return super().focusNextPrevChild(next)

    @property
    def _can_move(self) -> bool:
        return self._sheet is not None and is_movable(self._sheet)

    @property
    def _held(self) -> Placed | None:
        return next((one for one in self._placed if one.key == self.held_key), None)

    def _let_fit(self, *, is_whole: bool) -> None:
        self._fits = is_whole
        policy = Qt.ScrollBarPolicy.ScrollBarAlwaysOff if is_whole else Qt.ScrollBarPolicy.ScrollBarAsNeeded
        self.setHorizontalScrollBarPolicy(policy)
        self.setVerticalScrollBarPolicy(policy)

    def _wants(self, event: QKeyEvent) -> bool:
        if event.key() == Qt.Key.Key_Escape:
            return self._hand.is_busy or bool(self.held_key)
        return Qt.Key(event.key()) in _OWN_KEYS

    def _under(self, pixel: QPointF) -> Placed | None:
        return nearest(self._placed, self.place_of(pixel), _REACH_PX / self.transform().m11())

    def _look_at(self, pixel: QPointF) -> None:
        found = self._under(pixel)
        self._set_near(found.key if found else "")
        can_take = found is not None and self._can_move
        shape = Qt.CursorShape.SizeAllCursor if can_take else Qt.CursorShape.ArrowCursor
        self.viewport().setCursor(shape)

    def _set_near(self, key: str) -> None:
        if key != self.near_key:
            self.near_key = key
            self._describe()
            self.viewport().update()

    def _describe(self) -> None:
        key = self.near_key or self.held_key
        found = next((one for one in self._placed if one.key == key), None)
        if found is None or not self._can_move:
            words = ""
        elif found.is_off:
            words = (
                f"“{words_of(found.dimension)}” is switched off: Space or a double click puts it on the sheet again."
            )
        else:
            words = (
                f"“{words_of(found.dimension)}”: drag or arrow keys move it, Delete or a double click switches it off."
            )
        self.described.emit(words)
        self.setAccessibleDescription(words)

    def _show_shifts(self) -> None:
        sheet = self._sheet
        self._placed = () if sheet is None else placed(sheet, self._hand.shifts)
        top = 0.0 if sheet is None else sheet.height_mm
        for one in self._placed:
            if self._inked.get(one.key) != one.dimension:
                self._inked[one.key] = one.dimension
                self._inks[one.key] = inked([one.dimension], top, self._letters)
        if self.held_key and self._held is None:
            self.hold("")
        self._describe()
        self.viewport().update()

    def _draw_frame(self, painter: QPainter, bounds: QRectF, least_mm: float) -> None:
        by = 3 * least_mm
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(_OFF, least_mm))
        painter.drawRect(bounds.adjusted(-by, -by, by, by))
