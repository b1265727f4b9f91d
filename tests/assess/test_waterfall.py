"""Where the degrees go."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.assess.waterfall import SHROUD_STEP, in_words, waterfall
from grillestack.model import edits
from grillestack.model.engine import EngineSheet, Environment
from grillestack.model.nose import Opening
from grillestack.model.outline import rectangle_outline
from grillestack.model.project import Project
from tests.assess import packs


def _changes(project: Project) -> dict[str, float | None]:
    result = waterfall(project, "case-1")
    return {step.name: step.change_k for step in result.steps}


def test_steps_add_up_to_the_hottest_day_of_the_pack_as_it_stands():
    pack = packs.full_height_pack()
    result = waterfall(pack, "case-1")
    (case,) = assess(pack).cases
    assert result.end_degc == pytest.approx(case.limiting_ambient_degc, abs=1e-3)
    assert result.start_degc + sum(step.change_k for step in result.steps) == pytest.approx(result.end_degc, abs=1e-9)


def test_a_radiator_alone_with_a_full_shroud_pays_only_for_nose_and_leaks():
    changes = _changes(packs.behind(packs.project()))
    assert changes["Opening and grille"] < 0.0
    assert changes["Leaks"] != 0.0
    for name in ("Condenser", "Charge-air cooler and further coolers", "Tanks and side plates"):
        assert changes[name] == pytest.approx(0.0, abs=1e-3)


def test_a_full_shroud_pays_for_the_way_to_its_fans_and_less_the_further_back_they_stand():
    cost = []
    for back_mm in (10.0, 45.0, 120.0, 1000.0):
        pack = packs.behind(packs.project())
        shroud = next(part for part in pack.parts if part.id.startswith("shroud"))
        pack = edits.replace_part(pack, replace(shroud, depth_mm=2000.0))
        fan_ids = [part.id for part in pack.parts if part.id.startswith("fan")]
        cost.append(_changes(edits.move_parts(pack, fan_ids, dx_mm=231.0 + back_mm - 275.0))[SHROUD_STEP])
    assert cost[0] < 2.0 * cost[1] < 4.0 * cost[2] < 0.0
    assert cost[3] == pytest.approx(0.0, abs=0.01)


def test_tanks_over_the_core_are_charged_to_the_tanks():
    half, full = _changes(packs.half_height_pack()), _changes(packs.full_height_pack())
    assert full["Tanks and side plates"] < 2.0 * half["Tanks and side plates"] < 0.0


def test_a_nose_as_open_as_the_core_costs_next_to_nothing():
    wide = packs.behind(packs.project())
    opening = Opening(
        id="opening-1", name="All of it", outline=rectangle_outline(-600.0, -300.0, 600.0, 800.0), free_area_frac=1.0
    )
    wide = edits.set_nose(wide, replace(wide.nose, openings=(opening,), support_window=None))
    wide = edits.set_environment(wide, Environment(opening_closed_off=True))
    assert abs(_changes(wide)["Opening and grille"]) < 0.3
    assert _changes(packs.behind(packs.project()))["Opening and grille"] < -1.0


def test_a_shroud_that_leaves_half_the_core_bare_is_charged_at_standstill():
    idle = packs.warm_day(road_speed_m_s=0.0, heat_frac=0.3, coolant_frac=0.4, charge_frac=0.1)
    base = packs.behind(packs.project(idle))
    shroud = next(part for part in base.parts if part.id.startswith("shroud"))
    bare = edits.replace_part(base, replace(shroud, height_mm=230.0))
    assert _changes(bare)[SHROUD_STEP] < _changes(base)[SHROUD_STEP] - 1.0


def test_what_cannot_be_judged_has_no_waterfall():
    assert waterfall(packs.half_height_pack(sheet=EngineSheet()), "case-1") is None
    assert waterfall(packs.half_height_pack(), "no-such-case") is None


def test_a_step_without_hottest_day_is_no_answer_and_said_so():
    pack = packs.half_height_pack(packs.warm_day(road_speed_m_s=0.0, fans_on=False))
    result = waterfall(pack, "case-1")
    assert result.end_degc is None
    assert any(step.change_k is None for step in result.steps)
    assert "no hottest day" in in_words(result)


def test_words_carry_the_figures_of_the_steps():
    result = waterfall(packs.half_height_pack(), "case-1")
    words = in_words(result)
    for step in result.steps:
        if abs(step.change_k) >= 0.05:
            assert f"{abs(step.change_k):.1f} K" in words
    assert f"{result.end_degc:.1f} °C" in words
