"""Every verb of the terminal but those that need a window."""

from __future__ import annotations

import json
import os
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TextIO

from grillestack.advice.findings import findings
from grillestack.assess.assess import assess
from grillestack.assess.compare import compare
from grillestack.assess.result import Assessment, Verdict
from grillestack.cli.assessment_json import assessment_dict
from grillestack.cli.assessment_text import assessment_text
from grillestack.cli.compare import COMPARE_HELP, comparison_text, name_of_other, to_compare
from grillestack.cli.explain import EXPLAIN_HELP, explained, to_explain
from grillestack.cli.explain_text import explanation
from grillestack.cli.fit import FIT_HELP, found_for, to_fit
from grillestack.cli.fit_json import fit_dict
from grillestack.cli.fit_text import fit_text
from grillestack.cli.refused import RefusedWordsError
from grillestack.cli.sheet import SHEET_HELP, drawn, to_draw, what_was_drawn, write_sheets
from grillestack.model.parts import Part
from grillestack.sheets.trouble import SheetError
from grillestack.storage.catalogue import load_catalogue
from grillestack.storage.project_file import read_project
from grillestack.storage.trouble import StoredFileError

DONE, FAILS, NOT_JUDGED = 0, 1, 2

ASSESS_HELP = """\
grillestack assess FILE [--json] [--detail]

Says whether the heat goes away, and why.
  --json     write JSON for other programs instead of text; what is not known is null
  --detail   add the zones of every face and what every core and fan does in each duty case
Exit code: 0 the heat goes away (or only just), 1 it does not, 2 it could not be judged."""

