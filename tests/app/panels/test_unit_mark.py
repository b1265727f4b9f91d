"""A default says why when its unit is pressed, by mouse and by key."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from grillestack.app.panels.field import QuantityField
from grillestack.assess.defaults import Default, Tag, default_for
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension

LIMIT = default_for("top_tank_limit_degc")


@pytest.fixture
def field(qtbot):
    made = QuantityField("Top tank limit", Dimension.TEMPERATURE, optional=True)
    qtbot.addWidget(made)
    made.show_value(None, UnitSystem.METRIC, LIMIT)
    made.resize(200, 80)
    made.show()
    return made


def test_a_press_on_the_unit_unfolds_what_the_default_rests_on(field):
    assert field.because.isHidden()
    QTest.mouseClick(field.unit, Qt.MouseButton.LeftButton)
    assert field.because.isVisible()
    assert field.because.text().startswith("Default 107 °C: usual highest top tank temperature")
    assert "a published or maker's figure, seen in summary" in field.because.text()
    QTest.mouseClick(field.unit, Qt.MouseButton.LeftButton)
    assert field.because.isHidden()


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Space])
def test_keys_ask_too(field, key):
    field.unit.setFocus()
    QTest.keyClick(field.unit, key)
    assert field.because.isVisible()


def test_what_is_typed_is_no_default_and_has_nothing_to_ask(field):
    QTest.mouseClick(field.unit, Qt.MouseButton.LeftButton)
    field.show_value(105.0, UnitSystem.METRIC, LIMIT)
    assert not field.unit.askable
    assert field.because.isHidden()
    assert field.unit.focusPolicy() is Qt.FocusPolicy.NoFocus


def test_a_default_without_a_unit_is_asked_with_a_word(field):
    bare = QuantityField("Bay loss factor", Dimension.COUNT, optional=True)
    bare.show_value(None, UnitSystem.METRIC, Default(4.0, Tag.MEMORY, "common practice, no source"))
    assert bare.unit.text() == "why?"
    assert bare.because.text() == "Default 4: common practice, no source. Type your own to replace it."
    assert bare.unit.accessibleName() == "Bay loss factor: why this default?"


def test_the_default_is_said_in_the_units_shown(field):
    field.show_value(None, UnitSystem.INCH, LIMIT)
    # 107 °C are 224.6 °F
    assert field.because.text().startswith("Default 224.6 °F")
