"""The act of making drawings: the page opened in the place of the nose, and left again; made the first time it is wanted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.session import Session
from grillestack.app.sheets.maker import SheetMaker
from grillestack.app.sheets.questions import SheetQuestions
from grillestack.app.workers.further import Worker

if TYPE_CHECKING:  # a page is loaded when it is opened, or the window would come later for it
    from grillestack.app.sheets.page import SheetPage


@dataclass(frozen=True, slots=True)
class SheetPlace:
    """What the drawings are given of the window: whose place the page takes, and how whatever else is open gives way."""

    nose: QWidget
    clear: Callable[[], None]
    palette: Callable[[], Palette]
    back_to_nose: Callable[[], None]


class SheetBench(QObject):
    """At most one page."""

    def __init__(
        self,
        session: Session,
        place: SheetPlace,
        make: Callable[[], Worker],
        questions: SheetQuestions,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._place = place
        self._questions = questions
        self.maker = SheetMaker(session, make, self)
        self.page: SheetPage | None = None

    @property
    def is_open(self) -> bool:
        """Return whether the page is shown."""
        return self.page is not None

    def begin(self) -> SheetPage:
        """Open the page, or go on with it."""
        from grillestack.app.sheets.page import SheetPage

        if self.page is not None:
            return self.page
        self._session.end_trial()
        self._place.clear()
        page = self.page = SheetPage(self._session, self._place.palette(), self.maker, self._questions)
        page.left.connect(self.leave)
        nose, whole = self._place.nose, self._place.nose.parentWidget()
        room = whole.layout() if whole is not None else None
        nose.hide()  # first: the nose and this page do not fit into the window together
        if isinstance(room, QBoxLayout):
            room.addWidget(page, 1)
        page.show()
        self.maker.begin()
        page.paper.setFocus()
        return page

    def leave(self) -> None:
        """Give the nose its place back."""
        page, self.page = self.page, None
        if page is None:
            return
        page.export.stop()
        self.maker.rest()
        page.hide()
        page.deleteLater()
        self._place.nose.show()
        self._place.back_to_nose()

    def end(self) -> None:
        """End the second process: the window closes."""
        self.maker.close()

    def export(self, ending: str) -> None:
        """Open the page and ask where to write the drawings."""
        self.begin().export.ask(ending)

    def print(self) -> None:
        """Print the drawings through the system's dialog; they must be on screen first."""
        page = self.begin()
        if not self.maker.sheets:
            self._session.message.emit("The drawings are being made: print them when they are on the page.")
            return
        page.print()

    def put_all_back(self) -> None:
        """Put every dimension where and as the drawing has it."""
        self.begin().hand.put_all_back()

    def show_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        if self.page is not None:
            self.page.show_palette(palette)
