"""The pack sketch: front, side and plan view in the chosen projection, fitted to the sheet, with their dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from grillestack.geometry.depth import DepthReport
from grillestack.model.project import Project
from grillestack.model.sheet_choices import Paper, Projection, SheetView
from grillestack.sheets.arrangement import Arrangement, Extents, Needs, arrangements
from grillestack.sheets.caption import CAPTION_BASE_FRAC, caption_height_mm, caption_marks, caption_width_mm
from grillestack.sheets.collisions import all_texts, collisions, segments_of
from grillestack.sheets.datum import Datum, datum_of
from grillestack.sheets.dimension_marks import text_area
from grillestack.sheets.dimension_wishes import Ordinate, depth_wishes, front_wishes, ordinates
from grillestack.sheets.draw_list import Axis, LinearDimension, Mark, Point, View
from grillestack.sheets.gap_wishes import REF, GapWish, gap_wishes, overall_depth_wishes
from grillestack.sheets.note_block import note_block
from grillestack.sheets.notes import pack_notes
from grillestack.sheets.ordinate_rows import Row, RowItem, broken, placed_row, row_length_mm, row_reach_mm
from grillestack.sheets.paper import Area, paper_form, scale_words, scales_from
from grillestack.sheets.part_names import part_name_marks, vehicle_name_marks
from grillestack.sheets.say_length import said_length
from grillestack.sheets.sheet_body import CLEAR_MM, SheetBody, SheetTooSmallError, room_of, title_area
from grillestack.sheets.tiers import TierItem, Tiers, placed_tiers, tiers_reach_mm
from grillestack.sheets.vehicle_lines import Bounds
from grillestack.sheets.view_faces import Looking, Seen
from grillestack.sheets.view_marks import OnPaper, Picture, pack_bounds, picture_marks, picture_of

# How much of the vehicle is shown around the pack, on paper
_AROUND_MM = 2.0
# Of the ways in which the views lie on the sheet, so many are tried in earnest.
_MOST_TRIED = 3
_ONE_TIER_FRAC = 4.6
_LONG_LABELS_FRAC, _SHORT_LABELS_FRAC = 13.0, 8.2


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wanted:
    """What is to be drawn, apart from where."""

    project: Project
    paper: Paper
    datum: Datum
    across: tuple[Ordinate, ...]
    up: tuple[Ordinate, ...]
    depth: tuple[Ordinate, ...]
    gaps: tuple[GapWish, ...]
    gaps_said: tuple[str, ...]
    # On narrow paper labels break early, and gaps go into the notes.
    longest_frac: float = _LONG_LABELS_FRAC
    draws_gaps: bool = True

    @property
    def text_mm(self) -> float:
        return paper_form(self.paper).text_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class _Views:
    """The three pictures at full size."""

    front: Picture
    plan: Picture
    side: Picture


def compose_pack(project: Project, report: DepthReport) -> tuple[SheetBody, ...]:
    """Return the sheet of the pack's arrangement; none for a pack without parts.

    Raises
    ------
    SheetTooSmallError
        If it does not fit the paper at the chosen scale, or at any.
    """
    datum = datum_of(project)
    if datum is None:
        return ()
    wanted = _wanted(project, datum, report)
    choices = project.sheet
    scales = [choices.scale_factor] if choices.scale_factor is not None else list(scales_from())
    fallback: SheetBody | None = None
    for scale in scales:
        for way in _ways(wanted):
            for body, has_notes in _bodies(way, scale):
                if has_notes:
                    return (body,)
                fallback = fallback or body
        if fallback is not None:
            return (fallback,)
    raise SheetTooSmallError(_too_small(choices.paper, choices.scale_factor))


def _wanted(project: Project, datum: Datum, report: DepthReport) -> _Wanted:
    front = front_wishes(project, datum)
    gaps, said = gap_wishes(project, report)
    return _Wanted(
        project=project,
        paper=project.sheet.paper,
        datum=datum,
        across=ordinates(front, Axis.ACROSS),
        up=ordinates(front, Axis.UP),
        depth=ordinates(depth_wishes(project, datum), Axis.UP),
        gaps=gaps,
        gaps_said=said,
    )


def _ways(wanted: _Wanted) -> tuple[_Wanted, ...]:
    return (
        wanted,
        replace(wanted, longest_frac=_SHORT_LABELS_FRAC),
        replace(wanted, longest_frac=_SHORT_LABELS_FRAC, draws_gaps=False),
    )


def _bodies(wanted: _Wanted, scale_factor: float) -> Iterator[tuple[SheetBody, bool]]:
    """Return the sheet at this scale in each way it fits, and whether the notes have room on it."""
    project = wanted.project
    third = project.sheet.projection is Projection.THIRD_ANGLE
    around = _AROUND_MM * scale_factor
    views = _Views(
        front=picture_of(project, Looking.AHEAD, around),
        plan=picture_of(project, Looking.ABOVE, 0.0),
        side=picture_of(project, Looking.LEFT if third else Looking.RIGHT, around),
    )
    extents = _extents(views)
    needs = _needs(wanted, views, extents, scale_factor)
    notes = _notes(wanted, extents, scale_factor)
    places = list(arrangements(extents, needs, wanted.paper, project.sheet.projection, scale_factor))
    blocks = [note_block(notes, place.note_areas, wanted.text_mm) for place in places]
    best = sorted(zip(places, blocks, strict=True), key=lambda pair: pair[1] is None)[:_MOST_TRIED]
    for place, block in best:
        marks = _marks(wanted, views, extents, place)
        if marks is None or collisions((*marks, *(block or ()))):
            continue
        marks = _named(wanted, views, place, (*marks, *(block or ())))
        yield _body(wanted, place, marks, scale_factor, has_notes=block is not None), block is not None


def _notes(wanted: _Wanted, extents: Extents, scale_factor: float) -> tuple[str, ...]:
    """Return the notes, with those gaps in words that found no place in the drawing."""
    drawn = {dimension.key for dimension in _gap_dimensions(wanted, _at_origin(scale_factor), extents)[0]}
    said = [*_in_words([wish for wish in wanted.gaps if wish.key not in drawn]), *wanted.gaps_said]
    notes = pack_notes(wanted.project, wanted.datum)
    return (*notes, f"Further gaps. {'; '.join(said)}.") if said else notes


def _in_words(gaps: Sequence[GapWish]) -> list[str]:
    """Return the gaps in words, those behind one part that are alike together."""
    alike: dict[tuple[str, str], list[str]] = {}
    for wish in gaps:
        start, _, end = wish.names.partition(" to ")
        alike.setdefault((start, wish.text), []).append(end)
    return [f"{start} to {', '.join(ends)}: {text}" for (start, text), ends in alike.items()]


def _at_origin(scale_factor: float) -> OnPaper:
    return OnPaper(scale_factor=scale_factor, u0_mm=0.0, v0_mm=0.0, x0_mm=0.0, y0_mm=0.0)


def _extents(views: _Views) -> Extents:
    front, plan, side = views.front.bounds, views.plan.bounds, views.side.bounds
    u0, u1 = min(front.u0_mm, plan.u0_mm), max(front.u1_mm, plan.u1_mm)
    v0, v1 = min(front.v0_mm, side.v0_mm), max(front.v1_mm, side.v1_mm)
    return Extents(
        across=Bounds(u0, v0, u1, v1),
        along_plan=Bounds(u0, plan.v0_mm, u1, plan.v1_mm),
        along_side=Bounds(side.u0_mm, v0, side.u1_mm, v1),
    )


def _needs(wanted: _Wanted, views: _Views, extents: Extents, scale_factor: float) -> Needs:
    h = wanted.text_mm
    at_origin = _at_origin(scale_factor)
    gaps, gap_tiers = _gap_dimensions(wanted, at_origin, extents)
    depth, side_tiers = _depth_dimensions(wanted, views, at_origin, extents)
    return Needs(
        left_row_mm=row_reach_mm([_text(o, wanted) for o in (*wanted.up, *wanted.depth)], h),
        across_row_mm=row_reach_mm([_text(o, wanted) for o in wanted.across], h),
        across_length_mm=row_length_mm([_text(o, wanted) for o in wanted.across], h),
        gap_tiers_mm=tiers_reach_mm(gaps, gap_tiers),
        side_tiers_mm=tiers_reach_mm(depth, side_tiers),
        width_tier_mm=_ONE_TIER_FRAC * h,
        height_tier_mm=_ONE_TIER_FRAC * h,
        front_caption_mm=_caption_mm(wanted, Looking.AHEAD, extents.across, scale_factor),
        plan_caption_mm=_caption_mm(wanted, Looking.ABOVE, extents.along_plan, scale_factor),
        side_caption_mm=_caption_mm(wanted, views.side.looking, extents.along_side, scale_factor),
        side_caption_width_mm=caption_width_mm(views.side.looking, h),
        side_left_mm=_overhang(depth, extents.along_side, scale_factor)[0],
        side_right_mm=_overhang(depth, extents.along_side, scale_factor)[1],
    )


def _overhang(drawn: Sequence[LinearDimension], bounds: Bounds, scale_factor: float) -> tuple[float, float]:
    """Return how far dimensions reach beyond the left and the right of a view."""
    lines = segments_of(drawn)
    if not len(lines):
        return 0.0, 0.0
    areas = [text_area(text) for text in all_texts(drawn)]
    low = min(float(lines[:, (0, 2)].min()), *(area.x0_mm for area in areas))
    high = max(float(lines[:, (0, 2)].max()), *(area.x1_mm for area in areas))
    return max(0.0, bounds.u0_mm / scale_factor - low), max(0.0, high - bounds.u1_mm / scale_factor)


def _marks(wanted: _Wanted, views: _Views, extents: Extents, place: Arrangement) -> tuple[Mark, ...] | None:
    rows = _rows(wanted, extents, place)
    if rows is None:
        return None
    h = wanted.text_mm
    marks: list[Mark] = [
        *picture_marks(views.front, place.front),
        *picture_marks(views.plan, place.plan),
        *picture_marks(views.side, place.side),
        *rows,
    ]
    marks += _gap_dimensions(wanted, place.plan, extents)[0]
    marks += _depth_dimensions(wanted, views, place.side, extents)[0]
    marks += _overall(wanted, views, extents, place)
    for picture, on, bounds, top in (
        (views.front, place.front, extents.across, place.front_area.y1_mm),
        (views.plan, place.plan, extents.along_plan, place.plan_area.y1_mm),
        (views.side, place.side, extents.along_side, place.side_area.y1_mm),
    ):
        low, high = on.at(Seen(bounds.u0_mm, bounds.v0_mm)), on.at(Seen(bounds.u1_mm, bounds.v1_mm))
        base = top - _caption_mm(wanted, picture.looking, bounds, on.scale_factor) + CAPTION_BASE_FRAC * h
        marks += caption_marks(picture.looking, low.x_mm, high.x_mm, base, h)
    return tuple(marks)


def _named(wanted: _Wanted, views: _Views, place: Arrangement, marks: Sequence[Mark]) -> tuple[Mark, ...]:
    """Return the marks with the names of parts and of what belongs to the vehicle, where these have room."""
    front, side = (views.front, place.front), (views.side, place.side)
    marks = (*marks, *part_name_marks(wanted.project, front, side, marks))
    return (
        *marks,
        *vehicle_name_marks(
            wanted.project, [("side", *side, place.side_area), ("front", *front, _beside_rows(place))], marks
        ),
    )


def _beside_rows(place: Arrangement) -> Area:
    """Return where names may stand in the front view: off the rows of ordinates."""
    area, on = place.front_area, place.front
    low = on.y0_mm if place.plan_is_above else area.y0_mm
    return Area(on.x0_mm, low, place.side_area.x0_mm, place.front_area.y1_mm)


def _rows(wanted: _Wanted, extents: Extents, place: Arrangement) -> tuple[Mark, ...] | None:
    """Return the ordinates: heights and depths in one column at the left, those across below or above the front view."""
    h, datum = wanted.text_mm, wanted.datum
    room, title = room_of(wanted.paper), title_area(wanted.paper)
    low, high = (
        place.front.at(Seen(extents.across.u0_mm, extents.across.v0_mm)),
        place.front.at(Seen(extents.across.u1_mm, extents.across.v1_mm)),
    )
    floor = room.y0_mm if low.x_mm < title.x0_mm - CLEAR_MM else title.y1_mm + CLEAR_MM
    front_datum = place.front.at(Seen(-datum.y_mm, datum.z_mm))
    plan_datum = place.plan.at(Seen(-datum.y_mm, datum.x_mm))
    column = [_item(o, wanted, place.front, front_datum) for o in wanted.up]
    column += [_item(o, wanted, place.plan, plan_datum) for o in wanted.depth]
    left = placed_row(
        column,
        Row(
            axis=Axis.UP,
            edge_mm=low.x_mm,
            outward=-1,
            low_mm=floor + h,
            high_mm=room.y1_mm - h,
            text_mm=h,
        ),
    )
    third = place.plan_is_above
    length = row_length_mm([_text(o, wanted) for o in wanted.across], h)
    across = placed_row(
        [_item(o, wanted, place.front, front_datum) for o in wanted.across],
        Row(
            axis=Axis.ACROSS,
            edge_mm=low.y_mm if third else high.y_mm,
            outward=-1 if third else 1,
            low_mm=low.x_mm,
            high_mm=max(high.x_mm, low.x_mm + length),
            text_mm=h,
        ),
    )
    if left is None or across is None:
        return None
    return (*left, *across)


def _item(ordinate: Ordinate, wanted: _Wanted, on: OnPaper, datum: Point) -> RowItem:
    return RowItem(
        key=ordinate.key,
        datum=datum,
        feature=on.at(ordinate.at),
        value_mm=ordinate.value_mm,
        text=_text(ordinate, wanted),
    )


def _text(ordinate: Ordinate, wanted: _Wanted) -> str:
    said = said_length(ordinate.value_mm, wanted.project.sheet.units)
    return broken(f"{said}  {ordinate.label}".rstrip(), wanted.text_mm, wanted.longest_frac)


def _caption_mm(wanted: _Wanted, looking: Looking, bounds: Bounds, scale_factor: float) -> float:
    return caption_height_mm(looking, (bounds.u1_mm - bounds.u0_mm) / scale_factor, wanted.text_mm)


def _gap_dimensions(wanted: _Wanted, on: OnPaper, extents: Extents) -> tuple[tuple[LinearDimension, ...], Tiers]:
    edge = on.at(Seen(extents.along_plan.u1_mm, extents.along_plan.v0_mm)).x_mm
    tiers = Tiers(is_upright=True, edge_mm=edge, outward=1, text_mm=wanted.text_mm, texts_are_level=True)
    items = [_tier_item(wish, on) for wish in wanted.gaps] if wanted.draws_gaps else []
    return placed_tiers(items, tiers)[0], tiers


def _depth_dimensions(
    wanted: _Wanted, views: _Views, on: OnPaper, extents: Extents
) -> tuple[tuple[LinearDimension, ...], Tiers]:
    third = views.side.looking is Looking.LEFT
    bounds = extents.along_side
    edge = on.at(Seen(bounds.u0_mm, bounds.v1_mm if third else bounds.v0_mm)).y_mm
    tiers = Tiers(is_upright=False, edge_mm=edge, outward=1 if third else -1, text_mm=wanted.text_mm)
    pack = pack_bounds(views.side)
    if not third:
        pack = Bounds(pack.u0_mm, pack.v0_mm, pack.u1_mm, pack.v0_mm)
    wishes = overall_depth_wishes(wanted.project, views.side.looking, pack)
    return placed_tiers([_tier_item(wish, on) for wish in wishes], tiers)[0], tiers


def _overall(wanted: _Wanted, views: _Views, extents: Extents, place: Arrangement) -> Iterator[LinearDimension]:
    """Return the width of the whole pack at the plan view and its height at the side view."""
    third, units = place.plan_is_above, wanted.project.sheet.units
    pack = pack_bounds(views.plan)
    v, edge_v = (pack.v1_mm, extents.along_plan.v1_mm) if third else (pack.v0_mm, extents.along_plan.v0_mm)
    width = pack.u1_mm - pack.u0_mm
    items = [
        TierItem(
            key="plan:pack:overall-width",
            first=place.plan.at(Seen(pack.u0_mm, v)),
            second=place.plan.at(Seen(pack.u1_mm, v)),
            measured_mm=width,
            text=f"{said_length(width, units)} {REF}",
        )
    ]
    edge = place.plan.at(Seen(0.0, edge_v)).y_mm
    yield from placed_tiers(
        items, Tiers(is_upright=False, edge_mm=edge, outward=1 if third else -1, text_mm=wanted.text_mm)
    )[0]
    pack = pack_bounds(views.side)
    height = pack.v1_mm - pack.v0_mm
    items = [
        TierItem(
            key="side:pack:overall-height",
            first=place.side.at(Seen(pack.u1_mm, pack.v0_mm)),
            second=place.side.at(Seen(pack.u1_mm, pack.v1_mm)),
            measured_mm=height,
            text=f"{said_length(height, units)} {REF}",
        )
    ]
    edge = place.side.at(Seen(extents.along_side.u1_mm, 0.0)).x_mm
    yield from placed_tiers(items, Tiers(is_upright=True, edge_mm=edge, outward=1, text_mm=wanted.text_mm))[0]


def _tier_item(wish: GapWish, on: OnPaper) -> TierItem:
    return TierItem(
        key=wish.key,
        first=on.at(wish.first),
        second=on.at(wish.second),
        measured_mm=wish.measured_mm,
        text=wish.text,
    )


def _body(
    wanted: _Wanted, place: Arrangement, marks: Sequence[Mark], scale_factor: float, *, has_notes: bool
) -> SheetBody:
    views = tuple(
        View(name=name, scale_factor=scale_factor, x0_mm=a.x0_mm, y0_mm=a.y0_mm, x1_mm=a.x1_mm, y1_mm=a.y1_mm)
        for name, a in (("front", place.front_area), ("plan", place.plan_area), ("side", place.side_area))
    )
    return SheetBody(
        key="pack",
        title="Cooling pack, arrangement",
        document_type="Pack sketch",
        view=SheetView.PACK,
        paper=wanted.paper,
        scale_factor=scale_factor,
        marks=tuple(marks),
        views=views,
        shows_projection=True,
        warnings=()
        if has_notes
        else (
            f"The notes found no room on {wanted.paper.value} at {scale_words(scale_factor)}: they stand on the next sheet.",
        ),
    )


def _too_small(paper: Paper, scale_factor: float | None) -> str:
    if scale_factor is None:
        return f"The pack with its dimensions does not fit {paper.value} at any scale: choose a larger sheet."
    return (
        f"The pack with its dimensions does not fit {paper.value} at {scale_words(scale_factor)}: "
        "choose a larger sheet, or leave the scale to be chosen."
    )
