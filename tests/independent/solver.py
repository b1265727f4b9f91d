"""The pack's answers the slow way: air and heat in turn until nothing moves, and one root finder around it for each question."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
from fluids import ATMOSPHERE_1976
from scipy.optimize import brentq

from grillestack.model.engine import DutyCase
from grillestack.model.parts import CoreRole, FanDrive
from grillestack.model.project import Project
from tests.independent import air, heat
from tests.independent import properties as prop
from tests.independent.picture import cosine
from tests.independent.pixels import P1, P1B, Around, PackMap, around, pack_map

COLDEST_DEGC, HOTTEST_DEGC = -60.0, 400.0
SETTLED_K = 1e-6
DIRT = 1.1
_ROUNDS = 800


class NeverSettlesError(RuntimeError):
    """Air and heat did not come to rest."""


@dataclass(frozen=True)
class Question:
    """One problem: the day, the top tank's temperature and what the engine sends."""

    day: air.Day
    top_tank_degc: float
    coolant_kg_s: float
    charge_kg_s: float
    charge_inlet_degc: float
    condenser_w: float


@dataclass
class State:
    """Temperatures and pressures of one problem; rewritten round by round."""

    node: np.ndarray
    zone_in: np.ndarray
    zone_out: np.ndarray
    tube_mean: np.ndarray
    tube_out: np.ndarray
    reversed_in: np.ndarray
    pressure: np.ndarray
    exits: np.ndarray
    mass: np.ndarray = field(default_factory=lambda: np.zeros(0))
    heat_w: float = 0.0
    wall: dict[int, float] = field(default_factory=dict)
    rounds: int = 0


@dataclass(frozen=True)
class Answers:
    """What one duty case comes to; `None` where there is no answer."""

    heat_w: float
    alone_w: float
    top_tank_degc: float | None
    limiting_degc: float | None
    air_kg_s: float
    charge_out_degc: float | None
    condensing_degc: float | None
    bay_degc: float
    opening_kg_s: float
    recirculated_frac: float | None
    bypassed_frac: float | None
    rounds: int


