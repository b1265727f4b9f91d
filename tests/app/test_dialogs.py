"""The one question that stands in the way: each of its buttons means what it says."""

import pytest
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QMessageBox

from grillestack.app.dialogs import QtDialogs, Unsaved


@pytest.mark.parametrize(
    ("button", "answer"),
    [
        (QMessageBox.StandardButton.Save, Unsaved.SAVE),
        (QMessageBox.StandardButton.Discard, Unsaved.LEAVE),
        (QMessageBox.StandardButton.Cancel, Unsaved.CANCEL),
    ],
)
def test_unsaved_work_is_asked_about(qapp, button, answer):
    seen = []

    def press():
        box = QApplication.activeModalWidget()
        seen.append((box.text(), box.button(QMessageBox.StandardButton.Discard).text()))
        box.button(button).click()

    QTimer.singleShot(0, press)
    assert QtDialogs().ask_unsaved("Farm truck") is answer
    assert seen == [("“Farm truck” has changes that are not saved.", "Don't save")]


def test_closing_the_question_cancels(qapp):
    QTimer.singleShot(0, lambda: QApplication.activeModalWidget().reject())
    assert QtDialogs().ask_unsaved("Farm truck") is Unsaved.CANCEL
