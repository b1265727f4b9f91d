"""What the search says to the window: rows in words, with the figures they sort by. Nothing here loads Qt or numbers."""

from __future__ import annotations

import msgspec

from grillestack.model.parts import Part, Placement

# Corners (y, z) of an outline
Outline = tuple[tuple[float, float], ...]


class FitRow(msgspec.Struct, frozen=True, kw_only=True):
    """A part that fits. `order_factor` sorts rows, best first; `fit` is what the second process needs to know it again.

    `room_mm` are the places at which it may stand this way round at this depth, `outline_mm` the box round the part from
    its place: low y, low z, high y, high z. Figures that are not known, or not yet, are `None`.
    """

    part: Part
    placement: Placement
    fit: msgspec.Raw
    is_assessed: bool
    order_factor: tuple[float, ...]
    name: str
    size: str
    way: str
    place: str
    margin: str
    margins: str
    hottest: str
    lost: str
    charge: str
    loss: str
    ports: str
    verdict: str
    within_limits: bool
    margin_mm: float
    hottest_degc: float | None
    lost_frac: float | None
    charge_degc: float | None
    loss_pa: float | None
    outline_mm: tuple[float, float, float, float]
    room_mm: tuple[tuple[Outline, ...], ...] = ()


class NearRow(msgspec.Struct, frozen=True, kw_only=True):
    """A part that does not fit, and what is said of it, one sentence each."""

    name: str
    size: str
    said: tuple[str, ...]


class FitList(msgspec.Struct, frozen=True, kw_only=True):
    """What the first look found; the first `short_count` rows are the ones to assess."""

    headline: str
    remarks: tuple[str, ...]
    rows: tuple[FitRow, ...]
    short_count: int
    near: tuple[NearRow, ...]