# What a terminal without these letters shows instead.
_PLAIN = str.maketrans(
    {"°": "deg ", "²": "2", "³": "3", "×": "x", "–": "-", "−": "-", "“": '"', "”": '"', "’": "'", "…": "...", "≥": ">="}
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    path: Path
    as_json: bool
    detail: bool


def run(argv: list[str]) -> int:
    """Do what the words say and return the exit code: 0 passes or is close, 1 fails, 2 could not be judged."""
    match argv:
        case ["assess", *rest] if {"-h", "--help"} & set(rest):
            _say(ASSESS_HELP, sys.stdout)
            return DONE
        case ["assess", *rest]:
            return _refusing(rest)
        case ["explain", *rest] if {"-h", "--help"} & set(rest):
            _say(EXPLAIN_HELP, sys.stdout)
            return DONE
        case ["explain", *rest]:
            return _explaining(rest)
        case ["compare", *rest] if {"-h", "--help"} & set(rest):
            _say(COMPARE_HELP, sys.stdout)
            return DONE
        case ["compare", *rest]:
            return _comparing(rest)
        case ["sheet", *rest] if {"-h", "--help"} & set(rest):
            _say(SHEET_HELP, sys.stdout)
            return DONE
        case ["sheet", *rest]:
            return _drawing(rest)
        case ["fit", *rest] if {"-h", "--help"} & set(rest):
            _say(FIT_HELP, sys.stdout)
            return DONE
        case ["fit", *rest]:
            return _fitting(rest)
        case []:
            _say(
                "Say what to do: type grillestack assess FILE, or grillestack --help to see what there is.", sys.stderr
            )
        case [verb, *_]:
            _say(f"There is no verb “{verb}”: type grillestack --help to see what there is.", sys.stderr)
    return NOT_JUDGED


def _refusing(words: list[str]) -> int:
    try:
        asked = _asked(words)
        project = read_project(asked.path)
    except (RefusedWordsError, StoredFileError) as trouble:
        _say(str(trouble), sys.stderr)
        return NOT_JUDGED
    try:
        assessment = assess(project)
        found = findings(project, assessment)
    except Exception as fault:  # noqa: BLE001  Python would exit with 1, which says that the pack fails
        _say(f"This pack could not be judged, because the calculation broke off: {fault}", sys.stderr)
        return NOT_JUDGED
    if asked.as_json:
        # JSON is read by programs: it stays within ASCII, whatever the terminal can show.
        answer = json.dumps(assessment_dict(assessment, found, detail=asked.detail), indent=2, allow_nan=False)
    else:
        answer = assessment_text(assessment, found, detail=asked.detail)
    _say(answer, sys.stdout)
    return _code(assessment)


def _explaining(words: list[str]) -> int:
    try:
        asked = to_explain(words)
        project = read_project(asked.path)
        subject = explained(project, asked, _catalogue() if asked.search else ())
    except (RefusedWordsError, StoredFileError) as trouble:
        _say(str(trouble), sys.stderr)
        return NOT_JUDGED
    except Exception as fault:  # noqa: BLE001  Python would exit with 1, which says that the pack fails
        _say(f"This pack could not be judged, because the calculation broke off: {fault}", sys.stderr)
        return NOT_JUDGED
    _say(explanation(subject), sys.stdout)
    return _code(subject.assessment)


def _comparing(words: list[str]) -> int:
    try:
        asked = to_compare(words)
        project = read_project(asked.path)
        comparison = compare(project, name_of_other(project, asked))
    except (RefusedWordsError, StoredFileError) as trouble:
        _say(str(trouble), sys.stderr)
        return NOT_JUDGED
    except Exception as fault:  # noqa: BLE001  Python would exit with 1, which says that the pack fails
        _say(f"These layouts could not be compared, because the calculation broke off: {fault}", sys.stderr)
        return NOT_JUDGED
    _say(comparison_text(comparison), sys.stdout)
    return _code(comparison.in_hand)


def _drawing(words: list[str]) -> int:
    try:
        asked = to_draw(words)
        sheets = drawn(read_project(asked.path), asked, _catalogue() if asked.has_report else ())
        files = write_sheets(sheets, asked.out)
    except (RefusedWordsError, StoredFileError, SheetError) as trouble:
        _say(str(trouble), sys.stderr)
        return NOT_JUDGED
    except Exception as fault:  # noqa: BLE001  Python would exit with 1, which says that the pack fails
        _say(f"Nothing was drawn, because the calculation broke off: {fault}", sys.stderr)
        return NOT_JUDGED
    _say("\n".join(what_was_drawn(sheets, files)), sys.stdout)
    return DONE


def _fitting(words: list[str]) -> int:
    try:
        asked = to_fit(words)
        project = read_project(asked.path)
        found = found_for(project, asked, load_catalogue())
    except (RefusedWordsError, StoredFileError) as trouble:
        _say(str(trouble), sys.stderr)
        return NOT_JUDGED
    except Exception as fault:  # noqa: BLE001  Python would exit with 1, which says that nothing fits
        _say(f"It could not be searched, because the calculation broke off: {fault}", sys.stderr)
        return NOT_JUDGED
    _say(json.dumps(fit_dict(found), indent=2, allow_nan=False) if asked.as_json else fit_text(found), sys.stdout)
    return DONE if found.fits else FAILS if found.look.near else NOT_JUDGED


def _catalogue() -> tuple[Part, ...]:
    try:
        return load_catalogue()
    except StoredFileError as trouble:
        _say(f"No other parts are tried, because the catalogue is not to be had. {trouble}", sys.stderr)
        return ()


def _code(assessment: Assessment) -> int:
    if assessment.verdict is Verdict.UNKNOWN:
        _say(_why_unknown(assessment), sys.stderr)
        return NOT_JUDGED
    return FAILS if assessment.verdict is Verdict.FAIL else DONE


def _asked(words: list[str]) -> _Asked:
    options = {word for word in words if word.startswith("-")}
    names = [word for word in words if not word.startswith("-")]
    for option in sorted(options - {"--json", "--detail"}):
        raise RefusedWordsError(f"The verb “assess” has no option “{option}”: it knows --json and --detail.")
    if len(names) != 1:
        raise RefusedWordsError("Name one project to assess: grillestack assess FILE")
    return _Asked(path=Path(names[0]), as_json="--json" in options, detail="--detail" in options)


def _why_unknown(assessment: Assessment) -> str:
    reasons = [reason for case in assessment.cases for reason in case.reasons]
    return f"This pack could not be judged. {reasons[0] if reasons else 'An input is missing: see the findings.'}"


def _say(text: str, to: TextIO) -> None:
    """Write the text and a line end; letters the terminal lacks are written out, and a reader that left is no fault."""
    encoding = to.encoding or "utf-8"
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        text = text.translate(_PLAIN).encode(encoding, "replace").decode(encoding)
    try:
        to.write(f"{text}\n")
        to.flush()
    except BrokenPipeError:
        # Python flushes once more at its end and would complain then.
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, to.fileno())
        os.close(nowhere)
