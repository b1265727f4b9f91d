"""The rows of a further cooler: heat, or what flows in."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtWidgets import QComboBox, QLabel

from grillestack.app.panels.field import QuantityField
from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.lines_field import LinesField
from grillestack.app.panels.part_card import PartCard
from grillestack.model.core_description import CoreType, MeasuredTable, TablePoint
from grillestack.model.parts import CoreRole, TubeFluid
from grillestack.units.display import UnitSystem


@pytest.fixture
def cooler_id(session):
    condenser = session.project.part("condenser-5")
    description = replace(condenser.description, core_type=CoreType.PLATE_OIL_COOLER)
    cooler = replace(condenser, role=CoreRole.COOLER, description=description)
    parts = tuple(cooler if part.id == cooler.id else part for part in session.project.parts)
    session.apply("make it a cooler", replace(session.project, parts=parts))
    return cooler.id


@pytest.fixture
def card(qtbot, session, cooler_id):
    made = PartCard(session)
    qtbot.addWidget(made)
    made.resize(290, 700)
    made.show()
    session.select([cooler_id])
    return made


def field(card, name) -> QuantityField:
    return next(f for f in card.widget().findChildren(QuantityField) if f.line.accessibleName() == name)


def told(card) -> str:
    return next(
        label for label in card.widget().findChildren(QLabel) if label.accessibleName() == "Heat is taken"
    ).text()


def choose(card, words: str) -> None:
    box = next(b for b in card.widget().findChildren(QComboBox) if b.accessibleName() == "Flows through it")
    index = box.findText(words)
    assert index >= 0
    box.setCurrentIndex(index)
    box.activated.emit(index)


def test_oil_inlet_and_flow_are_typed_in_any_unit_and_end_in_a_marched_cooler(card, session, cooler_id, type_into):
    assert "not known" in told(card)
    choose(card, "oil")
    type_into(field(card, "Comes in at").line, "240 F")
    assert "not known" in told(card)
    type_into(field(card, "Flow").line, "3 US gal/min")
    cooler = session.project.part(cooler_id)
    assert cooler.tube_fluid is TubeFluid.OIL
    assert cooler.tube_inlet_degc == pytest.approx((240 - 32) / 1.8)
    # 1 US gal = 3.785411784 L exactly.
    assert cooler.tube_flow_m3_s == pytest.approx(3 * 3.785411784e-3 / 60)
    assert "from what flows in" in told(card)
    assert "34 mm²/s at 40 °C (default" in told(card)


def test_coolant_is_said_to_be_that_of_the_engine(card, session, cooler_id, type_into):
    choose(card, "coolant")
    type_into(field(card, "Comes in at").line, "60")
    type_into(field(card, "Flow").line, "15")
    assert "mixed like the engine's" in told(card)
    assert session.project.part(cooler_id).tube_flow_m3_s == pytest.approx(15e-3 / 60)


def test_a_typed_heat_wins_and_clearing_it_gives_way(card, session, cooler_id, type_into):
    choose(card, "oil")
    type_into(field(card, "Comes in at").line, "115")
    type_into(field(card, "Flow").line, "12")
    type_into(field(card, "Heat it gives off").line, "4 kW")
    assert "what flows in is not used" in told(card)
    type_into(field(card, "Heat it gives off").line, "")
    assert session.project.part(cooler_id).given_heat_w is None
    assert "from what flows in" in told(card)


@pytest.mark.parametrize(
    ("row", "typed", "words"),
    [
        ("Flow", "12 kg", "a flow of coolant or oil"),
        ("Flow", "0", "flow"),
        ("Comes in at", "lots", "type a number and a unit"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence_and_changes_nothing(
    card, session, cooler_id, type_into, row, typed, words
):
    before = session.project
    type_into(field(card, row).line, typed)
    assert session.project is before
    assert words in field(card, row).complaint.text()


def test_the_rows_follow_the_units(card, session, type_into):
    type_into(field(card, "Flow").line, "12")
    session.set_units(UnitSystem.INCH)
    assert field(card, "Flow").line.text() == "3.17"


def test_only_a_further_cooler_has_these_rows(card, session):
    session.select(["radiator-3"])
    assert not [f for f in card.widget().findChildren(QuantityField) if f.line.accessibleName() == "Comes in at"]


def test_a_table_s_air_is_a_row_with_its_default(card, session, cooler_id, type_into):
    points = tuple(
        TablePoint(face_velocity_m_s=v, heat_w=q, air_loss_pa=p) for v, q, p in ((2, 3e3, 40), (4, 5e3, 120))
    )
    part = session.project.part(cooler_id)
    table = MeasuredTable(inlet_difference_k=70, tube_flow_kg_s=0.15, points=points)
    known = replace(part, description=replace(part.description, table=table))
    parts = tuple(known if p.id == cooler_id else p for p in session.project.parts)
    session.apply("know", replace(session.project, parts=parts))
    # The folded form of a rating point has one of that name too.
    (air,) = [f for f in card.widget().findChildren(QuantityField) if f.line.placeholderText() == "25 default"]
    assert air.line.accessibleName() == "Air inlet"
    type_into(air.line, "100 F")
    assert session.project.part(cooler_id).description.table.air_inlet_degc == pytest.approx((100 - 32) / 1.8)


def test_the_form_for_a_new_table_marks_the_default_of_its_air_and_may_leave_it_open(
    card, session, cooler_id, type_into
):
    section = next(s for s in card.widget().findChildren(FoldingSection) if s.button.text() == "Add a measured table")
    section.open()
    draft = section.content
    assert draft.fields["air_inlet_degc"].line.placeholderText() == "25 default"
    type_into(draft.fields["inlet_difference_k"].line, "70")
    type_into(draft.fields["tube_flow_kg_s"].line, "0.15")
    section.findChild(LinesField).text.setPlainText("2 ; 3 ; 40\n4 ; 5 kW ; 120 Pa")
    draft.accept()
    assert session.project.part(cooler_id).description.table.air_inlet_degc is None
