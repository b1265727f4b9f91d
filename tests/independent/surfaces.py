"""Fins, tubes and their films anew, from the printed relations; one core's figures per square metre of its face.

Sources: louvred fins, Chang & Wang 1997 (j) and Chang et al. 2000 with the blend of 2006 (f); offset strips, Manglik & Bergles
1995; flat tubes, Shah & London 1978 (laminar) and Gnielinski 2013 with Colebrook's friction; ends, Kays & London with the
losses of `fluids`. All but `fluids` and `ht` from memory.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from fluids import contraction_sharp, diffuser_sharp
from fluids.friction import Colebrook
from ht import Nu_laminar_rectangular_Shan_London, turbulent_Gnielinski

from grillestack.model.core_description import Construction, CoreMetal, InnerFin
from tests.independent import properties as prop

FIN_W_PER_M_K = {CoreMetal.ALUMINIUM: 200.0, CoreMetal.COPPER_BRASS: 380.0}
TUBE_W_PER_M_K = {CoreMetal.ALUMINIUM: 180.0, CoreMetal.COPPER_BRASS: 120.0}
COOLANT_DEPOSIT = 0.5e-4
REFRIGERANT_FILM = 3500.0
WEBS = 1.42


def fin_share(length_m: float, film, conductance: float, edge: float):
    """Return tanh(mL)/(mL)."""
    ml = length_m * np.sqrt(2.0 * film / conductance * (1.0 + edge))
    return np.tanh(ml) / ml


@dataclass(frozen=True)
class Fins:
    """The air side; lengths in m, areas per square metre of face."""

    pitch: float
    thickness: float
    height: float
    depth: float
    louvre: float
    cut: float
    angle: float
    tube_pitch: float
    tube: float
    rows: int
    tube_depth: float
    metal: CoreMetal

    @property
    def open_share(self) -> float:
        return (1.0 - self.thickness / self.pitch) * self.height / self.tube_pitch

    @property
    def fin_area(self) -> float:
        return 2.0 * self.height * self.depth / (self.tube_pitch * self.pitch)

    @property
    def area(self) -> float:
        per_face = 1.0 / (self.tube_pitch * self.pitch)
        bare = 2.0 * per_face * (self.pitch - self.thickness) * self.rows * self.tube_depth
        return self.fin_area + bare + 2.0 * self.rows * self.tube / self.tube_pitch

    def j(self, re):
        lp = self.louvre
        shape = (
            (self.angle / 90) ** 0.27
            * (self.pitch / lp) ** -0.14
            * (self.height / lp) ** -0.29
            * (self.depth / lp) ** -0.23
            * (self.cut / lp) ** 0.68
            * (self.tube_pitch / lp) ** -0.28
            * (self.thickness / lp) ** -0.05
        )
        return shape * np.minimum(re, 3000.0) ** -0.49

    def film(self, flux, degc):
        """Return the film for a mass flux per square metre of face; creeping flow counts as Re 50."""
        viscosity = prop.air_viscosity(degc)
        re = np.maximum(flux / self.open_share * self.louvre / viscosity, 50.0)
        return self.j(re) * re * viscosity / self.louvre * prop.AIR_CP * prop.PRANDTL ** (-2 / 3)

    def resistance(self, flux, degc):
        """Return the resistance from tube wall to air per square metre of face."""
        film = self.film(flux, degc)
        works = fin_share(
            0.5 * self.height - self.thickness,
            film,
            FIN_W_PER_M_K[self.metal] * self.thickness,
            self.thickness / self.depth,
        )
        return 1.0 / (film * (self.area - self.fin_area * (1.0 - works)))

    def friction(self, re: float) -> float:
        """Return Fanning's f for 50 < Re < 5000."""
        if re < 130.0:
            return self._low(re)
        if re > 230.0:
            return self._high(re)
        w = 3.6 - 0.02 * re
        return math.sqrt(0.5 * ((1 + w) * self._low(130.0) ** 2 + (1 - w) * self._high(230.0) ** 2))

    def _low(self, re: float) -> float:
        dh = 4.0 * self.open_share * self.depth / self.area
        f1 = 14.39 * re ** (-0.805 * self.pitch / self.height) * math.log(1 + self.pitch / self.louvre) ** 3.04
        f2 = math.log((self.thickness / self.pitch) ** 0.48 + 0.9) ** -1.435
        f2 *= (dh / self.louvre) ** -3.01 * math.log(0.5 * re) ** -3.01
        f3 = (self.pitch / self.cut) ** -0.308 * (self.depth / self.cut) ** -0.308
        return f1 * f2 * f3 * math.exp(-0.1167 * self.tube_pitch / self.tube) * self.angle**0.35

    def _high(self, re: float) -> float:
        dh = 4.0 * self.open_share * self.depth / self.area
        f1 = 4.97 * re ** (0.6049 - 1.064 / self.angle**0.2)
        f1 *= math.log((self.thickness / self.pitch) ** 0.5 + 0.9) ** -0.527
        f2 = (dh / self.louvre * math.log(0.3 * re)) ** -2.966
        f2 *= (self.pitch / self.cut) ** (-0.7931 * self.tube_pitch / (self.tube_pitch - self.tube))
        f3 = (self.tube_pitch / self.tube) ** -0.0446 * math.log(1.2 + (self.louvre / self.pitch) ** 1.4) ** -3.553
        return f1 * f2 * f3 * self.angle**-0.477

    def loss(self, velocity: float) -> float:
        """Return what unheated air at 45 °C and 101.3 kPa loses."""
        sigma = self.open_share
        flux = prop.REFERENCE_DENSITY * velocity / sigma
        f = self.friction(flux * self.louvre / float(prop.air_viscosity(45.0)))
        into = contraction_sharp(1.0, math.sqrt(sigma)) + 1.0 - sigma**2
        back = 1.0 - sigma**2 - diffuser_sharp(math.sqrt(sigma), 1.0)
        return flux**2 / (2.0 * prop.REFERENCE_DENSITY) * (into - back + f * self.area / sigma)

    def loss_terms(self) -> tuple[float, float]:
        """Return a and b of a·v + b·v², least squares of the relative error from 2 to 10 m/s."""
        v = np.linspace(2.0, 10.0, 81)
        measured = np.array([self.loss(one) for one in v])
        a, b = np.linalg.lstsq(np.column_stack([v / measured, v * v / measured]), np.ones(81), rcond=None)[0]
        if min(a, b) <= 0.0:
            raise ValueError("these fins need one term only: choose others")
        return float(a), float(b)


