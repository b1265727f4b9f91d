"""What the search says: what fits with its cost, what nearly fits and what would let it in; all frozen."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.assess.result import Verdict
from grillestack.fit.slots import Slot
from grillestack.fit.ways import Way
from grillestack.geometry.room import Travel
from grillestack.model.parts import Part, Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class PortMatch:
    """How well a part's ports stand to the engine's connections; `None` is not known, for want of a measured place.

    `bend_deg` is what both pipes turn in all, `pipe_mm` the straight way from mouth to mouth of both together.
    """

    on_side_count: int
    of_count: int
    bend_deg: float | None
    pipe_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What the pack does with the part in its best place.

    `face_lost_mm2` is exposed face of the radiator that it takes, of the core's `face_mm2`; `tanks_mm2` what it blocks.
    Charge figures are those of the duty case that stands worst against its limit.
    """

    verdict: Verdict
    hottest_degc: float | None
    margin_k: float | None
    face_mm2: float | None
    face_lost_mm2: float | None
    tanks_mm2: float | None
    charge_out_degc: float | None
    charge_out_limit_degc: float | None
    charge_loss_pa: float | None
    charge_loss_limit_pa: float | None

    @property
    def within_limits(self) -> bool:
        """Return whether no charge figure that is known is over a limit that is known."""
        pairs = (
            (self.charge_out_degc, self.charge_out_limit_degc),
            (self.charge_loss_pa, self.charge_loss_limit_pa),
        )
        return all(value is None or limit is None or value <= limit for value, limit in pairs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A part that fits, in its best place; without a cost it fits but was not assessed."""

    part: Part
    placement: Placement
    ways: tuple[Way, ...]
    travel: Travel
    ports: PortMatch | None
    merit_factor: float
    cost: Cost | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """One thing in the way: what it is in words, the id of what it belongs to if any, and by how much if that can be said."""

    words: str
    thing_id: str
    amount_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change that would let a part in, with its caution if it has one; no amount where nothing is shortened or moved.

    `is_other_part` says that it is none: only another part is the way.
    """

    words: str
    caution: str
    amount_mm: float | None
    is_other_part: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """A part that does not fit: what stops it, by how much at least, and what would let it in, the least change first."""

    part: Part
    stops: tuple[Stop, ...]
    changes: tuple[Change, ...]
    lack_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstLook:
    """What is known before anything is assessed: the short list first, in the order in which it will be."""

    slot: Slot
    fits: tuple[Fit, ...]
    short_count: int
    near: tuple[Near, ...]
    refused: tuple[str, ...]
    remarks: tuple[str, ...]
