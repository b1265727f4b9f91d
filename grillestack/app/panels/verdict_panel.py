"""Does the heat go away, and why: the right column of the window."""

from __future__ import annotations

import functools
import itertools
from collections import Counter
from collections.abc import Callable
from typing import TYPE_CHECKING, TypeAlias

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QColor, QFont, QPalette, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.panels.answer_section import AnswerSection
from grillestack.app.panels.basis_list import BasisList
from grillestack.app.panels.cautions import Cautions
from grillestack.app.panels.duty_figures import has_no_day
from grillestack.app.panels.duty_rows import DutyRows
from grillestack.app.panels.face_bar import FaceBar
from grillestack.app.panels.findings_list import FindingsList
from grillestack.app.panels.further_sections import FurtherSections
from grillestack.app.panels.hottest_day import HottestDay
from grillestack.app.panels.verdict_marks import VERDICT_WORDS, Mark, MarkSign, mark_ink
from grillestack.app.panels.why_desk import WhyDesk
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.app.workers.further import Further
from grillestack.app.workers.messages import Question
from grillestack.assess.figure import Subject, Why
from grillestack.assess.why import why

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.advice.mend import Mended
    from grillestack.assess.result import Assessment, CaseResult, Finding
    from grillestack.model.project import Project
    from grillestack.units.display import UnitSystem

AdviseFunction: TypeAlias = "Callable[[Project, Assessment, UnitSystem], tuple[Finding, ...]]"
MendFunction: TypeAlias = "Callable[[Project, Assessment, Finding, UnitSystem], Mended | str]"

NOT_ASSESSED = "This pack could not be assessed."
NO_PROOF = "Estimate for choosing and building, not a proof: verify by test."
_COLUMN_PX = 320
_LEAST_COLUMN_PX = 296
_SIGN_PX = 30
_LOW_PX = 560
_ROOMY_PX = 860  # where the degrees go and what to change first stand open from the start


