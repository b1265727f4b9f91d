"""The drawer below the nose: shut, it is a bar that opens it; open, it shows the pack from above."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QSizePolicy, QSplitter, QToolButton, QVBoxLayout, QWidget

from grillestack.app.canvas.front_view import FrontView
from grillestack.app.canvas.plan_view import PlanView
from grillestack.app.said import said

_OPEN_WORDS, _SHUT_WORDS = "▴ View from above", "▾ View from above"
_SHARE_FRAC = 0.36


class PlanDrawer(QWidget):
    """The front view with the drawer under it."""

    turned = Signal(bool)

    def __init__(self, front: FrontView, plan: PlanView) -> None:
        super().__init__()
        self.plan = plan
        self._shared = QSplitter(Qt.Orientation.Vertical)
        self._shared.addWidget(front)
        self._shared.addWidget(plan)
        self._shared.setChildrenCollapsible(False)
        self._shared.setHandleWidth(3)
        self._shared.setStretchFactor(0, 1)
        self.handle = QToolButton()
        self.handle.setObjectName("drawer")
        self.handle.setAutoRaise(True)
        self.handle.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.handle.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.handle.clicked.connect(lambda _checked=False: self.show_plan(is_open=not self.is_open))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self._shared, 1)
        layout.addWidget(self.handle)
        plan.hide()
        self._show_words()

    @property
    def is_open(self) -> bool:
        """Return whether the pack is shown from above."""
        return not self.plan.isHidden()

    def show_plan(self, *, is_open: bool) -> None:
        """Open the drawer, or shut it."""
        if is_open == self.is_open:
            return
        self.plan.setVisible(is_open)
        if is_open:
            whole = self._shared.height()
            self._shared.setSizes([round(whole * (1 - _SHARE_FRAC)), round(whole * _SHARE_FRAC)])
        self._show_words()
        self.turned.emit(is_open)

    def _show_words(self) -> None:
        self.handle.setText(said(_SHUT_WORDS) if self.is_open else said(_OPEN_WORDS))
        spoken = said("Shut the view from above") if self.is_open else said("Open the view from above")
        self.handle.setAccessibleName(spoken)
        self.handle.setToolTip(spoken)
