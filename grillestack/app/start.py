"""How the window starts: painted first, then the scientific core, then the answer; and what happens when something fails."""

from __future__ import annotations

import gc
import logging
import sys
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QLocale, QTimer
from PySide6.QtWidgets import QApplication

from grillestack.app.dialogs import QtDialogs
from grillestack.app.first_paint import FirstPaint
from grillestack.app.kept_choices import choices_of, scale_as_chosen, show_choices
from grillestack.app.look import colour_application, palette_of, prepare_application
from grillestack.app.own_parts import own_size_starters, shelf_parts
from grillestack.app.scientific_core import ScientificCore
from grillestack.app.session import Session
from grillestack.app.window import Equipment, MainWindow
from grillestack.app.workers.process import WorkerProcess
from grillestack.assets.locate import MissingResourceError, demo_projects
from grillestack.model.project import Project
from grillestack.storage.project_file import read_project
from grillestack.storage.settings import Settings, SettingsError, save_settings, settings_and_trouble
from grillestack.storage.trouble import StoredFileError
from grillestack.units.display import DecimalMark, UnitSystem

_log = logging.getLogger(__name__)

FAULT = "Something went wrong inside grillestack; your work is kept. Save it under another name and start again if it goes on."


def run_window(path: Path | None) -> int:
    """Show the window with the project of that file, or with the first demo, until it is closed; return the exit code."""
    settings, trouble = settings_and_trouble()
    scale_as_chosen(settings)
    app = QApplication.instance() or QApplication(sys.argv[:1])
    if not isinstance(app, QApplication):
        raise TypeError("A Qt application without windows is running already: start grillestack in its own process.")
    prepare_application(app)
    core = ScientificCore()
    session = Session(None, units_of(settings, QLocale.system()), project_to_come(path))
    window, complaints = furnished_window(session, core, settings)
    # Qt styles every widget anew whenever one is put into another, so the colours come once all stand where they belong.
    colour_application(app, palette_of(settings.look))
    sys.excepthook = _hook(window)
    show_choices(window, settings)
    open_first(window, path)
    greet(window, path, settings)
    for sentence in filter(None, (trouble, *complaints)):
        window.strip.say(sentence)

    def go_on() -> None:
        try:
            core.load()
            session.use_core(core.assess)
        finally:
            _collect_again()
        window.front.zoom_to_fit()
        window.desk.look_for_recoveries()
        # The verdict is painted before the second process takes its share of the machine.
        QTimer.singleShot(0, window, go_further)

    def go_further() -> None:
        core.load_answers()
        window.further.start(WorkerProcess, core.unpack)

    FirstPaint(window.front.viewport(), go_on)
    window.show()
    app.aboutToQuit.connect(window.further.close)
    app.aboutToQuit.connect(lambda: _keep_settings(window, settings))
    return int(app.exec())


def furnished_window(session: Session, core: ScientificCore, settings: Settings) -> tuple[MainWindow, list[str]]:
    """Return the window with the shelf and the demos, and what could not be had of them, in sentences."""
    parts, complaints = shelf_parts()
    demos: tuple[Path, ...] = ()
    try:
        demos = demo_projects()
    except MissingResourceError as error:
        complaints.append(str(error))
    dialogs = QtDialogs()
    window = MainWindow(
        session,
        Equipment(
            advise=core.advise,
            dialogs=dialogs,
            parts=(*parts, *own_size_starters()),
            demos=demos,
            look=settings.look,
            compare=core.compare,
            mend=core.mend,
        ),
    )
    dialogs.parent = window
    return window, complaints


def project_to_come(path: Path | None) -> Project | None:
    """Return what is opened first, so that the window is made for it; trouble with it is told when it is opened."""
    try:
        return read_project(path or demo_projects()[0])
    except (StoredFileError, MissingResourceError, IndexError):
        return None


def open_first(window: MainWindow, path: Path | None) -> None:
    """Open the file, or the first demo if none is named."""
    if path is not None:
        window.desk.open_file(path)
    elif window.demos:
        window.desk.open_file(window.demos[0], as_demo=True)


def greet(window: MainWindow, path: Path | None, settings: Settings) -> None:
    """Show the hints to who never had a window here and named no file."""
    if path is None and is_first_start(settings):
        window.hints.show()


def is_first_start(settings: Settings) -> bool:
    """Return whether no window was ever closed here: each leaves its place behind."""
    return not settings.window_geometry_text


def units_of(settings: Settings, usual: QLocale) -> UnitSystem:
    """Return the units that the settings name, else millimetres, with the decimal mark they name, else the user's own."""
    system = next((system for system in UnitSystem if system.value == settings.unit_system), UnitSystem.METRIC)
    return system.with_mark(mark_of(settings, usual))


def mark_of(settings: Settings, usual: QLocale) -> DecimalMark:
    """Return the decimal mark that the settings name, else that of the user's language and country."""
    if settings.decimal_mark:
        return next((mark for mark in DecimalMark if mark.value == settings.decimal_mark), DecimalMark.POINT)
    return DecimalMark.COMMA if usual.decimalPoint() == "," else DecimalMark.POINT


def _collect_again() -> None:
    """Have Python look for rubbish again, but not among what stays for good: a drag is not held up by that."""
    gc.freeze()
    gc.enable()


ExceptHook = Callable[[type[BaseException], BaseException, TracebackType | None], None]


def _hook(window: MainWindow) -> ExceptHook:
    def report(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            window.close()
            return
        _log.critical("a fault in the window", exc_info=(kind, error, trace))
        window.report_failure(FAULT)

    return report


def _keep_settings(window: MainWindow, before: Settings) -> None:
    try:
        save_settings(choices_of(window, before))
    except SettingsError as error:
        _log.warning("%s", error)
