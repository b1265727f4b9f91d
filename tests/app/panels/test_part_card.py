"""The card shows the fields of what is selected, keeps its rows while they fit, and loses nothing in silence."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLabel, QPushButton

from grillestack.app.panels.field import QuantityField, TypedLine
from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.lines_field import LinesField
from grillestack.app.panels.part_card import PartCard
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.model.edits import move_parts, remove_parts
from grillestack.model.nose import SupportWindow
from grillestack.model.outline import rectangle_outline
from grillestack.model.parts import Core
from grillestack.units.display import UnitSystem


@pytest.fixture
def card(qtbot, session):
    made = PartCard(session)
    qtbot.addWidget(made)
    made.resize(290, 700)
    made.show()
    return made


def field(card, name) -> QuantityField:
    found = [f for f in card.widget().findChildren(QuantityField) if f.line.accessibleName() == name]
    assert found, f"the card has no field “{name}”"
    return found[0]


def press(card, words):
    found = [b for b in card.widget().findChildren(QPushButton) if b.text() == words]
    assert found, f"the card has no button “{words}”"
    found[0].click()


def headings(card):
    return [section.button.text() for section in card.widget().findChildren(FoldingSection)]


def labels(card):
    return [label.text() for label in card.widget().findChildren(QLabel)]


def test_with_nothing_selected_it_is_the_card_of_the_project(card):
    assert {"Engine sheet", "Day and surroundings", "Nose", "Duty case: Grade pull"} <= set(headings(card))
    assert field(card, "Rated power").line.text() == "120"


def test_each_kind_of_thing_has_its_card(card, session):
    for identifier, kind in (
        ("radiator-3", "Radiator, bought"),
        ("charge-air-cooler-4", "Charge-air cooler, bought"),
        ("fan-7", "Fan, bought"),
        ("opening-1", "Grille opening"),
        ("obstruction-2", "Obstruction in the nose"),
    ):
        session.select([identifier])
        assert kind in labels(card)


def test_a_bought_part_keeps_its_size_until_it_is_made_to_own_sizes(card, session, type_into):
    session.select(["radiator-3"])
    width = field(card, "Core width")
    type_into(width.line, "700")
    assert session.project.part("radiator-3").core_width_mm == 650
    assert any("bought part keeps its size" in text for text in labels(card))
    press(card, "Make it to own sizes")
    type_into(field(card, "Core width").line, "700")
    radiator = session.project.part("radiator-3")
    assert radiator.core_width_mm == 700
    assert radiator.overall.width_mm == 700 + 2 * 55


def test_an_impossible_own_size_is_refused_in_a_sentence(card, session, type_into):
    session.select(["radiator-3"])
    press(card, "Make it to own sizes")
    width = field(card, "Core width")
    type_into(width.line, "0")
    assert session.project.part("radiator-3").core_width_mm == 650
    assert "core width" in width.complaint.text()


def test_depth_beyond_a_part_counts_from_its_rear(card, session, type_into, qtbot):
    session.select(["radiator-3"])
    box = next(b for b in card.widget().findChildren(QComboBox) if b.accessibleName() == "Measured from")
    box.setFocus()
    for _ in range(box.count()):
        if box.currentText() != "Invented condenser":
            qtbot.keyClick(box, Qt.Key.Key_Down)
    assert box.currentText() == "Invented condenser"
    type_into(field(card, "Rearward").line, "100")
    condenser = session.project.part("condenser-5")
    assert session.project.part("radiator-3").placement.x_mm == condenser.placement.x_mm + 18 + 100


def test_the_same_rows_serve_while_a_part_is_dragged(card, session):
    session.select(["radiator-3"])
    rows = card.widget()
    session.try_project(move_parts(session.project, ["radiator-3"], dz_mm=5))
    assert card.widget() is rows
    assert field(card, "Up").line.text() == "790"


def test_a_text_that_could_not_be_taken_is_told_when_its_card_goes(card, session, type_into):
    said = []
    session.message.connect(said.append)
    session.select(["radiator-3"])
    type_into(field(card, "Up").line, "quite high")
    session.select(["opening-1"])
    assert len(said) == 1
    assert "quite high" in said[0]
    assert "Up" in said[0]


def test_removing_the_selected_part_leads_back_to_the_project(card, session):
    session.select(["radiator-3"])
    session.apply("remove", remove_parts(session.project, ["radiator-3"]))
    assert "Project: nothing is selected" in labels(card)


def test_several_things_are_named(card, session):
    session.select(["radiator-3", "opening-1"])
    assert "Invented radiator, Upper grille" in labels(card)


def test_an_opening_changes_about_its_middle_and_lower_edge(card, session, type_into):
    session.select(["opening-1"])
    type_into(field(card, "Width").line, "600")
    type_into(field(card, "Height").line, "300")
    type_into(field(card, "Lower edge at").line, "550")
    outline = session.project.nose.openings[0].outline
    assert outline == rectangle_outline(-300, 550, 300, 850)
    assert field(card, "Free area").line.placeholderText() == "60 default"


def test_the_support_window_has_its_card(card, session):
    nose = replace(session.project.nose, support_window=SupportWindow(outline=rectangle_outline(-350, 540, 350, 1000)))
    session.apply("window", replace(session.project, nose=nose))
    session.select([SUPPORT_WINDOW_ID])
    assert "The hole in the core support" in labels(card)
    assert field(card, "Width").line.text() == "700"


def test_a_duty_case_is_added_changed_and_removed_as_steps(card, session, type_into):
    press(card, "Add a duty case")
    assert headings(card)[-1] == "Duty case: New case"
    added = session.project.cases[-1]
    speed = [f for f in card.widget().findChildren(QuantityField) if f.line.accessibleName() == "Road speed"][-1]
    type_into(speed.line, "45 mph")
    assert session.project.cases[-1].road_speed_m_s == pytest.approx(45 * 0.44704)  # 1 mph = 0.44704 m/s exactly
    removers = [b for b in card.widget().findChildren(QPushButton) if b.text() == "Remove this case"]
    removers[-1].click()
    assert all(case.id != added.id for case in session.project.cases)
    assert session.undo_stack.count() == 3


def test_a_rating_point_is_typed_in_full_and_taken_in_one_step(card, session, type_into):
    session.select(["radiator-3"])
    section = next(s for s in card.widget().findChildren(FoldingSection) if s.button.text() == "Add a rating point")
    section.open()
    draft = section.content
    for key, text in (
        ("heat_w", "54 kW"),
        ("face_velocity_m_s", "4"),
        ("air_inlet_degc", "40"),
        ("tube_inlet_degc", "210 F"),
    ):
        type_into(draft.fields[key].line, text)
    draft.accept()
    assert session.undo_stack.count() == 0
    assert draft.fields["tube_flow_kg_s"].is_kept
    type_into(draft.fields["tube_flow_kg_s"].line, "1.8")
    draft.accept()
    radiator = session.project.part("radiator-3")
    assert isinstance(radiator, Core)
    rating = radiator.description.rating
    assert (rating.heat_w, rating.tube_flow_kg_s, rating.air_loss_pa) == (54_000, 1.8, None)
    assert rating.tube_inlet_degc == pytest.approx((210 - 32) / 1.8)
    assert session.undo_stack.count() == 1
    assert "Known by one rating point." in labels(card)


def test_a_measured_table_is_typed_as_lines(card, session, type_into):
    session.select(["radiator-3"])
    section = next(s for s in card.widget().findChildren(FoldingSection) if s.button.text() == "Add a measured table")
    section.open()
    draft = section.content
    type_into(draft.fields["inlet_difference_k"].line, "60")
    type_into(draft.fields["tube_flow_kg_s"].line, "1.5")
    lines = section.findChild(LinesField)
    lines.text.setPlainText("2 ; 30 ; 40\n4 ; 48 kW ; 120 Pa")
    draft.accept()
    table = session.project.part("radiator-3").description.table
    assert [(p.face_velocity_m_s, p.heat_w, p.air_loss_pa) for p in table.points] == [(2, 30e3, 40), (4, 48e3, 120)]


def test_a_fan_curve_is_shown_and_changed_as_lines(card, session, qtbot):
    session.select(["fan-7"])
    lines = card.widget().findChild(LinesField)
    assert lines.text.toPlainText().splitlines() == ["0 ; 250", "1.1 ; 0"]
    lines.text.setFocus()
    lines.text.selectAll()
    qtbot.keyClicks(lines.text, "0;240")
    lines.take()
    assert [(p.flow_m3_s, p.pressure_pa) for p in session.project.part("fan-7").curve] == [(0, 240)]


def test_ports_of_a_bought_part_are_read_and_of_an_own_one_changed(card, session, type_into):
    session.select(["radiator-3"])
    assert "bore 42 mm; 340 mm right, 180 mm up" in labels(card)
    press(card, "Make it to own sizes")
    press(card, "Add a port")
    assert len(session.project.part("radiator-3").ports) == 2
    type_into(field(card, "Bore").line, "45")
    assert session.project.part("radiator-3").ports[0].bore_mm == 45
    press(card, "Remove port 2")
    assert len(session.project.part("radiator-3").ports) == 1


def test_units_change_on_the_card(card, session):
    session.select(["radiator-3"])
    session.set_units(UnitSystem.INCH)
    assert field(card, "Core width").line.text() == "25 9/16"  # 650 / 25.4 = 25.59 in, to the nearest sixteenth 25 9/16


def test_every_field_has_a_name_and_can_be_reached_by_tab(card, session):
    for ids in ([], ["radiator-3"], ["fan-7"], ["opening-1"]):
        session.select(ids)
        for line in card.widget().findChildren(TypedLine):
            assert line.accessibleName()
            assert line.focusPolicy().value & 1


def test_things_of_the_nose_can_be_selected_by_key_from_the_projects_card(card, session):
    next(s for s in card.widget().findChildren(FoldingSection) if s.button.text() == "Nose").open()
    press(card, "Select Bumper beam")
    assert session.selection == ("obstruction-2",)


def test_the_bonnet_line_is_typed_as_points(card, session, qtbot):
    line = next(f for f in card.widget().findChildren(LinesField) if f.text.accessibleName() == "Bonnet line")
    line.text.setFocus()
    qtbot.keyClicks(line.text, "0; 1 m")
    qtbot.keyClick(line.text, Qt.Key.Key_Return)
    qtbot.keyClicks(line.text, "400; 1060")
    line.take()
    assert [(p.x_mm, p.z_mm) for p in session.project.nose.stations.bonnet_line] == [(0, 1000), (400, 1060)]
    assert session.undo_stack.count() == 1
