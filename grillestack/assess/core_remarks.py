"""What the assessment has to say of the way a core is described: what of it is not used, and where its measurements end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from grillestack.assess.core_construction import Ground, bench_air_kg_m3, core_ground
from grillestack.assess.result import CaseResult, Finding, Severity
from grillestack.geometry.projection import project_part
from grillestack.model.parts import Core
from grillestack.units.convert import m2_from_mm2

# Less of the face than this, or a flow this little outside, is that of cells at the rim.
_NOTED_FACE_FRAC: Final = 0.01
_NOTED_FLOW_FRAC: Final = 0.01


def core_remarks(stack: Sequence[Core], cases: Sequence[CaseResult]) -> Iterator[Finding]:
    """Return the remarks on descriptions of cores; a core that cannot be computed is named among what is missing."""
    for core in stack:
        ground = core_ground(core)
        for note in ground.notes:
            yield Finding(
                severity=Severity.NOTE, text=f"“{core.name}” {note}.", parts=(core.id,), source="the core's description"
            )
        yield from _outside_its_table(core, cases)
    typical = [core for core in stack if core_ground(core).ground is Ground.TYPE and not core_ground(core).problem]
    if typical:
        names = ", ".join(f"“{core.name}”" for core in typical)
        yield Finding(
            severity=Severity.NOTE,
            text=f"Of {names} only the type is known: heat and air resistance are those of typical fins and tubes. "
            "Count fins per inch and measure the tubes to be surer.",
            parts=tuple(core.id for core in typical),
            source="typical of the trade, from memory",
        )


def _outside_its_table(core: Core, cases: Sequence[CaseResult]) -> Iterator[Finding]:
    ground = core_ground(core)
    covered, air_degc = ground.table_range_m_s, ground.table_air_degc
    if covered is None:
        return
    told = [said for case in cases if (said := _outside(core, covered, bench_air_kg_m3(air_degc), case))]
    if told:
        yield Finding(
            severity=Severity.NOTE,
            text=f"“{core.name}” is measured from {covered[0]:.3g} to {covered[1]:.3g} m/s at {air_degc:g} °C and sees other air: "
            f"{'; '.join(told)}. There its heat follows the trend of its fins from the nearest line.",
            parts=(core.id,),
            source="the core's measured table",
        )


def _outside(core: Core, covered: tuple[float, float], density_kg_m3: float, case: CaseResult) -> str:
    """Return in words how much of the core's face has slower or faster air than its table, and how slow or fast."""
    lowest, highest = covered
    cos_tilt = project_part(core).cos_tilt_frac
    core_mm2 = core.core_width_mm * core.core_height_mm
    slow_frac = fast_frac = 0.0
    slowest, fastest = lowest, highest
    for zone in case.zones:
        if core.id not in zone.cores:
            continue
        true_mm2 = zone.area_mm2 / cos_tilt
        velocity = abs(zone.air_kg_s) / (m2_from_mm2(true_mm2) * density_kg_m3)
        if velocity < lowest * (1.0 - _NOTED_FLOW_FRAC):
            slow_frac, slowest = slow_frac + true_mm2 / core_mm2, min(slowest, velocity)
        elif velocity > highest * (1.0 + _NOTED_FLOW_FRAC):
            fast_frac, fastest = fast_frac + true_mm2 / core_mm2, max(fastest, velocity)
    told = []
    if slow_frac > _NOTED_FACE_FRAC:
        told.append(f"down to {slowest:.2g} m/s on {100 * slow_frac:.0f} % of its face")
    if fast_frac > _NOTED_FACE_FRAC:
        told.append(f"up to {fastest:.2g} m/s on {100 * fast_frac:.0f} % of its face")
    return f"in “{case.name}” {' and '.join(told)}" if told else ""
