"""From the solved batch to the figures of each duty case, in the document's units; what has no answer gets a reason."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from grillestack.assess.asked import AskedCase
from grillestack.assess.charge_loss import charge_loss_pa
from grillestack.assess.pack_layout import LaidOut
from grillestack.assess.problems import ALONE, AMBIENT, AT_LIMIT, SHED, Batch
from grillestack.assess.result import CaseResult, CoreFlow, FanPointOfWork, Verdict, ZoneFlow
from grillestack.assess.shares import air_shares
from grillestack.assess.verdict import case_verdict
from grillestack.model.parts import Core, CoreRole
from grillestack.physics.air import density_kg_m3
from grillestack.physics.conditions import Conditions
from grillestack.physics.fan_curve import fan_pressure_pa
from grillestack.physics.heat import HIGHEST_DEGC, LOWEST_DEGC
from grillestack.physics.layout import LayerDuty
from grillestack.physics.solve import Solution
from grillestack.units.convert import mm2_from_m2

# Below this the radiator answers no change of its inlet temperature: no air or no coolant reaches it.
_LEAST_RESPONSE_W_PER_K: Final = 0.05
_HEAT_MET_FRAC: Final = 2e-3
_LEAST_AIR_KG_S: Final = 1e-4
_STANDS_K: Final = 0.1
_NEXT_TO_NONE_FRAC: Final = 0.02


def unanswered(one: AskedCase) -> CaseResult:
    """Return the result of a case whose inputs are incomplete."""
    return CaseResult(
        case_id=one.case.id,
        name=one.case.name,
        verdict=Verdict.UNKNOWN,
        heat_target_w=one.heat_target_w,
        top_tank_limit_degc=one.top_tank_limit_degc,
        design_ambient_degc=one.ambient_degc,
        reasons=one.missing,
    )


def top_tank_degc(solution: Solution, row: int) -> float | None:
    """Return the top tank temperature that a problem asking for it found; nothing if none sheds the heat."""
    top = float(solution.top_tank_degc[row])
    answers = solution.sweep.radiator_response_w_per_k[row] >= _LEAST_RESPONSE_W_PER_K and top < HIGHEST_DEGC - 1.0
    return top if solution.converged[row] and answers else None


def limiting_ambient_degc(solution: Solution, conditions: Conditions, row: int) -> float | None:
    """Return the hottest day that a problem asking for it found; nothing if the heat does not go away on any day."""
    target = float(conditions.heat_target_w[row])
    ambient = float(solution.ambient_degc[row])
    heat = float(solution.heat_w[row])
    # A further cooler of colder oil may cool the air: then the target is met on a day as hot as the limit, where the search ends.
    met = abs(heat - target) <= _HEAT_MET_FRAC * target or (
        heat > target and ambient >= float(conditions.top_tank_degc[row])
    )
    return ambient if solution.converged[row] and met and ambient > LOWEST_DEGC else None


def case_results(
    laid_out: LaidOut, stack: Sequence[Core], batch: Batch, solution: Solution, core_mm2: float
) -> tuple[CaseResult, ...]:
    """Return the figures of all answerable cases."""
    reader = _Reader(laid_out, stack, batch, solution, core_mm2)
    return tuple(reader.result(number) for number in range(len(batch.asked)))


class _Reader:
    """Reads one solved batch; short-lived, one per assessment."""

    def __init__(
        self, laid_out: LaidOut, stack: Sequence[Core], batch: Batch, solution: Solution, core_mm2: float
    ) -> None:
        self.laid_out, self.stack, self.batch, self.solution = laid_out, stack, batch, solution
        self.layout = laid_out.layout
        self.core_mm2 = core_mm2
        self.charge = self._layer_of(LayerDuty.CHARGE_AIR)
        self.condenser = next((n for n, core in enumerate(stack) if core.role is CoreRole.CONDENSER), None)
        self.charge_loss_pa = self._charge_losses()

    def result(self, number: int) -> CaseResult:
        asked = self.batch.asked[number]
        shed, at_limit, alone, ambient = (
            self.batch.index(number, problem) for problem in (SHED, AT_LIMIT, ALONE, AMBIENT)
        )
        heat = self.solution.heat_w
        reasons: list[str] = []
        rows = [shed, at_limit, alone, ambient]
        decided = self.solution.converged | self.solution.hopeless
        if not decided[rows].all():
            worst = float(self.solution.change_k[rows].max())
            reasons.append(
                f"Air and heat of “{asked.case.name}” did not settle (the last step still moved by {worst:.2g} K)."
            )
        top_tank = top_tank_degc(self.solution, shed)
        limiting = limiting_ambient_degc(self.solution, self.batch.conditions, ambient)
        airless = self._is_airless(at_limit)
        reasons += self._why_none(asked, (shed, at_limit, ambient), airless=airless)
        q_pack = float(heat[at_limit]) if self.solution.converged[at_limit] else None
        q_alone = float(heat[alone]) if self.solution.converged[alone] else None
        if q_alone is not None and q_alone <= 0.0:
            if not reasons:
                reasons.append(
                    f"In “{asked.case.name}” the radiator alone sheds no heat: no effective face can be given."
                )
            q_alone = None
        per_watt = None if q_alone is None else self.core_mm2 / q_alone
        effective = None if per_watt is None or q_pack is None else per_watt * q_pack
        required = None if per_watt is None or asked.heat_target_w is None else per_watt * asked.heat_target_w
        row = at_limit if top_tank is None else shed
        shares = air_shares(self.layout, self.solution, row)
        ambient_density = float(density_kg_m3(asked.ambient_degc, self.batch.conditions.air_pressure_pa[row]))
        core_m2 = self.layout.exit_area_m2
        charge_out, charge_loss, effectiveness = self._charge(asked, row, reasons)
        partial = CaseResult(
            case_id=asked.case.id,
            name=asked.case.name,
            verdict=Verdict.UNKNOWN,
            heat_target_w=asked.heat_target_w,
            heat_capacity_w=q_pack,
            top_tank_degc=top_tank,
            top_tank_limit_degc=asked.top_tank_limit_degc,
            limiting_ambient_degc=limiting,
            design_ambient_degc=asked.ambient_degc,
            opening_kg_s=shares.opening_kg_s,
            air_kg_s=shares.radiator_kg_s,
            face_velocity_m_s=shares.radiator_kg_s / (ambient_density * core_m2),
            effective_mm2=effective,
            required_mm2=required,
            charge_out_degc=charge_out,
            charge_out_limit_degc=None if self.charge is None else asked.charge_out_limit_degc,
            charge_loss_pa=charge_loss,
            charge_loss_limit_pa=None if self.charge is None else asked.charge_loss_limit_pa,
            charge_effectiveness_frac=effectiveness,
            condensing_degc=self._condensing(asked, row, reasons, airless=airless),
            recirculated_frac=shares.recirculated_frac,
            bypassed_frac=shares.bypassed_frac,
            bay_degc=float(self.solution.state.node_degc[row, self.layout.bay]),
            cores=self._cores(row),
            zones=self._zones(row),
            fans=self._fans(row),
            reasons=tuple(reasons),
        )
        settled = bool(decided[[shed, at_limit, ambient]].all())
        return case_verdict(partial, settled=settled)

    def _layer_of(self, duty: LayerDuty) -> int | None:
        return next((n for n, layer in enumerate(self.layout.layers) if layer.duty is duty), None)

    def _is_airless(self, row: int) -> bool:
        if self.layout.radiator is None:
            return True
        mass = np.abs(self.solution.flow.mass_kg_s[row, self.solution.ranges.zones])
        return float(mass[self.layout.zone_hit[:, self.layout.radiator]].sum()) < _LEAST_AIR_KG_S

    def _why_none(self, asked: AskedCase, rows: tuple[int, int, int], *, airless: bool) -> Iterator[str]:
        """Say in one sentence why there is no top tank temperature or no hottest day; nothing where both are there."""
        solution, conditions, name = self.solution, self.batch.conditions, asked.case.name
        shed, at_limit, ambient = rows
        if airless:
            moved = conditions.road_speed_m_s[at_limit] > 0.0 or (conditions.fan_speed_ratio[at_limit] > 0.0).any()
            why = "what lies before and behind it lets none through" if moved else "the vehicle stands and no fan turns"
            yield f"In “{name}” no air crosses the radiator, so it sheds no heat: {why}."
            return
        if asked.heat_target_w is None:
            return
        coldest_w, stands = float(solution.heat_w[ambient]), solution.change_k[ambient] < _STANDS_K
        stirs = solution.hopeless[[shed, ambient]].any() and not (
            stands and coldest_w > _NEXT_TO_NONE_FRAC * asked.heat_target_w
        )
        if stirs:
            yield f"In “{name}” the heat does not get away at any temperature: too little outside air comes through the pack."
        elif limiting_ambient_degc(solution, conditions, ambient) is None and stands:
            yield (
                f"In “{name}” there is no hottest day: even at {LOWEST_DEGC:.0f} °C the radiator sheds "
                f"{coldest_w / 1000:.1f} kW of {asked.heat_target_w / 1000:.1f} kW."
            )
        elif solution.hopeless[shed] and solution.converged[ambient]:
            yield (
                f"In “{name}” no top tank temperature sheds the heat on the design day: the air the radiator warms "
                "comes round to it again."
            )
        elif not solution.converged[[shed, ambient]].all():
            return
        elif top_tank_degc(solution, shed) is None:
            yield f"In “{name}” no top tank temperature sheds the heat: next to no air crosses the radiator."

    def _charge_losses(self) -> np.ndarray | None:
        if self.charge is None:
            return None
        fluids, sweep, conditions = self.solution.fluids, self.solution.sweep, self.batch.conditions
        return charge_loss_pa(
            self.stack[self.charge],
            self.layout.layers[self.charge],
            conditions.charge_flow_kg_s,
            fluids.charge_in_degc,
            sweep.tube_out_degc[:, self.charge],
            conditions.charge_pressure_pa,
        )

    def _charge(
        self, asked: AskedCase, row: int, reasons: list[str]
    ) -> tuple[float | None, float | None, float | None]:
        if self.charge is None or self.charge_loss_pa is None or not asked.charge_flow_kg_s:
            return None, None, None
        inlet = float(self.solution.fluids.charge_in_degc[row])
        outlet = float(self.solution.sweep.tube_out_degc[row, self.charge])
        loss = float(self.charge_loss_pa[row])
        if not math.isfinite(loss):
            reasons.append(f"In “{asked.case.name}” the charge air does not get through its cooler at this pressure.")
        span = inlet - asked.ambient_degc
        return outlet, loss if math.isfinite(loss) else None, (inlet - outlet) / span if span > 0.0 else None

    def _condensing(self, asked: AskedCase, row: int, reasons: list[str], *, airless: bool) -> float | None:
        if self.condenser is None or self.batch.conditions.given_heat_w[row, self.condenser] <= 0.0:
            return None
        wall = float(self.solution.sweep.tube_in_degc[row, self.condenser])
        if not math.isfinite(wall):
            if not airless:
                reasons.append(f"In “{asked.case.name}” no air crosses the condenser: high-pressure cut-out likely.")
            return None
        return wall

    def _cores(self, row: int) -> tuple[CoreFlow, ...]:
        sweep, conditions = self.solution.sweep, self.batch.conditions
        zone_mass = self.solution.flow.mass_kg_s[row, self.solution.ranges.zones]
        flows = []
        for number, (core, layer) in enumerate(zip(self.stack, self.layout.layers, strict=True)):
            hit = self.layout.zone_hit[:, number]
            through = np.abs(zone_mass[hit])
            total = float(through.sum())
            before, after = sweep.zone_in_degc[row, hit, number], sweep.zone_out_degc[row, hit, number]
            tube_flow = {
                LayerDuty.RADIATOR: conditions.coolant_flow_kg_s[row],
                LayerDuty.CHARGE_AIR: conditions.charge_flow_kg_s[row],
                LayerDuty.GIVEN_INLET: conditions.flow_of(number)[row],
            }.get(layer.duty)
            tube_in, tube_out = float(sweep.tube_in_degc[row, number]), float(sweep.tube_out_degc[row, number])
            if core.role is CoreRole.COOLER and layer.duty is LayerDuty.GIVEN_HEAT:
                # Its heat is typed; the one wall that spreads it over the air is no temperature of its oil.
                tube_in = tube_out = math.nan
            flows.append(
                CoreFlow(
                    part_id=core.id,
                    air_kg_s=float(zone_mass[hit].sum()),
                    heat_w=float(sweep.heat_w[row, number]),
                    conductance_w_per_k=float(sweep.conductance_w_per_k[row, number]),
                    air_in_degc=float(through @ before / total) if total > 0.0 else None,
                    air_out_degc=float(through @ after / total) if total > 0.0 else None,
                    tube_in_degc=tube_in if math.isfinite(tube_in) else None,
                    tube_out_degc=tube_out if math.isfinite(tube_out) else None,
                    tube_flow_kg_s=None if tube_flow is None else float(tube_flow),
                )
            )
        return tuple(flows)

    def _zones(self, row: int) -> tuple[ZoneFlow, ...]:
        layout, sweep = self.layout, self.solution.sweep
        zone_mass = self.solution.flow.mass_kg_s[row, self.solution.ranges.zones]
        entering = self.solution.state.node_degc[row]
        zones = []
        for zone in np.flatnonzero(self.solution.zones_open[row]).tolist():
            forward = zone_mass[zone] >= 0.0
            source = layout.zone_upstream[zone] if forward else layout.zone_downstream[zone]
            zones.append(
                ZoneFlow(
                    cores=tuple(
                        core_id
                        for core_id, hit in zip(self.laid_out.core_ids, layout.zone_hit[zone], strict=True)
                        if hit
                    ),
                    area_mm2=float(mm2_from_m2(layout.zone_area_m2[zone])),
                    air_kg_s=float(zone_mass[zone]),
                    air_in_degc=float(entering[source]),
                    air_out_degc=float(sweep.zone_exit_degc[row, zone]),
                    in_jet=bool(self.laid_out.zone_in_jet[zone]),
                    into=self.laid_out.node_names[layout.zone_downstream[zone]],
                )
            )
        return tuple(zones)

    def _fans(self, row: int) -> tuple[FanPointOfWork, ...]:
        mass = self.solution.flow.mass_kg_s[row, self.solution.ranges.fans]
        points = []
        for number, (part_id, path) in enumerate(zip(self.laid_out.fan_ids, self.layout.fans, strict=True)):
            density = float(
                density_kg_m3(
                    self.solution.state.node_degc[row, path.upstream], self.batch.conditions.air_pressure_pa[row]
                )
            )
            flow = float(mass[number]) / density
            ratio = float(self.batch.conditions.fan_speed_ratio[row, number])
            points.append(
                FanPointOfWork(
                    part_id=part_id,
                    flow_m3_s=flow,
                    pressure_pa=float(fan_pressure_pa(path.curve, flow, ratio, density)),
                )
            )
        return tuple(points)