class VerdictPanel(QWidget):
    """Shows the assessment of what the session shows, and follows it in place while a part is dragged."""

    type_requested = Signal(str)  # a line of the engine sheet

    def __init__(
        self,
        session: Session,
        palette: Palette,
        advise: AdviseFunction,
        further: Further | None = None,
        parent: QWidget | None = None,
        *,
        mend: MendFunction | None = None,
    ) -> None:
        super().__init__(parent)
        self._mend = mend or mend_nothing
        self._session = session
        self._palette = palette
        self._advise = advise
        self._sign = MarkSign(palette, _SIGN_PX, self)
        self._word = QLabel(self)
        self._decided_by = QLabel(self)
        self._because = QLabel(self)
        self.face_bar = FaceBar(palette, session.units, self)
        self.hottest_day = HottestDay(palette, session.units, self)
        self.duty_rows = DutyRows(palette, self)
        self.findings_list = FindingsList(palette, self)
        self.cautions = Cautions(palette, self)
        self.basis_list = BasisList(palette, self)
        self.further_sections = FurtherSections(session, palette, further or Further(session, self), self)
        self._findings_title = _title("Findings", self)
        self._tank_title = QLabel(said("top tank and its limit"), self)
        self._rules = tuple(_rule(self) for _ in range(3))
        self._no_proof = QLabel(NO_PROOF, self)
        self._scroll = QScrollArea(self)
        self._page = QVBoxLayout(self)
        self._below = QWidget()
        self._column = QVBoxLayout(self._below)
        self._is_low = False
        self._was_roomy = False
        self._tab_chain: tuple[QWidget, ...] = ()
        self.why_desk = WhyDesk(self, palette, self._why)
        self._lay_out()
        self.setAccessibleName("Verdict")
        self.findings_list.show_requested.connect(session.select)
        self.findings_list.mend_requested.connect(self._do)
        self.findings_list.type_requested.connect(self.type_requested)
        self.cautions.show_requested.connect(session.select)
        self.cautions.fold.toggled.connect(self._show_cautions)
        self.further_sections.changes.grown.connect(self._order_tabs)
        self.further_sections.band_changed.connect(self.hottest_day.show_band)
        for asks in (self.hottest_day.why_asked, self.face_bar.why_asked, self.duty_rows.why_asked):
            asks.connect(lambda spot: self.why_desk.ask(spot, spot.subject, session.units))
        self.further_sections.why_asked.connect(lambda by, subject: self.why_desk.ask(by, subject, session.units))
        self.duty_rows.folded.connect(self._order_tabs)
        self._scroll.verticalScrollBar().valueChanged.connect(lambda _value: self.why_desk.place())
        self.further_sections.further.changed.connect(lambda _q: self.why_desk.refresh(session.units))
        for section in self.further_sections.sections.values():
            section.heading.toggled.connect(functools.partial(self._show_section, section))
        session.assessment_changed.connect(self.show_assessment)
        session.units_changed.connect(lambda _units: self.show_assessment(session.assessment))
        self.show_palette(palette)
        self.further_sections.show_all()
        self.show_assessment(session.assessment)

    def show_assessment(self, assessment: Assessment | None) -> None:
        """Show that assessment in the session's units; nothing is shown as not known."""
        units = self._session.units
        said = self._advise(assessment.project, assessment, units) if assessment else ()
        findings = tuple(finding for finding in said if not finding.danger)
        self._show_verdict(assessment)
        self.face_bar.show_face(assessment.radiator if assessment else None, units)
        self.hottest_day.show_case(_case_shown(assessment), units)
        self.duty_rows.show_assessment(assessment, units)
        self.findings_list.show_findings(findings)
        _set_text(self._findings_title, _findings_words(findings))
        self.cautions.show_cautions([finding for finding in said if finding.danger])
        self.basis_list.show_basis(assessment.basis if assessment else ())
        self._order_tabs()
        self.why_desk.refresh(units)

    def _do(self, finding: Finding) -> None:
        """Make the one edit that mends the finding, or say why not."""
        session = self._session
        assessment = session.base_assessment
        if assessment is None:
            return
        session.end_trial()
        done = self._mend(session.project, assessment, finding, session.units)
        if isinstance(done, str):
            session.message.emit(done)
            return
        session.apply(f"{done.title[0].lower()}{done.title[1:]}", done.project)
        session.message.emit(f"{done.title}: done. Undo takes it back.")

    def _why(self, subject: Subject) -> Why | None:
        """Return what that figure rests on now."""
        assessment = self._session.assessment
        found = why(assessment, subject) if assessment is not None else None
        return found or self.further_sections.why(subject)

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        colours = self.palette()
        for role in (QPalette.ColorRole.Window, QPalette.ColorRole.Base, QPalette.ColorRole.Button):
            colours.setColor(role, palette.panel)
        for role in (QPalette.ColorRole.WindowText, QPalette.ColorRole.Text, QPalette.ColorRole.ButtonText):
            colours.setColor(role, palette.ink)
        self.setPalette(colours)
        self.setAutoFillBackground(True)
        for label in (self._decided_by, self._tank_title, self._no_proof):
            _ink(label, palette.faint_ink)
        for rule in self._rules:
            _ink(rule, palette.rule)
        for part in (self._sign, self.face_bar, self.hottest_day, self.duty_rows):
            part.show_palette(palette)
        for listed in (self.findings_list, self.cautions, self.basis_list, self.further_sections, self.why_desk):
            listed.show_palette(palette)
        _ink(self._word, mark_ink(self._sign.mark, palette))

    def _show_verdict(self, assessment: Assessment | None) -> None:
        mark = Mark(assessment.verdict.value) if assessment else Mark.UNKNOWN
        if mark is not self._sign.mark or not self._word.text():
            self._sign.show_mark(mark)
            self._word.setText(VERDICT_WORDS[mark].capitalize())
            self._word.setAccessibleName(f"Verdict: {VERDICT_WORDS[mark]}")
            _ink(self._word, mark_ink(mark, self._palette))
        case = assessment.deciding_case if assessment else None
        _set_text(self._decided_by, f"decided by {case.name}" if case else "")
        _set_text(self._because, _because(assessment))

    def _show_cautions(self, opened: bool) -> None:  # noqa: FBT001  the signal hands it over by place
        """Bring the cautions in sight when they are asked for."""
        if opened:
            self._column.activate()
            self._below.adjustSize()
            bar = self._scroll.verticalScrollBar()
            bar.setValue(min(self.cautions.y(), bar.maximum()))

    def _show_section(self, section: AnswerSection, opened: bool) -> None:  # noqa: FBT001  as above
        """Bring a section in sight when it is opened, its heading first."""
        if opened:
            if not self.isVisible():
                return
            self._column.activate()
            self._below.adjustSize()
            self._scroll.ensureWidgetVisible(section, 0, 0)
            self._scroll.ensureWidgetVisible(section.heading, 0, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Let the face bar scroll with the rest in a column too low to keep it in sight; open what a high one has room for."""
        super().resizeEvent(event)
        if self.height() >= _ROOMY_PX and not self._was_roomy:
            self._was_roomy = True
            for question in (Question.DEGREES, Question.CHANGES):
                self.further_sections.sections[question].open()
        is_low = self.height() < _LOW_PX
        if is_low != self._is_low:
            self._is_low = is_low
            self._rules[1].setVisible(not is_low)
            if is_low:
                self._column.insertWidget(0, self.face_bar)
            else:
                self._page.insertWidget(self._page.indexOf(self._rules[1]), self.face_bar)

    def _order_tabs(self) -> None:
        """Let Tab go down the column; rows are made when they are needed, which puts them last otherwise."""
        further = self.further_sections
        above = (*self.hottest_day.spots.values(), *self.face_bar.spots.values())
        rows = (
            *self.duty_rows.tab_chain(),
            *further.tab_chain(Question.DEGREES, Question.CHANGES),
            *self.findings_list.tab_chain(),
            *further.tab_chain(Question.SURENESS, Question.OVER_TIME),
            *self.cautions.list.rows,
        )
        reached = (row for row in rows if row.focusPolicy() is not Qt.FocusPolicy.NoFocus)
        chain = (*above, self._scroll, *reached, self.basis_list.fold, self.cautions.fold)
        if chain != self._tab_chain:
            self._tab_chain = chain
            for before, after in itertools.pairwise(chain):
                QWidget.setTabOrder(before, after)

    def changeEvent(self, event: QEvent) -> None:
        """Let the verdict's word and the room for its reason grow with the letters."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._word.setFont(_larger(self.font(), 1.7))
            self._because.setMinimumHeight(2 * self.fontMetrics().lineSpacing() + 2)

    def _lay_out(self) -> None:
        self.setMinimumWidth(_LEAST_COLUMN_PX)
        self._word.setFont(_larger(self._word.font(), 1.7))
        self._decided_by.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        for label in (self._decided_by, self._tank_title):
            label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._findings_title.setWordWrap(True)
        self._because.setWordWrap(True)
        self._because.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        # Two lines stay reserved, so that nothing below moves when the sentence changes under a drag.
        self._because.setMinimumHeight(2 * self._because.fontMetrics().lineSpacing() + 2)
        self._no_proof.setWordWrap(True)
        head = QHBoxLayout()
        head.setSpacing(8)
        head.addWidget(self._sign)
        head.addWidget(self._word)
        head.addWidget(self._decided_by, 1)
        column = self._column
        column.setContentsMargins(0, 0, 4, 8)
        column.setSpacing(4)
        titles = QHBoxLayout()
        titles.addWidget(_title("Duty cases", self))
        self._tank_title.setAlignment(Qt.AlignmentFlag.AlignRight)
        titles.addWidget(self._tank_title, 1)
        titles.addSpacing(4)
        column.addLayout(titles)
        column.addWidget(self.duty_rows)
        sections = self.further_sections.sections
        column.addSpacing(4)
        column.addWidget(sections[Question.DEGREES])
        column.addWidget(sections[Question.CHANGES])
        column.addSpacing(8)
        column.addWidget(self._findings_title)
        column.addWidget(self.findings_list)
        column.addSpacing(8)
        column.addWidget(sections[Question.SURENESS])
        column.addWidget(sections[Question.OVER_TIME])
        column.addSpacing(8)
        column.addWidget(self.cautions)
        column.addWidget(self.basis_list)
        column.addStretch(1)
        self._scroll.setWidget(self._below)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        # A bar that comes and goes would wrap every finding anew.
        self._scroll.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self._scroll.setAccessibleName("Duty cases and findings")
        page = self._page
        page.setContentsMargins(12, 12, 8, 8)
        page.setSpacing(8)
        page.addLayout(head)
        page.addWidget(self._because)
        page.addWidget(self.hottest_day)
        page.addWidget(self._rules[0])
        page.addWidget(self.face_bar)
        page.addWidget(self._rules[1])
        page.addWidget(self._scroll, 1)
        page.addWidget(self._rules[2])
        page.addWidget(self.cautions.fold)
        page.addWidget(self._no_proof)
        self.resize(_COLUMN_PX, 700)


def mend_nothing(project: Project, assessment: Assessment, finding: Finding, units: UnitSystem) -> Mended | str:
    """Stand in where nobody mends: say that nothing was changed."""
    del project, assessment, finding, units
    return "Nothing was changed."


def _case_shown(assessment: Assessment | None) -> CaseResult | None:
    """Return the deciding case; where none decides, the first says at least what is known."""
    if assessment is None:
        return None
    return assessment.deciding_case or next(iter(assessment.cases), None)


def _because(assessment: Assessment | None) -> str:
    if assessment is None:
        return NOT_ASSESSED
    case = assessment.deciding_case
    verdict = assessment.verdict.value
    if verdict == "unknown":
        reasons = [reason for each in assessment.cases for reason in each.reasons]
        return reasons[0] if reasons else "An input is missing: see the findings."
    if case is not None and verdict == "fail" and has_no_day(case):
        return "The heat does not go away on any day."
    if case is not None and verdict == "fail" and (case.margin_k or 0.0) >= 0.0:
        return "Something other than the coolant is over its limit: see the findings."
    words = {
        "pass": "The heat goes away on the design day.",
        "close": "The heat goes away on the design day, but only just.",
        "fail": "The heat does not go away on the design day.",
    }
    return words[verdict]


def _findings_words(findings: tuple[Finding, ...]) -> str:
    count = Counter(finding.severity.value for finding in findings)
    serious, warnings, notes = count["serious"], count["warning"], count["note"]
    if not findings:
        return "Findings: none"
    words = [f"{serious} serious"] if serious else []
    words += [f"{warnings} warning" + ("s" if warnings != 1 else "")] if warnings else []
    words += [f"{notes} note" + ("s" if notes != 1 else "")] if notes else []
    return "Findings: " + ", ".join(words)


def _set_text(label: QLabel, text: str) -> None:
    if label.text() != text:
        label.setText(text)


def _ink(widget: QWidget, colour: QColor) -> None:
    colours = widget.palette()
    colours.setColor(QPalette.ColorRole.WindowText, colour)
    widget.setPalette(colours)


def _larger(font: QFont, times: float) -> QFont:
    larger = QFont(font)
    larger.setPointSizeF(font.pointSizeF() * times)
    larger.setBold(True)
    return larger


def _title(text: str, parent: QWidget) -> QLabel:
    label = QLabel(said(text), parent)
    bold = QFont()
    bold.setBold(True)  # the size stays the window's own, also when that grows
    label.setFont(bold)
    return label


def _rule(parent: QWidget) -> QFrame:
    line = QFrame(parent)
    line.setFrameShape(QFrame.Shape.HLine)
    line.setFrameShadow(QFrame.Shadow.Plain)
    return line
