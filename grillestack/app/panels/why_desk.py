"""Who answers when a figure is asked why: one sheet over the column, opened at the figure and kept true while it stands."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QPoint, QRect
from PySide6.QtWidgets import QApplication, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.why_panel import WhyPanel
from grillestack.assess.figure import Quantity, Subject, Why
from grillestack.assets.sources import sources
from grillestack.units.display import UnitSystem

_EDGE_PX = 6
_GONE = Why(
    title="Not there any more",
    quantity=Quantity(),
    says="This figure is not known now, or is being worked out anew.",
    method="",
)


class WhyDesk(QObject):
    """Opens the sheet, asks anew when the answer may have changed, and gives the focus back when it is put away."""

    def __init__(self, column: QWidget, palette: Palette, answer: Callable[[Subject], Why | None]) -> None:
        super().__init__(column)
        self._column = column
        self._answer = answer
        self._asker: QWidget | None = None
        self._subject: Subject | None = None
        self._units = UnitSystem.METRIC
        self.panel = WhyPanel(palette, sources(), column)
        self.panel.closed.connect(self.close)
        column.installEventFilter(self)

    def ask(self, asker: QWidget, subject: Subject | None, units: UnitSystem) -> None:
        """Open the sheet at the widget that asks; asked again by the same, put it away."""
        if subject is None:
            return
        if (asker, subject) == (self._asker, self._subject) and not self.panel.isHidden():
            self.close()
            return
        self._asker, self._subject, self._units = asker, subject, units
        self.panel.show()
        self.refresh(units)
        self.panel.setFocus()
        self.panel.focus_first()

    def refresh(self, units: UnitSystem) -> None:
        """Ask anew if the sheet stands open."""
        if self.panel.isHidden() or self._subject is None:
            return
        self._units = units
        self.panel.show_why(self._answer(self._subject) or _GONE, units)
        self.place()

    def place(self) -> None:
        """Let the sheet stand at the figure, wherever that now is in the column."""
        if self.panel.isHidden() or self._asker is None:
            return
        at = self._asker.mapTo(self._column, QPoint(0, 0))
        room = self._column.rect().adjusted(_EDGE_PX, _EDGE_PX, -_EDGE_PX, -_EDGE_PX)
        self.panel.stand_at(QRect(at, self._asker.size()).intersected(self._column.rect()), room)

    def close(self) -> None:
        """Put the sheet away; the figure that was asked has the focus again if the sheet had it."""
        focused = QApplication.focusWidget()
        had_focus = focused is not None and (focused is self.panel or self.panel.isAncestorOf(focused))
        self.panel.hide()
        if had_focus and self._asker is not None and self._asker.isVisible():
            self._asker.setFocus()
        self._asker = self._subject = None

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self.panel.show_palette(palette)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow the column when it is resized."""
        if event.type() is QEvent.Type.Resize:
            self.place()
        return super().eventFilter(watched, event)
