"""A ladder in words: each rung in one breath, and how many changes are not on it."""

from __future__ import annotations

from grillestack.advice.ladder import Ladder, Rung
from grillestack.advice.trial import LEAST_WORTH_K
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity


def rung_in_words(rung: Rung, units: UnitSystem = UnitSystem.METRIC) -> str:
    """Return the rung in one breath: the change, what it buys, what else it brings."""
    if rung.buys_k is None:
        after = show_quantity(rung.hottest_after_degc, Dimension.TEMPERATURE, units)
        bought = f"gives a hottest day of {after} where there is none"
    else:
        bought = f"buys {show_quantity(rung.buys_k, Dimension.TEMPERATURE_DIFFERENCE, units)}"
    return f"{rung.title}: {bought}{''.join(f', {effect}' for effect in rung.side_effects)}."


def left_out_in_words(ladder: Ladder, units: UnitSystem = UnitSystem.METRIC) -> str:
    """Return how many changes were tried and are not on the ladder; nothing if all are."""
    least = show_quantity(LEAST_WORTH_K, Dimension.TEMPERATURE_DIFFERENCE, units)
    sentences = []
    if ladder.too_little_count:
        sentences.append(f"{_counted(ladder.too_little_count)} tried would buy less than {least}.")
    if ladder.harmful_count:
        sentences.append(f"{_counted(ladder.harmful_count)} would cost another duty case its design day.")
    return " ".join(sentences)


def _counted(count: int) -> str:
    return "1 other change" if count == 1 else f"{count} other changes"
