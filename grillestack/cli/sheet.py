"""The verb `sheet`: which drawings are asked for, and the files that hold them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from msgspec.structs import replace

from grillestack.advice.ladder import ladder
from grillestack.assess.assess import assess
from grillestack.assess.confidence import confidence
from grillestack.assess.core_spread import core_spread
from grillestack.assess.result import Assessment
from grillestack.assess.waterfall import waterfall
from grillestack.cli.refused import RefusedWordsError
from grillestack.model.parts import Part
from grillestack.model.project import Project
from grillestack.model.sheet_choices import Paper, SheetView
from grillestack.model.values import ModelError
from grillestack.sheets.compose import sheets_of
from grillestack.sheets.compose_report import WorkedOut
from grillestack.sheets.compose_template import template_sheets
from grillestack.sheets.draw_list import Sheet
from grillestack.sheets.output import ENDINGS, file_bytes
from grillestack.sheets.paper import scale_words
from grillestack.storage.atomic import replace_file
from grillestack.storage.trouble import StoredFileError, why_not_written

SHEET_HELP = """\
grillestack sheet FILE --out X.pdf|X.svg|X.dxf [--view NAMES] [--paper SIZE] [--date TEXT] [--full-size] [--report]

Draws the project on paper. A PDF holds all sheets; of an SVG or a DXF there is one file for each: X-1.svg, X-2.svg.
  --out X        the file to write; its ending says which kind
  --view NAMES   what to draw, with commas between: pack, parts-list, brackets, shroud, template, report;
                 without it, what the project names
  --paper SIZE   A4, A3, A2, A1, Letter, Tabloid or ANSI-D instead of the project's own
  --date TEXT    the date of issue in the title block
  --full-size    what --view names at full size, to be laid on the metal: pack, brackets, shroud; without it, the blanks of
                 brackets and shroud. A PDF lays it over several sheets with a page on how to print and join them
  --report       the report besides, or alone if no view is named