@dataclass(frozen=True)
class Tubes:
    """The inside of the tubes; lengths in m."""

    pitch: float
    thickness: float
    depth: float
    rows: int
    wall: float
    metal: CoreMetal
    dimpled: bool
    factor: float
    inner: InnerFin | None

    @property
    def per_m(self) -> float:
        return self.rows / self.pitch

    @property
    def _bore(self) -> tuple[float, float]:
        return tuple(sorted((self.thickness - 2 * self.wall, self.depth - 2 * self.wall)))

    @property
    def _channels(self) -> float:
        return (self.depth - 2 * self.wall) * 1e3 / (self.inner.spacing_mm + self.inner.thickness_mm)

    @property
    def _channel(self) -> tuple[float, float]:
        """Return clear area and wetted perimeter of one channel of the inner fin."""
        s, h, t, strip = (
            1e-3 * x
            for x in (
                self.inner.spacing_mm,
                self.inner.height_mm,
                self.inner.thickness_mm,
                self.inner.strip_length_mm,
            )
        )
        return s * h, (2 * (s * strip + h * strip + t * h) + t * s) / strip

    @property
    def area(self) -> float:
        """Return the clear cross-section of one tube."""
        short, wide = self._bore
        if self.inner is not None:
            return self._channels * self._channel[0]
        return short * (wide - short) + math.pi * short**2 / 4

    @property
    def perimeter(self) -> float:
        short, wide = self._bore
        if self.inner is not None:
            return self._channels * self._channel[1]
        return 2 * (wide - short) + math.pi * short

    @property
    def inside(self) -> float:
        """Return the wetted area per square metre of face."""
        return self.per_m * self.perimeter

    @property
    def wall_resistance(self) -> float:
        short, wide = self._bore
        middle = 2 * (wide - short) + math.pi * (min(self.thickness, self.depth) - self.wall)
        return self.wall / (TUBE_W_PER_M_K[self.metal] * self.per_m * middle)

    def nusselt(self, re: float, pr: float) -> float:
        short, wide = self._bore
        laminar = Nu_laminar_rectangular_Shan_London(short / wide)
        pr = min(max(pr, 0.5), 2000.0)
        if self.dimpled:
            return max(laminar, _turbulent(min(max(re, 1000.0), 1e6), pr))
        share = min(max((re - 2300.0) / 1700.0, 0.0), 1.0)
        return (1 - share) * laminar + share * _turbulent(min(max(re, 4000.0), 1e6), pr)

    def coolant_film(self, per_tube_kg_s: float, degc: float, coolant: prop.Glycol) -> float:
        dh = 4 * self.area / self.perimeter
        mu, k = float(coolant.viscosity(degc)), float(coolant.conductivity(degc))
        re = per_tube_kg_s / self.area * dh / mu
        return self.nusselt(re, mu * float(coolant.cp(degc)) / k) * k / dh * self.factor

    def charge_film(self, per_tube_kg_s: float, degc: float) -> float:
        """Return the film of charge air with the efficiency of its inner fin."""
        dh, mu = 4 * self.area / self.perimeter, float(prop.air_viscosity(degc))
        re = per_tube_kg_s / self.area * dh / mu
        if self.inner is None:
            return self.nusselt(re, prop.PRANDTL) * float(prop.air_conductivity(degc)) / dh * self.factor
        re = max(re, 120.0)
        film = strip_j(self.inner, re) * re * mu / dh * float(prop.charge_cp(degc)) * prop.PRANDTL ** (-2 / 3)
        film *= self.factor
        t, strip = 1e-3 * self.inner.thickness_mm, 1e-3 * self.inner.strip_length_mm
        works = fin_share(0.5e-3 * self.inner.height_mm, film, FIN_W_PER_M_K[self.metal] * t, t / strip)
        fin = 1.0 - 2e-3 * self.inner.spacing_mm / self._channel[1]
        return film * float(1.0 - fin * (1.0 - works))


