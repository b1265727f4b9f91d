"""A small reckoner under an opening's free area: from bar width and pitch to the share, with the formula in sight."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QComboBox, QLabel, QPushButton

from grillestack.app.panels.field import QuantityField
from grillestack.app.panels.form import Form, Slot
from grillestack.app.panels.quiet_box import QuietBox
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.geometry.free_area import Screen, free_area_frac
from grillestack.model.project import Project
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

_FORMULAS = {Screen.BARS: "(pitch − bar) / pitch", Screen.MESH: "((pitch − wire) / pitch)²"}
_ASKS = "Type the width of a bar and the pitch from bar to bar to reckon the free area."


class FreeArea:
    """Reckons the share as soon as both lengths are typed, and puts it in the document when asked to."""

    def __init__(self, form: Form, session: Session, slot: Slot) -> None:
        self._session = session
        self._slot = slot
        self._sizes: dict[str, float | None] = {"bar": None, "pitch": None}
        self._share_frac: float | None = None
        self.screen: QComboBox = QuietBox()
        self.screen.setAccessibleName("Bars or mesh")
        for screen in Screen:
            self.screen.addItem(said(screen.value), screen)
        form.row("Crossed by", self.screen)
        self.bar = self._field(form, "Bar width", "bar")
        self.pitch = self._field(form, "Pitch", "pitch")
        self.words: QLabel = form.note(_ASKS)
        self.words.setAccessibleName("Free area from bars")
        self.take: QPushButton = form.act("Use this free area", self._use)
        self.screen.activated.connect(lambda _index: self._reckon())
        form.follow(self._refresh)
        self._reckon()

    def _field(self, form: Form, label: str, key: str) -> QuantityField:
        field = QuantityField(label, Dimension.LENGTH, optional=True)
        field.committed.connect(self._taker(field, key))
        form.row(label, field)
        return field

    def _taker(self, field: QuantityField, key: str) -> Callable[[object], None]:
        def take(value: object) -> None:
            self._sizes[key] = value if isinstance(value, float) else None
            field.show_value(self._sizes[key], self._session.units)
            self._reckon()

        return take

    def _refresh(self, _project: Project) -> None:
        for field, key in ((self.bar, "bar"), (self.pitch, "pitch")):
            field.show_value(self._sizes[key], self._session.units)

    def _reckon(self) -> None:
        bar_mm, pitch_mm = self._sizes["bar"], self._sizes["pitch"]
        screen: Screen = self.screen.currentData()
        self._share_frac, said = None, _ASKS
        if bar_mm is not None and pitch_mm is not None:
            try:
                self._share_frac = free_area_frac(screen, bar_mm, pitch_mm)
                share = show_quantity(self._share_frac, Dimension.FRACTION, self._session.units)
                said = f"Free area = {_FORMULAS[screen]} = {share}"
            except ValueError as refusal:
                said = str(refusal)
        self.words.setText(said)
        self.take.setEnabled(self._share_frac is not None)

    def _use(self) -> None:
        if self._share_frac is not None:
            project = self._slot.write(self._session.project, self._share_frac)
            self._session.apply("change free area", project)
