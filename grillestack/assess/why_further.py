"""What the further figures rest on: a step of where the degrees go, the band and what it hangs on, the course over time."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from grillestack.assess.figure import Input, Quantity, Why
from grillestack.assess.why_words import sentence, source_ids
from grillestack.units.quantity import Dimension

if TYPE_CHECKING:  # the window asks before the scientific core is loaded
    from grillestack.assess.confidence import Confidence
    from grillestack.assess.over_time import OverTime
    from grillestack.assess.waterfall import Waterfall

_COMPUTED: Final = "computed"
_BAND_METHOD: Final = (
    "Each uncertain input is drawn within its own spread, all of them anew for every sample, and the hottest day of every "
    "sample is solved; a Latin hypercube with a fixed seed, so the same pack gives the same band."
)
_STEP_METHOD: Final = (
    "The hottest day is solved twice, with this and without it, everything before it in the list being there both times. "
    "The steps add up exactly; in another order the single steps would differ."
)


def why_step(found: Waterfall, place: int) -> Why | None:
    """Return what one row of where the degrees go rests on: 0 is the radiator alone, the one after the last step the whole pack."""
    if place == 0:
        return Why(
            title=f"Radiator alone, open nose, {found.case_name}",
            quantity=_day(found.start_degc),
            says="The hottest day of the radiator without nose, other cores, tanks in the way, leaks or bare face: where the steps begin.",
            method=_STEP_METHOD,
            source_words="geometry and the same solver as the hottest day",
            spread="That of the hottest day; what is out in two neighbouring days mostly cancels in the step between them.",
        )
    if place > len(found.steps):
        return Why(
            title=f"The pack as it stands, {found.case_name}",
            quantity=_day(found.end_degc),
            says="What all steps leave: the hottest day of the duty case.",
            method="The start less all steps; it is the hottest day above, to the digit.",
            inputs=(_input("Radiator alone, open nose", _day(found.start_degc)),),
            spread="That of the hottest day.",
        )
    step = found.steps[place - 1]
    return Why(
        title=f"{step.name}, {found.case_name}",
        quantity=Quantity(value=step.change_k, dimension=Dimension.TEMPERATURE_DIFFERENCE),
        says="What this one thing does to the hottest day; with a minus it costs degrees, with a plus it brings some back.",
        method=_STEP_METHOD,
        inputs=(_input("Hottest day before it", _day(step.before_degc)), _input("and with it", _day(step.after_degc))),
        source_words="geometry and the same solver as the hottest day",
        spread="Less than that of the hottest day: what is out in both days cancels.",
    )


def why_band(found: Confidence) -> Why:
    """Return what the band of the hottest day rests on."""
    return Why(
        title=f"Band of the hottest day, {found.case_name}",
        quantity=Quantity(),
        says="Eight of ten packs like this one would have a hottest day inside this band; one in ten lies below, one above.",
        method=_BAND_METHOD,
        inputs=(
            _input("Nine in ten reach", _day(found.p10_degc)),
            _input("Half reach", _day(found.p50_degc)),
            _input("One in ten reaches", _day(found.p90_degc)),
            _input("Samples", Quantity(words=str(found.samples)), "fixed"),
            *_drivers(found),
        ),
        source_words="the spread of each input is given with it; most are common practice, from memory",
        spread="A band of this many samples is itself out by a few tenths of a degree.",
    )


def why_chance(found: Confidence) -> Why:
    """Return what the chance of meeting the design day rests on."""
    return Why(
        title=f"Chance of meeting the design day, {found.case_name}",
        quantity=Quantity(value=found.meets_design_day_frac, dimension=Dimension.FRACTION),
        says="The share of all packs like this one whose hottest day is at least the design day.",
        method=_BAND_METHOD,
        inputs=(_input("Samples", Quantity(words=str(found.samples)), "fixed"), *_drivers(found)),
        source_words="the spread of each input is given with it; most are common practice, from memory",
        spread="Only as good as those spreads: take it as likely, even or unlikely.",
    )


def why_driver(found: Confidence, place: int) -> Why | None:
    """Return what the share of one uncertain input rests on."""
    if place >= len(found.drivers):
        return None
    driver = found.drivers[place]
    ids, words = source_ids(driver.source)
    return Why(
        title=f"{driver.name[0].upper()}{driver.name[1:]}: share of the band",
        quantity=Quantity(value=driver.share_frac, dimension=Dimension.FRACTION),
        says="How much of the spread of the hottest day comes from not knowing this one input better.",
        method="The square of its rank correlation with the hottest day over all samples, as a share of the sum over all inputs.",
        inputs=(Input(name="Its own spread", quantity=Quantity(words="see the source"), origin=driver.source),),
        sources=ids,
        source_words=words,
        spread="A few percent either way.",
    )


def why_over_time(found: OverTime) -> Why:
    """Return what the course of the coolant over time rests on."""
    whole = found.basis[0] if found.basis else None
    ids, words = source_ids(whole.source if whole else "")
    return Why(
        title=f"From {found.from_case_name} into {found.to_case_name}",
        quantity=Quantity(),
        says="How the coolant at the top tank climbs when the load comes, and falls after it.",
        method=sentence(whole.method if whole else ""),
        inputs=tuple(
            Input(name=_capital(one.figure), quantity=Quantity(words=one.method), origin=one.source)
            for one in found.basis[1:]
        ),
        sources=ids,
        source_words=words,
        spread="Every time is in proportion to the heat stored: if that is a fifth off, so are the times.",
    )


def _drivers(found: Confidence) -> Sequence[Input]:
    return [
        _input(_capital(one.name), Quantity(value=one.share_frac, dimension=Dimension.FRACTION), one.source)
        for one in found.drivers
    ]


def _capital(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}"


def _day(day_degc: float | None) -> Quantity:
    return (
        Quantity(words="no day")
        if day_degc is None
        else Quantity(value=day_degc, dimension=Dimension.TEMPERATURE, is_fine=True)
    )


def _input(name: str, quantity: Quantity, origin: str = _COMPUTED) -> Input:
    return Input(name=name, quantity=quantity, origin=origin)