class Judge:
    """One pack, whole or its radiator alone, ready to be asked."""

    def __init__(self, project: Project, size_mm: float, *, alone: bool = False, inner_rows: int = 4) -> None:
        self.project = project
        self.pack: PackMap = pack_map(project, size_mm, alone=alone)
        self.sizes: Around = around(project, size_mm)
        slant = [1.0 / cosine(core) for core in self.pack.cores]
        self.cores = [heat.exchanger(self.pack, n, s, inner_rows) for n, s in enumerate(slant)]
        dirt = DIRT if project.environment.dirty_core else 1.0
        terms = np.array([one.fins.loss_terms() for one in self.cores]) * dirt
        self.losses = air.Losses(
            terms[:, 0], terms[:, 1], np.array([one.fins.open_share for one in self.cores]), np.array(slant)
        )
        self.fans = [air.fan_terms(place.fan) for place in self.pack.fans]
        self.opening_loss = np.array([air.grille_loss(o.free_area_frac) for o in project.nose.openings])
        self.coolant = prop.glycol(project.engine.glycol_frac)
        is_open = self.pack.zone >= 0
        self.piece_share = np.where(is_open, self.pack.area_m2 / self._zone_area()[self.pack.zone], 0.0)

    def _zone_area(self) -> np.ndarray:
        return self.pack.zone_area_m2 if self.pack.zone_area_m2.size else np.ones(1)

    def cold(self, question: Question) -> State:
        """Return a start: everything as warm as the day, coolant at the top tank's temperature."""
        zones, cores, nodes = len(self.pack.zone_area_m2), len(self.cores), self.pack.bay + 1
        day = question.day.ambient_degc
        mean = np.full(cores, day)
        for n, one in enumerate(self.cores):
            if one.core.role is CoreRole.RADIATOR:
                mean[n] = question.top_tank_degc
            elif not one.is_given:
                mean[n] = 0.5 * (day + question.charge_inlet_degc)
        return State(
            node=np.full(nodes, day),
            zone_in=np.full((zones, cores), day),
            zone_out=np.full((zones, cores), day),
            tube_mean=mean,
            tube_out=mean.copy(),
            reversed_in=np.full((cores, len(self.pack.area_m2)), day),
            pressure=np.zeros(nodes),
            exits=np.full(zones, day),
        )

    def settle(self, question: Question, state: State) -> State:
        """Return the state at which one more round moves nothing by more than a millionth of a kelvin."""
        share, last = 1.0, np.inf
        for number in range(_ROUNDS):
            moved = self._round(question, state, share)
            state.rounds += 1
            if moved < SETTLED_K and number > 0:
                return state
            # Where rounds overshoot, only part of each step is taken from there on.
            if number > 5 and moved > last:
                share = max(0.7 * share, 0.1)
            last = moved
        raise NeverSettlesError(f"{moved:.2g} K after {_ROUNDS} rounds")

    def _round(self, question: Question, state: State, share: float) -> float:
        pack, day = self.pack, question.day
        net = air.ways(
            pack, self.sizes, self.opening_loss, self.losses, self.fans, day, state.node, state.zone_in, state.zone_out
        )
        state.pressure, state.mass = air.solve(net, state.pressure)
        before = (state.node.copy(), state.tube_mean.copy(), state.zone_in.copy(), state.zone_out.copy())
        self._mix_plenums(net, state, day)
        state.exits = self._sweep(question, state, self._zone_mass(state.mass))
        self._mix_rear(net, state, day)
        for name, old in zip(("node", "tube_mean", "zone_in", "zone_out"), before, strict=True):
            setattr(state, name, old + share * (getattr(state, name) - old))
        return self._moved(state, before, self._zone_mass(state.mass)) / share

    def _moved(self, state: State, before, zone_mass: np.ndarray) -> float:
        through = np.abs(zone_mass) / max(np.abs(zone_mass).sum(), 1e-12)
        zones = sum(
            float((np.abs(new - old) * through[:, None]).max(initial=0.0))
            for new, old in ((state.zone_in, before[2]), (state.zone_out, before[3]))
        )
        return max(float(np.abs(state.node - before[0]).max()), float(np.abs(state.tube_mean - before[1]).max()), zones)

    def _zone_mass(self, mass: np.ndarray) -> np.ndarray:
        first = self.sizes.opening_m2.size + 1
        return mass[first : first + len(self.pack.zone_area_m2)]

    def _sweep(self, question: Question, state: State, zone_mass: np.ndarray) -> np.ndarray:
        """Carry the air through the cores; return what leaves every zone."""
        pack = self.pack
        zone, is_open = pack.zone, pack.zone >= 0
        piece_mass = np.where(is_open, zone_mass[zone] if zone_mass.size else 0.0, 0.0) * self.piece_share
        back = piece_mass < 0.0
        capacity = np.abs(piece_mass) * prop.AIR_CP
        now = np.where(
            is_open, state.node[pack.zone_upstream[zone]] if zone_mass.size else 0.0, question.day.ambient_degc
        )
        leaving = []
        for n, one in enumerate(self.cores):
            entering = np.where(back, state.reversed_in[n], now)
            places = one.places
            fluid = self._fluid(one, n, question, state)
            inside = heat.refrigerant_inside(one) if fluid is None else fluid.inside
            flux = np.abs(zone_mass) / (self._zone_area()[: zone_mass.size] * one.slant)
            per_zone = heat.conductance(one, flux, 0.5 * (state.zone_in[:, n] + state.zone_out[:, n]), inside)
            area = pack.area_m2[places] * one.slant
            own = capacity[places]
            whole = np.where(is_open[places], per_zone[zone[places]] if zone_mass.size else 0.0, 0.0) * area
            units = np.divide(whole, own, out=np.full(own.shape, 1e3), where=own > 1e-12)
            out = entering.copy()
            if fluid is None:
                given = question.condenser_w if one.core.role is CoreRole.CONDENSER else one.core.given_heat_w
                out[places], wall = heat.given_heat(own, units, entering[places], given)
                if wall is not None:
                    state.wall[n] = wall
            else:
                out[places], state.tube_out[n] = heat.march(one, own, units, entering[places], fluid)
                state.tube_mean[n] = 0.5 * (fluid.inlet_degc + state.tube_out[n])
                if n == pack.radiator:
                    state.heat_w = fluid.capacity * (fluid.inlet_degc - state.tube_out[n])
            # Where a zone's air is beyond all sense, density and film are those of the bound.
            for field_of, values in ((state.zone_in, entering), (state.zone_out, out)):
                field_of[:, n] = np.clip(self._zone_mean(values), COLDEST_DEGC, HOTTEST_DEGC)
            leaving.append(out)
            now = np.where(back, now, out)
        rear = np.where(is_open, state.node[pack.zone_downstream[zone]] if zone_mass.size else 0.0, 0.0)
        for n in range(len(self.cores) - 1, -1, -1):
            state.reversed_in[n] = rear
            rear = leaving[n]
        return np.where(zone_mass < 0.0, self._zone_mean(rear), self._zone_mean(now))

    def _fluid(self, one: heat.Exchanger, n: int, question: Question, state: State) -> heat.Fluid | None:
        if one.is_given:
            return None
        if one.core.role is CoreRole.RADIATOR:
            return heat.coolant_in(one, question.coolant_kg_s, question.top_tank_degc, state.tube_mean[n], self.coolant)
        return heat.charge_in(one, question.charge_kg_s, question.charge_inlet_degc, state.tube_mean[n])

    def _zone_mean(self, values: np.ndarray) -> np.ndarray:
        is_open = self.pack.zone >= 0
        return np.bincount(
            self.pack.zone[is_open],
            weights=(values * self.piece_share)[is_open],
            minlength=len(self.pack.zone_area_m2),
        )

    def shares(self, state: State) -> tuple[float, float, float, float]:
        """Return what enters by the openings, what comes back into the plenum, what passes the radiator and what crosses it."""
        mass, pack = self._zone_mass(state.mass), self.pack
        count = self.sizes.opening_m2.size
        opening = float(np.maximum(state.mass[:count], 0.0).sum())
        crosses = pack.zone_hit[:, pack.radiator]
        leaks = state.mass[-3:-1]
        plenum = pack.zone_upstream <= P1B
        back = float(np.maximum(-mass[plenum], 0.0).sum() + np.maximum(-leaks, 0.0).sum())
        first = count + 1 + mass.size
        for number, place in enumerate(pack.fans):
            if place.tip != pack.bay:
                back += max(-state.mass[first + number], 0.0)
        past = float(np.maximum(mass[~crosses], 0.0).sum() + np.maximum(leaks, 0.0).sum())
        return opening, back, past, float(np.maximum(mass[crosses], 0.0).sum())

    def _mix_plenums(self, net: air.Ways, state: State, day: air.Day) -> None:
        pushers = [place.tip for place in self.pack.fans if place.tip != self.pack.bay]
        for node in (P1, P1B, P1, *pushers):
            self._mix(net, state, day, node)

    def _mix_rear(self, net: air.Ways, state: State, day: air.Day) -> None:
        rear = list(range(2, self.pack.bay))
        for node in (*rear, self.pack.bay, *rear):
            self._mix(net, state, day, node)

    def _mix(self, net: air.Ways, state: State, day: air.Day, node: int) -> None:
        """Set a node to the flow mean of what enters it; one that nothing enters is as warm as the day."""
        first = self.sizes.opening_m2.size + 1
        flow = heat_k = 0.0
        for way, mass in enumerate(state.mass):
            source, sink = (net.tail[way], net.tip[way]) if mass >= 0.0 else (net.tip[way], net.tail[way])
            if sink != node or mass == 0.0:
                continue
            brought = day.ambient_degc if source < 0 else state.node[source]
            if first <= way < first + state.exits.size:
                brought = state.exits[way - first]
            flow += abs(mass)
            heat_k += abs(mass) * brought
        if flow <= 1e-9:
            state.node[node] = day.ambient_degc
            return
        if node == self.pack.bay:
            heat_k += day.bay_heat_w / prop.AIR_CP
        state.node[node] = min(max(heat_k / flow, COLDEST_DEGC), HOTTEST_DEGC)


