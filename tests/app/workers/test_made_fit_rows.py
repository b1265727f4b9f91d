"""Rows of a search as the second process makes them: the search's own answers, there and back through JSON."""

from __future__ import annotations

import msgspec
import pytest

from grillestack.app.workers import made_fit_rows
from grillestack.app.workers.answers import answer_any, packed
from grillestack.app.workers.fit_rows import FitList, FitRow
from grillestack.app.workers.messages import AskFit, asked_in, line_of
from grillestack.fit.search import assessed, first_look
from grillestack.fit.slots import Kind, slot_for
from grillestack.units.display import UnitSystem
from tests.app.workers.made import demo
from tests.fit.packs import a_cooler, coolers

PARTS = (
    *(part for part in coolers() if part.id in ("gs-cb-0660-0220-76-d", "gs-cb-0640-0200-64-s")),
    a_cooler("wide", 900.0, 640.0),
)


@pytest.fixture
def shelf(monkeypatch):
    monkeypatch.setattr(made_fit_rows, "shelf_parts", lambda: (PARTS, []))


def ask(fit=None):
    project = demo(3)
    slot = slot_for(project, Kind.CHARGE_AIR_COOLER)
    given = {} if fit is None else {"fit": fit}
    return AskFit(number=1, project=project, slot=slot, units=UnitSystem.METRIC, **given)


def through_json(result, kind):
    return msgspec.json.decode(packed(result), type=kind)


def test_the_question_survives_its_line():
    assert asked_in(line_of(ask())) == ask()
    with_fit = ask(msgspec.Raw(b'{"part":"x"}'))
    assert bytes(asked_in(line_of(with_fit)).fit) == b'{"part":"x"}'


def test_the_list_is_that_of_the_first_look(shelf):
    found = through_json(answer_any(ask()), FitList)
    asked = ask()
    direct = first_look(asked.project, PARTS, asked.slot)
    assert [row.part for row in found.rows] == [fit.part for fit in direct.fits]
    assert [row.placement for row in found.rows] == [fit.placement for fit in direct.fits]
    assert found.short_count == 2
    assert found.near[0].said[0].startswith("It is 50 mm too wide for the support window")
    assert not any(row.is_assessed for row in found.rows)


def test_a_row_that_is_asked_about_comes_back_as_the_search_assesses_it(shelf):
    asked = ask()
    listed = through_json(answer_any(asked), FitList).rows[0]
    row = through_json(answer_any(ask(listed.fit)), FitRow)
    direct = next(iter(assessed(asked.project, first_look(asked.project, PARTS, asked.slot))))
    assert row.part == direct.part
    assert row.placement == direct.placement
    assert row.hottest_degc == direct.cost.hottest_degc
    assert row.is_assessed
    assert row.order_factor < listed.order_factor
    # the place is one of its room, to within what a rounding takes
    (outline, *_), *_ = row.room_mm
    ys, zs = zip(*outline, strict=True)
    assert min(ys) - 1e-5 <= row.placement.y_mm <= max(ys) + 1e-5
    assert min(zs) - 1e-5 <= row.placement.z_mm <= max(zs) + 1e-5