Exit code: 0 written, 2 not."""

_VIEWS = {view.value.replace(" ", "-"): view for view in SheetView}
_PAPERS = {paper.value.replace(" ", "-").casefold(): paper for paper in Paper}
_WITH_WORDS = ("--out", "--view", "--paper", "--date")


@dataclass(frozen=True, slots=True, kw_only=True)
class ToDraw:
    """One set of drawings that was asked for; nothing named means as the project has it."""

    path: Path
    out: Path
    views: tuple[SheetView, ...] | None = None
    paper: Paper | None = None
    date_text: str | None = None
    is_full_size: bool = False
    has_report: bool = False


def to_draw(words: Sequence[str]) -> ToDraw:
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
        if option in _WITH_WORDS:
            given[option] = joined if equals else next(rest, "")
            if not given[option]:
                raise RefusedWordsError(f"{option} needs a word after it: type grillestack sheet --help.")
        elif word in ("--full-size", "--report"):
            flags.add(word)
        elif word.startswith("-"):
            known = ", ".join((*_WITH_WORDS, "--full-size", "--report"))
            raise RefusedWordsError(f"The verb “sheet” has no option “{word}”: it knows {known}.")
        else:
            names.append(word)
    if len(names) != 1:
        raise RefusedWordsError("Name one project to draw: grillestack sheet FILE --out X.pdf")
    views = _views(given.get("--view"))
    return ToDraw(
        path=Path(names[0]),
        out=_out(given.get("--out")),
        views=views,
        paper=_paper(given.get("--paper")),
        date_text=given.get("--date"),
        is_full_size="--full-size" in flags,
        has_report="--report" in flags or SheetView.REPORT in (views or ()),
    )


def drawn(project: Project, asked: ToDraw, catalogue: Sequence[Part] = ()) -> tuple[Sheet, ...]:
    """Return the sheets that were asked for; the parts of the catalogue are those a report may offer instead.

    Raises
    ------
    SheetError
        If they cannot be drawn.
    RefusedWordsError
        If the date is no text for a title block.
    """
    choices = project.sheet
    if asked.paper is not None:
        choices = replace(choices, paper=asked.paper)
    if asked.date_text is not None:
        try:
            choices = replace(choices, date_text=asked.date_text)
        except ModelError as trouble:
            raise RefusedWordsError(str(trouble)) from None
    project = replace(project, sheet=choices)
    if not asked.is_full_size and not asked.has_report:
        return sheets_of(project, assess(project), asked.views)
    named = tuple(view for view in asked.views or () if view is not SheetView.REPORT)
    found: tuple[Sheet, ...] = ()
    if asked.is_full_size:
        found = template_sheets(
            project,
            tuple(view for view in named if view is not SheetView.TEMPLATE) or None,
            is_tiled=asked.out.suffix.casefold() == ".pdf",
        )
        named = ()
    if asked.has_report:
        assessment = assess(project)
        worked_out = _worked_out(project, assessment, catalogue)
        found = (*sheets_of(project, assessment, (*named, SheetView.REPORT), worked_out), *found)
    return found


def _worked_out(project: Project, assessment: Assessment, catalogue: Sequence[Part]) -> WorkedOut:
    """Return what the report tells besides; nothing where the deciding case cannot be judged."""
    case = assessment.deciding_case
    if case is None or case.heat_capacity_w is None:
        return WorkedOut()
    return WorkedOut(
        waterfall=waterfall(project, case.case_id),
        confidence=confidence(project, case.case_id, heat_spread=core_spread),
        ladder=ladder(project, catalogue, case_id=case.case_id),
    )


def write_sheets(sheets: Sequence[Sheet], out: Path) -> tuple[Path, ...]:
    """Write the sheets and return the files; all are made before the first is written.

    Raises
    ------
    SheetError
        If a sheet cannot be written in that kind of file.
    StoredFileError
        If a file cannot be written; it is then as it was.
    """
    written = []
    for behind, content in file_bytes(sheets, out.suffix).items():
        path = out.with_name(f"{out.stem}{behind}{out.suffix}")
        try:
            replace_file(path, content)
        except (OSError, ValueError) as trouble:
            raise StoredFileError(path, why_not_written(path, trouble)) from trouble
        written.append(path)
    return tuple(written)


def what_was_drawn(sheets: Sequence[Sheet], files: Sequence[Path]) -> Iterator[str]:
    """Return lines on what was written."""
    for sheet in sheets:
        scale = f", {scale_words(sheet.scale_factor)}" if sheet.views else ""
        yield f"{sheet.title} ({sheet.paper.value}{scale})"
        yield from (f"  {warning}" for warning in sheet.warnings)
    yield f"Written: {', '.join(str(file) for file in files)}"


def _out(word: str | None) -> Path:
    if word is None:
        raise RefusedWordsError("Say where to write the drawing: --out X.pdf, --out X.svg or --out X.dxf")
    out = Path(word)
    if out.suffix.casefold() not in ENDINGS:
        raise RefusedWordsError(
            f"“{out.name}” is no file of a drawing: let the name after --out end in .pdf, .svg or .dxf."
        )
    return out


def _views(words: str | None) -> tuple[SheetView, ...] | None:
    views: list[SheetView] = []
    for word in words.split(",") if words else ():
        view = _VIEWS.get(word.strip().casefold().replace(" ", "-"))
        if view is None:
            raise RefusedWordsError(f"There is no drawing “{word.strip()}”: choose among {', '.join(_VIEWS)}.")
        views.append(view)
    return tuple(dict.fromkeys(views)) or None


def _paper(word: str | None) -> Paper | None:
    if word is None:
        return None
    paper = _PAPERS.get(word.strip().casefold().replace(" ", "-"))
    if paper is None:
        sizes = ", ".join(paper.value.replace(" ", "-") for paper in Paper)
        raise RefusedWordsError(f"There is no paper “{word}”: choose among {sizes}.")
    return paper
