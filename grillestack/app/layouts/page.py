"""Two layouts side by side, in the place of the nose: drawings, figures, and what differs in words."""

from __future__ import annotations

import logging
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeAlias

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from grillestack.app.canvas.face_reading import patches_of
from grillestack.app.layouts.acts import LayoutActs
from grillestack.app.layouts.caption import Caption
from grillestack.app.layouts.drawing import LayoutDrawing, common_bounds
from grillestack.app.layouts.face_key import FaceKey
from grillestack.app.layouts.figures import FiguresTable
from grillestack.app.layouts.switch import shortened
from grillestack.app.palette import Palette
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.model.project import Project
from grillestack.model.values import ModelError

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.assess.comparison import Comparison
    from grillestack.assess.result import Assessment

_log = logging.getLogger(__name__)

CompareFunction: TypeAlias = "Callable[[Project, str], Comparison]"

NO_PROOF = "Estimate for choosing and building, not a proof: verify by test."


def compare_nothing(_project: Project, _other_name: str) -> Comparison:
    """Stand in where no core was handed in: say so instead of comparing."""
    raise ModelError(
        "variant_name", "Layouts cannot be compared in this window: it was opened without the calculation."
    )


class ComparisonPage(QWidget):
    """Shows the layout in hand against another one until it is left; it follows what undo and the hand do meanwhile."""

    opened = Signal()
    left = Signal()

    def __init__(self, session: Session, palette: Palette, compare: CompareFunction, acts: LayoutActs) -> None:
        super().__init__()
        self._session = session
        self._palette = palette
        self._compare = compare
        self._other = ""
        self.comparison: Comparison | None = None
        self.headline = QLabel()
        self.captions = (Caption(palette), Caption(palette))
        self.drawings = (LayoutDrawing(palette), LayoutDrawing(palette))
        self.key = FaceKey(palette)
        self.figures = FiguresTable()
        self.changes_title = QLabel()
        self.changes = QLabel()
        self.take_button = QPushButton()
        self.keep_button = QPushButton()
        self.back_button = QPushButton(said("Back to the nose"))
        self._lay_out()
        self.setAccessibleName("Two layouts side by side")
        self.take_button.clicked.connect(lambda _checked=False: acts.take_up(self._other))
        self.keep_button.clicked.connect(lambda _checked=False: acts.keep_only(self._session.project.variant_name))
        self.back_button.clicked.connect(lambda _checked=False: self.leave())
        escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), self)
        escape.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        escape.activated.connect(self.leave)
        session.project_changed.connect(self._follow)
        session.units_changed.connect(lambda _units: self._show())
        session.file_changed.connect(lambda _path: self.leave())
        self.hide()

    def show_with(self, other_name: str) -> None:
        """Put the layout in hand beside that one."""
        self._session.end_trial()
        self._other = other_name
        if self._work_out():
            self.opened.emit()  # first: the nose and this page do not fit into the window together
            self.show()
            self._show()
            self.back_button.setFocus()

    def leave(self) -> None:
        """Give the nose its place back."""
        if not self.isHidden():
            self.hide()
            self.comparison = None
            self.left.emit()

    def show_palette(self, palette: Palette) -> None:
        """Show everything in these colours."""
        self._palette = palette
        for caption in self.captions:
            caption.show_palette(palette)
        self._show()

    def _follow(self, old: Project, new: Project) -> None:
        if self.isHidden() or self._session.in_trial:
            return
        if self._other == new.variant_name and any(v.name == old.variant_name for v in new.variants):
            self._other = old.variant_name
        elif all(v.name != self._other for v in new.variants):
            self.leave()
            return
        if self._work_out():
            self._show()
        else:
            self.leave()

    def _work_out(self) -> bool:
        try:
            self.comparison = self._compare(self._session.project, self._other)
        except ModelError as error:
            self._session.message.emit(str(error))
            return False
        except Exception:  # noqa: BLE001  whatever fails in there, the work on screen must stay
            _log.exception("the comparison failed")
            self._session.message.emit("These layouts could not be compared; your work is kept.")
            return False
        return True

    def _show(self) -> None:
        comparison, units, palette = self.comparison, self._session.units, self._palette
        if comparison is None:
            return
        there, here = comparison.names
        self.headline.setText(comparison.headline(units))
        bounds = common_bounds(comparison.other.project, comparison.in_hand.project)
        sides = (comparison.other, comparison.in_hand)
        parts = ([c.before for c in comparison.changes], [c.after for c in comparison.changes])
        faces = [patches_of(side) for side in sides]
        for n, (side, changed) in enumerate(zip(sides, parts, strict=True)):
            self.captions[n].show_side(side, units, in_hand=side is comparison.in_hand)
            marked = [part.id for part in changed if part is not None]
            self.drawings[n].show_layout(side.project, faces[n], marked, bounds, palette)
        self.key.show_faces(faces, palette)
        self.figures.show_comparison(comparison, units, palette)
        sentences = comparison.sentences(units)
        self.changes_title.setText(
            f"What differs in “{shortened(here)}”, marked in both drawings" if sentences else "No part differs"
        )
        self.changes.setText("\n".join([*sentences, *_notes(sides)]))
        self.take_button.setText(f"Take up “{shortened(there)}”".replace("&", "&&"))
        self.keep_button.setText(f"Keep only “{shortened(here)}”".replace("&", "&&"))

    def _lay_out(self) -> None:
        self.headline.setObjectName("heading")
        self.changes_title.setObjectName("heading")
        for label in (self.headline, self.changes):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.changes.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.back_button.setObjectName("chief")
        head = QHBoxLayout()
        head.addWidget(self.headline, 1)
        for button in (self.take_button, self.keep_button, self.back_button):
            head.addWidget(button)
        pictures = QHBoxLayout()
        pictures.setSpacing(8)
        for caption, drawing in zip(self.captions, self.drawings, strict=True):
            one = QVBoxLayout()
            one.setSpacing(4)
            one.addWidget(caption)
            one.addWidget(drawing, 1)
            pictures.addLayout(one, 1)
        words = QScrollArea()
        words.setFrameShape(QFrame.Shape.NoFrame)
        words.setWidgetResizable(True)
        words.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        words.setWidget(self.changes)
        words.setAccessibleName("What differs")
        left = QVBoxLayout()
        left.setSpacing(8)
        left.addLayout(pictures, 3)
        left.addWidget(self.key)
        left.addWidget(self.changes_title)
        left.addWidget(words, 2)
        no_proof = QLabel(NO_PROOF)
        no_proof.setObjectName("faint")
        right = QVBoxLayout()
        right.addWidget(self.figures, 1)
        right.addWidget(no_proof)
        body = QHBoxLayout()
        body.setSpacing(16)
        body.addLayout(left, 8)
        body.addLayout(right, 9)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 12, 16, 12)
        layout.setSpacing(12)
        layout.addLayout(head)
        layout.addLayout(body, 1)


def _notes(sides: Sequence[Assessment]) -> list[str]:
    noted = [side.project for side in sides if side.project.variant_note_text]
    return [f"Note on “{p.variant_name}”: {' '.join(p.variant_note_text.split())}" for p in noted]
