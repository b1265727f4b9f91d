"""What the figures rest on, shown when asked for."""

from __future__ import annotations

from grillestack.app import palette as palettes
from grillestack.app.panels.basis_list import BasisList
from grillestack.assess.result import Basis

HEAT = Basis(figure="Heat", method="typical fins and tubes", source="from memory")


def test_basis_is_folded_until_asked_for_and_follows_then(qtbot):
    shown = BasisList(palettes.light())
    qtbot.addWidget(shown)
    shown.show_basis([HEAT])
    assert shown.text.isHidden()
    shown.fold.click()
    assert not shown.text.isHidden()
    assert shown.text.text() == "Heat: typical fins and tubes (from memory)."
    shown.show_basis([HEAT, Basis(figure="Air", method="network", source="ours")])
    assert shown.text.text().endswith("Air: network (ours).")
    shown.fold.click()
    assert shown.text.isHidden()


def test_without_basis_there_is_nothing_to_unfold(qtbot):
    shown = BasisList(palettes.light())
    qtbot.addWidget(shown)
    shown.show_basis([])
    assert not shown.fold.isEnabled()