def fan_turns(project: Project, case: DutyCase, pack: PackMap) -> tuple[float, ...]:
    """Return each fan's speed over that of its curve: by voltage, or by the engine's speed less what the clutch slips."""
    volts = project.environment.supply_voltage_v
    found = []
    for place in pack.fans:
        fan = place.fan
        if fan.drive is FanDrive.BELT:
            found.append(
                case.engine_speed_rpm * fan.drive_ratio_factor * (1.0 - fan.clutch_slip_frac) / fan.curve_speed_rpm
            )
        elif not case.fans_on:
            found.append(0.0)
        else:
            found.append(1.0 if None in (volts, fan.rated_voltage_v) else volts / fan.rated_voltage_v)
    return tuple(found)


def question_of(project: Project, case: DutyCase, pack: PackMap) -> Question:
    """Return the case at its own ambient with the top tank at its limit; the project must say everything that is asked."""
    sheet, around_us = project.engine, project.environment
    coolant = prop.glycol(sheet.glycol_frac)
    day = air.Day(
        ambient_degc=case.ambient_degc,
        pressure_pa=ATMOSPHERE_1976(case.altitude_m).P,
        speed_m_s=case.road_speed_m_s,
        recovery=around_us.ram_recovery_frac,
        exit_factor=around_us.exit_pressure_factor,
        bay_loss=around_us.bay_loss_factor,
        fan_turns=fan_turns(project, case, pack),
        bay_heat_w=around_us.surface_heat_w,
    )
    limit = sheet.top_tank_limit_degc
    return Question(
        day=day,
        top_tank_degc=limit,
        coolant_kg_s=sheet.coolant_flow_m3_s * float(coolant.density(limit)) * case.coolant_frac,
        charge_kg_s=sheet.charge_flow_kg_s * case.charge_frac,
        charge_inlet_degc=charge_inlet(project, case.ambient_degc),
        condenser_w=sheet.condenser_heat_w if case.air_conditioning_on else 0.0,
    )


