"""Measuring in both views at once: taken up together, ended together."""

from __future__ import annotations

from grillestack.app.canvas.front_view import FrontView
from grillestack.app.canvas.gestures.measure import MeasureTool
from grillestack.app.canvas.gestures.measure_targets import front_targets, side_targets
from grillestack.app.canvas.mm_view import MmView
from grillestack.app.canvas.side_strip import SideStrip
from grillestack.app.session import Session


class Measuring:
    """Puts a measuring hand into the front view and into the side view beside it."""

    def __init__(self, session: Session, front: FrontView, side: SideStrip) -> None:
        self._session = session
        self._views = {front: front_targets, side: side_targets}
        self._front = front
        for view in self._views:
            view.tool_ended.connect(self._end_both)

    @property
    def is_on(self) -> bool:
        """Return whether a measuring hand is in one of the views."""
        return any(_measures(view) for view in self._views)

    def switch(self) -> None:
        """Begin to measure, or end it."""
        if self.is_on:
            self._end_both()
            return
        for view, targets in self._views.items():
            view.take_tool(MeasureTool(self._session, targets, view.across_sign))
        self._front.setFocus()

    def _end_both(self) -> None:
        for view in self._views:
            if _measures(view):
                view.put_tool_away()


def _measures(view: MmView) -> bool:
    return isinstance(view.tool, MeasureTool)
