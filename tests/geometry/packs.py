"""Invented packs for tests of the geometry: plain builders, one demanding pack, and random ones for hypothesis."""

from __future__ import annotations

from hypothesis import strategies as st

from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.nose import Nose, Obstruction, Opening, SupportWindow
from grillestack.model.outline import Point, Rect, centred_rect, rectangle_outline
from grillestack.model.parts import Core, CoreRole, Fan, Part, Placement, Shroud, Solid, SolidKind, TubeDirection
from grillestack.model.project import Project

ANY_CORE = CoreDescription(core_type=CoreType.ALUMINIUM_ONE_ROW)


def a_core(
    part_id: str = "core",
    size_mm: tuple[float, float] = (600.0, 400.0),
    at_mm: tuple[float, float, float] = (100.0, 0.0, 0.0),
    *,
    tank_mm: float = 0.0,
    depth_mm: float = 40.0,
    role: CoreRole = CoreRole.RADIATOR,
    pose: dict[str, float] | None = None,
    **fields,
) -> Core:
    """Return a core of that width and height at (x, y, z); tanks of `tank_mm` stand left and right of it."""
    w, h = size_mm[0] / 2, size_mm[1] / 2
    spans = ((-w - tank_mm, -w), (w, w + tank_mm)) if tank_mm else ()
    tanks = tuple(
        Solid(kind=SolidKind.TANK, rect=Rect(u_min_mm=a, v_min_mm=-h, u_max_mm=b, v_max_mm=h), depth_mm=depth_mm)
        for a, b in spans
    )
    given = {"solids": tanks, "overall": centred_rect(2 * (w + tank_mm), 2 * h), **fields}
    x, y, z = at_mm
    return Core(
        id=part_id,
        name=f"Invented {part_id}",
        placement=Placement(x_mm=x, y_mm=y, z_mm=z, **(pose or {})),
        depth_mm=depth_mm,
        role=role,
        core_width_mm=size_mm[0],
        core_height_mm=size_mm[1],
        description=ANY_CORE,
        **given,
    )


def a_shroud(part_id="shroud", size_mm=(600.0, 400.0), at_mm=(150.0, 0.0, 0.0), depth_mm=80.0, **pose) -> Shroud:
    x, y, z = at_mm
    return Shroud(
        id=part_id,
        name="Invented shroud",
        width_mm=size_mm[0],
        height_mm=size_mm[1],
        depth_mm=depth_mm,
        placement=Placement(x_mm=x, y_mm=y, z_mm=z, **pose),
    )


def a_fan(part_id="fan", diameter_mm=300.0, at_mm=(160.0, 0.0, 0.0), depth_mm=60.0, **pose) -> Fan:
    x, y, z = at_mm
    return Fan(
        id=part_id,
        name="Invented fan",
        ring_diameter_mm=diameter_mm,
        depth_mm=depth_mm,
        placement=Placement(x_mm=x, y_mm=y, z_mm=z, **pose),
    )


def an_opening(outline: tuple[Point, ...], opening_id: str = "grille", x_mm: float = 0.0) -> Opening:
    return Opening(id=opening_id, name="Invented opening", outline=outline, x_mm=x_mm)


def an_obstruction(outline, x_front_mm=10.0, x_rear_mm=50.0, obstruction_id="beam") -> Obstruction:
    return Obstruction(
        id=obstruction_id, name="Invented beam", outline=outline, x_front_mm=x_front_mm, x_rear_mm=x_rear_mm
    )


def a_project(*parts: Part, openings=(), obstructions=(), window=None) -> Project:
    """Return a project; `window` is an outline."""
    support = SupportWindow(outline=window) if window else None
    return Project(
        nose=Nose(openings=tuple(openings), obstructions=tuple(obstructions), support_window=support), parts=parts
    )


def corners(*places: tuple[float, float]) -> tuple[Point, ...]:
    return tuple(Point(float(y), float(z)) for y, z in places)


OPEN_NOSE = an_opening(rectangle_outline(-2000, -2000, 2000, 2000), "open-nose")
OCTAGON = corners(
    (-300, -120), (-220, -180), (220, -180), (300, -120), (300, 120), (220, 180), (-220, 180), (-300, 120)
)
BOW_TIE = corners((-200, -100), (200, 100), (200, -100), (-200, 100))


