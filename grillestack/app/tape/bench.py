"""The act of measuring a part: open the form beside the nose, keep the draft, put the part where it belongs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from grillestack.app.palette import Palette
from grillestack.app.session import Session
from grillestack.app.tape.taped import Taped
from grillestack.model.parts import Core, Part
from grillestack.storage.catalogue import CatalogueFileError, save_own_part

if TYPE_CHECKING:  # a panel is loaded when it is opened, or the window would come later for it
    from grillestack.app.tape.panel import TapePanel

PUT_ASIDE = "What you measured is kept: Pack, Measure a part goes on with it."


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """What measuring is given of the window."""

    show_beside: Callable[[QWidget | None], None]
    add: Callable[[Part], None]
    shelf_changed: Callable[[], None]
    say: Callable[[str, Sequence[tuple[str, Callable[[], None]]]], None]
    palette: Callable[[], Palette]
    back_to_nose: Callable[[], None]


class TapeBench(QObject):
    """At most one part is being measured; put aside, it is gone on with the next time."""

    def __init__(self, session: Session, place: Place, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._place = place
        self._draft: Taped | None = None
        self.panel: TapePanel | None = None

    def begin(self) -> None:
        """Open the form, with what was put aside if there is some, or with what stands in one that had to give way."""
        from grillestack.app.tape.panel import TapePanel

        if self.panel is not None:
            self.panel.page.settle()
            self._draft = self.panel.taped
        self._close()
        panel = self.panel = TapePanel(self._session, self._place.palette(), self._draft)
        panel.measured.connect(self._take)
        panel.put_aside.connect(self.put_aside)
        self._place.show_beside(panel)
        panel.begin()

    def put_aside(self) -> None:
        """Close the form and keep what was measured."""
        panel = self.panel
        if panel is None:
            return
        kept = panel.taped
        self._close()
        self._place.back_to_nose()
        if kept != Taped():
            self._draft = kept
            self._place.say(PUT_ASIDE, [("Throw it away", self._throw_away)])

    def show_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        if self.panel is not None:
            self.panel.show_palette(palette)

    def _take(self, core: Core, keep: bool) -> None:  # noqa: FBT001  the signal hands it over by place
        part: Part = core
        if keep:
            try:
                part = save_own_part(core)
            except CatalogueFileError as error:
                if self.panel is not None:
                    self.panel.complaint.say(f"{error} Clear the tick to put it on the nose alone.")
                return
            self._place.shelf_changed()
        self._draft = None
        self._close()
        self._place.back_to_nose()
        self._place.add(part)

    def _throw_away(self) -> None:
        self._draft = None

    def _close(self) -> None:
        panel, self.panel = self.panel, None
        if panel is None:
            return
        self._place.show_beside(None)
        panel.deleteLater()
