"""What an assessment says: verdicts, faces, figures per duty case and findings, all frozen."""

from __future__ import annotations

import enum
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from grillestack.geometry.depth import DepthReport
from grillestack.geometry.exposure import CoreFace
from grillestack.model.project import Project


class Verdict(enum.Enum):
    """Whether the heat goes away."""

    PASS = "pass"
    CLOSE = "close"
    FAIL = "fail"
    UNKNOWN = "unknown"


class Severity(enum.Enum):
    """How much a finding matters, worst first."""

    SERIOUS = "serious"
    WARNING = "warning"
    NOTE = "note"


class Mend(enum.Enum):
    """What one edit would mend a finding."""

    WIDEN_GAP = "widen the gap"
    FROM_FINS = "move the fan off the fins"
    FORWARD = "move the pack forward"
    REARWARD = "move it behind the grille"
    LOWER = "lower it"
    SHROUD = "lead a shroud over the whole core"
    TAKE_OUT = "take it out"
    STEEPER = "set it steeper"
    SEAL = "close the edges"
    REMOVE_OUTLINE = "remove the outline"
    SMALLER_RADII = "make the radii as they are drawn"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One sentence about the pack, the parts it speaks of and what it rests on; a caution names its danger in a few words.

    `mend` says which one edit would mend it, if there is one, `sheet_field` which line of the engine sheet it misses.
    """

    severity: Severity
    text: str
    parts: tuple[str, ...] = ()
    source: str = ""
    danger: str = ""
    mend: Mend | None = None
    sheet_field: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RadiatorFace:
    """The radiator's areas; effective and required face are those of the deciding case, `None` where unknown."""

    part_id: str
    core_mm2: float
    exposed_mm2: float
    behind_mm2: float
    blocked_mm2: float
    off_opening_mm2: float
    unshrouded_mm2: float
    unswept_mm2: float
    effective_mm2: float | None
    required_mm2: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CoreFlow:
    """What one core does in one duty case."""

    part_id: str
    air_kg_s: float | None
    heat_w: float | None
    conductance_w_per_k: float | None
    air_in_degc: float | None
    air_out_degc: float | None
    tube_in_degc: float | None
    tube_out_degc: float | None
    tube_flow_kg_s: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneFlow:
    """The air of one zone of the pack in one duty case; negative flow runs forward."""

    cores: tuple[str, ...]
    area_mm2: float
    air_kg_s: float
    air_in_degc: float
    air_out_degc: float
    in_jet: bool
    into: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FanPointOfWork:
    """Where on its curve a fan works in one duty case."""

    part_id: str
    flow_m3_s: float
    pressure_pa: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseResult:
    """All figures of one duty case at its design day; `None` is *not known*, and `reason` says why in words."""

    case_id: str
    name: str
    verdict: Verdict
    heat_target_w: float | None = None
    heat_capacity_w: float | None = None
    top_tank_degc: float | None = None
    top_tank_limit_degc: float | None = None
    limiting_ambient_degc: float | None = None
    design_ambient_degc: float | None = None
    opening_kg_s: float | None = None
    air_kg_s: float | None = None
    face_velocity_m_s: float | None = None
    effective_mm2: float | None = None
    required_mm2: float | None = None
    charge_out_degc: float | None = None
    charge_out_limit_degc: float | None = None
    charge_loss_pa: float | None = None
    charge_loss_limit_pa: float | None = None
    charge_effectiveness_frac: float | None = None
    condensing_degc: float | None = None
    recirculated_frac: float | None = None
    bypassed_frac: float | None = None
    bay_degc: float | None = None
    cores: tuple[CoreFlow, ...] = ()
    zones: tuple[ZoneFlow, ...] = ()
    fans: tuple[FanPointOfWork, ...] = ()
    reasons: tuple[str, ...] = ()

    @property
    def margin_k(self) -> float | None:
        """Return limiting minus design ambient, if both are known."""
        if self.limiting_ambient_degc is None or self.design_ambient_degc is None:
            return None
        return self.limiting_ambient_degc - self.design_ambient_degc

    @property
    def has_no_day(self) -> bool:
        """Return whether the case fails on every day, however cold: no hottest day is then an answer, not something unknown."""
        return self.limiting_ambient_degc is None and self.verdict is Verdict.FAIL and self.heat_target_w is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """What one figure or input rests on; the source is the short id of the list of sources, or words where there is none.

    `inputs` name what enters and where each comes from, `spread` says how far the figure may be out.
    """

    figure: str
    method: str
    source: str
    inputs: tuple[str, ...] = ()
    spread: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment:
    """Everything the verdict needs, computed from one project; never stored, never patched."""

    project: Project
    verdict: Verdict
    deciding_case: CaseResult | None
    radiator: RadiatorFace | None
    cases: tuple[CaseResult, ...]
    faces: Mapping[str, CoreFace]
    depth: DepthReport
    remarks: tuple[Finding, ...]
    basis: tuple[Basis, ...]
    # What the next assessment of a nearly equal project may start from; opaque to everyone but `assess`.
    warm_state: Any = field(default=None, repr=False, compare=False)
