"""What is said of a figure when somebody asks why, in the units of the session; nothing of Qt."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from grillestack.assess.figure import Input, Quantity, Why
from grillestack.units.display import UnitSystem
from grillestack.units.show import NOT_KNOWN, display_unit, show_bare, show_quantity

LONG_WORDS: Final = 24  # of an input's value: longer ones stand on lines of their own


def quantity_words(quantity: Quantity, units: UnitSystem) -> str:
    """Return the value with its unit, its words, or *not known*."""
    if quantity.words:
        return quantity.words
    if quantity.dimension is None or quantity.value is None:
        return NOT_KNOWN
    if quantity.is_fine:
        words = (
            f"{show_bare(quantity.value, quantity.dimension, units)} {display_unit(quantity.dimension, units)}".strip()
        )
    else:
        words = show_quantity(quantity.value, quantity.dimension, units)
    return f"−{words[1:]}" if words.startswith("-") else words


def title_words(why: Why, units: UnitSystem) -> str:
    """Return what the answer is about: the figure with its value where it has one."""
    has_value = bool(why.quantity.words) or why.quantity.dimension is not None
    return f"{why.title}: {quantity_words(why.quantity, units)}" if has_value else why.title


def input_words(one: Input, units: UnitSystem) -> tuple[str, str, str]:
    """Return name, value and origin of an input."""
    return one.name, quantity_words(one.quantity, units), one.origin


def source_lines(why: Why, listed: Mapping[str, str]) -> list[str]:
    """Return one line a source: its id and what the list says of it, or the words where it is none of the list."""
    lines = [f"[{one}] {listed[one]}" if one in listed else one for one in why.sources]
    if why.source_words:
        lines.append(f"{why.source_words[0].upper()}{why.source_words[1:]}.")
    return lines


def whole_words(why: Why, units: UnitSystem, listed: Mapping[str, str]) -> str:
    """Return everything as plain text, to be read aloud or copied."""
    lines = [title_words(why, units), why.says, why.method]
    for one in why.inputs:
        name, value, origin = input_words(one, units)
        lines.append(f"{name}: {value} ({origin})" if origin else f"{name}: {value}")
    lines += source_lines(why, listed)
    if why.spread:
        lines.append(f"How far it may be out: {why.spread}")
    return "\n".join(line for line in lines if line)
