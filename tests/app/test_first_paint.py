"""Slow things begin once, after the first paint, or after a while where nothing is painted."""

from PySide6.QtWidgets import QWidget

from grillestack.app.first_paint import FirstPaint


def test_it_calls_once_after_the_first_paint(qtbot):
    widget, called = QWidget(), []
    qtbot.addWidget(widget)
    FirstPaint(widget, lambda: called.append(True))
    assert called == []
    widget.show()
    qtbot.waitUntil(lambda: bool(called))
    widget.repaint()
    qtbot.waitUntil(lambda: True)
    assert called == [True]


def test_a_window_that_is_never_painted_is_not_waited_for_for_ever(qtbot):
    widget, called = QWidget(), []
    qtbot.addWidget(widget)
    waiting = FirstPaint(widget, lambda: called.append(True))
    assert waiting._timer.isActive()
    waiting._timer.timeout.emit()
    waiting._timer.timeout.emit()
    assert called == [True]
