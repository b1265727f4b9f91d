"""The further answers in words: band and chance, steps, times; nothing of Qt."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import display_unit, show_bare, show_quantity

if TYPE_CHECKING:  # the scientific core is loaded after the first paint
    from grillestack.advice.ladder import Ladder, Rung
    from grillestack.assess.confidence import Confidence, Driver
    from grillestack.assess.over_time import OverTime
    from grillestack.assess.waterfall import Waterfall, WaterfallStep

NO_DAY: Final = "no day"
LEAST_STEP_K: Final = 0.05


_AFTER_FIGURE: Final = re.compile(r"(?<=\d) (?=[%°A-Za-z])")


def kept_together(text: str) -> str:
    """Return the text with each figure bound to its unit, so that no line ends between them."""
    return _AFTER_FIGURE.sub("\u00a0", text)


def band_words(band: Confidence, units: UnitSystem) -> str:
    """Return the band of the hottest day, its unit left to the figure beside it."""
    low, high = (
        NO_DAY if day is None else show_quantity(day, Dimension.TEMPERATURE, units).partition(" ")[0]
        for day in (band.p10_degc, band.p90_degc)
    )
    return f"{low} – {high}" if NO_DAY in (low, high) else f"{low}–{high}"


def chance_words(band: Confidence) -> str:
    """Return the chance that the design day is met; what a thousand samples cannot tell from sure is not called sure."""
    share = band.meets_design_day_frac
    if share <= 0.0:
        return "none"
    if share >= 1.0:
        return "over 99 %"
    return (
        "under 1 %"
        if share < 0.01
        else "over 99 %"
        if share > 0.99
        else show_quantity(share, Dimension.FRACTION, UnitSystem.METRIC)
    )


def sureness_words(band: Confidence, units: UnitSystem) -> str:
    """Return what band and chance mean."""
    unit = display_unit(Dimension.TEMPERATURE, units)
    return (
        f"Of {band.samples} packs like this one, each input drawn within its spread, eight in ten have a hottest day of "
        f"{band_words(band, units)} {unit}. The chance of meeting the design day is {chance_words(band)}."
    )


def driver_words(driver: Driver) -> str:
    """Return one input and its share of the spread."""
    return f"{driver.name[0].upper()}{driver.name[1:]}"


def share_words(share_frac: float) -> str:
    """Return a share in whole percent."""
    return f"{share_frac * 100:.0f} %"


def tenths(day_degc: float | None, units: UnitSystem) -> str:
    """Return a hottest day to a tenth, so that steps can be added up."""
    if day_degc is None:
        return NO_DAY
    return f"{show_bare(day_degc, Dimension.TEMPERATURE, units)} {display_unit(Dimension.TEMPERATURE, units)}"


def step_words(step: WaterfallStep, units: UnitSystem) -> str:
    """Return what the step does to the hottest day, with its sign."""
    if step.change_k is None:
        return "no answer"
    words = show_quantity(abs(step.change_k), Dimension.TEMPERATURE_DIFFERENCE, units)
    if abs(step.change_k) < LEAST_STEP_K:
        return "nothing"
    return f"−{words}" if step.change_k < 0 else f"+{words}"


def degrees_words(found: Waterfall, units: UnitSystem) -> str:
    """Return the waterfall as one paragraph."""
    return " ".join(_degrees(found, units))


def _degrees(found: Waterfall, units: UnitSystem) -> Iterator[str]:
    if found.start_degc is None:
        yield "Even the radiator alone in an open nose has no hottest day."
    else:
        yield f"The radiator alone in an open nose would stand a day of {tenths(found.start_degc, units)}."
    idle: list[str] = []
    for step in found.steps:
        name, change_k = step.name[0].lower() + step.name[1:], step.change_k
        if change_k is None:
            yield f"For {name} there is no answer."
        elif abs(change_k) < LEAST_STEP_K:
            idle.append(name)
        else:
            words = show_quantity(abs(change_k), Dimension.TEMPERATURE_DIFFERENCE, units)
            yield f"{words} go to {name}." if change_k < 0 else f"{words} come back from {name}."
    if idle:
        yield f"Nothing goes to {' or '.join(idle)}."
    end = found.end_degc
    yield (
        "The pack as it stands has no hottest day."
        if end is None
        else f"That leaves {tenths(end, units)}, the pack as it stands."
    )


def lost_words(found: Waterfall, units: UnitSystem) -> str:
    """Return what all steps together do to the hottest day, for a heading."""
    if found.start_degc is None or found.end_degc is None:
        return NO_DAY
    change_k = found.end_degc - found.start_degc
    words = show_quantity(abs(change_k), Dimension.TEMPERATURE_DIFFERENCE, units)
    return f"{'−' if change_k < 0 else '+'}{words} in all"


def bought_words(rung: Rung, units: UnitSystem) -> str:
    """Return what the change does to the hottest day, in a figure."""
    if rung.buys_k is None:
        return f"to {show_quantity(rung.hottest_after_degc, Dimension.TEMPERATURE, units)}"
    return f"+{show_quantity(rung.buys_k, Dimension.TEMPERATURE_DIFFERENCE, units)}"


def best_words(found: Ladder, units: UnitSystem) -> str:
    """Return what the best change buys that brings nothing over its limit, for a heading."""
    clean = [rung for rung in found.rungs if not rung.spoils]
    if clean:
        return f"best {bought_words(clean[0], units)}"
    return "each brings something over its limit" if found.rungs else "nothing found"


def left_out_words(found: Ladder) -> str:
    """Return how many kinds of change were tried and are not offered; nothing if all are."""
    words = []
    if found.too_little_count:
        words.append(f"{_counted(found.too_little_count)} tried would buy too little to count.")
    if found.harmful_count:
        words.append(f"{_counted(found.harmful_count)} would cost another duty case its design day.")
    return " ".join(words)


def _counted(count: int) -> str:
    return "1 other change" if count == 1 else f"{count} other changes"


def duration_words(seconds_s: float) -> str:
    """Return a time as one would tell it: seconds below a minute, tens of them below ten, then whole minutes."""
    if seconds_s < 59.5:
        return f"{seconds_s:.0f} s"
    if seconds_s < 595.0:
        minutes, rest = divmod(round(seconds_s / 10.0) * 10, 60)
        return f"{minutes} min {rest} s" if rest else f"{minutes} min"
    whole = round(seconds_s / 60.0)
    return f"{whole} min" if whole < 120 else f"{whole / 60.0:.1f} h"


def over_time_words(found: OverTime, units: UnitSystem) -> str:
    """Return how the coolant moves into the load and after it, in a few sentences."""
    return " ".join(_over_time(found, units))


def limit_reached_words(found: OverTime) -> str:
    """Return when the limit is reached, for a heading."""
    if found.time_to_limit_s is None:
        return "limit never reached"
    if found.time_to_limit_s <= 0.0:
        return "at the limit from the start"
    return f"limit after {duration_words(found.time_to_limit_s)}"


def _over_time(found: OverTime, units: UnitSystem) -> Iterator[str]:
    def degrees(value_degc: float) -> str:
        return show_quantity(value_degc, Dimension.TEMPERATURE, units)

    limit = degrees(found.limit_degc)
    if found.start_degc is None:
        yield f"{found.from_case_name} by itself never settles, so the coolant is over its limit of {limit} before the load comes."
    elif found.time_to_limit_s == 0.0:
        yield f"The coolant stands at {degrees(found.start_degc)} before the load comes, and its limit is {limit}."
    elif found.time_to_limit_s is not None:
        yield (
            f"The coolant starts at {degrees(found.start_degc)} and reaches its limit of {limit} after "
            f"{duration_words(found.time_to_limit_s)}."
        )
    elif found.steady_degc is not None:
        spare = show_quantity(found.limit_degc - found.steady_degc, Dimension.TEMPERATURE_DIFFERENCE, units)
        yield (
            f"The coolant starts at {degrees(found.start_degc)} and settles at {degrees(found.steady_degc)}: the limit of {limit} is "
            f"never reached, {spare} are to spare."
        )
    else:
        yield f"The coolant starts at {degrees(found.start_degc)}; the limit of {limit} is never reached."
    cooling = found.cooling
    if cooling is not None and cooling.fan_on_s is not None and cooling.fan_on_s > 0.0:
        yield (
            f"Then, in {cooling.case_name}, it falls from {degrees(cooling.begin_degc)} to {degrees(cooling.fan_on_degc)}, where a "
            f"fan switch usually closes, within {duration_words(cooling.fan_on_s)}."
        )
    elif cooling is not None and cooling.fan_on_s is None:
        yield f"Then, in {cooling.case_name}, it never falls to {degrees(cooling.fan_on_degc)}."
