"""What the gain of a change rests on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from grillestack.assess.figure import Input, Quantity, Why
from grillestack.units.quantity import Dimension

if TYPE_CHECKING:  # the window asks before the scientific core is loaded
    from grillestack.advice.ladder import Rung


def why_gain(rung: Rung, case_name: str) -> Why:
    """Return what the degrees that a change buys rest on."""
    before, after = rung.hottest_before_degc, rung.hottest_after_degc
    day = (
        Quantity(words="no day")
        if before is None
        else Quantity(value=before, dimension=Dimension.TEMPERATURE, is_fine=True)
    )
    gain = (
        Quantity(value=after, dimension=Dimension.TEMPERATURE, is_fine=True)
        if rung.buys_k is None
        else Quantity(value=rung.buys_k, dimension=Dimension.TEMPERATURE_DIFFERENCE)
    )
    return Why(
        title=f"{rung.title}, {case_name}",
        quantity=gain,
        says="What this change adds to the hottest day of the duty case, everything else staying as it is.",
        method="The change is made on a copy of the project, and that copy is assessed like any other; nothing is scaled or guessed.",
        inputs=(
            Input(name="Hottest day now", quantity=day, origin="computed"),
            Input(
                name="after the change",
                quantity=Quantity(value=after, dimension=Dimension.TEMPERATURE, is_fine=True),
                origin="computed",
            ),
        ),
        source_words="the same assessment as the verdict",
        spread="Less than that of the hottest day: what is out in both mostly cancels. Gains of several changes do not simply add up.",
    )
