"""The air's way through the pack as roots of its balances: one for every place where streams meet.

Each way from place to place obeys a·m + b·m|m| = p(from) - p(to) + head. The balances are handed to a general root finder;
where it fails, and as a check on it, they are solved as roots within roots, one scalar at a time.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from fluids.filters import square_edge_grill
from scipy.optimize import brentq, root

from tests.independent import properties as prop
from tests.independent.pixels import P1, P1B, Around, PackMap

LATERAL, PASSAGE, LEAK, SHUT = 1.5, 1.5, 2.6, 0.02
LEAST_A = 1e-4
_SETTLED_KG_S = 1e-10
_WIDEST_PA = 2e4


@dataclass(frozen=True)
class Day:
    """What surrounds the pack in one problem."""

    ambient_degc: float
    pressure_pa: float
    speed_m_s: float
    recovery: float
    exit_factor: float
    bay_loss: float
    fan_turns: tuple[float, ...]
    bay_heat_w: float


@dataclass(frozen=True)
class Ways:
    """All ways: where each begins and ends (-1 is outside), and its numbers; `b_back` counts where it runs backwards."""

    tail: np.ndarray
    tip: np.ndarray
    a: np.ndarray
    b: np.ndarray
    b_back: np.ndarray
    head: np.ndarray
    nodes: int

    def flow(self, pressure: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Return the mass flows at these pressures and how they rise with their own drop."""
        outside = np.append(pressure, 0.0)
        drop = outside[self.tail] - outside[self.tip] + self.head
        b = np.where(drop < 0.0, self.b_back, self.b)
        slope = np.sqrt(self.a**2 + 4.0 * b * np.abs(drop))
        return 2.0 * drop / (self.a + slope), 1.0 / slope

    def balance(self, mass: np.ndarray) -> np.ndarray:
        """Return what leaves every node, less what enters it."""
        leaving = np.bincount(self.tail[self.tail >= 0], weights=mass[self.tail >= 0], minlength=self.nodes)
        entering = np.bincount(self.tip[self.tip >= 0], weights=mass[self.tip >= 0], minlength=self.nodes)
        return leaving - entering


@dataclass(frozen=True)
class FanTerms:
    """c0 - c1·Q - c2·Q² at full speed and 1.2 kg/m³."""

    c0: float
    c1: float
    c2: float


def fan_terms(fan) -> FanTerms:
    """Return the terms of a fan whose points lie on such a curve; others are refused."""
    flow, pressure = np.array([(p.flow_m3_s, p.pressure_pa) for p in fan.curve]).T
    c2, c1, c0 = np.polyfit(flow, pressure, 2)
    if np.abs(np.polyval([c2, c1, c0], flow) - pressure).max() > 1e-6:
        raise ValueError("the points of the fan lie on no parabola")
    return FanTerms(float(c0), float(-c1), float(-c2))


@dataclass(frozen=True)
class Losses:
    """Per core a, b (dirt counted), the narrowest open share and how much larger the true face is than its picture."""

    a: np.ndarray
    b: np.ndarray
    open_share: np.ndarray
    slant: np.ndarray


def grille_loss(free_share: float) -> float:
    return max(square_edge_grill(free_share), 0.05)


def ways(
    pack: PackMap,
    sizes: Around,
    opening_loss: np.ndarray,
    losses: Losses,
    fans: list[FanTerms],
    day: Day,
    node_degc: np.ndarray,
    zone_in_degc: np.ndarray,
    zone_out_degc: np.ndarray,
) -> Ways:
    """Return the ways at these temperatures; order: openings, lateral, zones, fans, flaps, passages, leaks, exit."""
    rows: list[tuple[int, int, float, float, float, float]] = []
    day_density = prop.air_density(day.ambient_degc, day.pressure_pa)
    density = prop.air_density(node_degc, day.pressure_pa)
    ram = 0.5 * day_density * day.speed_m_s**2
    for area, zeta in zip(sizes.opening_m2, opening_loss, strict=True):
        b = zeta / (2.0 * day_density * area**2)
        rows.append((-1, P1, 0.0, b, b, day.recovery * ram))
    b = LATERAL / (2.0 * density[P1] * sizes.lateral_m2**2) if sizes.lateral_m2 > 0.0 else math.inf
    rows.append((P1, P1B, 0.0, b, b, 0.0))
    rows += _zone_rows(pack, losses, day, zone_in_degc, zone_out_degc)
    for place, terms, turns in zip(pack.fans, fans, day.fan_turns, strict=True):
        rho = density[place.tail]
        b = terms.c2 / (1.2 * rho)
        rows.append((place.tail, place.tip, terms.c1 * turns / 1.2, b, b, rho / 1.2 * terms.c0 * turns**2))
    for chamber, area in pack.flaps:
        b = LEAK / (2.0 * density[chamber] * area**2)
        rows.append((chamber, pack.bay, 0.0, b, b / SHUT**2, 0.0))
    for beside, before, area in pack.passages:
        b = PASSAGE / (2.0 * density[beside] * area**2) if area > 0.0 else math.inf
        rows.append((beside, before, 0.0, b, b, 0.0))
    for plenum, area in ((P1, sizes.jet_leak_m2), (P1B, sizes.leak_m2)):
        b = LEAK / (density[plenum] + density[pack.bay]) / area**2 if area > 0.0 else math.inf
        rows.append((plenum, pack.bay, 0.0, b, b, 0.0))
    b = day.bay_loss / (2.0 * density[pack.bay] * sizes.exit_m2**2)
    rows.append((pack.bay, -1, 0.0, b, b, -day.exit_factor * ram))
    tail, tip, a, forward, back, head = (np.array(column) for column in zip(*rows, strict=True))
    return Ways(tail.astype(int), tip.astype(int), np.maximum(a, LEAST_A), forward, back, head, pack.bay + 1)