def a_demanding_pack(y_mm: float = 0.0, z_mm: float = 0.0) -> Project:
    """Return four cores with tanks behind an eight-cornered opening; the charge-air cooler is moved by (y, z)."""
    return a_project(
        a_core("condenser", (600, 380), (80, 0, 0), tank_mm=20, depth_mm=18, role=CoreRole.CONDENSER),
        a_core(
            "charge-air-cooler",
            (560, 220),
            (110, y_mm, z_mm - 80),
            tank_mm=60,
            depth_mm=62,
            role=CoreRole.CHARGE_AIR_COOLER,
        ),
        a_core("oil-cooler", (250, 120), (115, -100, 130), tank_mm=25, role=CoreRole.COOLER),
        a_core("radiator", (640, 460), (190, 0, 0), tank_mm=55, depth_mm=42, passes=2),
        a_shroud(size_mm=(650, 460), at_mm=(240, 0, 0)),
        a_fan("fan-left", 310, (250, -160, 0)),
        a_fan("fan-right", 310, (250, 160, 0)),
        openings=[an_opening(OCTAGON)],
        obstructions=[an_obstruction(rectangle_outline(-400, -30, 400, 30), 10, 60)],
        window=rectangle_outline(-400, -300, 400, 300),
    )


# Few round places make edges coincide, touch and contain each other; the others make everything else.
_PLACES_MM = st.one_of(
    st.sampled_from([-200.0, -100.0, -50.0, 0.0, 50.0, 100.0, 200.0]), st.integers(-3000, 3000).map(lambda n: n / 10)
)
_SIZES_MM = st.one_of(st.sampled_from([50.0, 100.0, 200.0, 400.0, 600.0]), st.integers(300, 7000).map(lambda n: n / 10))
_DEPTHS_MM = st.sampled_from([0.0, 40.0, 50.0, 80.0, 100.0, 150.0])
_POSES = st.fixed_dictionaries(
    {
        "quarter_turns": st.integers(0, 3),
        "flipped": st.booleans(),
        "tilt_deg": st.sampled_from([0.0, 0.0, 0.0, 8.0, -20.0, 30.0]),
    }
)


@st.composite
def _rectangles(draw):
    y, z, w, h = draw(_PLACES_MM), draw(_PLACES_MM), draw(_SIZES_MM), draw(_SIZES_MM)
    return rectangle_outline(y - w / 2, z - h / 2, y + w / 2, z + h / 2)


_POLYGONS = st.lists(st.tuples(_PLACES_MM, _PLACES_MM), min_size=3, max_size=9).map(lambda places: corners(*places))
_OUTLINES = st.one_of(_rectangles(), _POLYGONS, st.sampled_from([OCTAGON, BOW_TIE]))


@st.composite
def _cores(draw, part_id: str):
    return a_core(
        part_id,
        (draw(_SIZES_MM), draw(_SIZES_MM)),
        (draw(_DEPTHS_MM), draw(_PLACES_MM), draw(_PLACES_MM)),
        tank_mm=draw(st.sampled_from([0.0, 40.0, 55.5])),
        role=draw(st.sampled_from(CoreRole)),
        tubes=draw(st.sampled_from(TubeDirection)),
        passes=draw(st.integers(1, 3)),
        pose=draw(_POSES),
    )


@st.composite
def random_packs(draw) -> Project:
    """Return packs of up to four cores, two shrouds and two fans behind openings of any shape."""
    parts: list[Part] = [draw(_cores(f"core-{k}")) for k in range(draw(st.integers(0, 4)))]
    for k in range(draw(st.integers(0, 2))):
        at = (draw(_DEPTHS_MM), draw(_PLACES_MM), draw(_PLACES_MM))
        parts.append(a_shroud(f"shroud-{k}", (draw(_SIZES_MM), draw(_SIZES_MM)), at))
    for k in range(draw(st.integers(0, 2))):
        at = (draw(_DEPTHS_MM), draw(_PLACES_MM), draw(_PLACES_MM))
        parts.append(a_fan(f"fan-{k}", draw(_SIZES_MM), at, tilt_deg=draw(st.sampled_from([0.0, 15.0]))))
    openings = [
        an_opening(draw(_OUTLINES), f"opening-{k}", draw(st.sampled_from([0.0, 20.0])))
        for k in range(draw(st.integers(0, 2)))
    ]
    obstructions = [
        an_obstruction(draw(_OUTLINES), draw(st.sampled_from([-20.0, 10.0, 90.0])), 95.0, f"obstruction-{k}")
        for k in range(draw(st.integers(0, 2)))
    ]
    window = draw(st.one_of(st.none(), _OUTLINES))
    return a_project(*parts, openings=openings, obstructions=obstructions, window=window)
