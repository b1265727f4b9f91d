"""The pack as a picture: every pixel of the front view with what its air meets, and pixels alike gathered into zones.

Every edge of the pack lies on the pixels' grid; only the fans' rings cut pixels, which then carry two streams.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from grillestack.model.engine import Seal
from grillestack.model.parts import Core, CoreRole, Fan, PortPurpose, Shroud, TubeDirection
from grillestack.model.project import Project
from tests.independent import rims
from tests.independent.picture import (
    Picture,
    Rectangle,
    circle,
    core_rectangle,
    cosine,
    outline_rectangle,
    overall_rectangle,
    shroud_rectangle,
    solid_rectangles,
    turned,
)

P1, P1B, FIRST_CHAMBER = 0, 1, 2
GAP_MM = {Seal.SEALED: 1.0, Seal.ROUGH: 4.0}
OPEN_GAP_MM = 15.0


@dataclass(frozen=True)
class FanPlace:
    """A fan of the network between two nodes."""

    fan: Fan
    tail: int
    tip: int


@dataclass(frozen=True)
class Around:
    """Areas of the whole pack, which stay when cores are taken out for asking what the radiator does alone."""

    opening_m2: np.ndarray
    lateral_m2: float
    jet_leak_m2: float
    leak_m2: float
    exit_m2: float


@dataclass(frozen=True)
class PackMap:
    """The pack in pixels; one entry per piece of a pixel that some core covers.

    `closed` says where no air passes; `zone` numbers the pieces that are alike, -1 where closed. `flaps` are (chamber, area),
    `passages` (space beside the rings, space before the fans, area).
    """

    cores: tuple[Core, ...]
    radiator: int
    iy: np.ndarray
    iz: np.ndarray
    area_m2: np.ndarray
    hit: np.ndarray
    closed: np.ndarray
    zone: np.ndarray
    zone_hit: np.ndarray
    zone_upstream: np.ndarray
    zone_downstream: np.ndarray
    zone_area_m2: np.ndarray
    chambers: int
    fans: tuple[FanPlace, ...]
    flaps: tuple[tuple[int, float], ...]
    passages: tuple[tuple[int, int, float], ...]

    @property
    def bay(self) -> int:
        return FIRST_CHAMBER + self.chambers


@dataclass(frozen=True)
class _Chambers:
    count: int
    beside: dict[int, int]
    before: dict[int, int]
    at_home: dict[int, list[Fan]]
    of_ring: dict[int, int]
    fans: tuple[FanPlace, ...]
    flaps: tuple[tuple[int, float], ...]
    passages: tuple[tuple[int, int, float], ...]


def picture_of(project: Project, size_mm: float) -> Picture:
    """Return the smallest frame that holds the whole nose and pack, one pixel of room around."""
    found = [r for c in _stack(project) for r in (core_rectangle(c), overall_rectangle(c), *solid_rectangles(c))]
    found += [outline_rectangle(o.outline) for o in (*project.nose.openings, *project.nose.obstructions)]
    found += [shroud_rectangle(s) for s in project.parts if isinstance(s, Shroud)]
    if project.nose.support_window is not None:
        found.append(outline_rectangle(project.nose.support_window.outline))
    low = [math.floor(min(r[k] for r in found) / size_mm) - 1 for k in (0, 1)]
    high = [math.ceil(max(r[k] for r in found) / size_mm) + 1 for k in (2, 3)]
    return Picture(low[0] * size_mm, low[1] * size_mm, size_mm, (high[0] - low[0], high[1] - low[1]))


def pack_map(project: Project, size_mm: float, *, alone: bool = False) -> PackMap:
    """Return the pack in pixels; `alone` leaves the radiator as the only core."""
    everything = _stack(project)
    main = next(c for c in everything if c.role is CoreRole.RADIATOR)
    stack = (main,) if alone else everything
    frame = picture_of(project, size_mm)
    chambers = _chambers(project, everything)
    bay = FIRST_CHAMBER + chambers.count
    fans = [p for p in project.parts if isinstance(p, Fan)]
    rings = {k: frame.ring_share(circle(fans[k])) for k in chambers.of_ring}
    hit = np.stack([frame.image(core_rectangle(core)) for core in stack])
    blocked = ~frame.image(_window(project)) if project.nose.support_window is not None else np.zeros(frame.shape, bool)
    for number, core in enumerate(stack):
        # A core's own tanks stand beside it; they block whatever of the others lies before or behind them.
        blocked = blocked | (frame.images(solid_rectangles(core)) & ~hit[number])
    off_jet = ~_jet(project, frame, stack, hit)
    to_bay = np.full(frame.shape, bay)
    shrouds = [p for p in project.parts if isinstance(p, Shroud)]
    owner = np.full(frame.shape, -1)
    for number in reversed(list(chambers.beside)):
        owner[frame.image(shroud_rectangle(shrouds[number]))] = number
    before_jet = np.where(off_jet, P1B, P1)
    streams = []
    rest = np.ones(frame.shape)
    for number, node in chambers.beside.items():
        to_bay[owner == number] = node
        swept = frame.ring_share(*[circle(fan) for fan in chambers.at_home[number]]) * (owner == number)
        streams.append((swept, before_jet, np.full(frame.shape, chambers.before[number])))
        rest = rest - swept
    for ring, share in rings.items():
        place = next(f for f in chambers.fans if f.fan is fans[ring])
        if place.tip == bay:
            streams.append((share, before_jet, np.where(to_bay == bay, place.tail, to_bay)))
        else:
            streams.append((share, np.full(frame.shape, place.tip), to_bay))
        rest = rest - share
    closed_edge = _closed_edges(project, frame, core_rectangle(main))
    pieces = []
    for share, upstream, downstream in [(rest, before_jet, to_bay), *streams]:
        shut = blocked | ((downstream == bay) & closed_edge)
        iy, iz = np.nonzero(hit.any(axis=0) & (share > 1e-9))
        pieces.append(
            np.column_stack([iy, iz, upstream[iy, iz], downstream[iy, iz], shut[iy, iz], *hit[:, iy, iz].astype(int)])
        )
        pieces[-1] = np.column_stack([pieces[-1], share[iy, iz]])
    rows = np.concatenate(pieces)
    return _grouped(rows, stack, stack.index(main), chambers, size_mm)


def around(project: Project, size_mm: float) -> Around:
    """Return the areas of the openings, the way across ahead of the pack, the leak and the exit."""
    frame, stack = picture_of(project, size_mm), _stack(project)
    main = next(c for c in stack if c.role is CoreRole.RADIATOR)
    openings = project.nose.openings
    area_mm2 = [(r[2] - r[0]) * (r[3] - r[1]) for r in (outline_rectangle(o.outline) for o in openings)]
    foremost = min(part.placement.x_mm for part in project.parts)
    depth_mm = sum(a * max(foremost - o.x_mm, 0.0) for a, o in zip(area_mm2, openings, strict=True)) / sum(area_mm2)
    filled = frame.images([r for core in stack for r in (core_rectangle(core), *solid_rectangles(core))])
    stream = _stream(project, frame, foremost)
    border = sum(int((np.diff(stream.astype(int), axis=k) != 0)[_both(filled, k)].sum()) for k in (0, 1))
    bare = stream & ~filled
    in_jet_mm2, off_jet_mm2 = _gaps_mm2(project, frame, stack, stream)
    if project.nose.support_window is not None:
        bare &= frame.image(_window(project))
    beside_mm2 = 0.0 if project.environment.opening_closed_off else float(bare.sum()) * size_mm**2
    return Around(
        opening_m2=np.array(area_mm2) * 1e-6,
        lateral_m2=border * size_mm * depth_mm * 1e-6,
        jet_leak_m2=(in_jet_mm2 + beside_mm2) * 1e-6,
        leak_m2=off_jet_mm2 * 1e-6,
        exit_m2=main.core_width_mm * main.core_height_mm * 1e-6,
    )


def face_states_mm2(project: Project, size_mm: float) -> dict[str, tuple[float, float, float, float]]:
    """Return for each core what of its true face is exposed, behind another core, off the openings' air, blocked."""
    frame, stack = picture_of(project, size_mm), _stack(project)
    plate = np.zeros(frame.shape, bool)
    if project.nose.support_window is not None:
        plate = ~frame.image(_window(project))
    hits = [frame.image(core_rectangle(core)) for core in stack]
    found = {}
    for number, core in enumerate(stack):
        others = [r for other in stack if other is not core for r in solid_rectangles(other)]
        blocked = frame.images(others) | plate
        lit = _stream(project, frame, core.placement.x_mm)
        ahead = np.logical_or.reduce([np.zeros(frame.shape, bool), *hits[:number]])
        parts = (~blocked & lit & ~ahead, ~blocked & lit & ahead, ~blocked & ~lit, blocked)
        found[core.id] = tuple(float((part & hits[number]).sum()) * size_mm**2 / cosine(core) for part in parts)
    return found


