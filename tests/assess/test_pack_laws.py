"""Laws over random packs: some thousand whenever the tests run, a hundred thousand at night."""

from __future__ import annotations

import concurrent.futures
import os
import warnings
from collections import Counter

import pytest

from tests.assess.any_packs import any_pack
from tests.assess.pack_laws import judged

LOT = 100
NORMAL = range(0, 2000, LOT)
MANY = 100_000
FIRST_OF_MANY = 1_000_000
# Of about 300 problems with an answer; those left hang between two directions of next to no air, and say so.
MOST_UNSETTLED = 1
UNSETTLED_FRAC = 1e-3


def _lot(first: int, count: int = LOT) -> tuple[list[str], int, list[tuple[int, int]], Counter]:
    """Return what packs break (with their numbers), how many problems have an answer, which of those did not settle, and the kinds."""
    broken, answers, unsettled, kinds = [], 0, [], Counter()
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for number in range(first, first + count):
            found = judged(any_pack(number))
            broken += [f"pack {number}: {law}" for law in found.broken]
            answers += found.answers
            unsettled += [(number, row) for row in found.unsettled]
            kinds.update(found.kinds)
    return broken, answers, unsettled, kinds


@pytest.mark.parametrize("first", NORMAL)
def test_a_hundred_random_packs_keep_the_laws(first):
    broken, answers, unsettled, kinds = _lot(first)
    assert broken == []
    assert len(unsettled) <= MOST_UNSETTLED, unsettled
    assert answers > 150
    assert {"pass", "fail", "reversed air", "no air", "further cooler marched"} <= set(kinds)


@pytest.mark.nightly
def test_a_hundred_thousand_random_packs_keep_the_laws():
    lots = range(FIRST_OF_MANY, FIRST_OF_MANY + MANY, LOT)
    broken, answers, unsettled = [], 0, []
    with concurrent.futures.ProcessPoolExecutor(os.cpu_count()) as pool:
        for lot in pool.map(_lot, lots):
            broken += lot[0]
            answers += lot[1]
            unsettled += lot[2]
    print(f"{MANY} packs, {answers} answers, not settled: {unsettled}")
    assert broken == []
    assert answers > 150 * len(lots)
    assert len(unsettled) < UNSETTLED_FRAC * answers, unsettled
