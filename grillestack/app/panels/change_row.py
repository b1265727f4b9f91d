"""One rung of what to change first: what to do, what it buys, what it brings, and the two things to press."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QSizePolicy, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.answer_section import ink_label
from grillestack.app.panels.further_words import bought_words, kept_together
from grillestack.app.panels.link import Link
from grillestack.app.panels.verdict_marks import Mark, MarkSign
from grillestack.app.panels.why_spot import WhySpot
from grillestack.assess.figure import FigureName, Subject
from grillestack.units.display import UnitSystem

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.advice.ladder import Rung

_SIGN_PX = 14


class ChangeRow(QWidget):
    """Shows a rung; an old one, of before the last change, is faint and cannot be done."""

    show_requested = Signal(object)  # tuple[str, ...]: ids of the parts the change is about
    do_requested = Signal(object)  # Rung
    why_asked = Signal(object)  # WhySpot

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._rung: Rung | None = None
        self._is_old = False
        self._title, self._bought, self._words = QLabel(self), QLabel(self), QLabel(self)
        self._after, self._brings = QLabel(self), QLabel(self)
        self._sign = MarkSign(palette, _SIGN_PX, self)
        self.show_me = Link("show me", palette, self)
        self.do_it = Link("do it", palette, self)
        self._place = 0
        self._grid = QGridLayout(self)
        self.spot = WhySpot(palette, self)
        self.spot.clicked.connect(lambda _checked=False: self.why_asked.emit(self.spot))
        self.show_me.clicked.connect(self._ask_to_show)
        self.do_it.clicked.connect(self._ask_to_do)
        self._lay_out()
        self.show_palette(palette)

    @property
    def rung(self) -> Rung | None:
        """Return the rung that is shown."""
        return self._rung

    def show_rung(self, rung: Rung, units: UnitSystem, place: int, *, is_old: bool) -> None:
        """Show that rung, which stands at that place of the ladder."""
        self._rung, self._is_old, self._place = rung, is_old, place
        bought = bought_words(rung, units)
        brings = "; ".join(rung.side_effects)
        self._title.setText(kept_together(rung.title))
        self._bought.setText(bought)
        self._words.setText(kept_together(rung.words))
        self._after.setText(kept_together(rung.verdict_reason))
        self._sign.show_mark(Mark(rung.verdict_after.value))
        self._brings.setText(kept_together(f"It {brings}.") if brings else "")
        self._brings.setVisible(bool(brings))
        self._words.setVisible(bool(rung.words))
        self.show_me.setVisible(bool(rung.parts))
        for link in (self.show_me, self.do_it):
            link.setEnabled(not is_old)
            link.setAccessibleName(f"{link.text()}: {rung.title}")
        self.do_it.setAccessibleDescription(f"{bought}. {rung.verdict_reason} One step; Undo takes it back.")
        self.do_it.setToolTip("Changes the pack in one step; Undo takes it back.")
        self.setAccessibleName(f"{rung.title}: {bought}")
        self.setAccessibleDescription(" ".join(w for w in (rung.words, rung.verdict_reason, self._brings.text()) if w))
        self._ink()
        self._place_spot()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        for part in (self.show_me, self.do_it, self.spot):
            part.show_palette(palette)
        self._ink()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let what can be asked about stay over its figure."""
        super().resizeEvent(event)
        self._place_spot()

    def _place_spot(self) -> None:
        if self._rung is None or self._is_old:
            self.spot.hide()
            return
        self._grid.activate()
        box, metrics = QRectF(self._bought.geometry()), QFontMetrics(self._bought.font())
        words_px = float(metrics.horizontalAdvance(self._bought.text()))
        over = QRectF(box.right() - words_px, box.top(), words_px, metrics.height() + 1.0)
        self.spot.lie_over(over, Subject(FigureName.GAIN, "", self._place), self.accessibleName())
        self.spot.raise_()

    def _ask_to_show(self) -> None:
        if self._rung is not None:
            self.show_requested.emit(self._rung.parts)

    def _ask_to_do(self) -> None:
        if self._rung is not None:
            self.do_requested.emit(self._rung)

    def _ink(self) -> None:
        palette = self._palette
        self._sign.show_palette(_without_verdicts(palette) if self._is_old else palette)
        for label in (self._title, self._bought, self._after):
            ink_label(label, palette.faint_ink if self._is_old else palette.ink)
        ink_label(self._words, palette.faint_ink)
        over = bool(self._rung and self._rung.spoils) and not self._is_old
        ink_label(self._brings, palette.warning if over else palette.faint_ink)

    def _lay_out(self) -> None:
        bold = QFont(self.font())
        bold.setBold(True)
        for label in (self._title, self._bought):
            label.setFont(bold)
        for label in (self._title, self._words, self._after, self._brings):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._bought.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        grid = self._grid
        grid.setContentsMargins(0, 2, 0, 6)
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(3)
        grid.setColumnStretch(1, 1)
        grid.addWidget(self._title, 0, 0, 1, 2)
        grid.addWidget(self._bought, 0, 2)
        grid.addWidget(self._words, 1, 0, 1, 3)
        grid.addWidget(self._sign, 2, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self._after, 2, 1, 1, 2)
        grid.addWidget(self._brings, 3, 1, 1, 2)
        links = QHBoxLayout()
        links.setSpacing(8)
        links.addWidget(self.show_me)
        links.addWidget(self.do_it)
        links.addStretch(1)
        grid.addLayout(links, 4, 0, 1, 3)


def _without_verdicts(palette: Palette) -> Palette:
    """Return the palette with faint ink for every verdict."""
    faint = palette.faint_ink
    return dataclasses.replace(palette, pass_ink=faint, close_ink=faint, fail_ink=faint, unknown_ink=faint)