def _stack(project: Project) -> tuple[Core, ...]:
    return tuple(sorted((p for p in project.parts if isinstance(p, Core)), key=lambda c: c.placement.x_mm))


def _window(project: Project) -> Rectangle:
    return outline_rectangle(project.nose.support_window.outline)


def _both(filled: np.ndarray, axis: int) -> np.ndarray:
    """Return where two neighbours along an axis are both filled."""
    first, second = (filled[:-1], filled[1:]) if axis == 0 else (filled[:, :-1], filled[:, 1:])
    return first & second


def _stream(project: Project, frame: Picture, plane_mm: float) -> np.ndarray:
    """Return the air of the openings, less the shadows of what stands ahead of the plane."""
    lit = frame.images([outline_rectangle(o.outline) for o in project.nose.openings])
    ahead = [o for o in project.nose.obstructions if _shades(o, plane_mm)]
    return lit & ~frame.images([outline_rectangle(o.outline) for o in ahead])


def _shades(obstruction, face_mm: float) -> bool:
    return obstruction.x_rear_mm <= face_mm or obstruction.x_front_mm < face_mm


def _jet(project: Project, frame: Picture, stack: tuple[Core, ...], hit: np.ndarray) -> np.ndarray:
    """Return the pixels none of whose cores lies off the openings' air."""
    found = np.ones(frame.shape, dtype=bool)
    for number, core in enumerate(stack):
        found &= ~hit[number] | _stream(project, frame, core.placement.x_mm)
    return found


