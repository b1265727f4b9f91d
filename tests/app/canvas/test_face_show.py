"""The painted face shows what was chosen, with a legend that says of which core and case; nothing is worked out unasked."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QStyleOptionGraphicsItem

from grillestack.app.canvas.face_show import FaceChoice, FaceShow
from grillestack.app.canvas.face_switch import FaceSwitch, fill_cases
from grillestack.app.canvas.front_view import FrontView
from grillestack.app.canvas.items.air_item import AirCell, AirItem, Measured, colour_of
from grillestack.app.palette import dark, light
from grillestack.app.session import Session
from grillestack.assess.assess import assess
from grillestack.assets.locate import demo_projects
from grillestack.model import edits
from grillestack.model.project import cores
from grillestack.storage.project_file import read_project
from grillestack.units.display import UnitSystem


@pytest.fixture(scope="module")
def demo():
    """A demo whose radiator stands behind a charge-air cooler."""
    return read_project(demo_projects()[2])


@pytest.fixture
def real(qapp, demo):
    """A session with the real assessment."""
    return Session(assess, UnitSystem.METRIC, demo)


def test_at_first_what_lies_ahead_is_shown_and_no_air_is_worked_out(real, monkeypatch):
    def unasked(*_):
        raise AssertionError

    monkeypatch.setattr("grillestack.assess.face_air.face_air", unasked)
    painted = FaceChoice(real).painted()
    assert painted.patches
    assert painted.cells == ()
    assert painted.legend.bar is None


def test_warmth_names_core_and_case_and_its_colours_reach_from_the_design_day_to_the_hottest_air(real):
    choice = FaceChoice(real)
    choice.choose(FaceShow.TEMPERATURE)
    painted = choice.painted()
    case = real.assessment.deciding_case
    assert painted.legend.title == f"Air into the radiator, {case.name}"
    assert painted.legend.title_rest.startswith(": 38 °C to ")
    assert painted.legend.bar.unit == "°C"
    places = [cell.place_frac for cell in painted.cells if cell.place_frac is not None]
    assert all(0.0 <= place <= 1.0 for place in places)
    assert max(places) - min(places) > 0.5
    assert any(cell.place_frac is None for cell in painted.cells)
    assert [entry.words for entry in painted.legend.entries] == ["no air enters"]


def test_speed_is_told_in_the_unit_in_use_and_begins_at_nought(real):
    choice = FaceChoice(real)
    choice.choose(FaceShow.SPEED)
    assert choice.painted().legend.bar.unit == "m/s"
    real.set_units(UnitSystem.INCH)
    bar = choice.painted().legend.bar
    assert bar.unit == "ft/s"
    assert (bar.marks[0].place_frac, bar.marks[0].text) == (0.0, "0")


def test_the_selected_core_is_shown_else_the_radiator(real, demo):
    choice = FaceChoice(real)
    choice.choose(FaceShow.TEMPERATURE)
    front = cores(demo)[0]
    real.select((front.id,))
    assert "the CAC" in choice.painted().legend.title
    real.select(())
    assert "the radiator" in choice.painted().legend.title


def test_a_hidden_radiator_has_no_painted_face(real, demo):
    radiator = cores(demo)[-1]
    hidden = edits.replace_part(demo, replace(radiator, hidden=True))
    real.apply("Hide", hidden)
    choice = FaceChoice(real)
    assert choice.painted().patches == ()
    choice.choose(FaceShow.TEMPERATURE)
    assert choice.painted().cells == ()


def test_another_duty_case_can_be_chosen_by_its_name(real, qtbot):
    choice = FaceChoice(real)
    view = FrontView(real, light())
    qtbot.addWidget(view)
    switch = FaceSwitch(real, choice, view.viewport())
    choice.choose(FaceShow.SPEED)
    fill_cases(switch.case_menu, real, choice)
    names = [action.text() for action in switch.case_menu.actions()]
    assert names == ["the deciding case", *(case.name for case in real.assessment.cases)]
    other = next(case for case in real.assessment.cases if case is not real.assessment.deciding_case)
    with qtbot.waitSignal(choice.changed, timeout=0, raising=True):
        next(a for a in switch.case_menu.actions() if a.text() == other.name).trigger()
    assert choice.painted().legend.title.endswith(f", {other.name}")


def test_the_switch_changes_what_the_view_paints(real, qtbot):
    view = FrontView(real, light())
    qtbot.addWidget(view)
    view.resize(700, 600)
    view.show()
    view.face.switch.buttons[FaceShow.TEMPERATURE].click()
    assert view.face.legend.bar is not None
    assert view.face.switch.buttons[FaceShow.TEMPERATURE].isChecked()
    assert not view.face.switch.case_button.isHidden()
    view.grab()
    view.face.switch.buttons[FaceShow.AHEAD].click()
    assert view.face.legend.bar is None
    assert view.face.switch.case_button.isHidden()


def test_the_switch_stays_in_the_legends_first_row_when_the_legend_grows(real, qtbot, demo):
    view = FrontView(real, light())
    qtbot.addWidget(view)
    view.resize(420, 600)
    view.show()
    low = view.face.switch.y()
    rows = len(view.face.legend.entries)
    real.try_project(edits.move_parts(demo, [cores(demo)[0].id], dz_mm=-90.0, dy_mm=120.0))
    view.grab()
    assert len(view.face.legend.entries) >= rows
    assert view.face.switch.y() == round(view.sheet_area().bottom()) + 2
    view.face.switch.buttons[FaceShow.SPEED].click()
    assert view.face.switch.y() == round(view.sheet_area().bottom()) + 2
    assert low > 0


def test_the_map_follows_a_trial_at_once(real, demo):
    choice = FaceChoice(real)
    choice.choose(FaceShow.TEMPERATURE)
    before = choice.painted()
    real.try_project(edits.move_parts(demo, [cores(demo)[0].id], dz_mm=-60.0))
    after = choice.painted()
    assert after.cells != before.cells
    real.end_trial()
    again = choice.painted()
    assert [cell.rings_mm for cell in again.cells] == [cell.rings_mm for cell in before.cells]


def test_without_an_assessment_nothing_is_painted(qapp, demo):
    choice = FaceChoice(Session(None, UnitSystem.METRIC, demo))
    choice.choose(FaceShow.TEMPERATURE)
    painted = choice.painted()
    assert painted.cells == ()
    assert painted.patches == ()


@pytest.mark.parametrize("palette", [light(), dark()], ids=lambda palette: palette.name)
@pytest.mark.parametrize("measured", Measured)
@pytest.mark.usefixtures("qapp")
def test_each_cell_is_painted_in_the_colour_the_legend_gives_its_value(palette, measured):
    item = AirItem(palette)
    rings = (((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)),)
    other = (((20.0, 0.0), (30.0, 0.0), (30.0, 10.0), (20.0, 10.0)),)
    item.show_cells(measured, (AirCell(rings, 0.25), AirCell(other, 1.0)), palette)
    image = _image_of(item)
    assert image.pixel(5, 5) == colour_of(measured, 0.25, palette).rgb()
    assert image.pixel(25, 5) == colour_of(measured, 1.0, palette).rgb()
    assert image.pixelColor(15, 5) == QColor("white")


def _image_of(item):
    image = QImage(40, 12, QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    painter = QPainter(image)
    item.paint(painter, QStyleOptionGraphicsItem())
    painter.end()
    return image
