"""The frame and the title block of a sheet, and the sheets with both, numbered."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grillestack.model.project import Project
from grillestack.sheets.draw_list import FRAME, OUTLINE, THIN, Layer, Line, Mark, Point, Polyline, Sheet, Text
from grillestack.sheets.lettering import lines_of, shortened, text_width_mm
from grillestack.sheets.paper import Area, paper_form, scale_words
from grillestack.sheets.projection_symbol import projection_symbol
from grillestack.sheets.sheet_body import SheetBody, title_area
from grillestack.sheets.shifted import shifted

_LABEL_MM, _VALUE_MM, _TITLE_MM = 1.8, 2.5, 3.5
_PAD_MM = 1.2
_CENTRING_MM = 5.0
_GRADUATION_MM = 100.0
_PRINTED = "100 mm when printed at full size"
NOT_GIVEN = "–"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Field:
    """One field: its place in the block, its name, what stands in it."""

    area: Area
    label: str
    value: str
    further: str = ""
    is_large: bool = False


def finished_sheets(project: Project, bodies: Sequence[SheetBody]) -> tuple[Sheet, ...]:
    """Return the sheets with frame, title block and number, their dimensions moved or left out as the project says."""
    return tuple(_finished(project, body, number, len(bodies)) for number, body in enumerate(bodies, start=1))


def _finished(project: Project, body: SheetBody, number: int, total: int) -> Sheet:
    form = paper_form(body.paper)
    return Sheet(
        key=body.key,
        title=body.title,
        view=body.view,
        paper=body.paper,
        width_mm=form.width_mm,
        height_mm=form.height_mm,
        scale_factor=body.scale_factor or 1.0,
        line_group=form.line_group,
        marks=(*_frame(body), *_title_block(project, body, number, total), *shifted(body.marks, project.sheet.shifts)),
        views=body.views,
        warnings=body.warnings,
    )


def _frame(body: SheetBody) -> Iterator[Mark]:
    form = paper_form(body.paper)
    frame = form.frame
    yield _box(frame, Layer.FRAME)
    middle_x, middle_y = form.width_mm / 2, form.height_mm / 2
    for start, end in (
        (Point(middle_x, frame.y1_mm), Point(middle_x, frame.y1_mm + _CENTRING_MM)),
        (Point(middle_x, frame.y0_mm - _CENTRING_MM), Point(middle_x, frame.y0_mm)),
        (Point(frame.x0_mm - _CENTRING_MM, middle_y), Point(frame.x0_mm, middle_y)),
        (Point(frame.x1_mm, middle_y), Point(frame.x1_mm + _CENTRING_MM, middle_y)),
    ):
        yield Line(start=start, end=end, stroke=FRAME, layer=Layer.FRAME)
    yield from _graduation(body)


def _graduation(body: SheetBody) -> Iterator[Mark]:
    """Return the metric reference graduation of ISO 5457: 100 mm with a mark each 10, about the middle of the lower border."""
    form = paper_form(body.paper)
    left, top = form.width_mm / 2 - _GRADUATION_MM / 2, form.frame.y0_mm
    for place in range(11):
        x = left + 10.0 * place
        low = Point(x, top - (3.0 if place % 5 == 0 else 1.5))
        # The middle is the centring mark.
        if place != 5:
            yield Line(start=Point(x, top), end=low, stroke=THIN, layer=Layer.FRAME)
    at = Point(left + _GRADUATION_MM + 2.0, top - 3.0)
    yield Text(at=at, text=_PRINTED, height_mm=_LABEL_MM, layer=Layer.FRAME)


def _title_block(project: Project, body: SheetBody, number: int, total: int) -> Iterator[Mark]:
    block = title_area(body.paper)
    yield Polyline(points=_corners(block), is_closed=True, stroke=OUTLINE, layer=Layer.TITLE)
    for field in _fields(project, body, f"{number} / {total}"):
        area = field.area.moved(block.x0_mm, block.y0_mm)
        yield Polyline(points=_corners(area), is_closed=True, stroke=THIN, layer=Layer.TITLE)
        yield from _written(field, area)
    if body.shows_projection:
        cell = _PROJECTION.moved(block.x0_mm, block.y0_mm)
        middle = Point((cell.x0_mm + cell.x1_mm) / 2, (cell.y0_mm + cell.y1_mm) / 2)
        yield from projection_symbol(project.sheet.projection, middle, 5.0)


_PROJECTION = Area(158.0, 27.0, 180.0, 36.0)


def _fields(project: Project, body: SheetBody, number: str) -> tuple[_Field, ...]:
    choices = project.sheet
    projection = "" if body.shows_projection else NOT_GIVEN
    return (
        _Field(area=Area(0.0, 27.0, 42.0, 36.0), label="Created by", value=choices.drawn_by_text),
        _Field(area=Area(42.0, 27.0, 84.0, 36.0), label="Approved by", value=choices.approved_by_text),
        _Field(area=Area(84.0, 27.0, 136.0, 36.0), label="Document type", value=body.document_type),
        _Field(
            area=Area(136.0, 27.0, 158.0, 36.0),
            label="Scale",
            value=scale_words(body.scale_factor) if body.scale_factor else "none",
        ),
        _Field(area=_PROJECTION, label="", value=projection),
        _Field(area=Area(0.0, 9.0, 58.0, 27.0), label="Legal owner", value=choices.owner_text),
        _Field(
            area=Area(58.0, 9.0, 136.0, 27.0),
            label="Title",
            value=project.title,
            further=f"{body.title} · {project.variant_name}",
            is_large=True,
        ),
        _Field(area=Area(136.0, 18.0, 180.0, 27.0), label="Document number", value=choices.document_number_text),
        _Field(area=Area(136.0, 9.0, 158.0, 18.0), label="Revision", value=choices.revision_text),
        _Field(area=Area(158.0, 9.0, 180.0, 18.0), label="Sheet", value=number),
        _Field(area=Area(0.0, 0.0, 84.0, 9.0), label="For", value=f"{project.nose.name} · VERIFY ON VEHICLE"),
        _Field(area=Area(84.0, 0.0, 136.0, 9.0), label="Date of issue", value=choices.date_text),
        _Field(area=Area(136.0, 0.0, 158.0, 9.0), label="Language", value="en"),
        _Field(area=Area(158.0, 0.0, 180.0, 9.0), label="Paper", value=body.paper.value),
    )


def _written(field: _Field, area: Area) -> Iterator[Text]:
    room = area.width_mm - 2 * _PAD_MM
    left = area.x0_mm + _PAD_MM
    if field.label:
        at = Point(left, area.y1_mm - _PAD_MM - _LABEL_MM)
        yield Text(at=at, text=field.label, height_mm=_LABEL_MM, layer=Layer.TITLE)
    if field.is_large:
        yield from _large(field, area, room)
    elif field.label or field.value:
        text = shortened(field.value, _VALUE_MM, room) or NOT_GIVEN
        yield Text(at=Point(left, area.y0_mm + 1.6), text=text, height_mm=_VALUE_MM, layer=Layer.TITLE)
    if field.further:
        text = shortened(field.further, _VALUE_MM, room)
        yield Text(at=Point(left, area.y0_mm + 2.4), text=text, height_mm=_VALUE_MM, layer=Layer.TITLE)


def _large(field: _Field, area: Area, room_mm: float) -> Iterator[Text]:
    """Return the title: large if it fits one line, otherwise smaller in two."""
    left = area.x0_mm + _PAD_MM
    said = " ".join(field.value.split())
    if text_width_mm(said, _TITLE_MM, is_bold=True) <= room_mm:
        at = Point(left, area.y0_mm + 7.6)
        yield Text(at=at, text=said or NOT_GIVEN, height_mm=_TITLE_MM, is_bold=True, layer=Layer.TITLE)
        return
    lines = lines_of(said, _VALUE_MM, room_mm, is_bold=True)
    shown = (lines[0], shortened(" ".join(lines[1:]), _VALUE_MM, room_mm, is_bold=True))
    for line, up in zip(shown, (10.4, 6.4), strict=True):
        at = Point(left, area.y0_mm + up)
        yield Text(at=at, text=line, height_mm=_VALUE_MM, is_bold=True, layer=Layer.TITLE)


def _box(area: Area, layer: Layer) -> Polyline:
    return Polyline(points=_corners(area), is_closed=True, stroke=FRAME, layer=layer)


def _corners(area: Area) -> tuple[Point, ...]:
    return (
        Point(area.x0_mm, area.y0_mm),
        Point(area.x1_mm, area.y0_mm),
        Point(area.x1_mm, area.y1_mm),
        Point(area.x0_mm, area.y1_mm),
    )
