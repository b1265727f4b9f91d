"""What a part is called in a sentence on the sheet: its trade word if that is clear, else its own name."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from grillestack.model.parts import Core, CoreRole, Fan, Part, Shroud

_ROLE_WORDS = {
    CoreRole.CONDENSER: "condenser",
    CoreRole.CHARGE_AIR_COOLER: "CAC",
    CoreRole.COOLER: "cooler",
    CoreRole.RADIATOR: "radiator",
}


def trade_word(part: Part) -> str:
    """Return the word for this kind of part."""
    if isinstance(part, Core):
        return _ROLE_WORDS[part.role]
    if isinstance(part, Shroud):
        return "shroud"
    return "fan" if isinstance(part, Fan) else part.name


def clear_words(parts: Sequence[Part]) -> dict[str, str]:
    """Return for each part id the trade word, or the part's name where several share the word."""
    counts = Counter(trade_word(part) for part in parts)
    return {part.id: trade_word(part) if counts[trade_word(part)] == 1 else part.name for part in parts}
