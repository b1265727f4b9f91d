"""The pack sketch: front, side and plan view in the chosen projection, fitted to the sheet, with their dimensions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grillestack.geometry.depth import DepthReport
from grillestack.model.project import Project
from grillestack.model.sheet_choices import Paper, SheetView
from grillestack.sheets.arrangement import Arrangement, Corners, Needs, arrangements
from grillestack.sheets.caption import CAPTION_BASE_FRAC, caption_height_mm, caption_marks, caption_width_mm
from grillestack.sheets.clear_parts import clear_parts
from grillestack.sheets.collisions import collisions
from grillestack.sheets.datum import datum_of
from grillestack.sheets.draw_list import THIN, Circle, Layer, Mark, View
from grillestack.sheets.free_places import TagWish, placed_tags
from grillestack.sheets.note_block import note_block
from grillestack.sheets.notes import pack_notes
from grillestack.sheets.ordinate_rows import row_length_mm, row_reach_mm
from grillestack.sheets.overhang import overhang_of
from grillestack.sheets.pack_dimensions import (
    gap_marks,
    lengths_in_words,
    ordinate_marks,
    overall_marks,
    side_marks,
    tiers_at_top,
)
from grillestack.sheets.pack_wanted import Views, Wanted, Way, views_of, wanted_of, ways
from grillestack.sheets.paper import Area, scale_words, scales_from
from grillestack.sheets.part_names import part_name_marks, vehicle_name_marks
from grillestack.sheets.sheet_body import SheetBody, SheetTooSmallError
from grillestack.sheets.tiers import tiers_reach_mm
from grillestack.sheets.vehicle_lines import Bounds
from grillestack.sheets.view_faces import Looking, Seen
from grillestack.sheets.view_marks import OnPaper, picture_marks

_ONE_TIER_FRAC = 4.6
# Of the places that a way of laying out allows, so many are tried in earnest.
_MOST_TRIED = 3
_NOTES_ELSEWHERE_FACTOR = 2.5
_ELSEWHERE = "Notes and cautions stand on a further sheet: read them first. VERIFY ON VEHICLE."
_DATUM_MM = 1.2


def compose_pack(project: Project, report: DepthReport) -> tuple[SheetBody, ...]:
    """Return the sheet of the pack's arrangement at the largest scale that fits; none for a pack without parts.

    Raises
    ------
    SheetTooSmallError
        If it does not fit the paper at the chosen scale, or at any.
    """
    datum = datum_of(project)
    if datum is None:
        return ()
    wanted = wanted_of(project, report, datum)
    chosen = project.sheet.scale_factor
    for scale in [chosen] if chosen is not None else scales_from():
        best: _Drawn | None = None
        for way in ways():
            if best is not None and way.cost_factor >= best.cost_factor:
                break
            for drawn in _drawn(wanted, way, scale, notes_must_fit=best is not None):
                best = drawn if best is None or drawn.cost_factor < best.cost_factor else best
                if not best.notes_left:
                    break
        if best is not None:
            return (_body(wanted, best, scale),)
    raise SheetTooSmallError(_too_small(project.sheet.paper, chosen))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """One sheet that would do, still without names."""

    way: Way
    views: Views
    place: Arrangement
    marks: tuple[Mark, ...]
    notes_left: tuple[str, ...]

    @property
    def cost_factor(self) -> float:
        """Return how much worse it reads than the best: notes on another sheet are a nuisance, but no more."""
        return self.way.cost_factor + (_NOTES_ELSEWHERE_FACTOR if self.notes_left else 0.0)


def _drawn(wanted: Wanted, way: Way, scale_factor: float, *, notes_must_fit: bool) -> Iterator[_Drawn]:
    """Return the sheet at this scale in each place where nothing collides."""
    views = views_of(wanted, way, scale_factor)
    at_origin = OnPaper(scale_factor=scale_factor, u0_mm=0.0, v0_mm=0.0, x0_mm=0.0, y0_mm=0.0)
    gaps, gap_tiers = gap_marks(wanted, way, views, at_origin)
    along, side_tiers = side_marks(wanted, way, views, at_origin)
    reach = tiers_reach_mm(gaps, gap_tiers), tiers_reach_mm(along, side_tiers)
    bounds = views.along_side
    view = Area(bounds.u0_mm / scale_factor, -1e6, bounds.u1_mm / scale_factor, 1e6)
    over = overhang_of(along, view)
    needs = _needs(wanted, way, views, (*reach, over.left_mm, over.right_mm), scale_factor)
    corners = Corners(front=views.across, plan=views.along_plan, side=views.along_side, scale_factor=scale_factor)
    places = list(arrangements(corners, needs, wanted.paper, plan_above=wanted.is_third_angle))
    said = lengths_in_words(wanted, (*gaps, *along))
    notes = pack_notes(wanted.project, wanted.datum)
    if said:
        notes = (*notes, f"Further lengths. {'; '.join(said)}.")
    # Places with room for notes by the look of it come first; whether they have it shows when all is drawn.
    likely = [note_block(notes, place.note_areas, wanted.text_mm) is None for place in places]
    tried = [place for _, place in sorted(zip(likely, places, strict=True), key=lambda pair: pair[0])][:_MOST_TRIED]
    for place in tried:
        marks = _marks(wanted, way, views, place)
        if marks is None or collisions(marks):
            continue
        clear = clear_parts(place.note_areas, marks)
        block = note_block(notes, clear, wanted.text_mm)
        if block is None and not notes_must_fit:
            marks = (*marks, *(note_block([_ELSEWHERE], clear, wanted.text_mm) or ()))
        if block is not None or not notes_must_fit:
            yield _Drawn(
                way=way,
                views=views,
                place=place,
                marks=(*marks, *(block or ())),
                notes_left=() if block else tuple(notes),
            )


def _needs(
    wanted: Wanted, way: Way, views: Views, reaches_mm: tuple[float, float, float, float], scale_factor: float
) -> Needs:
    h, s = wanted.text_mm, scale_factor
    gap_reach, side_reach, side_left, side_right = reaches_mm
    short = way.short_labels
    heights = row_reach_mm([wanted.text(o, is_short=short) for o in wanted.up], h)
    short_depths = short and not way.depths_at_right
    depths = row_reach_mm([wanted.text(o, is_short=short_depths) for o in wanted.depth], h)
    across = [wanted.text(o, is_short=short) for o in wanted.across]
    caption = _caption_mm(wanted, views.side.looking, views.along_side, s)
    at_top = tiers_at_top(wanted, way)
    return Needs(
        front_width_mm=(views.across.u1_mm - views.across.u0_mm) / s,
        front_height_mm=(views.across.v1_mm - views.across.v0_mm) / s,
        plan_height_mm=(views.along_plan.v1_mm - views.along_plan.v0_mm) / s,
        side_width_mm=(views.along_side.u1_mm - views.along_side.u0_mm) / s,
        left_mm=max(heights, gap_reach if way.depths_at_right else depths),
        across_row_mm=row_reach_mm(across, h),
        across_length_mm=row_length_mm(across, h),
        plan_right_mm=(depths if way.depths_at_right else gap_reach) + 1.0,
        side_above_mm=caption + (side_reach if at_top else 0.0),
        side_below_mm=0.0 if at_top else side_reach,
        side_left_mm=side_left,
        side_right_mm=max(_ONE_TIER_FRAC * h, side_right),
        side_least_mm=caption_width_mm(views.side.looking, h),
        width_tier_mm=_ONE_TIER_FRAC * h,
        front_caption_mm=_caption_mm(wanted, Looking.AHEAD, views.across, s),
        plan_caption_mm=_caption_mm(wanted, Looking.ABOVE, views.along_plan, s),
    )


def _marks(wanted: Wanted, way: Way, views: Views, place: Arrangement) -> tuple[Mark, ...] | None:
    rows = ordinate_marks(wanted, way, views, place)
    if rows is None:
        return None
    marks: list[Mark] = [
        *picture_marks(views.front, place.front),
        *picture_marks(views.plan, place.plan),
        *picture_marks(views.side, place.side),
        *rows,
        *gap_marks(wanted, way, views, place.plan)[0],
        *side_marks(wanted, way, views, place.side)[0],
        *overall_marks(wanted, views, place),
    ]
    for picture, on, bounds, top in (
        (views.front, place.front, views.across, place.front_area.y1_mm),
        (views.plan, place.plan, views.along_plan, place.plan_area.y1_mm),
        (views.side, place.side, views.along_side, place.side_area.y1_mm),
    ):
        low, high = on.at(Seen(bounds.u0_mm, bounds.v0_mm)), on.at(Seen(bounds.u1_mm, bounds.v1_mm))
        base = top - _caption_mm(wanted, picture.looking, bounds, on.scale_factor) + CAPTION_BASE_FRAC * wanted.text_mm
        marks += caption_marks(picture.looking, low.x_mm, high.x_mm, base, wanted.text_mm)
    return tuple(marks)


def _caption_mm(wanted: Wanted, looking: Looking, bounds: Bounds, scale_factor: float) -> float:
    return caption_height_mm(looking, (bounds.u1_mm - bounds.u0_mm) / scale_factor, wanted.text_mm)


def _named(wanted: Wanted, views: Views, place: Arrangement, marks: Sequence[Mark]) -> tuple[Mark, ...]:
    """Return the marks with the names of parts and of what belongs to the vehicle, where these have room."""
    front, side = (views.front, place.front), (views.side, place.side)
    marks = (*marks, *_datum_marks(wanted, place, marks))
    marks = (*marks, *part_name_marks(wanted.project, front, side, marks))
    area = place.front_area
    # Off the rows of ordinates
    low = place.front.y0_mm if wanted.is_third_angle else area.y0_mm
    beside_rows = Area(place.front.x0_mm, low, place.side_area.x0_mm, area.y1_mm)
    seen = [("side", *side, place.side_area), ("front", *front, beside_rows)]
    return (*marks, *vehicle_name_marks(wanted.project, seen, marks))


def _datum_marks(wanted: Wanted, place: Arrangement, marks: Sequence[Mark]) -> Iterator[Mark]:
    """Return the origin of the ordinates in the front and the plan view, named in the front view."""
    datum, h = wanted.datum, wanted.text_mm
    origin = place.front.at(Seen(-datum.y_mm, datum.z_mm))
    for at in (origin, place.plan.at(Seen(-datum.y_mm, datum.x_mm))):
        yield Circle(centre=at, radius_mm=_DATUM_MM, stroke=THIN, layer=Layer.DIMENSION)
    area = Area(place.front.x0_mm, place.front_area.y0_mm, place.side_area.x0_mm, place.front_area.y1_mm)
    wish = TagWish(key="front:datum:name", text="DATUM", at=origin, radius_mm=_DATUM_MM, most_frac=8.8, least_frac=1.7)
    yield from placed_tags([wish], marks, area, h)


def _body(wanted: Wanted, drawn: _Drawn, scale_factor: float) -> SheetBody:
    place = drawn.place
    areas = (("front", place.front_area), ("plan", place.plan_area), ("side", place.side_area))
    return SheetBody(
        key="pack",
        title="Cooling pack, arrangement",
        document_type="Pack sketch",
        view=SheetView.PACK,
        paper=wanted.paper,
        scale_factor=scale_factor,
        marks=_named(wanted, drawn.views, place, drawn.marks),
        views=tuple(
            View(name=name, scale_factor=scale_factor, x0_mm=a.x0_mm, y0_mm=a.y0_mm, x1_mm=a.x1_mm, y1_mm=a.y1_mm)
            for name, a in areas
        ),
        shows_projection=True,
        has_notes=not drawn.notes_left,
        notes_left=drawn.notes_left,
    )


def _too_small(paper: Paper, scale_factor: float | None) -> str:
    if scale_factor is None:
        return f"The pack with its dimensions does not fit {paper.value} at any scale: choose a larger sheet."
    return (
        f"The pack with its dimensions does not fit {paper.value} at {scale_words(scale_factor)}: "
        "choose a larger sheet, or leave the scale to be chosen."
    )
