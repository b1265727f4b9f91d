"""A part is measured with real keys, step by step; the picture shows what is meant; nothing typed is lost."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QPushButton

from grillestack.app import palette as palettes
from grillestack.app.tape.panel import TapePanel
from grillestack.app.tape.steps import STEPS, StepName, step_of
from grillestack.app.tape.taped import Corner, Tanks
from grillestack.model.parts import CoreRole, Facing
from grillestack.units.display import UnitSystem
from tests.app.tape.test_taped import MEASURED


@pytest.fixture
def panel(qtbot, session):
    made = TapePanel(session, palettes.light())
    qtbot.addWidget(made)
    made.resize(540, 700)
    made.show()
    made.activateWindow()
    made.begin()
    made.got = []
    made.measured.connect(lambda core, keep: made.got.append((core, keep)))
    return made


def type_in(panel, key, text, end=Qt.Key.Key_Return):
    line = panel.page.fields[key].line
    line.setFocus()
    line.selectAll()
    QTest.keyClick(line, Qt.Key.Key_Delete)
    QTest.keyClicks(line, text)
    if end is not None:
        QTest.keyClick(line, end)


def press(panel, words):
    button = next(b for b in panel.findChildren(QPushButton) if b.text() == words and b.isVisible())
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def choose(panel, name, words):
    box = next(b for b in panel.page.findChildren(QComboBox) if b.accessibleName() == name)
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Home)
    while box.currentText() != words:
        before = box.currentIndex()
        QTest.keyClick(box, Qt.Key.Key_Down)
        assert box.currentIndex() != before, f"{name} has no “{words}”"


def to(panel, name):
    panel.go_to([step.name for step in STEPS].index(name))


def test_a_whole_part_is_measured_by_keys_alone(panel):
    press(panel, "Next")
    assert panel.step is StepName.CORE
    type_in(panel, "core_width_mm", "26 3/16 in")
    type_in(panel, "core_height_mm", "42 cm")
    type_in(panel, "depth_mm", "56")
    # Enter in the last line goes on.
    assert panel.step is StepName.OVERALL
    type_in(panel, "overall_width_mm", "775")
    type_in(panel, "overall_height_mm", "436")
    type_in(panel, "core_right_mm", "50")
    type_in(panel, "core_low_mm", "")
    assert panel.step is StepName.TANKS
    type_in(panel, "tank_depth_mm", "70")
    type_in(panel, "tank_ahead_mm", "")
    assert panel.step is StepName.PORTS
    press(panel, "Add a port")
    choose(panel, "Points to the", "down")
    choose(panel, "From the corner", "lower left")
    type_in(panel, "ports.0.across_mm", "1 1/4 in")
    type_in(panel, "ports.0.along_mm", "60")
    type_in(panel, "ports.0.behind_mm", "28")
    type_in(panel, "ports.0.bore_mm", "1 1/2 in")
    assert panel.step is StepName.MOUNTS
    press(panel, "Add a mount")
    type_in(panel, "mounts.0.across_mm", "40")
    type_in(panel, "mounts.0.along_mm", "0")
    type_in(panel, "mounts.0.hole_mm", "16")
    assert panel.step is StepName.WEIGHT
    type_in(panel, "weight_kg", "16 lb")
    (core, keep) = panel.got[0]
    # 26 3/16 in × 25.4 = 665.1625; 1 1/4 in = 31.75; 1 1/2 in = 38.1; 16 lb × 0.45359237 = 7.2575 kg
    assert (core.core_width_mm, core.core_height_mm, core.depth_mm) == pytest.approx((665.1625, 420, 56))
    assert (core.ports[0].facing, core.ports[0].w_mm, core.ports[0].bore_mm) == (Facing.DOWN, 28, pytest.approx(38.1))
    assert core.ports[0].u_mm == pytest.approx(core.overall.u_min_mm + 31.75)
    assert core.weight_kg == pytest.approx(7.2575, abs=1e-3)
    assert len(core.mounts) == 1
    assert not keep


def test_kind_and_tanks_are_chosen_by_key(panel):
    choose(panel, "Kind", "charge-air cooler")
    assert panel.taped.role is CoreRole.CHARGE_AIR_COOLER
    to(panel, StepName.TANKS)
    choose(panel, "Tanks are", "above and below")
    assert panel.taped.tanks is Tanks.ENDS


def test_next_says_under_each_field_what_is_missing_and_stays(panel):
    to(panel, StepName.CORE)
    type_in(panel, "core_width_mm", "600", end=None)
    press(panel, "Next")
    assert panel.step is StepName.CORE
    assert panel.page.fields["core_width_mm"].complaint.text() == ""
    assert "height is missing" in panel.page.fields["core_height_mm"].complaint.text()
    assert panel.page.fields["core_height_mm"].line.hasFocus()


def test_bad_text_stays_with_its_sentence(panel):
    to(panel, StepName.CORE)
    type_in(panel, "core_width_mm", "wide")
    field = panel.page.fields["core_width_mm"]
    assert field.line.text() == "wide"
    assert field.complaint.text()
    press(panel, "Next")
    assert panel.step is StepName.CORE
    assert field.line.hasFocus()


def test_the_picture_shows_what_the_field_in_hand_means(panel):
    to(panel, StepName.CORE)
    panel.page.fields["core_height_mm"].line.setFocus()
    assert panel.sketch.meant == "core_height_mm"
    span = panel.sketch.span()
    assert span.start.x() == span.end.x()
    panel.page.fields["core_width_mm"].line.setFocus()
    span = panel.sketch.span()
    assert span.start.y() == span.end.y()
    to(panel, StepName.PORTS)
    press(panel, "Add a port")
    panel.page.fields["ports.0.across_mm"].line.setFocus()
    assert panel.sketch.meant == "ports.0.across_mm"
    assert panel.sketch.span() is not None


def test_ports_are_added_and_the_right_one_is_removed(panel):
    to(panel, StepName.PORTS)
    press(panel, "Add a port")
    type_in(panel, "ports.0.bore_mm", "38", end=None)
    press(panel, "Add another port")
    type_in(panel, "ports.1.bore_mm", "45", end=None)
    choose(panel, "From the corner", "upper left")
    press(panel, "Remove port 1")
    assert [port.bore_mm for port in panel.taped.ports] == [45]


def test_esc_puts_the_form_aside_with_what_was_typed(panel):
    asked = []
    panel.put_aside.connect(lambda: asked.append(panel.taped.core_width_mm))
    to(panel, StepName.CORE)
    type_in(panel, "core_width_mm", "600", end=None)
    panel.setFocus()
    QTest.keyClick(panel, Qt.Key.Key_Escape)
    assert asked == [600]


def test_back_loses_nothing(panel):
    to(panel, StepName.CORE)
    type_in(panel, "core_width_mm", "600", end=None)
    press(panel, "Back")
    press(panel, "Next")
    assert panel.page.fields["core_width_mm"].line.text() == "600"


def test_other_units_show_the_same_sizes(panel, session):
    to(panel, StepName.CORE)
    type_in(panel, "core_width_mm", "508", end=None)
    panel.page.settle()
    session.set_units(UnitSystem.INCH)
    assert panel.page.fields["core_width_mm"].line.text() == "20"
    type_in(panel, "core_height_mm", "10", end=None)
    panel.page.settle()
    assert panel.taped.core_height_mm == pytest.approx(254)


def test_a_fault_of_an_earlier_step_leads_back_to_it(panel):
    panel.taped = MEASURED
    panel._measure("overall_width_mm", 100.0)
    to(panel, StepName.WEIGHT)
    panel.go_on()
    assert panel.step is StepName.OVERALL
    assert "less than the core's" in panel.page.fields["overall_width_mm"].complaint.text()
    assert panel.got == []


def test_every_step_paints_in_every_palette(panel):
    panel.taped = MEASURED
    for theme in (palettes.light(), palettes.dark(), palettes.high_contrast()):
        panel.show_palette(theme)
        for place in range(len(STEPS)):
            panel.go_to(place)
            panel.grab()


def test_every_field_knows_its_step():
    for place, step in enumerate(STEPS):
        for asked in step.asked:
            assert step_of(asked.key) == place
    assert STEPS[step_of("ports.3.bore_mm")].name is StepName.PORTS
    assert Corner.LOWER_LEFT.value == "lower left"