def _chambers(project: Project, stack: tuple[Core, ...]) -> _Chambers:
    shrouds = [p for p in project.parts if isinstance(p, Shroud)]
    fans = [p for p in project.parts if isinstance(p, Fan)]
    main_x = next(c for c in stack if c.role is CoreRole.RADIATOR).placement.x_mm
    home: dict[int, int] = {}
    for k, fan in enumerate(fans):
        for n, shroud in enumerate(shrouds):
            y0, z0, y1, z1 = shroud_rectangle(shroud)
            within = y0 <= fan.placement.y_mm <= y1 and z0 <= fan.placement.z_mm <= z1
            if within and fan.placement.x_mm + fan.depth_mm > shroud.placement.x_mm:
                home[k] = n
                break
    housing = sorted(set(home.values()))
    at_home = {n: [fans[k] for k in home if home[k] == n] for n in housing}
    beside = {n: FIRST_CHAMBER + 2 * place for place, n in enumerate(housing)}
    before = {n: node + 1 for n, node in beside.items()}
    bare = [k for k in range(len(fans)) if k not in home]
    of_ring = {k: FIRST_CHAMBER + 2 * len(housing) + place for place, k in enumerate(bare)}
    count = 2 * len(housing) + len(of_ring)
    bay = FIRST_CHAMBER + count
    places = []
    for k, fan in enumerate(fans):
        if k in home:
            places.append(FanPlace(fan, before[home[k]], bay))
        elif fan.placement.x_mm < stack[0].placement.x_mm:
            places.append(FanPlace(fan, P1, of_ring[k]))
        elif fan.placement.x_mm > main_x:
            places.append(FanPlace(fan, of_ring[k], bay))
        else:
            raise ValueError("a fan between two cores is not judged")
    flaps = tuple((beside[n], shrouds[n].flap_area_mm2 * 1e-6) for n in housing if shrouds[n].flap_area_mm2 > 0)
    passages = tuple(
        (beside[n], before[n], rims.passage_mm2(shrouds[n], at_home[n], list(stack)) * 1e-6) for n in housing
    )
    return _Chambers(count, beside, before, at_home, of_ring, tuple(places), flaps, passages)


def _seals(project: Project) -> dict[str, Seal]:
    e = project.environment
    usual = e.seal or Seal.ROUGH
    named = {"left": e.seal_left, "bottom": e.seal_bottom, "right": e.seal_right, "top": e.seal_top}
    return {edge: own or usual for edge, own in named.items()}


def _closed_edges(project: Project, frame: Picture, radiator: Rectangle) -> np.ndarray:
    """Return where a sealed edge keeps what passes the radiator from the bay: above and below it first, then beside it."""
    y = frame.y0_mm + frame.size_mm * (np.arange(frame.shape[0]) + 0.5)[:, None]
    z = frame.z0_mm + frame.size_mm * (np.arange(frame.shape[1]) + 0.5)[None, :]
    level = (z > radiator[1]) & (z < radiator[3])
    where = {
        "left": level & (y < radiator[0]),
        "right": level & (y > radiator[2]),
        "bottom": (z < radiator[1]) & (y == y),
        "top": (z > radiator[3]) & (y == y),
    }
    closed = np.zeros(frame.shape, dtype=bool)
    for edge, seal in _seals(project).items():
        if seal is Seal.SEALED:
            closed |= where[edge]
    return closed


