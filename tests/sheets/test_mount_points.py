"""Mounts as the frame sees them: the face each sits on, the end that slides."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.model.parts import CoreRole, Mount
from grillestack.model.project import cores
from grillestack.sheets.mount_points import End, Sits, mount_points
from tests.sheets.drawn import demo


def _points(project, part_id):
    return [p for p in mount_points(project) if p.core.id == part_id]


def _with(project, part_id, **changes):
    return replace(project, parts=tuple(replace(p, **changes) if p.id == part_id else p for p in project.parts))


def test_mounts_sit_on_the_nearest_face():
    project = demo(2)
    radiator = cores(project, CoreRole.RADIATOR)[0]
    # The radiator is 644 × 636 mm over all.
    mounts = (
        Mount(u_mm=0.0, v_mm=-318.0, hole_mm=10.0),
        Mount(u_mm=0.0, v_mm=318.0, hole_mm=10.0),
        Mount(u_mm=-322.0, v_mm=0.0, hole_mm=10.0),
        Mount(u_mm=100.0, v_mm=100.0, w_mm=48.0, hole_mm=10.0),
    )
    found = _points(_with(project, radiator.id, mounts=mounts), radiator.id)
    assert [p.sits for p in found] == [Sits.BELOW, Sits.ABOVE, Sits.SIDE, Sits.FACE]


def test_turned_by_a_quarter_a_mount_below_stands_at_a_side():
    project = demo(2)
    radiator = cores(project, CoreRole.RADIATOR)[0]
    turned = _with(project, radiator.id, placement=replace(radiator.placement, quarter_turns=1))
    assert {p.sits for p in _points(turned, radiator.id)} == {Sits.SIDE}


@pytest.mark.parametrize("number", [1, 2, 3])
def test_the_words_of_the_part_say_which_end_is_free(number):
    project = demo(number)
    (cac,) = cores(project, CoreRole.CHARGE_AIR_COOLER)
    for point, mount in zip(_points(project, cac.id), cac.mounts, strict=True):
        assert point.end is (End.FREE if "free end" in mount.kind_text else End.FIXED)


def test_growth_is_that_of_the_length_between_the_ends():
    project = demo(2)
    (cac,) = cores(project, CoreRole.CHARGE_AIR_COOLER)
    free = [p for p in _points(project, cac.id) if p.end is End.FREE]
    # 678 mm, 150 °C against 20 °C on the bench: 23e-6 · 678 · 130
    assert [p.growth_mm for p in free] == pytest.approx([2.027, 2.027], abs=0.001)


def test_only_a_hot_core_has_ends():
    project = demo(2)
    (radiator,) = cores(project, CoreRole.RADIATOR)
    assert {p.end for p in _points(project, radiator.id)} == {End.PLAIN}


def test_a_core_without_mounts_stands_on_four_assumed_pins():
    project = demo(2)
    found = _points(_with(project, "radiator-3", mounts=()), "radiator-3")
    assert [p.sits for p in found] == [Sits.BELOW, Sits.BELOW, Sits.ABOVE, Sits.ABOVE]
    assert all(p.is_assumed and p.is_pin for p in found)
