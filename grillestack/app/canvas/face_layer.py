"""The painted face on the front view: what is shown, its legend and the switch that stands in the legend's strip."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QEvent, QObject, QRectF, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QWidget

from grillestack.app.canvas.face_show import FaceChoice, FaceShow
from grillestack.app.canvas.face_switch import FaceSwitch
from grillestack.app.canvas.front_sheet import FrontSheet
from grillestack.app.canvas.items.legend import Legend, legend_height_px, legend_row_px
from grillestack.app.palette import Palette
from grillestack.app.session import Session

_ASIDE_PX = 6
_MOST_SHARE_FRAC = 0.36  # of a low view; a larger legend gives way to the nose


class FaceLayer(QObject):
    """Keeps the painted face, its legend and its switch in step with what is shown."""

    changed = Signal()

    def __init__(self, session: Session, port: QWidget, sheet: FrontSheet) -> None:
        super().__init__(port)
        self._session = session
        self._port = port
        self._sheet = sheet
        self._strip: Callable[[], QRectF] = QRectF
        self.legend: Legend | None = None
        self._switch_state: tuple[object, ...] = ()
        self.choice = FaceChoice(session, self)
        self.switch = FaceSwitch(session, self.choice, port)
        self.choice.changed.connect(self.changed)
        port.installEventFilter(self)
        self.switch.installEventFilter(self)

    @property
    def follows_selection(self) -> bool:
        """Return whether another selection shows another face."""
        return self.choice.show is not FaceShow.AHEAD

    def stand_in(self, strip: Callable[[], QRectF]) -> None:
        """Let the switch stand at the right end of this strip from now on."""
        self._strip = strip
        self._place()

    def show_face(self, palette: Palette) -> None:
        """Paint what is chosen of what is shown."""
        painted = self.choice.painted()
        self.legend = painted.legend
        self._sheet.show_face(painted, palette)
        state = (self.choice.show, self.legend is None, palette)
        if state != self._switch_state:
            # To lay a widget out costs more than all it says; a drag changes nothing of it.
            self._switch_state = state
            self.switch.follow()
            self.switch.setVisible(self.legend is not None)
        self._place()

    def legend_px(self, font: QFont, width_px: float) -> float:
        """Return the height that the legend takes at this width, with the switch over its first row's right end."""
        height_px = legend_height_px(self.shown_legend(font, width_px), font, width_px, self.switch_px)
        return height_px + self.switch_over_px(font) if height_px else 0.0

    def shown_legend(self, font: QFont, width_px: float) -> Legend | None:
        """Return the legend, or its title alone where the whole would take the room of the nose."""
        whole = self.legend
        if (
            whole is None
            or legend_height_px(whole, font, width_px, self.switch_px) <= _MOST_SHARE_FRAC * self._port.height()
        ):
            return whole
        return replace(whole, entries=(), bar=None, is_message=True)

    def switch_over_px(self, font: QFont) -> float:
        """Return by how much the switch is higher than a row of the legend."""
        return max(0.0, self.switch.height() + 4.0 - legend_row_px(font))

    @property
    def switch_px(self) -> float:
        """Return the width that the switch takes in the legend's first row."""
        return float(self.switch.width() + 2 * _ASIDE_PX) if self.legend is not None else 0.0

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Move the switch with the edge of the view, and when it grows."""
        if event.type() == QEvent.Type.Resize:
            self._place()
            if watched is self.switch:
                self._port.update()
        return super().eventFilter(watched, event)

    def _place(self) -> None:
        strip = self._strip()
        self.switch.move(round(strip.right()) - self.switch.width() - _ASIDE_PX, round(strip.top()) + 2)
