"""The panel that answers what fits here: what is looked for and where, what fits, what nearly does."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QProgressBar,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from grillestack.app.fit.choices import slots_of
from grillestack.app.fit.hunt import FitHunt, Stage
from grillestack.app.fit.near_list import NearList
from grillestack.app.fit.room_item import Corner
from grillestack.app.fit.table import FitTable
from grillestack.app.palette import Palette
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.app.workers.fit_rows import FitRow
from grillestack.fit.slots import KIND_WORDS, Kind, Slot, kind_of
from grillestack.model.project import Project

NO_PROOF: Final = (
    "Estimates for choosing and building, not a proof. Bumper, beam and core support may be crash structure."
)
_DETAIL_LINES: Final = 5
_POINT_AT: Final = "Point at a row to see it on the nose. A click puts it in; Undo takes it back."
_BROKEN: Final = "The search broke off, so what fits is not known: choose the place again to search anew."


class FitPanel(QWidget):
    """Follows the document: another document is searched anew. It shows and tells; what is done about it the bench does."""

    looked_at = Signal(object)  # FitRow | None
    chosen = Signal(object)  # FitRow
    corner_changed = Signal(object)  # Corner
    left = Signal()

    def __init__(self, session: Session, palette: Palette, hunt: FitHunt, part_id: str | None) -> None:
        super().__init__()
        self._session = session
        self._hunt = hunt
        self._document: Project | None = None
        self._looked_at: FitRow | None = None
        self._slots: tuple[Slot, ...] = ()
        self.setAccessibleName("What fits here")
        self.kinds, self.places, self.corners = QComboBox(), QComboBox(), QComboBox()
        self.words = QLineEdit()
        self.within = QCheckBox(said("Within the charge limits"))
        self.headline, self.remarks, self.detail, self.progress_words = QLabel(), QLabel(), QLabel(), QLabel()
        self.progress = QProgressBar()
        self.stop, self.close_button = QPushButton(said("Stop")), QPushButton(said("Close"))
        self.table = FitTable(palette)
        self.near = NearList()
        self.near_title = QLabel(said("What does not fit, the nearest first"))
        self.near_scroll = QScrollArea()
        self._fill_choices(part_id)
        self._lay_out()
        self._listen()
        self._begin()

    @property
    def slot(self) -> Slot | None:
        """Return the slot that is searched."""
        place = self.places.currentIndex()
        return self._slots[place] if 0 <= place < len(self._slots) else None

    @property
    def corner(self) -> Corner:
        """Return the corner that the area on the nose is for."""
        return tuple(Corner)[self.corners.currentIndex()]

    def show_palette(self, palette: Palette) -> None:
        """Show the rows in these colours."""
        self.table.show_palette(palette)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Esc close the panel."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
            event.accept()
            return
        super().keyPressEvent(event)

    def follow(self) -> None:
        """Search anew if the document is another one; a trial is none."""
        if self._session.project is not self._document:
            self._show_places(self.slot)
            self._begin()

    def _fill_choices(self, part_id: str | None) -> None:
        for kind in Kind:
            self.kinds.addItem(f"{KIND_WORDS[kind].capitalize()}s")
        for corner in Corner:
            self.corners.addItem(corner.value)
        project = self._session.project
        part = next((one for one in project.parts if one.id == part_id), None)
        kind = Kind.CHARGE_AIR_COOLER if part is None else kind_of(part)
        self.kinds.setCurrentIndex(tuple(Kind).index(kind))
        self._show_places(None, part_id)

    def _show_places(self, wanted: Slot | None, part_id: str | None = None) -> None:
        """Fill the list of places; the one that was wanted stays, or the one of that part is taken."""
        kind = tuple(Kind)[self.kinds.currentIndex()]
        self._slots = slots_of(self._session.project, kind)
        self.places.blockSignals(True)  # noqa: FBT003  Qt's signature; only what a hand chooses begins a search
        self.places.clear()
        for slot in self._slots:
            self.places.addItem(slot.words)
        part_id = part_id if wanted is None else wanted.taken_out
        found = (place for place, slot in enumerate(self._slots) if part_id is not None and slot.taken_out == part_id)
        same = (place for place, slot in enumerate(self._slots) if wanted is not None and slot.words == wanted.words)
        self.places.setCurrentIndex(next(found, next(same, 0)))
        self.places.blockSignals(False)  # noqa: FBT003  as above

    def _begin(self) -> None:
        self._document = self._session.project
        slot = self.slot
        if slot is None:
            kind = KIND_WORDS[tuple(Kind)[self.kinds.currentIndex()]]
            self._hunt.stop()
            self.headline.setText(f"A {kind} needs a radiator to stand behind: put a radiator in first.")
            self.table.show_rows(())
            return
        self.table.look_away()
        self._hunt.begin(self._session.project, slot, self._session.units)

    def _show(self) -> None:
        found, stage = self._hunt.found, self._hunt.stage
        self.headline.setText(found.headline if found else _BROKEN if stage is Stage.BROKEN else "Looking …")
        self.remarks.setText("\n".join(found.remarks) if found else "")
        self.remarks.setVisible(bool(found and found.remarks))
        near = found.near if found else ()
        self.near.show_near(near)
        self.near_title.setVisible(bool(near))
        self.near_scroll.setVisible(bool(near))
        self.table.show_rows(self._filtered())
        done, of = self._hunt.done_count, self._hunt.short_count
        is_busy = stage in (Stage.LOOKING, Stage.ASSESSING)
        self.progress.setVisible(is_busy)
        self.progress.setRange(0, of)
        self.progress.setValue(done)
        self.stop.setVisible(is_busy)
        self.progress_words.setText(_progress_words(stage, done, of))
        self._show_detail()

    def _filtered(self) -> list[FitRow]:
        words = self.words.text().casefold().split()
        return [
            row
            for row in self._hunt.rows
            if all(word in f"{row.part.name} {row.part.id}".casefold() for word in words)
            and (row.within_limits or not self.within.isChecked())
        ]

    def _look_at(self, row: FitRow | None) -> None:
        self._looked_at = row
        self._show_detail()
        self.looked_at.emit(row)

    def _row_came(self, row: FitRow) -> None:
        if self._looked_at is not None and self._looked_at.part.id == row.part.id:
            self._look_at(row)

    def _show_detail(self) -> None:
        row = self._looked_at
        if row is None:
            self.detail.setText(_POINT_AT)
            return
        state = "" if row.is_assessed else " It is not assessed yet: stay on it to have it assessed next."
        self.detail.setText(
            f"{row.part.name}, {row.size} over all, {row.way}: {row.place}.\n"
            f"Room beyond the clearances: {row.margins}. Ports: {row.ports}.{state}"
        )

    def _listen(self) -> None:
        self._hunt.changed.connect(self._show)
        self._hunt.row_changed.connect(self._row_came)
        self.table.looked_at.connect(self._look_at)
        self.table.chosen.connect(self.chosen)
        self.kinds.currentIndexChanged.connect(lambda _place: self._choose_kind())
        self.places.currentIndexChanged.connect(lambda _place: self._begin())
        self.corners.currentIndexChanged.connect(lambda _place: self.corner_changed.emit(self.corner))
        self.words.textChanged.connect(lambda _text: self._show())
        self.within.toggled.connect(lambda _on: self._show())
        self.stop.clicked.connect(lambda _checked=False: self._hunt.stop())
        self.close_button.clicked.connect(lambda _checked=False: self.left.emit())
        self._session.units_changed.connect(self._begin_in_units)
        self._session.project_changed.connect(self._follow_project)

    def _begin_in_units(self, _units: object) -> None:
        self._begin()

    def _follow_project(self, _old: object, _new: object) -> None:
        self.follow()

    def _choose_kind(self) -> None:
        self._show_places(None)
        self._begin()

    def _lay_out(self) -> None:
        title = QLabel(said("What fits here?"))
        title.setObjectName("heading")
        self.headline.setObjectName("heading")
        self.near_title.setObjectName("heading")
        for label in (self.remarks, self.progress_words):
            label.setObjectName("faint")
        for label in (self.headline, self.remarks, self.detail):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        for box, name in (
            (self.kinds, "What to look for"),
            (self.places, "Where to put it"),
            (self.corners, "Corner that the area on the nose is for"),
        ):
            box.setAccessibleName(name)
            box.setToolTip(name)
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            box.setMinimumContentsLength(12)
        self.words.setPlaceholderText("Only parts with these words")
        self.words.setAccessibleName("Only parts with these words")
        self.within.setAccessibleName("Only what keeps the charge air within its limits")
        # Rows must not jump under the pointer when the words below them grow.
        self.detail.setFixedHeight(_DETAIL_LINES * self.detail.fontMetrics().lineSpacing())
        self.detail.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.progress.setTextVisible(False)
        self.progress.setFixedHeight(8)
        self.progress.setAccessibleName("How much is assessed")
        self.near_scroll.setWidgetResizable(True)
        self.near_scroll.setFrameShape(QFrame.Shape.NoFrame)
        self.near_scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.near_scroll.setWidget(self.near)
        self.near_scroll.setAccessibleName("What does not fit, the nearest first")
        no_proof = QLabel(NO_PROOF)
        no_proof.setObjectName("faint")
        no_proof.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 8, 12, 8)
        layout.setSpacing(8)
        for line in (
            (title, None, self.close_button),
            (self.kinds, self.places),
            (self.words, self.within),
        ):
            layout.addLayout(_line(*line))
        layout.addWidget(self.headline)
        layout.addWidget(self.remarks)
        layout.addLayout(_line(self.progress_words, self.progress, self.stop))
        layout.addWidget(self.table, 3)
        layout.addWidget(self.detail)
        layout.addLayout(_line(QLabel("Shaded on the nose: where its"), self.corners, QLabel("may stand"), None))
        layout.addWidget(self.near_title)
        layout.addWidget(self.near_scroll, 2)
        layout.addWidget(no_proof)


def _line(*widgets: QWidget | None) -> QHBoxLayout:
    line = QHBoxLayout()
    line.setSpacing(8)
    for widget in widgets:
        if widget is None:
            line.addStretch(1)
        else:
            line.addWidget(widget, 1 if isinstance(widget, QLineEdit | QProgressBar | QComboBox) else 0)
    return line


def _progress_words(stage: Stage, done: int, of: int) -> str:
    match stage:
        case Stage.LOOKING:
            return "looking at every part"
        case Stage.ASSESSING:
            return f"working: {done} of {of} assessed"
        case Stage.STOPPED:
            return f"stopped: {done} of {of} assessed" if of else "stopped"
        case Stage.DONE:
            return f"{done} of {of} assessed" if of else ""
        case _:
            return ""
