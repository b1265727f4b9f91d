"""The arrow keys on the sheets: what is selected moves as it moves on the screen, or the chosen corner of an outline does."""

from __future__ import annotations

from typing import Final, Protocol

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QWidget

Step = tuple[int, int, int]

# Rearward, right, up: the front view mirrors the vehicle, the side shows its left.
_ACROSS: Final[dict[str, Step]] = {"Left": (0, 1, 0), "Right": (0, -1, 0)}
_ALONG: Final[dict[str, Step]] = {"Left": (-1, 0, 0), "Right": (1, 0, 0)}
_UPRIGHT: Final[dict[str, Step]] = {"Up": (0, 0, 1), "Down": (0, 0, -1)}
FRONT_STEPS: Final = _ACROSS | _UPRIGHT
SIDE_STEPS: Final = _ALONG | _UPRIGHT
PLAN_STEPS: Final = _ACROSS | {"Up": (1, 0, 0), "Down": (-1, 0, 0)}


class Stepper(Protocol):
    """What moves something by steps along the vehicle's axes."""

    def step(self, rearward: int, right: int, up: int, *, large: bool) -> None:
        """Move by so many steps, small or large ones."""


def add_arrow_keys(view: QWidget, steps: dict[str, Step], stepper: Stepper) -> None:
    """Give the view its arrow keys, with Shift for large steps."""
    for key, way in steps.items():
        for large in (False, True):
            action = QAction(f"Move {key.lower()}", view)
            action.setShortcut(QKeySequence(f"Shift+{key}" if large else key))
            action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            action.triggered.connect(lambda _checked=False, way=way, large=large: stepper.step(*way, large=large))
            view.addAction(action)
