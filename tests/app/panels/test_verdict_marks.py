"""Marks tell verdicts and severities apart without colour."""

from __future__ import annotations

import itertools
from dataclasses import fields, replace

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from grillestack.app import palette as palettes
from grillestack.app.panels.verdict_marks import Mark, MarkSign, paint_mark
from grillestack.assess.result import Severity, Verdict


def one_ink():
    light = palettes.light()
    black = QColor("#000000")
    inks = {f.name: black for f in fields(light) if f.name.endswith("ink") or f.name == "warning"}
    return replace(light, **inks, panel=QColor("#ffffff"))


def painted(mark, side=12):
    image = QImage(side, side, QImage.Format.Format_Grayscale8)
    image.fill(255)
    painter = QPainter(image)
    paint_mark(painter, QRectF(0, 0, side, side), mark, one_ink())
    painter.end()
    return [image.pixelColor(x, y).lightness() for y in range(side) for x in range(side)]


def test_marks_differ_in_shape_even_in_one_ink_and_small(qapp):
    for first, second in itertools.combinations(Mark, 2):
        differs = sum(abs(a - b) > 96 for a, b in zip(painted(first), painted(second), strict=True))
        assert differs >= 12, (first, second)


def test_every_verdict_and_severity_has_its_mark():
    assert {v.value for v in Verdict} | {s.value for s in Severity} == {m.value for m in Mark}


def test_a_sign_shows_the_mark_it_is_given(qtbot):
    sign = MarkSign(palettes.light(), 30)
    qtbot.addWidget(sign)
    sign.show_mark(Mark.FAIL)
    assert sign.mark is Mark.FAIL
    middle_left = sign.grab().toImage().pixelColor(5, 15)
    assert middle_left == palettes.light().fail_ink
