"""Where the three views of the pack lie on the paper, in first or third angle projection, and where notes have room."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from grillestack.model.sheet_choices import Paper, Projection
from grillestack.sheets.paper import Area
from grillestack.sheets.sheet_body import CLEAR_MM, room_of, title_area
from grillestack.sheets.vehicle_lines import Bounds
from grillestack.sheets.view_marks import OnPaper


@dataclass(frozen=True, slots=True, kw_only=True)
class Needs:
    """How much paper surrounds the views: rows of ordinates, tiers of dimensions, captions."""

    left_row_mm: float
    across_row_mm: float
    across_length_mm: float
    gap_tiers_mm: float
    side_tiers_mm: float
    width_tier_mm: float
    height_tier_mm: float
    front_caption_mm: float
    plan_caption_mm: float
    side_caption_mm: float
    side_caption_width_mm: float
    # How far the dimensions above or below the side view stick out at its left and right
    side_left_mm: float
    side_right_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """Places of the three views, the areas they fill with their dimensions, and areas for notes, best first."""

    front: OnPaper
    plan: OnPaper
    side: OnPaper
    front_area: Area
    plan_area: Area
    side_area: Area
    whole: Area
    note_areas: tuple[Area, ...]
    plan_is_above: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Extents:
    """The common bounds of the views at full size: across the vehicle (front, plan), up (front, side), along it."""

    across: Bounds
    along_plan: Bounds
    along_side: Bounds


def arrangements(
    extents: Extents, needs: Needs, paper: Paper, projection: Projection, scale_factor: float
) -> Iterator[Arrangement]:
    """Return the places for the views at this scale that keep clear of frame and title block."""
    room, title = room_of(paper), title_area(paper).grown(CLEAR_MM)
    third = projection is Projection.THIRD_ANGLE
    s = scale_factor
    front_w = (extents.across.u1_mm - extents.across.u0_mm) / s
    front_h = (extents.across.v1_mm - extents.across.v0_mm) / s
    plan_h = (extents.along_plan.v1_mm - extents.along_plan.v0_mm) / s
    side_w = (extents.along_side.u1_mm - extents.along_side.u0_mm) / s
    right_of_front = max(needs.gap_tiers_mm + 3.0, 7.0 + needs.side_left_mm, needs.across_length_mm - front_w + 3.0)
    right = max(side_w + max(needs.height_tier_mm, needs.side_right_mm), needs.side_caption_width_mm)
    front_right = max(front_w, needs.across_length_mm) + 1.0
    width = needs.left_row_mm + front_w + right_of_front + right
    parts = (
        needs.across_row_mm,
        front_h,
        needs.front_caption_mm,
        plan_h,
        needs.width_tier_mm,
        needs.plan_caption_mm,
    )
    height = sum(parts)
    slack_x, slack_y = room.width_mm - width, room.height_mm - height
    if slack_x < 0 or slack_y < 0:
        return
    for up in (0.6, 1.0, 0.3, 0.0):
        for over in (0.5, 0.0, 1.0):
            x0, y0 = room.x0_mm + over * slack_x, room.y0_mm + up * slack_y
            front_x = x0 + needs.left_row_mm
            side_x = front_x + front_w + right_of_front
            if third:
                front_y = y0 + needs.across_row_mm
                plan_y = front_y + front_h + needs.front_caption_mm
                front_area = Area(x0, y0, front_x + front_right, plan_y - 0.01)
                plan_area = Area(x0, plan_y, side_x - 1.0, y0 + height)
                side_area = Area(
                    side_x - needs.side_left_mm,
                    front_y,
                    side_x + right,
                    front_y + front_h + needs.side_tiers_mm + needs.side_caption_mm,
                )
            else:
                plan_y = y0 + needs.width_tier_mm
                front_y = plan_y + plan_h + needs.plan_caption_mm
                front_area = Area(x0, front_y, front_x + front_right, y0 + height)
                plan_area = Area(x0, y0, side_x - 1.0, front_y - 0.01)
                side_area = Area(
                    side_x - needs.side_left_mm,
                    front_y - needs.side_tiers_mm,
                    side_x + right,
                    front_y + front_h + needs.side_caption_mm,
                )
            areas = (front_area, plan_area, side_area)
            if any(area.overlaps(title) or not room.grown(0.01).holds(area) for area in areas):
                continue
            whole = Area(x0, min(y0, side_area.y0_mm), x0 + width, max(y0 + height, side_area.y1_mm))
            yield Arrangement(
                front=_place(extents.across, s, front_x, front_y),
                plan=_place(extents.along_plan, s, front_x, plan_y),
                side=_place(extents.along_side, s, side_x, front_y),
                front_area=front_area,
                plan_area=plan_area,
                side_area=side_area,
                whole=whole,
                note_areas=_note_areas(room, title, areas, whole),
                plan_is_above=third,
            )


def _place(bounds: Bounds, scale_factor: float, x_mm: float, y_mm: float) -> OnPaper:
    return OnPaper(scale_factor=scale_factor, u0_mm=bounds.u0_mm, v0_mm=bounds.v0_mm, x0_mm=x_mm, y0_mm=y_mm)


def _note_areas(room: Area, title: Area, areas: tuple[Area, Area, Area], whole: Area) -> tuple[Area, ...]:
    """Return where notes may stand: in the free corner of the three views, above or beside the title block, beside all."""
    front, plan, side = areas
    left = plan.x1_mm + 4.0
    third = plan.y0_mm > front.y0_mm
    lowest = min(area.y0_mm for area in areas)
    title_is_wide = title.x0_mm <= room.x0_mm + CLEAR_MM
    found = [
        Area(left, side.y1_mm + CLEAR_MM, room.x1_mm, room.y1_mm)
        if third
        else Area(left, title.y1_mm, room.x1_mm, side.y0_mm - CLEAR_MM),
        Area(room.x0_mm, title.y1_mm, room.x1_mm, lowest - CLEAR_MM)
        if title_is_wide
        else Area(room.x0_mm, room.y0_mm, title.x0_mm, lowest - CLEAR_MM),
        Area(side.x1_mm + 4.0, title.y1_mm, room.x1_mm, side.y1_mm),
        Area(room.x0_mm, max(whole.y0_mm, title.y1_mm), whole.x0_mm - 4.0, whole.y1_mm),
    ]
    return tuple(area for area in found if area.width_mm > 0 and area.height_mm > 0)