def _zone_rows(pack, losses, day, zone_in_degc, zone_out_degc):
    found = []
    for zone, area in enumerate(pack.zone_area_m2):
        a = b = 0.0
        for core in np.flatnonzero(pack.zone_hit[zone]):
            first = prop.air_density(zone_in_degc[zone, core], day.pressure_pa)
            last = prop.air_density(zone_out_degc[zone, core], day.pressure_pa)
            # Friction at the mean specific volume; then what it takes to speed the heated air up in the narrowest passage.
            volume = 0.5 * (1.0 / first + 1.0 / last)
            face = area * losses.slant[core]
            a += losses.a[core] * volume / face
            friction = losses.b[core] / prop.REFERENCE_DENSITY * volume
            speeding = (1.0 / last - 1.0 / first) / losses.open_share[core] ** 2
            b += max(friction + speeding, 0.1 * friction) / face**2
        found.append((int(pack.zone_upstream[zone]), int(pack.zone_downstream[zone]), a, b, b, 0.0))
    return found


def passing(net: Ways) -> Ways:
    """Return only the ways that carry air."""
    open_ways = np.isfinite(net.b)
    columns = (net.tail, net.tip, net.a, net.b, net.b_back, net.head)
    return Ways(*(column[open_ways] for column in columns), net.nodes)


def live_nodes(net: Ways) -> np.ndarray:
    """Return the nodes that some way touches."""
    ends = np.concatenate([net.tail, net.tip])
    return np.unique(ends[ends >= 0])


def solve(net: Ways, start_pa: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return pressures and mass flows that balance every node."""
    whole, net = net, passing(net)
    live = live_nodes(net)
    incidence = np.zeros((net.tail.size, net.nodes + 1))
    incidence[np.arange(net.tail.size), net.tail] += 1.0
    incidence[np.arange(net.tail.size), net.tip] -= 1.0
    incidence = incidence[:, live]

    def spread(values):
        pressure = np.zeros(net.nodes)
        pressure[live] = values
        return pressure

    def off(values):
        mass, slope = net.flow(spread(values))
        return incidence.T @ mass, (incidence.T * slope) @ incidence

    pressure = np.zeros(net.nodes)
    if live.size:
        found = root(off, start_pa[live], jac=True, method="hybr", options={"xtol": 1e-13, "maxfev": 400})
        most = np.abs(net.flow(spread(found.x))[0]).max()
        settled = np.abs(off(found.x)[0]).max() < _SETTLED_KG_S * (1.0 + most)
        pressure = spread(found.x) if settled else nested(net, live)
    mass = np.zeros(whole.tail.size)
    mass[np.isfinite(whole.b)] = net.flow(pressure)[0]
    return pressure, mass


def nested(net: Ways, live: np.ndarray) -> np.ndarray:
    """Return the pressures as roots within roots: the flow out of a node rises with its pressure, whatever hangs on it.

    Innermost are the chambers, those that a passage joins within one another.
    """
    pressure = [0.0] * net.nodes + [0.0]
    rows = list(
        zip(
            net.tail.tolist(),
            net.tip.tolist(),
            *(c.tolist() for c in (net.a, net.b, net.b_back, net.head)),
            strict=True,
        )
    )
    touching = {int(n): [row for row in rows if n in row[:2]] for n in live}
    groups: list[list[int]] = []
    for node in (int(n) for n in live if 1 < n < net.nodes - 1):
        joined = {end for row in touching[node] for end in row[:2]}
        mine = [group for group in groups if joined & set(group)]
        groups = [group for group in groups if group not in mine] + [[*(n for group in mine for n in group), node]]
    outer = [int(n) for n in live if n <= 1 or n == net.nodes - 1]

    def out_of(node: int) -> float:
        total = 0.0
        for tail, tip, a, b, b_back, head in touching[node]:
            drop = pressure[tail] - pressure[tip] + head
            flow = 2.0 * drop / (a + math.sqrt(a * a + 4.0 * (b if drop >= 0.0 else b_back) * abs(drop)))
            total += flow if tail == node else -flow
        return total

    def settle(order: list[int], depth: int, inner) -> None:
        if not order:
            inner()
            return
        node, rest = order[0], order[1:]

        def at(value: float) -> float:
            pressure[node] = value
            settle(rest, depth + 1, inner)
            return out_of(node)

        # What a fan adds lifts a node above those around it, so each root within another has more room.
        widest = _WIDEST_PA * (1 + depth)
        at(brentq(at, -widest, widest, xtol=1e-11, rtol=1e-14))

    def chambers() -> None:
        for group in groups:
            settle(group, len(outer), lambda: None)

    settle(outer, 0, chambers)
    return np.array(pressure[:-1])
