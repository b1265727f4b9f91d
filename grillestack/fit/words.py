"""How the search's answers read, in the terminal and in the window: sizes, ways round, margins, ports, costs."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.fit.candidates import size_mm
from grillestack.fit.result import FirstLook, Fit, Near, PortMatch
from grillestack.fit.slots import KIND_WORDS, Kind, kind_of
from grillestack.fit.ways import pose_words
from grillestack.geometry.room import Travel
from grillestack.geometry.taken_space import Pose
from grillestack.model.parts import Part, Placement
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

NOT_ASSESSED = "fits, not assessed"
NOT_KNOWN = "not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class RowWords:
    """One part that fits, as it reads in a row of the list."""

    name: str
    size: str
    way: str
    margin: str
    hottest: str
    lost: str
    charge: str
    loss: str
    ports: str
    verdict: str


def row_words(fit: Fit, units: UnitSystem) -> RowWords:
    """Return a part that fits in words."""
    cost = fit.cost
    if cost is None:
        hottest = lost = charge = loss = ""
        verdict = NOT_ASSESSED
    else:
        hottest = show_quantity(cost.hottest_degc, Dimension.TEMPERATURE, units)
        lost = _share(cost.face_lost_mm2, cost.face_mm2)
        charge = show_quantity(cost.charge_out_degc, Dimension.TEMPERATURE, units)
        loss = show_quantity(cost.charge_loss_pa, Dimension.PRESSURE, units)
        verdict = cost.verdict.value
    return RowWords(
        name=short_name(fit.part, kind_of(fit.part)),
        size=size_words(fit.part, units),
        way=pose_words(Pose(fit.placement.quarter_turns, fit.placement.flipped)),
        margin=show_quantity(fit.travel.least_mm, Dimension.LENGTH, units),
        hottest=hottest,
        lost=lost,
        charge=charge,
        loss=loss,
        ports=ports_words(fit.ports),
        verdict=verdict,
    )


def headline(found: FirstLook) -> str:
    """Return how many of the parts tried fit where."""
    tried = len(found.fits) + len(found.near)
    kind = KIND_WORDS[found.slot.kind]
    if not tried:
        return f"No {kind} could be tried {found.slot.words}."
    if tried == 1:
        return f"The one {kind} tried {found.slot.words} {'fits' if found.fits else 'does not fit'}."
    fits = {0: "none fits", 1: "one fits"}.get(len(found.fits), f"{len(found.fits)} fit")
    return f"Of {tried} {kind}s tried {found.slot.words}, {fits}."


def short_name(part: Part, kind: Kind) -> str:
    """Return the part's name without the kind it begins with, which a list of one kind need not repeat."""
    rest = part.name.removeprefix(KIND_WORDS[kind].capitalize()).strip()
    return rest or part.name


def size_words(part: Part, units: UnitSystem) -> str:
    """Return the size over all, tanks included."""
    return " × ".join(_bare(size, units) for size in size_mm(part)) + _unit(units)


def margin_words(travel: Travel, units: UnitSystem) -> str:
    """Return the margin all round beyond the clearances in force."""
    sides = (
        ("left", travel.left_mm),
        ("right", travel.right_mm),
        ("down", travel.down_mm),
        ("up", travel.up_mm),
    )
    return ", ".join(f"{show_quantity(room, Dimension.LENGTH, units)} {side}" for side, room in sides)


def place_words(placement: Placement, units: UnitSystem) -> str:
    """Return where a part's front face stands."""
    aside = "in the middle"
    if abs(placement.y_mm) >= 0.5:
        side = "left" if placement.y_mm < 0 else "right"
        aside = f"{show_quantity(abs(placement.y_mm), Dimension.LENGTH, units)} to the {side}"
    back = show_quantity(placement.x_mm, Dimension.LENGTH, units)
    height = show_quantity(placement.z_mm, Dimension.LENGTH, units)
    return f"{back} back, {aside}, centre {height} high"


def ports_words(ports: PortMatch | None) -> str:
    """Return how the ports stand to the engine's connections."""
    if ports is None:
        return NOT_KNOWN
    sides = f"{ports.on_side_count} of {ports.of_count} on the engine's side"
    return sides if ports.bend_deg is None else f"{sides}, {ports.bend_deg:.0f}° of bends"


def near_sentences(near: Near) -> tuple[str, ...]:
    """Return what stops a part and what would let it in, one sentence each, with its caution."""
    stops = " and ".join(stop.words for stop in near.stops)
    said = [f"{stops[:1].upper()}{stops[1:]}."]
    for place, change in enumerate(near.changes):
        lead = "Or: " if place else "" if change.is_other_part else "Least change: "
        said.append(f"{lead}{change.words[:1].lower() if lead else change.words[:1]}{change.words[1:]}.")
        if change.caution and change.caution not in said:
            said.append(change.caution)
    return tuple(said)


def _share(part_mm2: float | None, whole_mm2: float | None) -> str:
    if part_mm2 is None or not whole_mm2:
        return NOT_KNOWN
    return f"{max(0.0, 100 * part_mm2 / whole_mm2):.0f} %"


def _bare(length_mm: float, units: UnitSystem) -> str:
    return show_quantity(length_mm, Dimension.LENGTH, units).removesuffix(_unit(units))


def _unit(units: UnitSystem) -> str:
    return " mm" if units.base is UnitSystem.METRIC else " in"
