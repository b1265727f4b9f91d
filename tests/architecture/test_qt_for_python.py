"""The version range of Qt for Python keeps out the release that loses references to None and aborts on Python 3.11."""

from __future__ import annotations

import importlib.metadata
import sys
import tomllib
from pathlib import Path

from packaging.requirements import Requirement
from packaging.version import Version
from PySide6.QtCore import QPointF
from PySide6.QtGui import QImage, QPainter, QPen
from PySide6.QtWidgets import QApplication, QGraphicsRectItem

FAULTY = Version("6.12.0")


def test_project_asks_for_a_range_without_the_faulty_release(root: Path) -> None:
    with (root / "pyproject.toml").open("rb") as file:
        needs = [Requirement(line) for line in tomllib.load(file)["project"]["dependencies"]]
    asked = {need.name: need.specifier for need in needs}
    assert FAULTY not in asked["PySide6-Essentials"]
    assert Version("6.8.3") in asked["PySide6-Essentials"]


def test_installed_release_is_in_the_range(root: Path) -> None:
    installed = Version(importlib.metadata.version("PySide6-Essentials"))
    assert Version("6.8") <= installed < FAULTY


def test_calls_that_return_nothing_keep_the_references_to_none(qapp: QApplication) -> None:
    image = QImage(64, 64, QImage.Format.Format_ARGB32)
    painter = QPainter(image)
    pen = QPen()
    item = QGraphicsRectItem(0, 0, 1, 1)
    # On a faulty release the count would reach zero without this reserve and take the test run down with it.
    reserve = [None] * 5_000_000

    def draw(times: int) -> None:
        for step in range(times):
            painter.setPen(pen)
            painter.drawLine(0, 0, 10, 10)
            item.setPos(QPointF(step, step))

    # The first call of each kind sets up what Qt for Python keeps of it, and that holds a few references for good.
    draw(1)
    before = sys.getrefcount(None)
    draw(1000)
    moved = abs(sys.getrefcount(None) - before)
    painter.end()
    assert len(reserve) == 5_000_000
    # From Python 3.12 on the count never moves, so there this holds of itself and the version range above is the guard.
    assert moved < 50
