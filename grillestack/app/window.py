"""The window: shelf, pack and part card at the left, the nose in the middle, the verdict at the right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import (
    QApplication,
    QMainWindow,
    QSizePolicy,
    QSplitter,
    QToolBar,
    QVBoxLayout,
    QWidget,
)

from grillestack.app import drafts
from grillestack.app.arrange_acts import ArrangeActs
from grillestack.app.arrow_keys import FRONT_STEPS, PLAN_STEPS, SIDE_STEPS, add_arrow_keys
from grillestack.app.bench_mode import TEXT_FACTOR, BenchMode, bench_style
from grillestack.app.canvas.front_view import FrontView
from grillestack.app.canvas.gestures.grid import Grid
from grillestack.app.canvas.height_ruler import HeightRuler
from grillestack.app.canvas.plan_drawer import PlanDrawer
from grillestack.app.canvas.plan_view import PlanView
from grillestack.app.canvas.side_strip import SideStrip
from grillestack.app.canvas.typed_move import TypedMoves
from grillestack.app.clipboard_acts import ClipboardActs
from grillestack.app.columns import Columns
from grillestack.app.context_menus import ContextMenus
from grillestack.app.corner_steps import CornerSteps
from grillestack.app.dialogs import Dialogs
from grillestack.app.files import FileDesk
from grillestack.app.fit.bench import FitBench, FitPlace
from grillestack.app.help_pages import HelpPages
from grillestack.app.hints import Hints
from grillestack.app.layouts.acts import LayoutActs
from grillestack.app.layouts.page import CompareFunction, ComparisonPage, compare_nothing
from grillestack.app.layouts.switch import LayoutSwitch
from grillestack.app.locked import locked_words
from grillestack.app.look import colour_application, palette_of
from grillestack.app.low_column import LowColumn
from grillestack.app.main_menus import Hands, build_menus
from grillestack.app.measuring import Measuring
from grillestack.app.menus import Menus
from grillestack.app.message_strip import MessageStrip
from grillestack.app.nudge import Nudge
from grillestack.app.pack_acts import PackActs
from grillestack.app.pack_menu import PackHands
from grillestack.app.panels.draft import DraftForm
from grillestack.app.panels.pack_list import PackList
from grillestack.app.panels.part_card import PartCard
from grillestack.app.panels.project_rows import sheet_label
from grillestack.app.panels.shelf import Shelf
from grillestack.app.panels.verdict_panel import AdviseFunction, MendFunction, VerdictPanel, mend_nothing
from grillestack.app.photo.trace import Bench, TracePhoto
from grillestack.app.regions import Regions
from grillestack.app.session import Session
from grillestack.app.sheets.bench import SheetBench, SheetPlace
from grillestack.app.sheets.questions import QtSheetQuestions, SheetQuestions
from grillestack.app.shelf_acts import ShelfActs
from grillestack.app.state_acts import StateActs
from grillestack.app.status_line import StatusLine
from grillestack.app.tape.bench import Place as TapePlace
from grillestack.app.tape.bench import TapeBench
from grillestack.app.titled import titled
from grillestack.app.workers.further import Further, Worker
from grillestack.app.workers.places import Places
from grillestack.app.workers.process import WorkerProcess
from grillestack.model.parts import Part
from grillestack.storage.autosave import Recovery
from grillestack.storage.settings import Look

_LEFT_PX = (210, 170, 320)


@dataclass(frozen=True, slots=True, kw_only=True)
class Equipment:
    """What the window is given besides the session."""

    advise: AdviseFunction
    dialogs: Dialogs
    parts: Sequence[Part] = ()
    demos: Sequence[Path] = ()
    look: Look = Look.LIGHT
    compare: CompareFunction = compare_nothing
    mend: MendFunction = mend_nothing
    search: Callable[[], Worker] = WorkerProcess
    draw: Callable[[], Worker] = WorkerProcess
    ask_of_sheets: SheetQuestions = field(default_factory=QtSheetQuestions)


class MainWindow(QMainWindow):
    """Puts the panels together; what they do goes through the session."""

    def __init__(self, session: Session, equipment: Equipment) -> None:
        super().__init__()
        self.session = session
        self.look = equipment.look
        self.scale_factor = 1.0
        self.demos = tuple(equipment.demos)
        self.palette_shown = palette_of(equipment.look)
        self.desk = FileDesk(session, equipment.dialogs, parent=self, demos=equipment.demos)
        self.acts = PackActs(session)
        self.clipboard = ClipboardActs(session, self.acts)
        self.states = StateActs(session)
        self.nudge = Nudge(session)
        self.strip = MessageStrip()
        self.help_pages = HelpPages(self)
        palette = self.palette_shown
        heights = HeightRuler(self)
        self.shelf = Shelf(session, palette, equipment.parts)
        self.pack = PackList(session, palette)
        self.card = PartCard(session)
        self.front = FrontView(session, palette, self.shelf.find_part, heights)
        self.side = SideStrip(session, palette, heights)
        self.plan = PlanView(session, palette, self.front)
        self.drawer = PlanDrawer(self.front, self.plan)
        self.grid = Grid(self)
        for view in (self.front, self.side, self.plan):
            view.grid = self.grid
            self.grid.changed.connect(view.viewport().update)
        self.measuring = Measuring(session, self.front, self.side)
        self.further = Further(session, self)
        self.front.better.use(Places(session, self.further, self))
        self.verdict = VerdictPanel(session, palette, equipment.advise, self.further, mend=equipment.mend)
        self.layouts = LayoutActs(session, self.card.settle, self._show_draft)
        self.comparison = ComparisonPage(session, palette, equipment.compare, self.layouts)
        self.layout_switch = LayoutSwitch(session, self.layouts, self.comparison.show_with)
        self.bench_mode = BenchMode((self.front, self.side, self.plan), self)
        self.status = StatusLine(session, self.desk, self.bench_mode)
        self._lay_out()
        self.hints = Hints(session, self.front, self.side, palette)
        self.shelf_acts = ShelfActs(session, self.shelf, self.acts, self.strip.say)
        self.trace = self._tracing(equipment.dialogs)
        self.tape = self._measuring()
        self.fit = self._searching(equipment.search)
        place = SheetPlace(self.columns, self._give_way, lambda: self.palette_shown, self.front.setFocus)
        self.drawings = SheetBench(session, place, equipment.draw, equipment.ask_of_sheets, self)
        self._build_menus()
        corner_steps = CornerSteps(session, self.front.outline_hand, self.nudge)
        for view, steps in ((self.front, FRONT_STEPS), (self.side, SIDE_STEPS), (self.plan, PLAN_STEPS)):
            add_arrow_keys(view, steps, self.nudge if view is not self.front else corner_steps)
        wholes = (self.row, self.strip, self.shelf, self.pack, self.card, self.front, self.side, self.plan)
        self.regions = Regions(self, (*wholes, self.verdict, self.comparison, self.status))
        self._listen()
        self._show_title()
        self.front.setFocus()

    def show_look(self, look: Look) -> None:
        """Colour everything anew."""
        self.look = look
        palette = self.palette_shown = palette_of(look)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            colour_application(app, palette, bench_style() if self.bench_mode.is_on else "")
        for view in (self.shelf, self.pack, self.front, self.side, self.plan, self.verdict, self.comparison):
            view.show_palette(palette)
        for act in (self.trace, self.tape, self.fit, self.drawings, self.hints):
            act.show_palette(palette)

    def _show_bench_mode(self, is_on: bool) -> None:  # noqa: FBT001  Qt's signal hands a bare bool
        self.columns.enlarge(TEXT_FACTOR if is_on else 1.0)
        self.show_look(self.look)

    def _choose_scale(self, factor: float) -> None:
        self.scale_factor = factor

    def start_new(self) -> None:
        """Ask for opening and depth in the part card's place."""
        if self.desk.may_leave():
            self._show_draft(drafts.new_nose(self.session, self.desk.begin_project))

    def offer_recovery(self, recovery: Recovery) -> None:
        """Tell of unsaved work of a window that is no more."""
        name = recovery.original.name if recovery.original else recovery.project.title
        self.strip.say(
            f"Unsaved work on “{name}” was kept when its window ended.",
            [
                ("Go on with it", lambda: self.desk.take_up(recovery)),
                ("Throw it away", lambda: self.desk.let_go(recovery)),
            ],
        )

    def report_failure(self, sentence: str) -> None:
        """Tell of a fault of ours, and keep the work at once."""
        self.desk.keep_now()
        self.strip.say(sentence)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about unsaved work."""
        if self.desk.may_leave():
            self.desk.close()
            self.further.close()
            self.fit.end()
            self.drawings.end()
            self.help_pages.close()
            event.accept()
        else:
            event.ignore()

    def _lay_out(self) -> None:
        left = QSplitter(Qt.Orientation.Vertical)
        for title, panel in (
            ("Shelf", self.shelf),
            ("Pack, front to back", self.pack),
            ("Part card", self.card),
        ):
            left.addWidget(titled(title, panel))
        left.setSizes(list(_LEFT_PX))
        left.setStretchFactor(2, 1)
        left.setChildrenCollapsible(False)
        left.setHandleWidth(1)
        self.columns = Columns(LowColumn(left), self.drawer, self.side, LowColumn(self.verdict))
        whole = QWidget()
        layout = QVBoxLayout(whole)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.strip)
        layout.addWidget(self.columns, 1)
        layout.addWidget(self.comparison, 1)
        self.setCentralWidget(whole)
        self.setStatusBar(self.status)
        self.setAccessibleName("grillestack")

    def _build_menus(self) -> None:
        row = self.row = QToolBar("Tool row")
        row.setMovable(False)
        row.setContextMenuPolicy(Qt.ContextMenuPolicy.PreventContextMenu)
        self.addToolBar(row)
        self.menus = Menus(self, row)
        hands = Hands(
            session=self.session,
            desk=self.desk,
            of_pack=PackHands(
                acts=self.acts,
                arrange=ArrangeActs(self.session),
                states=self.states,
                pack=self.pack,
                layouts=self.layout_switch,
                put_on_shelf=self.shelf_acts.put_copies,
                measure=self.tape.begin,
                move_by=TypedMoves(self.session, self.front, self.side, self.plan).begin,
                what_fits=self.fit.begin,
            ),
            clipboard=self.clipboard,
            front=self.front,
            side=self.side,
            measuring=self.measuring,
            grid=self.grid,
            plan=self.drawer,
            help_pages=self.help_pages,
            show_hints=self.hints.show,
            trace=self.trace,
            start_new=self.start_new,
            leave=self.close,
            show_draft=self._show_draft,
            look=lambda: self.look,
            show_look=self.show_look,
            demos=lambda: self.demos,
            bench=self.bench_mode,
            scale_factor=lambda: self.scale_factor,
            choose_scale=self._choose_scale,
            columns=self.columns,
            drawings=self.drawings,
        )
        build_menus(self.menus, hands)
        self.context = ContextMenus(self.session, self.menus, self)
        self.context.serve_sheet(self.front, lambda part: (part.placement.y_mm, part.placement.z_mm))
        self.context.serve_sheet(self.side, lambda part: (part.placement.x_mm, part.placement.z_mm))
        self.context.serve_sheet(self.plan, lambda part: (part.placement.y_mm, part.placement.x_mm))
        self.context.serve_pack(self.pack)
        self.context.serve_shelf(self.shelf, lambda name: self.shelf_acts.lines_for(name, self._show_draft))
        rest = QWidget()
        rest.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        row.addWidget(rest)
        row.addWidget(self.layout_switch)

    def _tracing(self, dialogs: Dialogs) -> TracePhoto:
        bench = Bench(
            ask_photo=lambda folder: dialogs.ask_photo(folder),
            show_beside=self._lend_to_photo,
            under_nose=self.front.photo,
            complain=self.strip.say,
            palette=lambda: self.palette_shown,
        )
        return TracePhoto(self.session, bench, self)

    def _lend_to_photo(self, panel: QWidget | None) -> None:
        if panel is not None:
            self.drawings.leave()
            self.fit.close()
        self.columns.show_beside(panel)

    def _measuring(self) -> TapeBench:
        def show_beside(panel: QWidget | None) -> None:
            self.trace.leave()
            self.comparison.leave()
            if panel is not None:
                self.drawings.leave()
                self.fit.close()
            self.columns.show_beside(panel)

        place = TapePlace(
            show_beside=show_beside,
            add=self.acts.add,
            shelf_changed=self.shelf_acts.refresh,
            say=self.strip.say,
            palette=lambda: self.palette_shown,
            back_to_nose=self.front.setFocus,
        )
        return TapeBench(self.session, place, self)

    def _searching(self, make: Callable[[], Worker]) -> FitBench:
        def show_beside(panel: QWidget | None) -> None:
            if panel is not None:
                self.drawings.leave()
                self.trace.leave()
                self.tape.put_aside()
                self.comparison.leave()
            self.columns.show_beside(panel)

        place = FitPlace(
            show_beside=show_beside,
            scene=self.front.sheet_scene,
            palette=lambda: self.palette_shown,
            back_to_nose=self.front.setFocus,
        )
        return FitBench(self.session, place, make, self)

    def _give_way(self) -> None:
        self.card.settle()
        self.trace.leave()
        self.tape.put_aside()
        self.fit.close()
        self.comparison.leave()

    def _offer_unlocking(self, ids: tuple[str, ...]) -> None:
        words = locked_words(self.session.project, ids)
        self.session.message.emit(words)

        def unlock() -> None:
            self.states.unlock(ids)
            self.front.setFocus()  # the button that had the keyboard is gone

        self.strip.say(words, [("Unlock", unlock)])

    def _listen(self) -> None:
        session = self.session
        session.file_changed.connect(lambda _path: self._opened())
        session.clean_changed.connect(lambda _clean: self._show_title())
        session.project_changed.connect(lambda _old, _new: self._show_title())
        session.stayed.connect(self._offer_unlocking)
        self.bench_mode.changed.connect(self._show_bench_mode)
        self.pack.lock_wanted.connect(lambda name: self.states.toggle_locked([name]))
        self.pack.hide_wanted.connect(lambda name: self.states.toggle_hidden([name]))
        self.shelf.wanted.connect(self.acts.add)
        self.verdict.type_requested.connect(self._type)
        self.pack.itemDoubleClicked.connect(lambda _row: self.front.zoom_to_parts(session.selection))
        self.shelf.measure_wanted.connect(self.tape.begin)
        self.comparison.opened.connect(self.drawings.leave)
        self.comparison.opened.connect(self.columns.hide)
        self.comparison.left.connect(self.columns.show)
        self.comparison.left.connect(self.front.setFocus)
        self.desk.complained.connect(self.strip.say)
        self.further.complained.connect(self.strip.say)
        self.desk.settling.connect(self.card.settle)
        self.desk.recovery_found.connect(self.offer_recovery)
        self.front.pointer_moved.connect(self.status.show_front_place)
        self.side.pointer_moved.connect(self.status.show_side_place)
        self.plan.pointer_moved.connect(self.status.show_plan_place)

    def _type(self, sheet_field: str) -> None:
        """Lead to a line of the engine sheet."""
        self.session.select(())
        self.card.go_to(sheet_label(sheet_field))

    def _opened(self) -> None:
        self.hints.put_away()
        self._show_title()
        self.strip.clear()

    def _show_title(self) -> None:
        path = self.session.path
        name = path.name if path else self.session.project.title
        self.setWindowTitle(f"{name}[*]")
        self.setWindowModified(not self.session.is_clean)

    def _show_draft(self, draft: DraftForm) -> None:
        self.session.end_trial()
        self.comparison.leave()
        self.drawings.leave()
        self.card.show_draft(draft)
        for ended in (draft.taken, draft.cancelled):
            ended.connect(self.front.setFocus)
