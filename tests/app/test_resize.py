"""What sits beyond an edge travels with it and keeps its size; what sits on the core keeps its share."""

import pytest
from msgspec.structs import replace

from grillestack.app.resize import resize_core, resize_shroud, with_tanks
from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.outline import centred_rect
from grillestack.model.parts import Core, CoreRole, Facing, Mount, Port, PortPurpose, Shroud, SolidKind


@pytest.fixture
def radiator():
    core = Core(
        id="radiator-1",
        name="Invented radiator",
        role=CoreRole.RADIATOR,
        overall=centred_rect(600, 400),
        core_width_mm=600,
        core_height_mm=400,
        depth_mm=56,
        description=CoreDescription(core_type=CoreType.ALUMINIUM_TWO_ROW),
        ports=(Port(purpose=PortPurpose.INLET, u_mm=330, v_mm=100, facing=Facing.REAR, bore_mm=42),),
        mounts=(Mount(u_mm=-150, v_mm=-210, hole_mm=12),),
    )
    return with_tanks(core, 55, 8, at_the_sides=True)


def test_tanks_and_plates_close_the_core_without_overlapping(radiator):
    assert (radiator.overall.width_mm, radiator.overall.height_mm) == (710, 416)
    kinds = [solid.kind for solid in radiator.solids]
    assert kinds == [SolidKind.TANK, SolidKind.TANK, SolidKind.SIDE_PLATE, SolidKind.SIDE_PLATE]
    for a in radiator.solids:
        assert not a.rect.overlaps(radiator.core)
        assert all(a is b or not a.rect.overlaps(b.rect) for b in radiator.solids)
    areas = sum(s.rect.width_mm * s.rect.height_mm for s in radiator.solids) + 600 * 400
    assert areas == pytest.approx(710 * 416)


def test_tanks_at_the_ends_and_no_plates(radiator):
    down = with_tanks(radiator, 55, 0, at_the_sides=False)
    assert (down.overall.width_mm, down.overall.height_mm) == (600, 510)
    assert [s.kind for s in down.solids] == [SolidKind.TANK, SolidKind.TANK]


def test_a_wider_core_keeps_its_tanks_and_its_port_stays_on_its_tank(radiator):
    wide = resize_core(radiator, 700, 400)
    assert wide.core_width_mm == 700
    assert wide.overall.width_mm == 810
    assert {round(s.rect.width_mm) for s in wide.solids if s.kind is SolidKind.TANK} == {55}
    assert wide.ports[0].u_mm == 380  # 30 beyond the edge before and after
    assert wide.ports[0].v_mm == 100


def test_what_sits_on_the_core_keeps_its_share(radiator):
    tall = resize_core(radiator, 1200, 400)
    assert tall.mounts[0].u_mm == -300
    assert tall.mounts[0].v_mm == -210


def test_there_and_back_is_the_same_part(radiator):
    again = resize_core(resize_core(radiator, 750, 300), 600, 400)
    assert again == radiator


def test_a_shroud_takes_its_mounts_along():
    shroud = Shroud(id="shroud-1", name="Invented shroud", width_mm=600, height_mm=400, depth_mm=80)
    shroud = replace(shroud, mounts=(Mount(u_mm=310, v_mm=0, hole_mm=8),))
    small = resize_shroud(shroud, 500, 300)
    assert (small.width_mm, small.height_mm) == (500, 300)
    assert small.mounts[0].u_mm == 260
