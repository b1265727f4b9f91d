"""A second way to the flows of the air network: roots within roots, one scalar at a time; shares no code with the solver.

The total M fixes the plenum behind the openings and the bay ahead of the exit. Between these two the plenum beside the jet
is the root of one falling function, and inside it each chamber of another. What the openings then let through, less M, falls
with M. Every edge is a·m + b·m|m| = D, a no smaller than `LEAST_LINEAR`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

LEAST_LINEAR = 1e-4
_MOST_KG_S = 100.0


@dataclass(frozen=True)
class Edge:
    """One edge: a, b and the head that helps the flow along; backwards `back` stands in for b."""

    a: float
    b: float
    head: float = 0.0
    is_open: bool = True
    back: float | None = None

    def flow(self, drop: float) -> float:
        if not self.is_open:
            return 0.0
        drive = drop + self.head
        a = max(self.a, LEAST_LINEAR)
        b = self.b if drive >= 0.0 or self.back is None else self.back
        return math.copysign(2.0 * abs(drive) / (a + math.sqrt(a * a + 4.0 * b * abs(drive))), drive)

    def drop(self, flow: float) -> float:
        return max(self.a, LEAST_LINEAR) * flow + self.b * flow * abs(flow) - self.head


@dataclass(frozen=True)
class Zone:
    """A zone from the jet or from beside it into a chamber, or into the bay where the chamber is -1."""

    edge: Edge
    beside_jet: bool
    chamber: int


@dataclass(frozen=True)
class Net:
    """The network of the design: openings, a lateral gap, zones, fans and relief flaps by chamber, one leak, one exit."""

    openings: list[Edge]
    lateral: Edge
    zones: list[Zone]
    fans: list[tuple[Edge, int]]
    leak: Edge
    exit: Edge
    chambers: int
    flaps: tuple[tuple[Edge, int], ...] = ()

    def edges(self) -> list[Edge]:
        """Return the edges in the solver's order."""
        return [
            *self.openings,
            self.lateral,
            *[zone.edge for zone in self.zones],
            *[fan for fan, _ in self.fans],
            *[flap for flap, _ in self.flaps],
            self.leak,
            self.exit,
        ]

    def ends(self) -> list[tuple[int, int]]:
        """Return the nodes each edge leaves and enters, -1 for outside: jet 0, beside it 1, chambers, bay."""
        bay = 2 + self.chambers
        rows = [(-1, 0) for _ in self.openings]
        rows.append((0, 1))
        rows += [(int(zone.beside_jet), bay if zone.chamber < 0 else 2 + zone.chamber) for zone in self.zones]
        rows += [(2 + chamber, bay) for _, chamber in (*self.fans, *self.flaps)]
        return [*rows, (1, bay), (bay, -1)]

    def solved(self) -> tuple[list[float], list[float]]:
        """Return the mass flows in the order of the edges and the node pressures."""
        total = _root(lambda m: self._through(m) - m, -_MOST_KG_S, _MOST_KG_S)
        jet, bay = self._jet(total), self.exit.drop(total)
        beside = self._beside(jet, bay)
        chamber = [self._chamber(k, jet, beside, bay) for k in range(self.chambers)]
        after = [*chamber, bay]
        flows = [edge.flow(-jet) for edge in self.openings]
        flows.append(self.lateral.flow(jet - beside))
        flows += [z.edge.flow((beside if z.beside_jet else jet) - after[z.chamber]) for z in self.zones]
        flows += [edge.flow(chamber[k] - bay) for edge, k in (*self.fans, *self.flaps)]
        return [*flows, self.leak.flow(beside - bay), self.exit.flow(bay)], [jet, beside, *chamber, bay]

    def _jet(self, total: float) -> float:
        if len(self.openings) == 1:
            return -self.openings[0].drop(total)
        alone = [-edge.drop(total) for edge in self.openings]
        none = [edge.head for edge in self.openings]
        low, high = min(alone + none), max(alone + none)
        return _root(lambda p: sum(edge.flow(-p) for edge in self.openings) - total, low, high)

    def _through(self, total: float) -> float:
        """Return what leaves the plenum in the jet when `total` enters it and the same leaves the bay."""
        jet, bay = self._jet(total), self.exit.drop(total)
        beside = self._beside(jet, bay)
        found = self.lateral.flow(jet - beside)
        for k in range(-1, self.chambers):
            mine = [zone.edge for zone in self.zones if zone.chamber == k and not zone.beside_jet]
            after = bay if k < 0 else self._chamber(k, jet, beside, bay) if mine else 0.0
            found += sum(edge.flow(jet - after) for edge in mine)
        return found

    def _beside(self, jet: float, bay: float) -> float:
        out = [zone for zone in self.zones if zone.beside_jet and zone.edge.is_open]
        if not (out or self.leak.is_open):
            return jet

        def entering(p: float) -> float:
            after = {k: bay if k < 0 else self._chamber(k, jet, p, bay) for k in {zone.chamber for zone in out}}
            leaving = sum(zone.edge.flow(p - after[zone.chamber]) for zone in out)
            return self.lateral.flow(jet - p) - leaving - self.leak.flow(p - bay)

        return _root(entering, *self._between(jet, bay))

    def _chamber(self, k: int, jet: float, beside: float, bay: float) -> float:
        mine = [zone for zone in self.zones if zone.chamber == k]
        out = [edge for edge, chamber in (*self.fans, *self.flaps) if chamber == k]

        def entering(p: float) -> float:
            into = sum(zone.edge.flow((beside if zone.beside_jet else jet) - p) for zone in mine)
            return into - sum(edge.flow(p - bay) for edge in out)

        return _root(entering, *self._between(jet, beside, bay))

    def _between(self, *around: float) -> tuple[float, float]:
        """Return pressures that no inner node leaves: those around it, and what the heads could add."""
        heads = 1.0 + sum(abs(edge.head) for edge in self.edges())
        return min(around) - heads, max(around) + heads