def _turbulent(re: float, pr: float) -> float:
    return turbulent_Gnielinski(re, pr, Colebrook(re, 0.0)) if re > 1000.0 else 0.0


def strip_j(fin: InnerFin, re: float) -> float:
    """Return Colburn's j of an offset strip fin, Re 120 to 10 000."""
    re = min(re, 1e4)
    alpha, delta = fin.spacing_mm / fin.height_mm, fin.thickness_mm / fin.strip_length_mm
    gamma = fin.thickness_mm / fin.spacing_mm
    calm = 0.6522 * re**-0.5403 * alpha**-0.1541 * delta**0.1499 * gamma**-0.0678
    return calm * (1 + 5.269e-5 * re**1.34 * alpha**0.504 * delta**0.456 * gamma**-1.055) ** 0.1


def fins_of(c: Construction, depth_mm: float) -> Fins:
    """Return the air side; what rows leave of the depth lies between them."""
    return Fins(
        pitch=c.fin_pitch_mm * 1e-3,
        thickness=c.fin_thickness_mm * 1e-3,
        height=c.fin_height_mm * 1e-3,
        depth=(max(depth_mm, c.tube_rows * c.tube_depth_mm) if c.tube_rows > 1 else c.tube_depth_mm) * 1e-3,
        louvre=c.louvre_pitch_mm * 1e-3,
        cut=c.louvre_length_mm * 1e-3,
        angle=c.louvre_angle_deg,
        tube_pitch=c.tube_pitch_mm * 1e-3,
        tube=c.tube_thickness_mm * 1e-3,
        rows=c.tube_rows,
        tube_depth=c.tube_depth_mm * 1e-3,
        metal=c.metal,
    )


def tubes_of(c: Construction) -> Tubes:
    """Return the inside of the tubes."""
    return Tubes(
        pitch=c.tube_pitch_mm * 1e-3,
        thickness=c.tube_thickness_mm * 1e-3,
        depth=c.tube_depth_mm * 1e-3,
        rows=c.tube_rows,
        wall=c.tube_wall_mm * 1e-3,
        metal=c.metal,
        dimpled=c.dimpled_tubes,
        factor=c.tube_enhancement_factor,
        inner=c.inner_fin,
    )
