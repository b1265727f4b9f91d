"""What the painted face shows: what lies ahead of it, or how warm or how fast its air is, with the legend to it."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from grillestack.app.canvas.face_reading import legend_of, patches_of, radiator_face
from grillestack.app.canvas.items.air_item import AirCell, Measured
from grillestack.app.canvas.items.face_item import Patch
from grillestack.app.canvas.items.legend import AirSample, ColourBar, Legend, LegendEntry
from grillestack.app.canvas.trade_names import clear_words, trade_word
from grillestack.app.session import Session
from grillestack.model.parts import Core
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.scale_marks import scale_between
from grillestack.units.show import show_quantity

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.assess.face_air import FaceAir
    from grillestack.assess.result import Assessment, CaseResult

_MOST_MARKS = 8
# A scale is never shorter, or differences that nobody can feel would run through all colours.
_LEAST_SPAN_K = 10.0
_LEAST_SPEED_M_S = 1.0


class FaceShow(enum.Enum):
    """What is painted on the face."""

    AHEAD = "what lies ahead"
    TEMPERATURE = "how warm the air is"
    SPEED = "how fast the air is"


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintedFace:
    """What to paint: patches of one shade, or cells of a measured value; and what it means."""

    patches: tuple[Patch, ...] = ()
    measured: Measured = Measured.TEMPERATURE
    cells: tuple[AirCell, ...] = ()
    legend: Legend | None = None


class FaceChoice(QObject):
    """Remembers what is to be shown, of which duty case; the core is the selected one, else the radiator."""

    changed = Signal()

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._show = FaceShow.AHEAD
        self._case_id: str | None = None
        self._last: FaceAir | None = None

    @property
    def show(self) -> FaceShow:
        """Return what is shown."""
        return self._show

    @property
    def case_id(self) -> str | None:
        """Return the duty case that was chosen, or nothing where the deciding one is shown."""
        return self._case_id

    def choose(self, show: FaceShow) -> None:
        """Show that from now on."""
        if show is not self._show:
            self._show = show
            self.changed.emit()

    def choose_case(self, case_id: str | None) -> None:
        """Show the air of that duty case from now on; of the deciding one if none is named."""
        if case_id != self._case_id:
            self._case_id = case_id
            self.changed.emit()

    def painted(self) -> PaintedFace:
        """Return what is to be painted for the pack shown; air is worked out only where it is shown."""
        session = self._session
        assessment = session.assessment
        if self._show is FaceShow.AHEAD or assessment is None:
            if is_hidden_radiator(assessment):
                return PaintedFace()
            return PaintedFace(patches=patches_of(assessment), legend=legend_of(assessment, session.units))
        part_id, case = self._core_shown(assessment), self._case_shown(assessment)
        if part_id is None:
            return PaintedFace()
        if case is None:
            return PaintedFace(legend=_message("The air on the face is not known: the pack cannot be judged"))
        from grillestack.assess.face_air import face_air

        # The document itself is always settled from the start, so that what is shown of it depends on it alone.
        start = self._last if session.in_trial else None
        air = self._last = face_air(assessment, case.case_id, part_id, start)
        if air is None:
            return PaintedFace(legend=_message(f"The air on the face is not known in {case.name}"))
        measured = Measured.TEMPERATURE if self._show is FaceShow.TEMPERATURE else Measured.SPEED
        return painted_air(air, measured, _name(assessment, part_id), session.units)

    def _core_shown(self, assessment: Assessment) -> str | None:
        chosen = [part for part in assessment.project.parts if part.id in self._session.selection]
        selected = [part.id for part in chosen if isinstance(part, Core) and part.id in assessment.faces]
        if len(selected) == 1 and not chosen[0].hidden:
            return selected[0]
        if assessment.radiator is None or is_hidden_radiator(assessment):
            return None
        return assessment.radiator.part_id

    def _case_shown(self, assessment: Assessment) -> CaseResult | None:
        chosen = next((case for case in assessment.cases if case.case_id == self._case_id), None)
        return chosen or assessment.deciding_case


def painted_air(air: FaceAir, measured: Measured, core_words: str, units: UnitSystem) -> PaintedFace:
    """Return the cells of that air with the legend to them."""
    values = (air.air_in_degc if measured is Measured.TEMPERATURE else air.speed_m_s).tolist()
    has_air = (air.speed_m_s > 0.0).tolist()
    known = [value for value, moves in zip(values, has_air, strict=True) if moves]
    dimension = Dimension.TEMPERATURE if measured is Measured.TEMPERATURE else Dimension.FLOW_SPEED
    words = "Air into" if measured is Measured.TEMPERATURE else "Speed of the air into"
    where = f"{core_words}, {air.case_name}"
    if not known:
        return PaintedFace(legend=_message(f"No air enters {where}"))
    low = min(air.outside_degc, *known) if measured is Measured.TEMPERATURE else 0.0
    high = max(low + (_LEAST_SPAN_K if measured is Measured.TEMPERATURE else _LEAST_SPEED_M_S), *known)
    scale = scale_between(low, high, dimension, units, _MOST_MARKS)
    cells = tuple(
        AirCell(rings, scale.place_of(value) if moves else None, runs_forward=forward)
        for rings, value, moves, forward in zip(air.rings(), values, has_air, air.runs_forward.tolist(), strict=True)
    )
    coolest, hottest = (show_quantity(value, dimension, units) for value in (min(known), max(known)))
    legend = Legend(
        title=f"{words} {where}",
        title_rest=f": {coolest} to {hottest}",
        entries=_samples(has_air, air.runs_forward.tolist()),
        bar=ColourBar(measured, scale.marks, scale.unit),
    )
    return PaintedFace(measured=measured, cells=cells, legend=legend)


def _message(sentence: str) -> Legend:
    return Legend(sentence, (), is_message=True)


def is_hidden_radiator(assessment: Assessment | None) -> bool:
    """Return whether the radiator is hidden: then its face is not painted."""
    face = radiator_face(assessment)
    return face is not None and assessment is not None and assessment.project.part(face.part_id).hidden


def _samples(has_air: list[bool], forward: list[bool]) -> tuple[LegendEntry, ...]:
    found = []
    if not all(has_air):
        found.append(LegendEntry(AirSample.WITHOUT, "no air enters", ""))
    if any(forward):
        found.append(LegendEntry(AirSample.FORWARD, "comes back from behind", ""))
    return tuple(found)


def _name(assessment: Assessment, part_id: str) -> str:
    part = assessment.project.part(part_id)
    words = clear_words(assessment.project.parts)[part_id]
    return f"the {words}" if words == trade_word(part) else f"“{words}”"