def _root(falling, low: float, high: float) -> float:
    return float(brentq(falling, low, high, xtol=1e-13, rtol=8.9e-16, maxiter=400))


def random_net(rng: np.random.Generator) -> Net:
    """Return a network of the design's shape with numbers as vehicles have them, some edges closed, some next to closed."""

    def area(low: float, high: float) -> float:
        return float(np.exp(rng.uniform(np.log(low), np.log(high))))

    density = float(rng.uniform(0.75, 1.2))
    dynamic = 0.5 * density * (0.0 if rng.random() < 0.3 else float(rng.uniform(0.0, 45.0))) ** 2

    def loss(zeta: float, square_metres: float) -> float:
        return zeta / (2.0 * density * square_metres**2)

    ram = float(rng.uniform(0.7, 1.0)) * dynamic
    openings = [Edge(0.0, loss(rng.uniform(0.05, 8.0), area(0.01, 0.4)), ram) for _ in range(rng.integers(1, 3))]
    chambers = int(rng.integers(0, 3))
    zones = []
    for _ in range(rng.integers(2, 9)):
        square_metres = area(0.002, 0.3)
        a, b = (
            rng.uniform(8.0, 70.0) / (density * square_metres),
            rng.uniform(1.5, 14.0) / (density * square_metres) ** 2,
        )
        zones.append(
            Zone(
                Edge(a, b / 1.1, is_open=bool(rng.random() < 0.9)),
                bool(rng.random() < 0.3),
                int(rng.integers(-1, chambers)),
            )
        )
    fans = []
    for k in range(chambers):
        for _ in range(rng.integers(1, 3)):
            speed = 0.0 if rng.random() < 0.25 else float(rng.uniform(0.3, 1.2))
            c0, free = rng.uniform(150.0, 300.0), rng.uniform(0.3, 1.5)
            c2 = rng.uniform(0.1, 1.0) * c0 / free**2
            c1 = (c0 - c2 * free**2) / free
            fans.append((Edge(c1 * speed / 1.2, c2 / (1.2 * density), density / 1.2 * c0 * speed**2), k))
    beside = any(zone.beside_jet and zone.edge.is_open for zone in zones)
    return Net(
        openings=openings,
        lateral=Edge(0.0, loss(1.5, area(1e-4, 0.1)), is_open=bool(rng.random() < 0.8)),
        zones=zones,
        fans=fans,
        leak=Edge(0.0, loss(2.6, area(1e-5, 0.05)), is_open=beside or bool(rng.random() < 0.8)),
        exit=Edge(0.0, loss(rng.uniform(1.0, 5.0), area(0.05, 0.5)), float(rng.uniform(-0.1, 0.3)) * dynamic),
        chambers=chambers,
    )
