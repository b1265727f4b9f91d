"""A picture of the window with a project in it, made without a display."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QEvent, QLocale, QMessageLogContext, Qt, QtMsgType, qInstallMessageHandler
from PySide6.QtWidgets import QApplication

from grillestack.app.look import (
    colour_application,
    palette_of,
    prepare_application,
    use_offscreen_without_a_display,
)
from grillestack.app.scientific_core import ScientificCore
from grillestack.app.session import Session
from grillestack.app.start import furnished_window, units_of
from grillestack.app.workers.in_place import InPlace
from grillestack.model.project import Project
from grillestack.storage.project_file import ProjectFileError, read_project
from grillestack.storage.settings import Settings


def write_picture(path: Path, out: Path, width: int, height: int, settings: Settings | None = None) -> int:
    """Write the window as it shows the project of that file as PNG; return the exit code, 0 if it is written."""
    try:
        project = read_project(path)
    except ProjectFileError as error:
        return _refuse(str(error))
    use_offscreen_without_a_display()
    with _without_a_platforms_chatter():
        return _paint(project, path, (out, width, height), settings or Settings())


def _paint(project: Project, path: Path, wanted: tuple[Path, int, int], settings: Settings) -> int:
    out, width, height = wanted
    app = QApplication.instance() or QApplication(sys.argv[:1])
    if not isinstance(app, QApplication):
        raise TypeError("A Qt application without windows is running already: start grillestack in its own process.")
    prepare_application(app)
    colour_application(app, palette_of(settings.look))
    core = ScientificCore()
    session = Session(core.assess, units_of(settings, QLocale.system()))
    window, _ = furnished_window(session, core, settings)
    try:
        session.open_project(project, path)
        window.further.start(lambda: InPlace(core.answer), core.unpack)
        window.further.ask()
        window.setAttribute(Qt.WidgetAttribute.WA_DontShowOnScreen)
        window.resize(width, height)
        window.show()
        app.processEvents()
        if (window.width(), window.height()) != (width, height):
            return _refuse(
                f"The window needs at least {window.width()} × {window.height()} pixels: ask for a larger picture."
            )
        window.front.zoom_to_fit()
        app.processEvents()
        picture = window.grab()
        if not picture.save(str(out), "PNG"):
            return _refuse(f"“{out.name}” was not written: choose a folder that exists and may be written.")
    finally:
        window.desk.close()
        window.close()
        window.deleteLater()
        QCoreApplication.sendPostedEvents(window, QEvent.Type.DeferredDelete.value)
    return 0


@contextlib.contextmanager
def _without_a_platforms_chatter() -> Iterator[None]:
    """Leave out what the platform without a screen says of every window, and pass everything else on."""

    def pass_on(kind: QtMsgType, context: QMessageLogContext, words: str) -> None:
        if words.endswith("does not support propagateSizeHints()"):
            return
        if callable(before):
            before(kind, context, words)
        else:
            print(words, file=sys.stderr)

    before = qInstallMessageHandler(pass_on)
    try:
        yield
    finally:
        qInstallMessageHandler(before)


def _refuse(sentence: str) -> int:
    print(sentence, file=sys.stderr)
    return 1
