"""The page of the drawings, in the place of the nose: which sheets, one of them as it goes on paper, and the choices."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QProgressBar,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from grillestack.app.palette import Palette
from grillestack.app.panels.field import Complaint
from grillestack.app.session import Session
from grillestack.app.sheets.choices import ChoicesColumn
from grillestack.app.sheets.dimension_hand import DimensionHand
from grillestack.app.sheets.export import SheetExport
from grillestack.app.sheets.maker import SheetMaker, Stage
from grillestack.app.sheets.paper_view import PaperView
from grillestack.app.sheets.placed import with_shifts
from grillestack.app.sheets.printing import NOT_PRINTED, new_printer, prepare, print_sheets
from grillestack.app.sheets.questions import SheetQuestions
from grillestack.sheets.draw_list import Sheet
from grillestack.sheets.paper import scale_words

_LIST_PX = 196
_TRUE_SCALE = (
    "Print at 100 %, never “fit to page”, and measure the 100 mm bar in the lower border before you cut anything."
)
_WORKING = "Working on the drawings …"


class SheetPage(QWidget):
    """Shows the drawings until it is left; they follow what the choices, undo and the hand do meanwhile."""

    left = Signal()

    def __init__(self, session: Session, palette: Palette, maker: SheetMaker, questions: SheetQuestions) -> None:
        super().__init__()
        self._session = session
        self._maker = maker
        self._questions = questions
        self._key = ""
        self.hand = DimensionHand(session, self)
        self.paper = PaperView(self.hand, palette)
        self.choices = ChoicesColumn(session)
        self.export = SheetExport(session, maker, questions, self)
        self.state = QLabel()
        self.list = QListWidget()
        self.warnings = QLabel()
        self.says = QLabel()
        self.complaint = Complaint()
        self.shifted = QLabel()
        self.put_back_button = QPushButton("Put all back")
        self.whole_button = QPushButton("Whole sheet")
        self.export_button = QPushButton("Export…")
        self.print_button = QPushButton("Print…")
        self.stop_button = QPushButton("Stop")
        self.back_button = QPushButton("Back to the nose")
        self.progress = QProgressBar()
        self._lay_out()
        self.setAccessibleName("Drawings")
        self.list.currentRowChanged.connect(self._show_row)
        self.paper.described.connect(self.says.setText)
        self.hand.changed.connect(self._show_shifts)
        self.put_back_button.clicked.connect(lambda _checked=False: self.hand.put_all_back())
        self.whole_button.clicked.connect(lambda _checked=False: self.paper.zoom_to_fit())
        self.export_button.clicked.connect(lambda _checked=False: self.export.ask())
        self.print_button.clicked.connect(lambda _checked=False: self.print())
        self.stop_button.clicked.connect(lambda _checked=False: self.export.stop())
        self.back_button.clicked.connect(lambda _checked=False: self.leave())
        escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), self)
        escape.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        escape.activated.connect(self.leave)
        self.export.begun.connect(self._show_export_begun)
        self.export.ended.connect(self._show_export_ended)
        maker.progressed.connect(lambda share_frac: self.progress.setValue(round(100 * share_frac)))
        maker.changed.connect(self.show_sheets)
        self.show_sheets()

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """Return the sheets as they go on paper."""
        return tuple(with_shifts(sheet, self.hand.shifts) for sheet in self._maker.sheets)

    def leave(self) -> None:
        """Give the nose its place back."""
        self.hand.cancel()
        self.left.emit()

    def show_palette(self, palette: Palette) -> None:
        """Show everything in these colours; paper stays white."""
        self.paper.show_palette(palette)

    def show_sheets(self) -> None:
        """Show what the maker has now."""
        maker = self._maker
        is_current = maker.stage is Stage.CURRENT
        self.state.setText(_WORKING if maker.stage is Stage.WORKING else "")
        self.print_button.setEnabled(is_current)
        self.export_button.setEnabled(maker.stage is not Stage.NONE and not self.export.is_busy)
        self.complaint.say(maker.trouble if maker.stage is Stage.NONE else "")
        if maker.stage is Stage.WORKING and maker.sheets:
            return  # what was there stays in sight until the new one is
        keys = [sheet.key for sheet in maker.sheets]
        row = keys.index(self._key) if self._key in keys else 0 if keys else -1
        self.list.blockSignals(True)  # noqa: FBT003  Qt's own signature
        self.list.clear()
        for number, sheet in enumerate(maker.sheets, start=1):
            item = QListWidgetItem(f"{number}  {sheet.title}\n     {_size_words(sheet)}")
            item.setToolTip("\n".join(sheet.warnings))
            self.list.addItem(item)
        self.list.setCurrentRow(row)
        self.list.blockSignals(False)  # noqa: FBT003  Qt's own signature
        self._show_row(row)

    def print(self) -> None:
        """Print the sheets through the system's dialog."""
        sheets = self.sheets
        if not sheets or self._maker.stage is not Stage.CURRENT:
            return
        printer = new_printer()
        prepare(printer, sheets)
        if self._questions.ask_printer(self, printer):
            self.complaint.say("" if print_sheets(printer, sheets) else NOT_PRINTED)

    def _show_row(self, row: int) -> None:
        sheets = self._maker.sheets
        sheet = sheets[row] if 0 <= row < len(sheets) else None
        self._key = "" if sheet is None else sheet.key
        self.paper.show_sheet(sheet)
        number = f"Sheet {row + 1} of {len(sheets)}: {sheet.title}" if sheet else "No sheet"
        self.paper.setAccessibleName(number)
        self.warnings.setText(_warning_words(sheet.warnings if sheet else ()))
        self._show_shifts()

    def _show_shifts(self) -> None:
        shifts = self.hand.shifts
        off = sum(shift.is_off for shift in shifts)
        moved = len(shifts) - sum(shift.is_off and not (shift.dx_mm or shift.dy_mm) for shift in shifts)
        words = [f"{moved} moved"] if moved else []
        if off:
            words.append(f"{off} switched off, shown faint, not printed")
        self.shifted.setText(f"Dimensions: {', '.join(words)}" if words else "Drag a dimension to move it")
        self.put_back_button.setVisible(bool(shifts))

    def _show_export_begun(self) -> None:
        self.complaint.say("")
        self.progress.setValue(0)
        for widget in (self.progress, self.stop_button):
            widget.show()
        self.export_button.setEnabled(False)

    def _show_export_ended(self, sentence: str) -> None:
        for widget in (self.progress, self.stop_button):
            widget.hide()
        self.export_button.setEnabled(self._maker.stage is not Stage.NONE)
        if sentence.startswith("Written:"):
            self._session.message.emit(sentence)
        else:
            self.complaint.say(sentence)

    def _lay_out(self) -> None:
        heading = QLabel("Drawings")
        heading.setObjectName("heading")
        self.state.setObjectName("faint")
        self.progress.setFixedWidth(140)
        self.progress.setAccessibleName("Progress of the export")
        self.back_button.setObjectName("chief")
        head = QHBoxLayout()
        head.setSpacing(8)
        head.setContentsMargins(0, 0, 12, 0)
        head.addWidget(heading)
        head.addWidget(self.state, 1)
        for widget in (self.progress, self.stop_button, self.export_button, self.print_button, self.back_button):
            head.addWidget(widget)
        self.progress.hide()
        self.stop_button.hide()
        self.list.setAccessibleName("Sheets")
        self.list.setSpacing(2)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.warnings.setWordWrap(True)
        self.warnings.setTextFormat(Qt.TextFormat.PlainText)
        self.warnings.setAlignment(Qt.AlignmentFlag.AlignTop)
        told = QScrollArea()
        told.setFrameShape(QFrame.Shape.NoFrame)
        told.setWidgetResizable(True)
        told.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        told.setWidget(self.warnings)
        told.setAccessibleName("What to look after on this sheet")
        strip = QWidget()
        strip.setFixedWidth(_LIST_PX)
        left = QVBoxLayout(strip)
        left.setContentsMargins(0, 0, 0, 0)
        left.setSpacing(8)
        left.addWidget(self.list, 3)
        left.addWidget(told, 2)
        self.says.setObjectName("faint")
        self.shifted.setObjectName("faint")
        under = QHBoxLayout()
        under.setSpacing(8)
        under.addWidget(self.shifted)
        under.addWidget(self.put_back_button)
        under.addStretch(1)
        under.addWidget(self.whole_button)
        true_scale = QLabel(_TRUE_SCALE)
        for label in (self.says, true_scale):
            label.setObjectName("faint")
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        middle = QVBoxLayout()
        middle.setSpacing(6)
        middle.addWidget(self.paper, 1)
        middle.addLayout(under)
        middle.addWidget(self.says)
        middle.addWidget(true_scale)
        body = QHBoxLayout()
        body.setSpacing(12)
        body.addWidget(strip)
        body.addLayout(middle, 1)
        body.addWidget(self.choices)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 8, 0, 8)
        layout.setSpacing(8)
        layout.addLayout(head)
        layout.addWidget(self.complaint)
        layout.addLayout(body, 1)


def _size_words(sheet: Sheet) -> str:
    return f"{sheet.paper.value}, {scale_words(sheet.scale_factor)}" if sheet.views else sheet.paper.value


def _warning_words(warnings: Sequence[str]) -> str:
    return "\n\n".join(warnings)
