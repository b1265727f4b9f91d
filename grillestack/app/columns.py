"""How wide are the columns of the window, and what gives way in a narrow one: the nose is the last."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSplitter, QWidget

_LEFT_PX, _LEAST_LEFT_PX = 288, 248
_RIGHT_PX, _LEAST_RIGHT_PX = 324, 296
_LEAST_SIDE_PX = 190
_LEAST_FRONT_PX = 280
_WIDE_PX = 1280  # from here on the outer columns have their full width
_LEAST_HEIGHT_PX = 240
_BAR_PX = 12  # for the bar of a column that scrolls, as it does in a window so narrow that it is low too
_EDGE_PX, _BENCH_EDGE_PX = 1, 14


class Outer(enum.Enum):
    """An outer column, which may be folded away."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Widths:
    """The widths of the columns in pixels; a column of no width is not shown."""

    left_px: int
    front_px: int
    side_px: int
    right_px: int


def widths_in(whole_px: int, open_columns: tuple[Outer, ...] = tuple(Outer), size_factor: float = 1.0) -> Widths:
    """Return how a window of this width is shared out: at first the outer columns give way, then the side strip goes.

    `open_columns` are those that are wanted; where there is no room for both, the last one of them stays. With larger
    letters the columns are wider by `size_factor`.
    """
    missing_px = max(0, _WIDE_PX - whole_px)
    left_px = round(size_factor * max(_LEAST_LEFT_PX, _LEFT_PX - missing_px // 4)) if Outer.LEFT in open_columns else 0
    least_right_px = _LEAST_RIGHT_PX + (_BAR_PX if len(open_columns) == 1 else 0)
    right_px = (
        round(size_factor * max(least_right_px, _RIGHT_PX - missing_px // 4)) if Outer.RIGHT in open_columns else 0
    )
    if len(open_columns) > 1 and whole_px - left_px - right_px < _LEAST_FRONT_PX:
        return widths_in(whole_px, open_columns[-1:], size_factor)
    middle_px = whole_px - left_px - right_px
    side_px = max(round(size_factor * _LEAST_SIDE_PX), middle_px // 3)
    if middle_px - side_px < size_factor * _LEAST_FRONT_PX:
        side_px = 0
    return Widths(left_px, middle_px - side_px, side_px, right_px)


class Columns(QSplitter):
    """The columns side by side; they share out the window until somebody moves one of their edges."""

    turned = Signal()

    def __init__(self, left: QWidget, front: QWidget, side: QWidget, right: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self._outer = {Outer.LEFT: left, Outer.RIGHT: right}
        self._wanted: tuple[Outer, ...] = tuple(Outer)
        self._size_factor = 1.0
        self._side = side
        self._right = right
        self._guest: QWidget | None = None
        self._before_guest: list[int] = []
        self._moved = False
        for column in (left, front, side, right):
            self.addWidget(column)
        self.setChildrenCollapsible(False)
        self.setHandleWidth(_EDGE_PX)
        self.setStretchFactor(1, 2)
        self.setStretchFactor(2, 1)
        self.splitterMoved.connect(self._keep)

    def minimumSizeHint(self) -> QSize:
        """Return the room for the nose beside one column: what more there is may be folded away."""
        return QSize(round(_LEAST_RIGHT_PX * self._size_factor) + _LEAST_FRONT_PX // 2, _LEAST_HEIGHT_PX)

    def is_open(self, column: Outer) -> bool:
        """Return whether that column is shown."""
        return not self._outer[column].isHidden()

    def turn(self, column: Outer, *, is_open: bool) -> None:
        """Open that column or fold it away; where there is no room for both, the other one gives way."""
        others = tuple(one for one in self._wanted if one is not column)
        self._wanted = (*others, column) if is_open else others
        self._moved = False
        self._share()
        self.turned.emit()

    def enlarge(self, size_factor: float) -> None:
        """Have columns wider by this factor, and edges that a finger can take hold of if it is more than one."""
        self._size_factor = size_factor
        self.setHandleWidth(_BENCH_EDGE_PX if size_factor > 1.0 else _EDGE_PX)
        self._moved = False
        self._share()

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
        wanted = self._wanted
        if self._guest is not None:
            wanted = (*(one for one in wanted if one is not Outer.RIGHT), Outer.RIGHT)  # there the guest stands
        widths = widths_in(self.width(), wanted, self._size_factor)
        shares = [widths.left_px, widths.front_px, widths.side_px, widths.right_px]
        self._outer[Outer.LEFT].setVisible(widths.left_px > 0)
        self._right.setVisible(self._guest is None and widths.right_px > 0)
        if self._guest is None:
            self._side.setVisible(widths.side_px > 0)
            self.setSizes(shares)
        else:
            self.setSizes([*shares[:2], 0, 0, sum(shares[2:])])

    def _keep(self, _position: int, _edge: int) -> None:
        self._moved = True