def _gaps_mm2(project: Project, frame: Picture, stack: tuple[Core, ...], stream: np.ndarray) -> tuple[float, float]:
    """Return the seals' gaps in the openings' air and beside it: each edge's share of the pack's outline times its gap.

    An edge lies in that air as far as the pixels do that it bounds within the pack.
    """
    boxes = [overall_rectangle(core) for core in stack]
    y0, z0 = (min(b[k] for b in boxes) for k in (0, 1))
    y1, z1 = (max(b[k] for b in boxes) for k in (2, 3))
    covered = np.pad(frame.images(boxes), 1).astype(int)
    outline_mm = frame.size_mm * sum(int(np.abs(np.diff(covered, axis=k)).sum()) for k in (0, 1))
    sides = {"left": z1 - z0, "right": z1 - z0, "bottom": y1 - y0, "top": y1 - y0}
    room = dict.fromkeys(sides, OPEN_GAP_MM)
    if project.nose.support_window is not None:
        w = _window(project)
        room = {"left": y0 - w[0], "right": w[2] - y1, "bottom": z0 - w[1], "top": w[3] - z1}
    iy, iy_end = (round((y - frame.y0_mm) / frame.size_mm) for y in (y0, y1))
    iz, iz_end = (round((z - frame.z0_mm) / frame.size_mm) for z in (z0, z1))
    lit = {
        "left": stream[iy, iz:iz_end].mean(),
        "right": stream[iy_end - 1, iz:iz_end].mean(),
        "bottom": stream[iy:iy_end, iz].mean(),
        "top": stream[iy:iy_end, iz_end - 1].mean(),
    }
    found = np.zeros(2)
    for edge, seal in _seals(project).items():
        gap = GAP_MM[seal] if seal in GAP_MM else min(max(room[edge], 0.0), OPEN_GAP_MM)
        found += gap * sides[edge] / sum(sides.values()) * outline_mm * np.array([lit[edge], 1.0 - lit[edge]])
    return float(found[0]), float(found[1])


def _grouped(rows: np.ndarray, stack: tuple[Core, ...], radiator: int, chambers: _Chambers, size_mm: float) -> PackMap:
    area = rows[:, -1] * (size_mm * 1e-3) ** 2
    whole = rows[:, :-1].astype(int)
    closed, hit = whole[:, 4] == 1, whole[:, 5:].astype(bool)
    is_open = np.flatnonzero(~closed)
    alike, number = np.unique(whole[is_open][:, [2, 3, *range(5, whole.shape[1])]], axis=0, return_inverse=True)
    zone = np.full(len(rows), -1)
    zone[is_open] = number.reshape(-1)
    return PackMap(
        cores=stack,
        radiator=radiator,
        iy=whole[:, 0],
        iz=whole[:, 1],
        area_m2=area,
        hit=hit,
        closed=closed,
        zone=zone,
        zone_hit=alike[:, 2:].astype(bool),
        zone_upstream=alike[:, 0],
        zone_downstream=alike[:, 1],
        zone_area_m2=np.bincount(number.reshape(-1), weights=area[is_open], minlength=len(alike)),
        chambers=chambers.count,
        fans=chambers.fans,
        flaps=chambers.flaps,
        passages=chambers.passages,
    )


def tube_order(core: Core, iy: np.ndarray, iz: np.ndarray) -> list[tuple[np.ndarray, np.ndarray, int, int]]:
    """Return for each pass: which pixels it crosses, their cell in the order of the fluid, its tubes and the steps along one.

    Tubes are rows of pixels; without a stated inlet the fluid enters at the vehicle's left or at the bottom, low side first.
    """
    across_y = (core.tubes is TubeDirection.CROSS_FLOW) == (core.placement.quarter_turns % 2 == 0)
    along, aside = (iy - iy.min(), iz - iz.min()) if across_y else (iz - iz.min(), iy - iy.min())
    steps, tubes = int(along.max()) + 1, int(aside.max()) + 1
    inlet = next((p for p in core.ports if p.purpose is PortPurpose.INLET), None)
    from_high, high_side_first = False, False
    if inlet is not None:
        y, z = turned(core, inlet.u_mm, inlet.v_mm)
        end, side = (y, z) if across_y else (z, y)
        from_high, high_side_first = end > 0.0, side > 0.0
    if high_side_first:
        aside = tubes - 1 - aside
    if tubes % core.passes:
        raise ValueError("a border between passes lies off the grid")
    each = tubes // core.passes
    found = []
    for number in range(core.passes):
        mine = np.flatnonzero(aside // each == number)
        step = steps - 1 - along[mine] if from_high else along[mine]
        found.append((mine, (aside[mine] - number * each) * steps + step, each, steps))
        from_high = not from_high
    return found
