"""What the window remembers of how it was used, and how it is so again at the next start."""

from __future__ import annotations

import os

import msgspec
from PySide6.QtCore import QByteArray, QSize

from grillestack.app.canvas.face_show import FaceShow
from grillestack.app.window import MainWindow
from grillestack.storage.settings import Settings

_FIRST_SIZE_PX = (1280, 800)


def scale_as_chosen(settings: Settings) -> None:
    """Have Qt draw everything as large as the settings say; must come before the application is made."""
    if settings.scale_factor > 1.0:
        os.environ.setdefault("QT_SCALE_FACTOR", f"{settings.scale_factor:g}")


def show_choices(window: MainWindow, settings: Settings) -> None:
    """Put the window where it was and as it was."""
    window.resize(first_size(window.screen().availableSize()))
    if settings.window_geometry_text:
        window.restoreGeometry(QByteArray.fromBase64(settings.window_geometry_text.encode("ascii", "ignore")))
    window.scale_factor = settings.scale_factor
    window.bench_mode.switch(is_on=settings.bench_mode)
    window.grid.switch(on=settings.grid)
    window.drawer.show_plan(is_open=settings.plan_open)
    show = next((show for show in FaceShow if show.value == settings.face_show), FaceShow.AHEAD)
    window.front.face.choice.choose(show)


def first_size(screen: QSize) -> QSize:
    """Return the size of a first window on a screen with so much room."""
    return QSize(*_FIRST_SIZE_PX).boundedTo(screen)


def choices_of(window: MainWindow, before: Settings) -> Settings:
    """Return the settings with everything as it is in the window now."""
    return msgspec.structs.replace(
        before,
        look=window.look,
        unit_system=window.session.units.base.value,
        decimal_mark=window.session.units.mark.value,
        scale_factor=window.scale_factor,
        bench_mode=window.bench_mode.is_on,
        grid=window.grid.is_on,
        plan_open=window.drawer.is_open,
        face_show=window.front.face.choice.show.value,
        window_geometry_text=bytes(window.saveGeometry().toBase64().data()).decode("ascii"),
    )
