"""How much sooner a thousand coolers are looked at together than one by one, both timed in one run on the thread's own clock.

Either way must tell the same: which of them fit, in which ways round. The whole first look, near misses included, is told
in seconds.
"""

from __future__ import annotations

import gc
import statistics
import time

import numpy as np
import pytest

from grillestack.fit.depths import depths_mm
from grillestack.fit.fits import body_for, look
from grillestack.fit.search import first_look
from grillestack.fit.slots import Kind, slot_for
from grillestack.fit.surroundings import surroundings
from grillestack.fit.ways import Way, poses_of, stays_ventable
from grillestack.geometry.room import room_of
from tests.fit.packs import many_coolers, passing

COUNT = 1000
# One by one takes long, so every so many-th is looked at that way.
EVERY = 50
RUNS = 5
AIM = 10.0


def one_by_one(project, slot, setting, part) -> tuple[Way, ...]:
    """Return the ways in which a part fits, each depth of each way round in turn by its exact region."""
    found = []
    for pose in poses_of(slot.kind):
        body = body_for(setting, part, pose)
        reach = tuple(np.array([value]) for value in (body.front_mm, body.rear_mm, body.pieces[0].rear_mm))
        for rank, row in enumerate(depths_mm(project, slot, setting, reach)):
            tried = stays_ventable(part, pose) and np.isfinite(row[0])
            if tried and not room_of(setting, body, float(row[0])).is_empty:
                found.append(Way(pose, float(row[0]), rank))
                break
    return tuple(sorted(found, key=lambda way: way.rank))


@pytest.mark.benchmark
def test_a_thousand_coolers_are_looked_at_sooner_together_than_one_by_one(capsys):
    project, many = passing(), many_coolers(COUNT)
    slot = slot_for(project, Kind.CHARGE_AIR_COOLER)
    setting = surroundings(project, slot)
    look(project, slot, setting, many[:EVERY])  # what only the first one pays
    batched_s, looped_s = [], []
    gc.collect()
    gc.freeze()  # what hundreds of tests before this one left behind is none of its business
    try:
        for part_of_many in range(RUNS):
            start = time.thread_time()
            together = look(project, slot, setting, many)
            looked = time.thread_time()
            few = many[part_of_many::EVERY]
            alone = [one_by_one(project, slot, setting, part) for part in few]
            batched_s.append(looked - start)
            looped_s.append((time.thread_time() - looked) * COUNT / len(few))
            assert [one.fits for one in together[part_of_many::EVERY]] == alone
    finally:
        gc.unfreeze()
    batched, looped = statistics.median(batched_s), statistics.median(looped_s)
    begun = time.thread_time()
    whole = first_look(project, many, slot)
    done = time.thread_time()
    assert len(whole.fits) + len(whole.near) == COUNT
    ratio = looped / batched
    with capsys.disabled():
        print(
            f"\n{COUNT} coolers: together {batched:.2f} s, one by one {looped:.1f} s "
            f"(ratio {ratio:.0f}); whole first look {done - begun:.2f} s, {len(whole.fits)} fit"
        )
    assert ratio > AIM / 2
