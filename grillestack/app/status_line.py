"""The line at the foot of the window: where the pointer is, the units, and what is saved."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QButtonGroup, QLabel, QStatusBar, QToolButton

from grillestack.app.bench_mode import BenchMode
from grillestack.app.files import FileDesk
from grillestack.app.quiet_words import QuietWords
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_REFRESH_MS = 5000
_SHOW_MESSAGE_MS = 8000


class StatusLine(QStatusBar):
    """Tells, and switches the units."""

    def __init__(self, session: Session, desk: FileDesk, bench: BenchMode) -> None:
        super().__init__()
        self._session = session
        self._desk = desk
        self._kept = False
        self.setAccessibleName("Status line")
        self.setSizeGripEnabled(False)
        self.place = QuietWords("Place of the pointer")
        self.saved = QLabel()
        self.saved.setAccessibleName("What is saved")
        self.saved.setContentsMargins(8, 0, 8, 0)
        self.addWidget(self.place, 1)
        self.bench = _switch("bench", "Bench mode: large for a touch screen or gloves")
        self.bench.clicked.connect(lambda is_on: bench.switch(is_on=is_on))
        bench.changed.connect(self.bench.setChecked)
        self.addPermanentWidget(self.bench)
        self._units: dict[UnitSystem, QToolButton] = {}
        group = QButtonGroup(self)
        for system, words, spoken in (
            (UnitSystem.METRIC, "mm", "Show millimetres"),
            (UnitSystem.INCH, "in", "Show inches"),
        ):
            self._units[system] = _switch(words, spoken)
            group.addButton(self._units[system])
            self._units[system].clicked.connect(lambda _checked=False, system=system: session.set_units(system))
            self.addPermanentWidget(self._units[system])
        self.addPermanentWidget(self.saved)
        self._timer = QTimer(self)
        self._timer.setInterval(_REFRESH_MS)
        self._timer.timeout.connect(self.show_saved)
        session.message.connect(lambda sentence: self.showMessage(sentence, _SHOW_MESSAGE_MS))
        session.units_changed.connect(self._show_units)
        session.clean_changed.connect(lambda _clean: self._changed())
        session.project_changed.connect(lambda _old, _new: self._changed())
        session.file_changed.connect(lambda _path: self._changed())
        desk.kept.connect(self._note_kept)
        self._show_units(session.units)
        self.show_saved()

    def show_front_place(self, y_mm: float, z_mm: float) -> None:
        """Tell where the pointer is on the nose."""
        side = "right of centre" if y_mm >= 0 else "left of centre"
        self.place.setText(f"height {self._length(z_mm)} · {self._length(abs(y_mm))} {side}")

    def show_side_place(self, x_mm: float, z_mm: float) -> None:
        """Tell where the pointer is in the side strip."""
        behind = x_mm - self._session.shown.nose.stations.grille_x_mm
        side = "behind the grille" if behind >= 0 else "ahead of the grille"
        self.place.setText(f"height {self._length(z_mm)} · {self._length(abs(behind))} {side}")

    def show_plan_place(self, y_mm: float, x_mm: float) -> None:
        """Tell where the pointer is in the view from above."""
        behind = x_mm - self._session.shown.nose.stations.grille_x_mm
        side = "right of centre" if y_mm >= 0 else "left of centre"
        way = "behind the grille" if behind >= 0 else "ahead of the grille"
        self.place.setText(f"{self._length(abs(behind))} {way} · {self._length(abs(y_mm))} {side}")

    def show_saved(self) -> None:
        """Tell whether the document is in a file, and since when."""
        self.saved.setText(self._saved_words())

    def showEvent(self, event: object) -> None:
        """Count the time only while there is somebody to see it."""
        super().showEvent(event)  # type: ignore[arg-type]  # handed on as Qt gave it
        self._timer.start()

    def hideEvent(self, event: object) -> None:
        """Stop counting."""
        super().hideEvent(event)  # type: ignore[arg-type]  # handed on as Qt gave it
        self._timer.stop()

    def _saved_words(self) -> str:
        if not self._session.is_clean:
            return said("not saved · kept for recovery") if self._kept else said("not saved")
        since = self._desk.seconds_since_saved
        if since is None:
            return said("as in the file") if self._session.path else said("nothing to save")
        return said("saved {time} ago", time=since_words(since))

    def _changed(self) -> None:
        self._kept = False
        self.show_saved()

    def _note_kept(self) -> None:
        self._kept = True
        self.show_saved()

    def _show_units(self, system: UnitSystem) -> None:
        self._units[system.base].setChecked(True)
        self.place.clear()

    def _length(self, value_mm: float) -> str:
        return show_quantity(value_mm, Dimension.LENGTH, self._session.units)


def since_words(seconds: float) -> str:
    """Return a time as one says it: 12 s, 3 min, 2 h."""
    if seconds < 60:
        return f"{int(seconds)} s"
    return f"{int(seconds / 60)} min" if seconds < 3600 else f"{int(seconds / 3600)} h"


def _switch(words: str, spoken: str) -> QToolButton:
    button = QToolButton()
    button.setObjectName("unit")
    button.setText(said(words))
    button.setCheckable(True)
    button.setAccessibleName(said(spoken))
    button.setToolTip(said(spoken))
    return button
