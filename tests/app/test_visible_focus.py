"""Where the keyboard is can be seen on every widget that takes it, in every palette."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QComboBox, QGraphicsView, QWidget

from grillestack.app.look import colour_application, palette_of
from grillestack.storage.settings import Look

_LEAST_PX = 24  # a dotted line under a short word has about as many


@pytest.fixture(params=list(Look))
def shown(window, qapp, qtbot, request):
    """Give the window in one palette, active, and put the application's colours back."""
    style, palette = qapp.styleSheet(), qapp.palette()
    colour_application(qapp, palette_of(request.param))
    window.show_look(request.param)
    window.activateWindow()
    qtbot.waitActive(window)
    yield window
    qapp.setStyleSheet(style)
    qapp.setPalette(palette)


def reached(window) -> list[QWidget]:
    return [
        widget
        for widget in window.findChildren(QWidget)
        if widget.isVisible()
        and widget.isEnabled()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.focusProxy() is None
        and not isinstance(widget.parentWidget(), QComboBox)
        and not isinstance(widget, QGraphicsView)
    ]


def changed(before: QImage, after: QImage) -> int:
    def far(a: QColor, b: QColor) -> bool:
        return abs(a.red() - b.red()) + abs(a.green() - b.green()) + abs(a.blue() - b.blue()) > 60

    wide, high = min(before.width(), after.width()), min(before.height(), after.height())
    return sum(far(before.pixelColor(x, y), after.pixelColor(x, y)) for x in range(wide) for y in range(high))


def test_the_keyboard_is_seen_on_every_widget_that_takes_it(shown):
    shown.session.select((shown.session.project.nose.openings[0].id,))
    QCoreApplication.processEvents()
    widgets = reached(shown)
    assert len(widgets) > 25
    unseen = []
    for widget in widgets:
        shown.front.setFocus()
        QCoreApplication.processEvents()
        before = widget.grab().toImage()
        widget.setFocus(Qt.FocusReason.TabFocusReason)
        QCoreApplication.processEvents()
        if not widget.hasFocus():
            unseen.append((type(widget).__name__, widget.accessibleName(), "does not take the keyboard"))
        elif changed(before, widget.grab().toImage()) < _LEAST_PX:
            unseen.append((type(widget).__name__, widget.accessibleName()))
    assert unseen == []


def test_the_keyboard_is_seen_on_the_sheets_when_a_key_led_there(shown):
    for view in (shown.front, shown.side):
        shown.status.bench.setFocus()
        QCoreApplication.processEvents()
        before = view.grab().toImage()
        view.setFocus(Qt.FocusReason.TabFocusReason)
        QCoreApplication.processEvents()
        after = view.grab().toImage()
        accent = palette_of(shown.look).accent
        edge = [after.pixelColor(x, 1) for x in range(20, 120)]
        assert sum(abs(c.red() - accent.red()) + abs(c.blue() - accent.blue()) < 60 for c in edge) > 50
        assert before != after
