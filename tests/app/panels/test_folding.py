"""A section opens and shuts by mouse and by key."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from grillestack.app.panels.folding import FoldingSection


@pytest.fixture
def section(qtbot):
    made = FoldingSection("Ports", QLabel("two"), is_open=False)
    qtbot.addWidget(made)
    made.show()
    return made


def test_it_opens_and_shuts(section):
    assert not section.content.isVisible()
    QTest.mouseClick(section.button, Qt.MouseButton.LeftButton)
    assert section.content.isVisible()
    QTest.keyClick(section.button, Qt.Key.Key_Space)
    assert not section.content.isVisible()
    section.open()
    assert section.content.isVisible()


def test_its_heading_is_its_name(section):
    assert section.button.accessibleName() == "Ports"
