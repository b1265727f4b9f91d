"""Makes the pictures of the help pages from the real window, so that they stay true.

`python -m grillestack.app.help_pictures resources/help/pictures` writes all of them anew; no display is needed.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from msgspec.structs import replace
from PySide6.QtCore import QCoreApplication, QEvent, QPointF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPixmap, QPolygonF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from grillestack.app.dialogs import QtDialogs
from grillestack.app.look import (
    colour_application,
    palette_of,
    prepare_application,
    use_offscreen_without_a_display,
)
from grillestack.app.own_parts import own_size_starters
from grillestack.app.panels.part_card import PartCard
from grillestack.app.photo.marking_panel import MarkingPanel
from grillestack.app.photo.picture_file import kept_picture, pixels_of
from grillestack.app.scientific_core import ScientificCore
from grillestack.app.session import Session
from grillestack.app.tape.panel import TapePanel
from grillestack.app.tape.taped import Taped, TapedPort
from grillestack.app.window import Equipment, MainWindow
from grillestack.app.workers.in_place import InPlace
from grillestack.app.workers.messages import Question
from grillestack.assess.figure import FigureName
from grillestack.assets.locate import demo_projects
from grillestack.model.edits import replace_part
from grillestack.model.parts import CoreRole
from grillestack.model.project import cores
from grillestack.storage.catalogue import bundled_parts
from grillestack.storage.project_file import read_project
from grillestack.storage.settings import Look
from grillestack.units.display import UnitSystem

WINDOW_PX: Final = QSize(1280, 800)
_MEASURED: Final = Taped(
    core_width_mm=665.0,
    core_height_mm=420.0,
    depth_mm=56.0,
    overall_width_mm=775.0,
    overall_height_mm=436.0,
    ports=(TapedPort(across_mm=28.0, along_mm=60.0, bore_mm=38.0),),
)

Maker = Callable[[MainWindow], QPixmap]


def whole_window(window: MainWindow) -> QPixmap:
    """Return the window with the first demo."""
    return window.grab()


def new_nose(window: MainWindow) -> QPixmap:
    """Return the form that begins a nose, with sizes typed."""
    window.start_new()
    draft = window.card.draft
    if draft is not None:
        for key, words in (("width_mm", "30 in"), ("height_mm", "11 3/4 in"), ("depth_mm", "420")):
            QTest.keyClicks(draft.fields[key].line, words)
    return _part_of(window, window.card, QSize(288, 214))


def drag(window: MainWindow) -> QPixmap:
    """Return the front view while the charge-air cooler is dragged up."""
    core = cores(window.session.project, CoreRole.CHARGE_AIR_COOLER)[0]
    at = core.placement
    front = window.front.viewport()
    start = window.front.px_of(at.y_mm, at.z_mm - core.core_height_mm * 0.3).toPoint()
    QTest.mousePress(front, Qt.MouseButton.LeftButton, pos=start)
    for step in range(1, 5):
        QTest.mouseMove(front, start - QPointF(0, 14 * step).toPoint())
        QCoreApplication.processEvents()
    picture = window.front.grab()
    QTest.keyClick(window.front, Qt.Key.Key_Escape)
    QTest.mouseRelease(front, Qt.MouseButton.LeftButton)
    return picture


def nose(window: MainWindow) -> QPixmap:
    """Return the front view with the grille opening selected, its corners to be pulled."""
    window.session.select([window.session.project.nose.openings[0].id])
    return window.front.grab()


def side(window: MainWindow) -> QPixmap:
    """Return the side view."""
    return window.side.grab()


def verdict(window: MainWindow) -> QPixmap:
    """Return the verdict column."""
    return window.verdict.grab()


def why(window: MainWindow) -> QPixmap:
    """Return the verdict column with the hottest day asked why."""
    window.verdict.hottest_day.spots[FigureName.HOTTEST_DAY].click()
    QCoreApplication.processEvents()
    return window.verdict.grab()


def degrees_and_changes(window: MainWindow) -> QPixmap:
    """Return where the degrees go and the first two changes, opened."""
    window.resize(WINDOW_PX.width(), 1500)
    sections = window.verdict.further_sections.sections
    first, last = sections[Question.DEGREES], sections[Question.CHANGES]
    for section in (first, last):
        section.open()
    QCoreApplication.processEvents()
    top = first.mapTo(window.verdict, first.rect().topLeft()).y()
    second = window.verdict.further_sections.changes.rows[1]
    bottom = second.mapTo(window.verdict, second.rect().bottomLeft()).y()
    return window.verdict.grab().copy(0, top, window.verdict.width(), bottom - top)


def shelf(window: MainWindow) -> QPixmap:
    """Return the shelf, searched."""
    QTest.keyClicks(window.shelf.search, "charge-air")
    return _part_of(window, window.shelf, QSize(288, 186))


def core_card(window: MainWindow) -> QPixmap:
    """Return the card of a charge-air cooler."""
    core = cores(window.session.project, CoreRole.CHARGE_AIR_COOLER)[0]
    own = replace_part(window.session.project, replace(core, own_sizes=True))
    window.session.apply("own sizes", own)
    window.session.select([core.id])
    card = PartCard(window.session)
    return _alone(card, QSize(320, 760))


def tape(window: MainWindow) -> QPixmap:
    """Return the form in which a part is measured, at its ports."""
    panel = TapePanel(window.session, window.palette_shown, _MEASURED)
    panel.go_to(4)
    panel.show()
    panel.page.fields["ports.0.along_mm"].line.setFocus()
    panel.sketch.show_taped(_MEASURED, "ports.0.along_mm", window.session.units)
    return _alone(panel, QSize(540, 640))


def trace(window: MainWindow) -> QPixmap:
    """Return the panel on which a photo is tied to the nose; the photo is drawn here, of a nose that does not exist."""
    kept = kept_picture(_invented_photo())
    panel = MarkingPanel(window.session, pixels_of(kept), kept, window.palette_shown)
    return _alone(panel, QSize(560, 640))


MAKERS: Final[dict[str, Maker]] = {
    "window": whole_window,
    "new-nose": new_nose,
    "drag": drag,
    "nose": nose,
    "side": side,
    "verdict": verdict,
    "why": why,
    "degrees-and-changes": degrees_and_changes,
    "shelf": shelf,
    "core-card": core_card,
    "tape": tape,
    "trace": trace,
}


def make_pictures(folder: Path, names: tuple[str, ...] = tuple(MAKERS)) -> tuple[Path, ...]:
    """Write these pictures as PNG and return where they are."""
    folder.mkdir(parents=True, exist_ok=True)
    made = []
    core = ScientificCore()
    for name in names:
        with _window(core) as window:
            path = folder / f"{name}.png"
            picture = MAKERS[name](window).toImage().convertToFormat(QImage.Format.Format_RGB32)
            if not picture.save(str(path)):
                raise OSError(f"“{path.name}” was not written: choose a folder that may be written.")
            made.append(path)
    return tuple(made)


@contextmanager
def _window(core: ScientificCore) -> Iterator[MainWindow]:
    """Give the real window with the first demo, every answer in it, and only what is bundled on the shelf."""
    app = QApplication.instance()
    session = Session(core.assess, UnitSystem.METRIC)
    equipment = Equipment(
        advise=core.advise,
        dialogs=QtDialogs(),
        parts=(*bundled_parts(), *own_size_starters()),
        look=Look.LIGHT,
        compare=core.compare,
        mend=core.mend,
    )
    window = MainWindow(session, equipment)
    try:
        session.open_project(read_project(demo_projects()[0]), None)
        window.further.start(lambda: InPlace(core.answer), core.unpack)
        window.further.ask()
        window.setAttribute(Qt.WidgetAttribute.WA_DontShowOnScreen)
        window.resize(WINDOW_PX)
        window.show()
        QCoreApplication.processEvents()
        window.front.zoom_to_fit()
        QCoreApplication.processEvents()
        yield window
    finally:
        window.desk.close()
        window.further.close()
        window.hide()
        window.deleteLater()
        if app is not None:
            QCoreApplication.sendPostedEvents(window, QEvent.Type.DeferredDelete.value)


def _part_of(window: MainWindow, widget: QWidget, size: QSize) -> QPixmap:
    QCoreApplication.processEvents()
    at = widget.mapTo(window, widget.rect().topLeft())
    return window.grab().copy(at.x(), at.y(), size.width(), size.height())


def _alone(widget: QWidget, size: QSize) -> QPixmap:
    widget.setAttribute(Qt.WidgetAttribute.WA_DontShowOnScreen)
    widget.resize(size)
    widget.show()
    QCoreApplication.processEvents()
    picture = widget.grab()
    widget.hide()
    widget.deleteLater()
    return picture


def _invented_photo() -> QImage:
    """Return a drawing of a nose seen a little from the side, with a pale plate under its opening."""
    image = QImage(1200, 900, QImage.Format.Format_RGB32)
    image.fill(QColor("#a8b4b8"))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    for colour, corners in (
        ("#5c6e62", ((120, 180), (1100, 120), (1120, 760), (110, 800))),
        ("#22282a", ((330, 300), (900, 275), (905, 520), (328, 530))),
        ("#e8e6dc", ((440, 600), (770, 590), (772, 665), (440, 672))),
        ("#c9ced0", ((150, 320), (270, 312), (270, 440), (150, 446))),
        ("#c9ced0", ((960, 270), (1070, 262), (1074, 396), (962, 402))),
    ):
        painter.setBrush(QColor(colour))
        painter.drawPolygon(QPolygonF([QPointF(*corner) for corner in corners]))
    painter.end()
    return image


def main(folder: str) -> int:
    """Write all pictures into the folder; return the exit code."""
    use_offscreen_without_a_display()
    app = QApplication.instance() or QApplication(sys.argv[:1])
    if not isinstance(app, QApplication):
        raise TypeError("A Qt application without windows is running already: start this in its own process.")
    prepare_application(app)
    colour_application(app, palette_of(Look.LIGHT))
    for path in make_pictures(Path(folder)):
        print(path.name)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1] if len(sys.argv) > 1 else "resources/help/pictures"))
