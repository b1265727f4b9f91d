"""A shroud over the whole core."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from grillestack.advice.change_shroud import covering, covers, shroud_over_the_whole_core
from grillestack.assess.assess import assess
from grillestack.geometry.fan_places import fans_in_shrouds
from grillestack.geometry.projection import project_part
from grillestack.model import edits
from grillestack.model.parts import Shroud
from grillestack.model.project import Project, fans, radiator, shrouds
from tests.advice.situations import candidates
from tests.assess import packs


def _with_shroud(**sizes: float) -> Project:
    project = packs.behind(packs.project())
    return edits.replace_part(project, replace(shrouds(project)[0], **sizes))


def _placed(project: Project, **place: float) -> Project:
    main = radiator(project)
    return edits.place_part(project, main.id, replace(main.placement, **place))


@pytest.mark.parametrize("sizes", [{"height_mm": 230.0}, {"width_mm": 500.0}, {"height_mm": 300.0, "width_mm": 900.0}])
def test_a_small_shroud_grows_to_the_core(sizes):
    (one,) = candidates(shroud_over_the_whole_core, _with_shroud(**sizes))
    (grown,) = shrouds(one.project)
    assert (grown.width_mm, grown.height_mm, grown.own_sizes) == (700.0, 460.0, True)
    assert grown.placement.x_mm == shrouds(_with_shroud())[0].placement.x_mm
    assert assess(one.project).radiator.unshrouded_mm2 == pytest.approx(0.0, abs=1.0)


@pytest.mark.parametrize("sizes", [{}, {"width_mm": 800.0}])
def test_a_shroud_over_the_whole_core_is_left_alone(sizes):
    assert candidates(shroud_over_the_whole_core, _with_shroud(**sizes)) == []


@pytest.mark.parametrize(
    "place",
    [{"z_mm": 300.0}, {"quarter_turns": 1}, {"tilt_deg": 12.0, "y_mm": 40.0}, {"quarter_turns": 3, "flipped": True}],
)
def test_it_follows_a_radiator_that_stands_elsewhere_turned_or_leaning(place):
    project = _placed(_with_shroud(height_mm=200.0), **place)
    grown = covering(shrouds(project)[0], radiator(project))
    assert covers(grown, radiator(project))
    box, core = project_part(grown).outline_box, project_part(radiator(project)).core_box
    assert (box.y0_mm, box.z0_mm, box.y1_mm, box.z1_mm) == pytest.approx(
        (core.y0_mm, core.z0_mm, core.y1_mm, core.z1_mm), abs=1e-9
    )


def test_fans_without_a_shroud_get_one_and_stand_in_it():
    bare = packs.behind(packs.project(), shroud=False)
    (one,) = candidates(shroud_over_the_whole_core, bare)
    (made,) = shrouds(one.project)
    assert "There is none now" in one.words
    assert covers(made, radiator(one.project))
    placed = [project_part(fan) for fan in fans(one.project)]
    assert fans_in_shrouds(placed, [project_part(made)]) == (0, 0)
    assert one.parts == (made.id, *(fan.id for fan in fans(bare)))
    # By hand: the radiator ends at 195 + 36 = 231, the shroud begins 2 mm behind it; the fans at 275 stand 60 deep, half in it.
    assert made.placement.x_mm == 233.0
    assert made.depth_mm == 275.0 + 30.0 - 233.0


def test_without_fans_behind_the_core_there_is_nothing_to_shroud():
    assert candidates(shroud_over_the_whole_core, packs.behind(packs.project(), shroud=False, fans=False)) == []
    aside = packs.behind(packs.project(), shroud=False)
    aside = edits.move_parts(aside, [fan.id for fan in fans(aside)], dz_mm=600.0)
    assert candidates(shroud_over_the_whole_core, aside) == []
    far = packs.behind(packs.project(), shroud=False)
    far = edits.move_parts(far, [fan.id for fan in fans(far)], dx_mm=400.0)
    assert candidates(shroud_over_the_whole_core, far) == []
    ahead = packs.behind(packs.project(), shroud=False)
    ahead = edits.move_parts(ahead, [fan.id for fan in fans(ahead)], dx_mm=-250.0)
    assert candidates(shroud_over_the_whole_core, ahead) == []


def test_two_shrouds_or_no_radiator_are_left_alone():
    second = Shroud(id="shroud", name="Second", depth_mm=60.0, width_mm=200.0, height_mm=200.0)
    assert candidates(shroud_over_the_whole_core, packs.with_part(_with_shroud(height_mm=100.0), second, 240.0)) == []
    headless = _with_shroud(height_mm=100.0)
    headless = edits.remove_parts(headless, [radiator(headless).id])
    assert candidates(shroud_over_the_whole_core, headless) == []
