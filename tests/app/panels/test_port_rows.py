"""Spout, tube and bead of a port are typed on the card of a part made to own sizes and told of a bought one."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtWidgets import QLabel

from grillestack.app.panels.field import TypedLine
from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.part_card import PartCard
from grillestack.model.edits import replace_part
from grillestack.model.parts import Facing, Port, PortPurpose

PORT = Port(purpose=PortPurpose.INLET, u_mm=300, v_mm=100, facing=Facing.REAR, bore_mm=42)


@pytest.fixture
def card_of(qtbot, session):
    def make(port, *, own_sizes):
        part = replace(session.project.part("radiator-3"), own_sizes=own_sizes, ports=(port,))
        session.apply("port", replace_part(session.project, part))
        session.select(["radiator-3"])
        made = PartCard(session)
        qtbot.addWidget(made)
        made.resize(290, 700)
        made.show()
        found = next(s for s in made.widget().findChildren(FoldingSection) if s.button.text() == "Ports")
        found.button.setChecked(True)
        made.ports = found
        return made

    return make


def test_turn_tube_and_bead_are_typed(card_of, session, type_into):
    card = card_of(PORT, own_sizes=True)
    lines = {one.accessibleName(): one for one in card.ports.findChildren(TypedLine)}
    type_into(lines["Turned by"], "-30 deg")
    type_into(lines["Tube outside"], "1 3/4 in")
    type_into(lines["Bead height"], "1.5")
    (port,) = session.project.part("radiator-3").ports
    assert (port.clock_deg, port.bead_mm) == (-30.0, 1.5)
    assert port.outside_mm == pytest.approx(44.45)
    type_into(lines["Bead height"], "")
    assert session.project.part("radiator-3").ports[0].bead_mm is None


def test_of_a_bought_part_they_are_told(card_of):
    card = card_of(replace(PORT, clock_deg=30, outside_mm=46, bead_mm=0.0), own_sizes=False)
    words = " ".join(label.text() for label in card.ports.findChildren(QLabel))
    assert "turned by 30°; tube outside 46 mm; plain end" in words
