"""The verb `compare`: which two layouts of a project are asked for, and what is said of them side by side."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from grillestack.assess.comparison import Comparison
from grillestack.cli.assessment_text import NO_PROOF
from grillestack.cli.refused import RefusedWordsError
from grillestack.cli.text_table import table
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem

COMPARE_HELP = """\
grillestack compare FILE [--with NAME]

Puts the layout in hand beside another one of the same project: what each does, and what differs in the parts.
  --with NAME   compare with the layout of this name; it may be left out where there are but two
Exit code: as that of grillestack assess, for the layout in hand."""

_WIDTH = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class ToCompare:
    """One comparison that was asked for; no name means the only other layout."""

    path: Path
    other_name: str | None


def to_compare(words: Sequence[str]) -> ToCompare:
    """Return what these words ask for.

    Raises
    ------
    RefusedWordsError
        If they make no sense.
    """
    names: list[str] = []
    other_name: str | None = None
    rest = iter(words)
    for word in rest:
        option, equals, joined = word.partition("=")
        if option == "--with":
            other_name = joined if equals else next(rest, "")
            if not other_name:
                raise RefusedWordsError('--with needs the name of a layout after it, such as --with "Layout A".')
        elif word.startswith("-"):
            raise RefusedWordsError(f"The verb “compare” has no option “{word}”: it knows --with.")
        else:
            names.append(word)
    if len(names) != 1:
        raise RefusedWordsError("Name one project whose layouts to compare: grillestack compare FILE")
    return ToCompare(path=Path(names[0]), other_name=other_name)


def name_of_other(project: Project, asked: ToCompare) -> str:
    """Return the name, as the project writes it, of the layout to compare with.

    Raises
    ------
    RefusedWordsError
        If there is none of that name, none at all, or several and none was named.
    """
    others = [variant.name for variant in project.variants]
    if not others:
        raise RefusedWordsError(
            f"This project has one layout only, “{project.variant_name}”: make a copy of it in the window and change the copy."
        )
    there = ", ".join(f"“{name}”" for name in others)
    if asked.other_name is None:
        if len(others) > 1:
            raise RefusedWordsError(f"“{project.variant_name}” can be compared with {there}: say which after --with.")
        return others[0]
    for name in others:
        if name.casefold() == asked.other_name.casefold():
            return name
    raise RefusedWordsError(
        f"There is no layout “{asked.other_name}” to compare “{project.variant_name}” with: this project has {there}."
    )


def comparison_text(comparison: Comparison, units: UnitSystem = UnitSystem.METRIC) -> str:
    """Return the page: which stands the hotter day, the figures side by side, what differs in the parts."""
    there, here = comparison.names
    rows = [
        [figure.label, figure.other_words(units), figure.in_hand_words(units), figure.difference_words(units)]
        for figure in comparison.figures
    ]
    blocks = [
        [comparison.in_hand.project.title],
        _wrapped(comparison.headline(units), ""),
        list(table(["", there, f"{here} (in hand)", "difference"], rows, words=1)),
        list(_notes(comparison)),
        list(_changes(comparison, units)),
        [NO_PROOF],
    ]
    return "\n\n".join("\n".join(block) for block in blocks if block)


def _notes(comparison: Comparison) -> Iterator[str]:
    for side in (comparison.other.project, comparison.in_hand.project):
        if side.variant_note_text:
            yield from _wrapped(f"Note on “{side.variant_name}”: {' '.join(side.variant_note_text.split())}", "  ")


def _changes(comparison: Comparison, units: UnitSystem) -> Iterator[str]:
    there, here = comparison.names
    sentences = comparison.sentences(units)
    if not sentences:
        yield f"No part of “{here}” differs from “{there}”."
        return
    yield f"What differs in “{here}” from “{there}”"
    for sentence in sentences:
        yield from _wrapped(f"  {sentence}", "    ")


def _wrapped(text: str, further: str) -> list[str]:
    return textwrap.wrap(
        text, _WIDTH, subsequent_indent=further, break_long_words=False, break_on_hyphens=False, drop_whitespace=True
    )
