"""What a search for parts found, as a page of text: what fits, best first, then what nearly does."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import Final

from grillestack.cli.assessment_text import NO_PROOF
from grillestack.cli.fit import Found
from grillestack.cli.text_table import table
from grillestack.fit.result import Near
from grillestack.fit.words import headline, margin_words, near_sentences, place_words, row_words
from grillestack.units.display import UnitSystem

_WIDTH: Final = 100
_MOST_NEAR: Final = 8
_HEAD: Final = ["", "number", "way round", "margin", "hottest", "lost", "charge", "loss", "verdict"]


def fit_text(found: Found, units: UnitSystem = UnitSystem.METRIC) -> str:
    """Return the page."""
    blocks = [
        [found.project.title],
        [line for sentence in (headline(found.look), *found.look.refused) for line in _wrapped(sentence, "")],
        [line for sentence in found.look.remarks for line in _wrapped(sentence, "")],
        list(_fits(found, units)),
        list(_best(found, units)),
        list(_near(found)),
        list(_legend(found)),
        [NO_PROOF],
    ]
    return "\n\n".join("\n".join(block) for block in blocks if block)


def _fits(found: Found, units: UnitSystem) -> Iterator[str]:
    if not found.fits:
        return
    yield "What fits, best first"
    rows = []
    for place, fit in enumerate(found.fits, start=1):
        said = row_words(fit, units)
        rows.append(
            [
                f"{place}",
                fit.part.id,
                said.way,
                said.margin,
                said.hottest,
                said.lost,
                said.charge,
                said.loss,
                said.verdict,
            ]
        )
    yield from table(_HEAD, rows, words=3)


def _best(found: Found, units: UnitSystem) -> Iterator[str]:
    if not found.fits:
        return
    best = found.fits[0]
    said = row_words(best, units)
    yield "The first of them"
    yield from _wrapped(
        f"  {best.part.name}, {said.size} over all, {said.way}: {place_words(best.placement, units)}.", "  "
    )
    yield from _wrapped(
        f"  Margin beyond the clearances: {margin_words(best.travel, units)}. Ports: {said.ports}.", "  "
    )


def _near(found: Found) -> Iterator[str]:
    near = found.look.near
    if not near:
        return
    yield "What does not fit, the nearest first"
    cautions: list[str] = []
    for one in near[:_MOST_NEAR]:
        yield from _wrapped(f"  {one.part.id}: {' '.join(_said(one, cautions))}", "    ")
    if len(near) > _MOST_NEAR:
        more = len(near) - _MOST_NEAR
        yield f"  {more} more {'does' if more == 1 else 'do'} not fit: --json lists {'it too' if more == 1 else 'them all'}."
    for caution in cautions:
        yield from _wrapped(f"  {caution}", "  ")


def _said(near: Near, cautions: list[str]) -> Iterator[str]:
    """Yield what is said of a part; its caution is kept back, to be said once under them all."""
    own = {change.caution for change in near.changes if change.caution}
    for sentence in near_sentences(near):
        if sentence not in own:
            yield sentence
        elif sentence not in cautions:
            cautions.append(sentence)


def _legend(found: Found) -> Iterator[str]:
    if any(fit.cost is not None for fit in found.fits):
        yield from _wrapped(
            "Margin is how far the part can still be moved at its tightest side, lost the exposed face of the radiator that it "
            "takes; charge and loss are the charge air's temperature behind the cooler and its loss of pressure, at their worst.",
            "",
        )


def _wrapped(text: str, further: str) -> list[str]:
    return textwrap.wrap(text, _WIDTH, subsequent_indent=further, break_long_words=False, break_on_hyphens=False)
