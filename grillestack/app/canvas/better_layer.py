"""Where would be better: asks when a hand takes hold of a core, and shows the map while it holds it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final, Protocol

from PySide6.QtCore import QObject, QRectF, QTimer, Signal, SignalInstance
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QGraphicsScene

from grillestack.app.canvas.items.better_item import (
    BetterCell,
    BetterItem,
    BetterMarks,
    paint_best,
    paint_better,
    paint_middle,
)
from grillestack.app.canvas.items.overlay import Over
from grillestack.app.canvas.items.part_item import rect_of
from grillestack.app.canvas.trade_names import clear_words, trade_word
from grillestack.app.palette import Palette
from grillestack.app.session import Session
from grillestack.geometry.projection import project_part
from grillestack.model.parts import Core
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.advice.better_places import BetterPlaces

AT_REST_MS: Final = 500
_HARDLY_K: Final = 0.05
_Z_MAP = 480.0


class Maps(Protocol):
    """What works the map out."""

    @property
    def changed(self) -> SignalInstance:
        """Emitted when there is something else to show."""

    @property
    def found(self) -> BetterPlaces | None:
        """Return the map, if it is current."""

    @property
    def share_frac(self) -> float | None:
        """Return how much is worked out; nothing while nothing is."""

    @property
    def broke_off(self) -> bool:
        """Return whether the calculation broke off."""

    def want(self, part_id: str, *, is_held: bool) -> None:
        """Ask for the map of that core, before all others if a hand holds it."""


class BetterLayer(QObject):
    """Keeps map and words in step with what the hand holds; without maps it shows nothing."""

    changed = Signal()

    def __init__(self, session: Session, is_held: Callable[[], bool], scene: QGraphicsScene, palette: Palette) -> None:
        super().__init__(scene)
        self._session = session
        self._is_held = is_held
        self._palette = palette
        self._maps: Maps | None = None
        self._item = BetterItem()
        self._item.setZValue(_Z_MAP)
        self._item.hide()
        scene.addItem(self._item)
        self._cells_of: BetterPlaces | None = None
        self._cells: tuple[BetterCell, ...] = ()
        # The map of a core that was only chosen is worked out once the hand has come to rest, so that it is there when it is held.
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(AT_REST_MS)
        self._rest.timeout.connect(self._ask_ahead)
        session.assessment_changed.connect(lambda _assessment: self._ask_for_the_held())
        session.selection_changed.connect(lambda _ids: self._rest.start())

    def use(self, maps: Maps) -> None:
        """Ask this for maps from now on."""
        self._maps = maps
        maps.changed.connect(self.follow)

    def show_palette(self, palette: Palette) -> None:
        """Draw in these colours."""
        self._palette = palette
        self.follow()

    def held_core(self) -> Core | None:
        """Return the core that the hand moves over the nose at this moment."""
        session = self._session
        if not session.in_trial or not self._is_held() or len(session.selection) != 1:
            return None
        before, now = (_core(project, session.selection[0]) for project in (session.project, session.shown))
        if before is None or now is None or before.placement.x_mm != now.placement.x_mm:
            return None
        return now if project_part(before).outline_box.area_mm2 == project_part(now).outline_box.area_mm2 else None

    def follow(self) -> None:
        """Show the map of the held core, or nothing."""
        core = self.held_core()
        found = self._maps.found if self._maps is not None and core is not None else None
        is_map = found is not None and core is not None and found.part_id == core.id
        if is_map and found is not None and found is not self._cells_of:
            self._cells_of, self._cells = found, _cells(self._session.project, found)
        self._item.show_cells(self._cells if is_map else (), self._palette)
        self._item.setVisible(is_map)
        self.changed.emit()

    def paint(self, painter: QPainter, over: Over) -> list[QRectF]:
        """Write what belongs to the map; return the strips of the texts."""
        core = self.held_core()
        if self._maps is None or core is None:
            return []
        if self._item.isVisible():
            box = project_part(core).outline_box
            paint_middle(painter, over, ((box.y0_mm + box.y1_mm) / 2, (box.z0_mm + box.z1_mm) / 2))
        marks = _marks(self._session.project, core, self._maps, over.units)
        return [] if marks is None else paint_better(painter, over, marks)

    def paint_best(self, painter: QPainter, over: Over) -> None:
        """Mark the best place over everything else that is written."""
        core = self.held_core()
        marks = (
            None if self._maps is None or core is None else _marks(self._session.project, core, self._maps, over.units)
        )
        if marks is not None:
            paint_best(painter, over, marks)

    def _ask_for_the_held(self) -> None:
        core = self.held_core()
        if self._maps is not None and core is not None:
            self._maps.want(core.id, is_held=True)
        elif not self._session.in_trial:
            self._rest.start()
        self.follow()

    def _ask_ahead(self) -> None:
        session = self._session
        if self._maps is None or session.in_trial or len(session.selection) != 1 or session.base_assessment is None:
            return
        if _core(session.project, session.selection[0]) is not None:
            self._maps.want(session.selection[0], is_held=False)


def _core(project: Project, part_id: str) -> Core | None:
    found = next((part for part in project.parts if part.id == part_id), None)
    return found if isinstance(found, Core) else None


def _cells(project: Project, found: BetterPlaces) -> tuple[BetterCell, ...]:
    box = project_part(project.part(found.part_id)).outline_box
    y, z = (box.y0_mm + box.y1_mm) / 2, (box.z0_mm + box.z1_mm) / 2
    cells = []
    edge = found.step_mm
    for spot in found.spots:
        rect = QRectF(y + spot.dy_mm - edge / 2, z + spot.dz_mm - edge / 2, edge, edge)
        cells.append(BetterCell(rect, spot.change_k, spot.spoils))
    return tuple(cells)


def _marks(project: Project, core: Core, maps: Maps, units: UnitSystem) -> BetterMarks | None:
    words = clear_words(project.parts)[core.id]
    name = f"the {words}" if words == trade_word(core) else f"“{words}”"
    if maps.share_frac is not None:
        done = show_quantity(maps.share_frac, Dimension.FRACTION, units)
        return BetterMarks(sentence=f"working: where {name} would be better, {done}")
    found = maps.found
    if found is None:
        return BetterMarks(sentence=f"Where {name} would be better is not known.") if maps.broke_off else None
    if found.reason:
        return BetterMarks(sentence=found.reason)
    every = (*found.spots, *found.finer_spots)
    known = [spot.change_k for spot in every if spot.change_k is not None]
    if not known:
        return BetterMarks(sentence=f"There is no room to move {name} over the nose.")
    sentence = f"Hottest day, with the middle of {name} there:"
    worst = _change(min(known), units) if min(known) < -_HARDLY_K else ""
    most = _change(max(known), units) if max(known) > _HARDLY_K else ""
    spoilt = "spoils something else" if any(spot.spoils for spot in every) else ""
    if found.best is None or found.best.change_k is None:
        sentence = f"No place within reach of {name} is better. {sentence if worst or most else ''}".rstrip()
        return BetterMarks(sentence=sentence, worst_text=worst, most_text=most, spoilt_text=spoilt)
    box = project_part(project.part(core.id)).outline_box
    dy, dz = found.best.dy_mm, found.best.dz_mm
    return BetterMarks(
        sentence=sentence,
        best_mm=((box.y0_mm + box.y1_mm) / 2 + dy, (box.z0_mm + box.z1_mm) / 2 + dz),
        best_text=f"{_change(found.best.change_k, units)} here",
        ghost=rect_of(box).translated(dy, dz),
        worst_text=worst,
        most_text=most,
        spoilt_text=spoilt,
    )


def _change(change_k: float, units: UnitSystem) -> str:
    text = show_quantity(abs(change_k), Dimension.TEMPERATURE_DIFFERENCE, units)
    return f"+{text}" if change_k >= 0 else f"−{text}"
