"""The verb `fit`: which parts of the catalogue fit, which way round, what each costs, and what stops the others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from grillestack.cli.refused import RefusedWordsError
from grillestack.fit.result import FirstLook, Fit
from grillestack.fit.search import assessed, first_look, in_order
from grillestack.fit.slots import Kind, Slot, slot_for, slot_in_place_of
from grillestack.model.parts import Part
from grillestack.model.project import Project
from grillestack.model.values import ModelError

_KINDS: Final = ", ".join(kind.value for kind in Kind)

FIT_HELP = f"""\
grillestack fit FILE [--kind KIND] [--slot N] [--in-place-of PART] [--keep] [--no-assess] [--json]

Says which parts of the catalogue fit, which way round, what each costs the pack, and what stops the others.
  --kind KIND          what to look for: {_KINDS}; cac if not said
  --slot N             the gap between the cores that stay, counted from the front, 1 ahead of the first one;
                       if not said, the place of the part of that kind that is there, else the gap ahead of the radiator
  --in-place-of PART   take this part out instead, by its name or its id
  --keep               leave a part of that kind that is there where it is, and look for one more
  --no-assess          say at once what fits, without what it costs
  --json               write JSON for other programs instead of text; what is not known is null
Exit code: 0 something fits, 1 nothing fits, 2 it could not be searched."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToFit:
    """One search that was asked for."""

    path: Path
    kind: Kind | None
    number: int | None
    in_place_of: str | None
    keep: bool
    assess: bool
    as_json: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What a search found: the first look, and all that fits, best first."""

    project: Project
    look: FirstLook
    fits: tuple[Fit, ...]


def to_fit(words: Sequence[str]) -> ToFit:
    """Return what these words ask for.

    Raises
    ------
    RefusedWordsError
        If they make no sense.
    """
    names: list[str] = []
    given: dict[str, str] = {}
    flags: set[str] = set()
    rest = iter(words)
    for word in rest:
        option, equals, joined = word.partition("=")
        if option in ("--kind", "--slot", "--in-place-of"):
            given[option] = joined if equals else next(rest, "")
            if not given[option]:
                raise RefusedWordsError(f"{option} needs a word after it: type grillestack fit --help to see which.")
        elif word in ("--keep", "--no-assess", "--json"):
            flags.add(word)
        elif word.startswith("-"):
            raise RefusedWordsError(
                f"The verb “fit” has no option “{word}”: type grillestack fit --help to see what there is."
            )
        else:
            names.append(word)
    if len(names) != 1:
        raise RefusedWordsError("Name one project to look into: grillestack fit FILE")
    if "--in-place-of" in given and ({"--slot", "--kind"} & set(given) or "--keep" in flags):
        raise RefusedWordsError(
            "--in-place-of says already what is looked for and where: leave --kind, --slot and --keep out."
        )
    return ToFit(
        path=Path(names[0]),
        kind=_kind(given["--kind"]) if "--kind" in given else None,
        number=_number(given["--slot"]) if "--slot" in given else None,
        in_place_of=given.get("--in-place-of"),
        keep="--keep" in flags,
        assess="--no-assess" not in flags,
        as_json="--json" in flags,
    )


def found_for(project: Project, asked: ToFit, catalogue: Sequence[Part]) -> Found:
    """Return what the search finds.

    Raises
    ------
    RefusedWordsError
        If the project has no such part or slot.
    """
    look = first_look(project, catalogue, _slot(project, asked))
    fits = in_order(look, assessed(project, look) if asked.assess else ())
    return Found(project=project, look=look, fits=fits)


def _slot(project: Project, asked: ToFit) -> Slot:
    try:
        if asked.in_place_of is not None:
            return slot_in_place_of(project, _part_id(project, asked.in_place_of))
        return slot_for(project, asked.kind or Kind.CHARGE_AIR_COOLER, asked.number, keep=asked.keep)
    except ModelError as trouble:
        raise RefusedWordsError(str(trouble)) from trouble


def _part_id(project: Project, name: str) -> str:
    for part in project.parts:
        if name.casefold() in (part.id.casefold(), part.name.casefold()):
            return part.id
    there = ", ".join(f"“{part.name}”" for part in project.parts) or "none at all"
    raise RefusedWordsError(f"There is no part “{name}” in this pack: it has {there}.")


def _kind(word: str) -> Kind:
    try:
        return Kind(word.casefold())
    except ValueError:
        raise RefusedWordsError(f"There is no kind “{word}”: it is one of {_KINDS}.") from None


def _number(word: str) -> int:
    if not word.isdecimal() or len(word) > 3:
        raise RefusedWordsError(f"--slot needs a whole number from 1, not “{word}”.")
    return int(word)
