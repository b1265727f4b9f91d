"""The search as the window follows it: what is asked when, what is dropped, how it ends."""

from __future__ import annotations

import msgspec
import pytest

from grillestack.app.fit.hunt import FitHunt, Stage
from grillestack.app.workers.messages import Answer
from grillestack.fit.slots import Kind, slot_for
from grillestack.units.display import UnitSystem
from tests.app.fit.made import Searcher, a_list, assessed, row
from tests.app.workers.made import demo


@pytest.fixture
def worker(qapp):
    return Searcher()


@pytest.fixture
def hunt(worker):
    made = FitHunt(lambda: worker)
    yield made
    made.close()


def begin(hunt):
    project = demo(3)
    hunt.begin(project, slot_for(project, Kind.CHARGE_AIR_COOLER), UnitSystem.METRIC)


def test_the_list_is_asked_for_first_then_the_short_list_one_by_one(hunt, worker):
    begin(hunt)
    assert worker.is_started
    assert (hunt.stage, worker.parts_asked) == (Stage.LOOKING, [None])
    rows = [row("a", 1.0), row("b", 2.0), row("c", 3.0)]
    worker.tell(a_list(*rows, short_count=2))
    assert worker.parts_asked == [None, "a"]
    worker.tell(assessed(rows[0]))
    assert worker.parts_asked == [None, "a", "b"]
    assert (hunt.done_count, hunt.short_count) == (1, 2)
    worker.tell(assessed(rows[1]))
    assert (hunt.stage, hunt.done_count) == (Stage.DONE, 2)
    assert [one.is_assessed for one in hunt.rows] == [True, True, False]


def test_rows_come_best_first_whatever_comes_first(hunt, worker):
    begin(hunt)
    rows = [row("a", 1.0), row("b", 2.0)]
    worker.tell(a_list(*rows))
    worker.tell(assessed(rows[0], order_factor=(0.0, 9.0)))
    worker.tell(assessed(rows[1], order_factor=(0.0, 4.0)))
    assert [one.part.id for one in hunt.rows] == ["b", "a"]


def test_what_is_wished_for_is_assessed_next_even_beyond_the_short_list(hunt, worker):
    begin(hunt)
    rows = [row("a", 1.0), row("b", 2.0), row("c", 3.0)]
    worker.tell(a_list(*rows, short_count=2))
    hunt.wish("c")
    worker.tell(assessed(rows[0]))
    assert worker.parts_asked[-1] == "c"
    worker.tell(assessed(rows[2]))
    assert worker.parts_asked[-1] == "b"
    worker.tell(assessed(rows[1]))
    hunt.wish("b")
    assert (hunt.stage, len(worker.fits_asked)) == (Stage.DONE, 4)


def test_a_stopped_search_keeps_what_it_has_and_hears_no_more(hunt, worker):
    begin(hunt)
    rows = [row("a", 1.0), row("b", 2.0)]
    worker.tell(a_list(*rows))
    worker.tell(assessed(rows[0]))
    hunt.stop()
    assert worker.stopped == [worker.fits_asked[-1].number]
    worker.tell(assessed(rows[1]))
    assert hunt.stage is Stage.STOPPED
    assert [one.is_assessed for one in hunt.rows] == [True, False]


def test_an_answer_to_an_older_search_is_dropped(hunt, worker):
    begin(hunt)
    old = worker.fits_asked[-1]
    begin(hunt)
    worker.said.emit(Answer(number=old.number, result=msgspec.Raw(msgspec.json.encode(a_list(row("old"))))))
    assert (hunt.found, hunt.rows) == (None, ())
    worker.tell(a_list(row("new")))
    assert [one.part.id for one in hunt.rows] == ["new"]


@pytest.mark.parametrize("way", ["failure", "end", "nonsense"])
def test_a_search_that_breaks_off_says_so_and_the_next_one_has_a_new_process(hunt, worker, way):
    begin(hunt)
    if way == "failure":
        worker.break_off()
    elif way == "end":
        worker.ended.emit()
    else:
        worker.tell(["no list"])
    assert hunt.stage is Stage.BROKEN
    assert worker.is_closed
    fresh = Searcher()
    hunt._make = lambda: fresh
    begin(hunt)
    assert fresh.is_started
    fresh.tell(a_list())
    assert hunt.stage is Stage.DONE


def test_the_photo_does_not_travel(hunt, worker):
    begin(hunt)
    assert worker.fits_asked[0].project.nose.photo is None
