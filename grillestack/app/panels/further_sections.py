"""The further answers in the verdict column: four sections that say *working* until they belong to what is shown."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from grillestack.advice.why_change import why_gain
from grillestack.app.palette import Palette
from grillestack.app.panels.answer_section import AnswerSection
from grillestack.app.panels.changes_list import ChangesList
from grillestack.app.panels.degrees import Degrees
from grillestack.app.panels.further_words import (
    band_words,
    best_words,
    chance_words,
    limit_reached_words,
    lost_words,
)
from grillestack.app.panels.over_time import CourseChoice, OverTimePanel
from grillestack.app.panels.sureness import Sureness
from grillestack.app.session import Session
from grillestack.app.workers.further import Further
from grillestack.app.workers.messages import Question
from grillestack.app.workers.standing import Stage, Standing
from grillestack.assess.figure import FigureName, Subject, Why
from grillestack.assess.why_further import why_band, why_chance, why_driver, why_over_time, why_step
from grillestack.model.edits import set_photo
from grillestack.units.quantity import Dimension
from grillestack.units.show import display_unit

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.advice.ladder import Rung
    from grillestack.assess.confidence import Confidence

_QUESTION_OF = {
    FigureName.STEP: Question.DEGREES,
    FigureName.GAIN: Question.CHANGES,
    FigureName.DRIVER: Question.SURENESS,
    FigureName.BAND: Question.SURENESS,
    FigureName.CHANCE: Question.SURENESS,
    FigureName.OVER_TIME: Question.OVER_TIME,
}
TITLES = {
    Question.DEGREES: "Where the degrees go",
    Question.CHANGES: "What to change first",
    Question.SURENESS: "How sure the day is",
    Question.OVER_TIME: "Over time",
}


class FurtherSections(QObject):
    """Shows how each question stands, and does a change that is asked for in one undo step."""

    why_asked = Signal(object, object)  # the widget that asks, Subject
    band_changed = Signal(str, str)  # band beside the hottest day, and the chance of meeting the design day

    def __init__(self, session: Session, palette: Palette, further: Further, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._further = further
        self.degrees = Degrees(palette)
        self.changes = ChangesList(palette)
        self.sureness = Sureness(palette)
        self.over_time = OverTimePanel(palette)
        self.choice = CourseChoice(palette)
        contents: dict[Question, QWidget] = {
            Question.DEGREES: self.degrees,
            Question.CHANGES: self.changes,
            Question.SURENESS: self.sureness,
            Question.OVER_TIME: self.over_time,
        }
        self.sections = {
            question: AnswerSection(title, contents[question], palette) for question, title in TITLES.items()
        }
        self.sections[Question.OVER_TIME].put_above(self.choice)
        further.changed.connect(self.show_question)
        session.units_changed.connect(lambda _units: self.show_all())
        self.choice.course_chosen.connect(further.choose_course)
        self.changes.show_requested.connect(session.select)
        self.changes.do_requested.connect(self._do)
        for asks in (self.degrees.why_asked, self.changes.why_asked, self.sureness.drivers.why_asked):
            asks.connect(lambda spot: self.why_asked.emit(spot, spot.subject))
        link = self.over_time.why_link
        link.clicked.connect(lambda: self.why_asked.emit(link, Subject(FigureName.OVER_TIME)))
        self.show_all()

    @property
    def further(self) -> Further:
        """Return who works the answers out."""
        return self._further

    def why(self, subject: Subject) -> Why | None:
        """Return what a further figure rests on, or nothing if there is none, or only one of before the last change."""
        question = _QUESTION_OF.get(subject.figure)
        standing = None if question is None else self._further.standing(question)
        if standing is None or not standing.is_current or standing.result is None:
            return None
        result: Any = standing.result
        if subject.figure is FigureName.STEP:
            return why_step(result, subject.place)
        if subject.figure is FigureName.GAIN:
            return (
                why_gain(result.rungs[subject.place], result.case_name) if subject.place < len(result.rungs) else None
            )
        if subject.figure is FigureName.DRIVER:
            return why_driver(result, subject.place)
        if subject.figure is FigureName.OVER_TIME:
            return why_over_time(result)
        return why_band(result) if subject.figure is FigureName.BAND else why_chance(result)

    def tab_chain(self, *questions: Question) -> Iterator[QWidget]:
        """Return what Tab reaches in the sections of these questions, top to bottom."""
        for question in questions:
            yield self.sections[question].heading
            if question is Question.DEGREES:
                yield from self.degrees.chart.spots
                yield self.degrees.link
            elif question is Question.CHANGES:
                for row in self.changes.rows:
                    yield from (row.spot, row.show_me, row.do_it)
                yield self.changes.more
            elif question is Question.SURENESS:
                yield from self.sureness.drivers.spots
            elif question is Question.OVER_TIME:
                yield from (self.choice.before, self.choice.after, self.over_time.why_link)

    def show_all(self) -> None:
        """Show how every question stands."""
        for question in Question:
            self.show_question(question)

    def show_question(self, question: Question) -> None:
        """Show how that question stands."""
        standing = self._further.standing(question)
        result: Any = standing.result
        is_old = not standing.is_current
        units = self._session.units
        name = result.case_name if result is not None and question is not Question.OVER_TIME else ""
        about, gist = (f"For {name}, in steps that add up." if question is Question.DEGREES else f"For {name}."), ""
        if question is Question.DEGREES:
            design = self._further.case.design_ambient_degc if self._further.case else None
            self.degrees.show_degrees(result, design, units, is_old=is_old)
            gist = lost_words(result, units) if result else ""
        elif question is Question.SURENESS:
            self.sureness.show_band(result, units, is_old=is_old)
            gist = f"{band_words(result, units)} {display_unit(Dimension.TEMPERATURE, units)}" if result else ""
            self.band_changed.emit(*self._band(standing))
        elif question is Question.CHANGES:
            self.changes.show_ladder(result, units, is_old=is_old)
            gist = best_words(result, units) if result else ""
        else:
            self._show_choice()
            self.over_time.show_course(result, units, is_old=is_old)
            gist = limit_reached_words(result) if result else ""
            about = ""
        self.sections[question].show_standing(standing, gist, about)

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        for part in (self.degrees, self.changes, self.sureness, self.over_time, self.choice):
            part.show_palette(palette)
        for section in self.sections.values():
            section.show_palette(palette)

    def _band(self, standing: Standing) -> tuple[str, str]:
        band: Confidence | None = standing.result if standing.is_current else None  # type: ignore[assignment]  # of its kind
        if band is not None:
            return band_words(band, self._session.units), chance_words(band)
        if standing.stage is Stage.WORKING:
            return "working", "working"
        return "", "not known" if standing.reason else ""

    def _show_choice(self) -> None:
        cases = [(case.id, case.name) for case in self._session.project.cases]
        self.choice.show_choice(cases, self._further.course)

    def _do(self, rung: Rung) -> None:
        """Make the change, if it is one of the document as it is."""
        if self._further.standing(Question.CHANGES).is_current:
            # The photo stayed behind when the question was asked.
            changed = set_photo(rung.project, self._session.project.nose.photo)
            self._session.apply(f"{rung.title[0].lower()}{rung.title[1:]}", changed)
