"""How wide are the columns of the window, and what gives way in a narrow one: the nose is the last."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSplitter, QWidget

_LEFT_PX, _LEAST_LEFT_PX = 288, 248
_RIGHT_PX, _LEAST_RIGHT_PX = 324, 296
_LEAST_SIDE_PX = 190
_LEAST_FRONT_PX = 280
_WIDE_PX = 1280  # from here on the outer columns have their full width


@dataclass(frozen=True, slots=True)
class Widths:
    """The widths of the columns in pixels; a side strip of no width is not shown."""

    left_px: int
    front_px: int
    side_px: int
    right_px: int


def widths_in(whole_px: int) -> Widths:
    """Return how a window of this width is shared out: at first the outer columns give way, then the side strip goes."""
    missing_px = max(0, _WIDE_PX - whole_px)
    left_px = max(_LEAST_LEFT_PX, _LEFT_PX - missing_px // 4)
    right_px = max(_LEAST_RIGHT_PX, _RIGHT_PX - missing_px // 4)
    middle_px = whole_px - left_px - right_px
    side_px = max(_LEAST_SIDE_PX, middle_px // 3)
    if middle_px - side_px < _LEAST_FRONT_PX:
        side_px = 0
    return Widths(left_px, middle_px - side_px, side_px, right_px)


class Columns(QSplitter):
    """The columns side by side; they share out the window until somebody moves one of their edges."""

    def __init__(self, left: QWidget, front: QWidget, side: QWidget, right: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self._side = side
        self._right = right
        self._guest: QWidget | None = None
        self._before_guest: list[int] = []
        self._moved = False
        for column in (left, front, side, right):
            self.addWidget(column)
        self.setChildrenCollapsible(False)
        self.setHandleWidth(1)
        self.setStretchFactor(1, 2)
        self.setStretchFactor(2, 1)
        self.splitterMoved.connect(self._keep)

    def show_beside(self, guest: QWidget | None) -> None:
        """Lend the room of side strip and verdict to something that needs the nose beside it; nothing gives it back."""
        old, self._guest = self._guest, guest
        if old is not None:
            old.hide()
            old.setParent(None)
        if guest is not None:
            self._before_guest = self._before_guest or self.sizes()
            self.insertWidget(self.count(), guest)
            guest.show()
        self._side.setVisible(guest is None)
        self._right.setVisible(guest is None)
        self._share()
        if guest is None and self._moved:
            self.setSizes(self._before_guest)
        if guest is None:
            self._before_guest = []

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share out the new width."""
        super().resizeEvent(event)
        if not self._moved:
            self._share()

    def _share(self) -> None:
        widths = widths_in(self.width())
        shares = [widths.left_px, widths.front_px, widths.side_px, widths.right_px]
        if self._guest is None:
            self._side.setVisible(widths.side_px > 0)
            self.setSizes(shares)
        else:
            self.setSizes([*shares[:2], 0, 0, sum(shares[2:])])

    def _keep(self, _position: int, _edge: int) -> None:
        self._moved = True
