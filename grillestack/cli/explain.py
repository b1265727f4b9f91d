"""The verb `explain`: what was asked for, and everything its text is made of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from grillestack.advice.ladder import ladder
from grillestack.assess.assess import assess
from grillestack.assess.confidence import confidence
from grillestack.assess.core_spread import core_spread
from grillestack.assess.result import Assessment, CaseResult
from grillestack.assess.waterfall import waterfall
from grillestack.cli.explain_text import Explained
from grillestack.cli.refused import RefusedWordsError
from grillestack.model.parts import Part
from grillestack.model.project import Project

EXPLAIN_HELP = """\
grillestack explain FILE [--case NAME] [--no-search]

Says in plain sentences why the hottest day is what it is, from the engine's heat to what to change first.
  --case NAME   speak of this duty case; without it, of the one that decides
  --no-search   leave out what to change first
Exit code: as that of grillestack assess."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToExplain:
    """One explanation that was asked for; no case named means the deciding one."""

    path: Path
    case_name: str | None
    search: bool


def to_explain(words: Sequence[str]) -> ToExplain:
    """Return what these words ask for.

    Raises
    ------
    RefusedWordsError
        If they make no sense.
    """
    names: list[str] = []
    case_name: str | None = None
    search = True
    rest = iter(words)
    for word in rest:
        option, equals, joined = word.partition("=")
        if option == "--case":
            case_name = joined if equals else next(rest, "")
            if not case_name:
                raise RefusedWordsError("--case needs the name of a duty case after it, such as --case Crawl.")
        elif word == "--no-search":
            search = False
        elif word.startswith("-"):
            raise RefusedWordsError(f"The verb “explain” has no option “{word}”: it knows --case and --no-search.")
        else:
            names.append(word)
    if len(names) != 1:
        raise RefusedWordsError("Name one project to explain: grillestack explain FILE")
    return ToExplain(path=Path(names[0]), case_name=case_name, search=search)


def explained(project: Project, asked: ToExplain, catalogue: Sequence[Part]) -> Explained:
    """Return everything the explanation of this project is made of.

    Raises
    ------
    RefusedWordsError
        If the project has no duty case of that name, or none at all.
    """
    case_id = _case_id(project, asked.case_name)
    assessment = assess(project)
    case = _case_of(assessment, case_id)
    if case is None:
        raise RefusedWordsError("There is no duty case to explain: add one to the project.")
    known = case.heat_capacity_w is not None
    return Explained(
        assessment=assessment,
        case=case,
        waterfall=waterfall(project, case.case_id) if known else None,
        confidence=confidence(project, case.case_id, heat_spread=core_spread) if known else None,
        ladder=ladder(project, catalogue, case_id=case.case_id) if known and asked.search else None,
    )


def _case_id(project: Project, name: str | None) -> str | None:
    if name is None:
        return None
    for case in project.cases:
        if name.casefold() in (case.name.casefold(), case.id):
            return case.id
    there = ", ".join(f"“{case.name}”" for case in project.cases)
    raise RefusedWordsError(f"There is no duty case “{name}” in this project: it has {there or 'none'}.")


def _case_of(assessment: Assessment, case_id: str | None) -> CaseResult | None:
    """Return the named case, the deciding one, or the first if none can decide."""
    if case_id is None:
        return assessment.deciding_case or next(iter(assessment.cases), None)
    return next((case for case in assessment.cases if case.case_id == case_id), None)
