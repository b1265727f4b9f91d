"""Further coolers for the slow solver: their liquids anew, and how each is marched.

Sources, all from memory: oil after ASTM D341, ASTM D1250 and Cragoe 1929 from density and two viscosities; inlet length after
Edwards, Denny & Mills; between strips half of Manglik & Bergles; deposits as in the product's list.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields

from ht import Nu_laminar_rectangular_Shan_London

from grillestack.model.parts import CoreRole, TubeFluid
from tests.independent import heat
from tests.independent import properties as prop
from tests.independent.solver import Judge, Question, State
from tests.independent.surfaces import FIN_W_PER_M_K, fin_share, strip_j

OIL_DEPOSIT, COOLANT_DEPOSIT = 1.76e-4, 0.5e-4


@dataclass(frozen=True)
class MineralOil:
    """An oil of 855 kg/m³ at 15 °C, 34 mm²/s at 40 °C and 7.2 mm²/s at 100 °C."""

    at_15: float = 855.0
    warm: float = 34.0
    hot: float = 7.2

    def density(self, degc: float) -> float:
        alpha_t = 0.6278 / self.at_15 * (_held(degc) - 15.0)
        return self.at_15 * math.exp(-alpha_t - 0.8 * alpha_t**2)

    def cp(self, degc: float) -> float:
        return (1683.0 + 3.39 * _held(degc)) / math.sqrt(self.at_15 / 999.0)

    def conductivity(self, degc: float) -> float:
        return 0.117 * 999.0 / self.at_15 * (1.0 - 0.00054 * _held(degc))

    def viscosity(self, degc: float) -> float:
        """Return the straight line of the double logarithm through both points, times the density."""
        ends = [math.log10(math.log10(v + 0.7)) for v in (self.warm, self.hot)]
        x = [math.log10(t + prop.KELVIN) for t in (40.0, 100.0)]
        at = math.log10(_held(degc) + prop.KELVIN)
        w = ends[0] + (ends[1] - ends[0]) * (at - x[0]) / (x[1] - x[0])
        return (10 ** (10**w) - 0.7) * 1e-6 * self.density(degc)


def _held(degc: float) -> float:
    return min(max(float(degc), -20.0), 160.0)


@dataclass(frozen=True)
class Marched(heat.Exchanger):
    """A cooler whose inlet is given."""

    @property
    def is_given(self) -> bool:
        return False


class FurtherJudge(Judge):
    """The slow solver with further coolers that are marched."""

    def __init__(self, project, size_mm: float, *, alone: bool = False, inner_rows: int = 4) -> None:
        super().__init__(project, size_mm, alone=alone, inner_rows=inner_rows)
        self.cores = [
            Marched(**{f.name: getattr(one, f.name) for f in fields(one)}) if _is_marched(one) else one
            for one in self.cores
        ]

    def _fluid(self, one: heat.Exchanger, n: int, question: Question, state: State) -> heat.Fluid | None:
        if not isinstance(one, Marched):
            return super()._fluid(one, n, question, state)
        oil = one.core.tube_fluid is TubeFluid.OIL
        liquid = MineralOil() if oil else self.coolant
        flow = one.core.tube_flow_m3_s * float(liquid.density(one.core.tube_inlet_degc))
        mean = state.tube_mean[n]
        film = _film(one, flow / one.tube_count, mean, liquid, oil=oil)
        area = one.tubes.inside
        inside = 1.0 / (1.0 / (film * area) + (OIL_DEPOSIT if oil else COOLANT_DEPOSIT) / area)
        return heat.Fluid(flow * float(liquid.cp(mean)), inside, one.core.tube_inlet_degc)


def _is_marched(one: heat.Exchanger) -> bool:
    return one.core.role is CoreRole.COOLER and one.core.given_heat_w is None


def _film(one: Marched, per_tube: float, degc: float, liquid, *, oil: bool) -> float:
    tubes = one.tubes
    if tubes.inner is None and not oil:
        return tubes.coolant_film(per_tube, degc, liquid)
    dh, mu, k = 4 * tubes.area / tubes.perimeter, float(liquid.viscosity(degc)), float(liquid.conductivity(degc))
    re, pr = per_tube / tubes.area * dh / mu, mu * float(liquid.cp(degc)) / k
    if tubes.inner is None:
        short, wide = tubes._bore
        along_mm = one.core.core_width_mm if one.core.tubes.value == "cross-flow" else one.core.core_height_mm
        graetz = min(max(re, 0.0), 2300.0) * pr * dh / (along_mm * 1e-3)
        inlet = 0.03 * graetz / (1.0 + 0.016 * graetz ** (2 / 3))
        nusselt = max(tubes.nusselt(re, pr), Nu_laminar_rectangular_Shan_London(short / wide) + inlet)
        return nusselt * k / dh * tubes.factor
    fin = tubes.inner
    above = max(re, 120.0)
    restarted = 0.5 * strip_j(fin, above) * above * (re / above) ** (1.0 - 0.5403) * pr ** (1 / 3)
    short, wide = sorted((fin.spacing_mm, fin.height_mm))
    film = max(restarted, Nu_laminar_rectangular_Shan_London(short / wide)) * k / dh * tubes.factor
    t, strip = 1e-3 * fin.thickness_mm, 1e-3 * fin.strip_length_mm
    works = fin_share(0.5e-3 * fin.height_mm, film, FIN_W_PER_M_K[tubes.metal] * t, t / strip)
    share = 1.0 - 2e-3 * fin.spacing_mm / tubes._channel[1]
    return film * float(1.0 - share * (1.0 - works))
