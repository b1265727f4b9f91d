"""The panel on which a photo is tied to the nose: marks on the photo, what is known of them, and what that is worth."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, Qt, Signal
from PySide6.QtGui import QImage, QKeyEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QPushButton, QRadioButton, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.field import Complaint, QuantityField
from grillestack.app.panels.photo_rows import LINES
from grillestack.app.panels.photo_words import truth_words
from grillestack.app.panels.quiet_box import QuietBox
from grillestack.app.photo.marking_sheet import MarkingSheet
from grillestack.app.photo.marks import CORNER_NAMES, POINT_NAMES, first_marks
from grillestack.app.photo.straightening import StraighteningError, map_of
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.model.photo import FourCorners, Mark, Photo, PhotoImage, TwoPoints, marks_of
from grillestack.model.values import ModelError
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension

# ISO 216 gives A4 as 297 × 210 mm; 11 × 8 1/2 in is the usual sheet where inches are used (common practice, no source).
_SHEETS = {UnitSystem.METRIC: "an A4 sheet is 297 × 210 mm", UnitSystem.INCH: "a letter sheet is 11 × 8 1/2 in"}
_LABEL_PX = 118
_FIELDS = {
    "width_mm": "Width",
    "height_mm": "Height",
    "middle_y_mm": "Centre to the right",
    "bottom_z_mm": "Lower edge at",
    "distance_mm": "Distance",
    "first_y_mm": "First point to the right",
    "first_z_mm": "First point at",
    "camera_distance_mm": "Camera away",
}
_OF_CORNERS = ("width_mm", "height_mm", "middle_y_mm", "bottom_z_mm")
_OF_POINTS = ("distance_mm", "first_y_mm", "first_z_mm")


class MarkingPanel(QWidget):
    """Ties one photo; `changed` carries the photo as it would be or nothing, and whether a mark is still in hand."""

    changed = Signal(object, bool)
    used = Signal(object)
    cancelled = Signal()

    def __init__(self, session: Session, picture: QImage, photo: Photo | PhotoImage, palette: Palette) -> None:
        super().__init__()
        self._session = session
        self._photo = photo if isinstance(photo, Photo) else None
        self._image = photo.image if isinstance(photo, Photo) else photo
        self._other_marks: dict[bool, list[QPointF]] = {}
        self.setAccessibleName("Trace a photo")
        self.by_corners = QRadioButton("Four corners of something flat")
        self.by_points = QRadioButton("Two points of known distance")
        self.note = _words("faint")
        self.hint = _words("")
        self.hint.setAccessibleName("How far the photo can be trusted")
        self.complaint = Complaint()
        self.fields = {key: QuantityField(label, Dimension.LENGTH) for key, label in _FIELDS.items()}
        self.line = QuietBox()
        self.line.setAccessibleName("Line between the points")
        for words, lies in LINES:
            self.line.addItem(words, lies)
        self.use_button = QPushButton(said("Use the photo"))
        self.use_button.setObjectName("chief")
        self.cancel_button = QPushButton(said("Cancel"))
        marks = self._known_marks()
        self.sheet = MarkingSheet(picture, marks, palette)
        self.by_corners.setChecked(len(marks) == len(CORNER_NAMES))
        self.by_points.setChecked(len(marks) == len(POINT_NAMES))
        self._lay_out()
        self._fill()
        self._listen()
        self._show_mode()

    def show_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        self.sheet.marks_palette = palette
        self.sheet.update()

    def photo(self) -> Photo | None:
        """Return the photo as the panel ties it, or nothing while a size is missing.

        Raises
        ------
        ModelError
            If a size cannot be.
        """
        names = _OF_CORNERS if self.by_corners.isChecked() else _OF_POINTS
        sizes = {name: self.fields[name].value for name in names}
        camera_mm = self.fields["camera_distance_mm"].value
        if camera_mm is None or any(value is None for value in sizes.values()):
            return None
        known = {name: value for name, value in sizes.items() if value is not None}
        places = tuple(Mark(mark.x(), mark.y()) for mark in self.sheet.marks)
        tied: FourCorners | TwoPoints
        if self.by_corners.isChecked():
            tied = FourCorners(corners=places, **known)
        else:
            tied = TwoPoints(first=places[0], second=places[1], lies=self.line.currentData(), **known)
        if self._photo is None:
            return Photo(image=self._image, tied=tied, camera_distance_mm=camera_mm)
        return Photo(
            image=self._image,
            tied=tied,
            camera_distance_mm=camera_mm,
            opacity_frac=self._photo.opacity_frac,
            locked=self._photo.locked,
        )

    def accept(self) -> None:
        """Use the photo, or say what is missing where it is missing."""
        for name in self._names_shown():
            field = self.fields[name]
            if field.line.isModified() or not field.line.text():
                field.take()
            if field.is_kept:
                field.line.setFocus()
                return
        try:
            photo = self.photo()
            if photo is not None:
                map_of(photo.tied)
        except (ModelError, StraighteningError) as error:
            self.complaint.say(str(error))
            return
        if photo is not None:
            self.used.emit(photo)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let Esc put all this aside."""
        if event.key() == Qt.Key.Key_Escape:
            self.cancelled.emit()
            event.accept()
            return
        super().keyPressEvent(event)

    def _names_shown(self) -> tuple[str, ...]:
        return (*(_OF_CORNERS if self.by_corners.isChecked() else _OF_POINTS), "camera_distance_mm")

    def _known_marks(self) -> list[QPointF]:
        if self._photo is None:
            return first_marks(self._image.width_px, self._image.height_px, len(CORNER_NAMES))
        return [QPointF(mark.x_px, mark.y_px) for mark in marks_of(self._photo.tied)]

    def _lay_out(self) -> None:
        heading = QLabel(said("Trace a photo"))
        heading.setObjectName("heading")
        modes = QHBoxLayout()
        modes.addWidget(self.by_corners)
        modes.addWidget(self.by_points)
        modes.addStretch(1)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(4)
        self._labels: dict[str, QLabel] = {}
        for name, label in (*_FIELDS.items(), ("lies", "Line between them")):
            self._labels[name] = QLabel(label)
            self._labels[name].setObjectName("label")
            self._labels[name].setMinimumWidth(_LABEL_PX)
        self._grid.setColumnStretch(1, 1)
        self._grid.setColumnStretch(3, 1)
        buttons = QHBoxLayout()
        buttons.addWidget(self.use_button)
        buttons.addWidget(self.cancel_button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 8, 12, 12)
        layout.setSpacing(8)
        layout.addWidget(heading)
        layout.addLayout(modes)
        layout.addWidget(self.note)
        layout.addWidget(self.sheet, 1)
        layout.addLayout(self._grid)
        layout.addWidget(self.hint)
        layout.addWidget(self.complaint)
        layout.addLayout(buttons)

    def _fill(self) -> None:
        values: dict[str, float] = {"middle_y_mm": 0.0, "first_y_mm": 0.0, "camera_distance_mm": 2_500.0}
        if self._photo is not None:
            tied = self._photo.tied
            names = _OF_CORNERS if isinstance(tied, FourCorners) else _OF_POINTS
            values |= {name: getattr(tied, name) for name in names}
            values["camera_distance_mm"] = self._photo.camera_distance_mm
            if isinstance(tied, TwoPoints):
                self.line.setCurrentIndex(self.line.findData(tied.lies))
        for name, field in self.fields.items():
            field.show_value(values.get(name), self._session.units)

    def _listen(self) -> None:
        for field in self.fields.values():
            field.committed.connect(_shows_again(field, self._tell))
        self.line.activated.connect(lambda _index: self._tell())
        self.by_corners.toggled.connect(lambda _on: self._change_mode())
        self.sheet.marks_moved.connect(lambda in_hand: self._tell(in_hand=in_hand))
        self.use_button.clicked.connect(lambda _checked=False: self.accept())
        self.cancel_button.clicked.connect(lambda _checked=False: self.cancelled.emit())
        self._session.units_changed.connect(self._show_units)

    def _change_mode(self) -> None:
        by_corners = self.by_corners.isChecked()
        self._other_marks[not by_corners] = self.sheet.marks
        count = len(CORNER_NAMES if by_corners else POINT_NAMES)
        fresh = first_marks(self._image.width_px, self._image.height_px, count)
        self.sheet.show_marks(self._other_marks.get(by_corners, fresh))
        self._show_mode()
        self._tell()

    def _show_mode(self) -> None:
        by_corners = self.by_corners.isChecked()
        first = ("width_mm", "height_mm", "middle_y_mm", "bottom_z_mm")
        shown = first if by_corners else ("distance_mm", "lies", "first_y_mm", "first_z_mm")
        widgets: dict[str, QWidget] = {**self.fields, "lies": self.line}
        for name, widget in widgets.items():
            self._grid.removeWidget(self._labels[name])
            self._grid.removeWidget(widget)
            is_shown = name in shown or name == "camera_distance_mm"
            self._labels[name].setVisible(is_shown)
            widget.setVisible(is_shown)
        top = Qt.AlignmentFlag.AlignTop
        for place, name in enumerate((*shown, "camera_distance_mm")):
            row, column = place // 2, 2 * (place % 2)
            self._grid.addWidget(self._labels[name], row, column, top)
            self._grid.addWidget(widgets[name], row, column + 1, top)
        self._say_note()
        self._say_hint()

    def _say_note(self) -> None:
        if self.by_corners.isChecked():
            self.note.setText(
                "Drag each ring to its corner of something flat and upright that faces ahead: a number plate, or paper taped "
                f"to the grille ({_SHEETS[self._session.units.base]}). Then type its size and where it is on the vehicle."
            )
        else:
            self.note.setText(
                "Drag the rings to the ends of something you have measured, as long as possible. The photo must have been "
                "taken square to the nose: nothing is straightened."
            )

    def _show_units(self, _units: object) -> None:
        for field in self.fields.values():
            field.show_value(field.value, self._session.units)
        self._say_note()
        self._say_hint()

    def _tell(self, *, in_hand: bool = False) -> None:
        self.complaint.say("")
        photo = self._say_hint()
        self.changed.emit(photo, in_hand)

    def _say_hint(self) -> Photo | None:
        """Say what the marks are worth; return the photo if it can be drawn."""
        try:
            photo = self.photo()
        except ModelError as error:
            self.hint.setText(str(error))
            return None
        if photo is None:
            self.hint.setText("The photo appears under the nose as soon as all sizes are typed.")
            return None
        self.hint.setText(truth_words(photo, self._session.project.nose.openings, self._session.units))
        return photo


def _shows_again(field: QuantityField, tell: Callable[[], None]) -> Callable[[object], None]:
    def take(value: object) -> None:
        field.show_value(value if isinstance(value, float) else None, field.units)
        tell()

    return take


def _words(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label