def charge_inlet(project: Project, ambient_degc: float) -> float:
    """Return the charge inlet temperature: its absolute value goes with that of the day."""
    sheet = project.engine
    per_k = (sheet.charge_inlet_degc + prop.KELVIN) / (sheet.charge_reference_ambient_degc + prop.KELVIN)
    return (ambient_degc + prop.KELVIN) * per_k - prop.KELVIN


def answers(project: Project, case: DutyCase, size_mm: float, inner_rows: int = 4) -> Answers:
    """Return what the duty case comes to."""
    whole = Judge(project, size_mm, inner_rows=inner_rows)
    asked = question_of(project, case, whole.pack)
    target = project.engine.heat_to_coolant_w * case.heat_frac
    at_limit = whole.settle(asked, whole.cold(asked))
    heat_w = at_limit.heat_w
    lone = Judge(project, size_mm, alone=True, inner_rows=inner_rows)
    alone = lone.settle(replace(asked, charge_kg_s=0.0, condenser_w=0.0), lone.cold(asked))
    state, span = at_limit, asked.top_tank_degc - case.ambient_degc

    def at_top(top_degc: float) -> float:
        return whole.settle(replace(asked, top_tank_degc=top_degc), state).heat_w - target

    def on_day(ambient_degc: float) -> float:
        day = replace(asked.day, ambient_degc=ambient_degc)
        now = replace(asked, day=day, charge_inlet_degc=charge_inlet(project, ambient_degc))
        return whole.settle(now, state).heat_w - target

    ratio = target / heat_w if heat_w > 0.0 else 2.0
    limiting = _root(on_day, asked.top_tank_degc - span * ratio, COLDEST_DEGC, asked.top_tank_degc)
    top = _root(at_top, case.ambient_degc + span * ratio, COLDEST_DEGC, HOTTEST_DEGC - 1.0)
    whole.settle(asked if top is None else replace(asked, top_tank_degc=top), state)
    opening, back, past, through = whole.shares(state)
    charge = next((n for n, c in enumerate(whole.pack.cores) if c.role is CoreRole.CHARGE_AIR_COOLER), None)
    condenser = next((n for n, c in enumerate(whole.pack.cores) if c.role is CoreRole.CONDENSER), None)
    return Answers(
        heat_w=heat_w,
        alone_w=alone.heat_w,
        top_tank_degc=top,
        limiting_degc=limiting,
        air_kg_s=through,
        charge_out_degc=None if charge is None else float(state.tube_out[charge]),
        condensing_degc=None if condenser is None or asked.condenser_w <= 0.0 else state.wall.get(condenser),
        bay_degc=float(state.node[whole.pack.bay]),
        opening_kg_s=opening,
        recirculated_frac=back / (opening + back) if opening + back > 0.0 else None,
        bypassed_frac=past / (opening + back) if opening + back > 0.0 else None,
        rounds=state.rounds + alone.rounds,
    )


def _root(function, guess: float, lowest: float, highest: float) -> float | None:
    """Return where the function crosses zero: a few kelvins around the guess, wider where that holds no root."""
    guess = min(max(guess, lowest), highest)
    at_guess = function(guess)
    for reach in (3.0, 12.0, 50.0, 1000.0):
        low, high = max(guess - reach, lowest), min(guess + reach, highest)
        at_low, at_high = (at_guess if guess == end else function(end) for end in (low, high))
        if at_low * at_high <= 0.0:
            return float(brentq(function, low, high, xtol=1e-4, rtol=1e-12))
    return None
