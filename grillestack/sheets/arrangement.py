"""Where the three views of the pack lie on the paper, in first or third angle projection, and where notes have room."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from grillestack.model.sheet_choices import Paper
from grillestack.sheets.paper import Area
from grillestack.sheets.sheet_body import CLEAR_MM, room_of, title_area
from grillestack.sheets.vehicle_lines import Bounds
from grillestack.sheets.view_marks import OnPaper

_BETWEEN_MM = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Needs:
    """How much paper the views take, and what surrounds them: rows of ordinates, tiers of dimensions, captions."""

    front_width_mm: float
    front_height_mm: float
    plan_height_mm: float
    side_width_mm: float
    left_mm: float
    across_row_mm: float
    across_length_mm: float
    # At the right of the plan view
    plan_right_mm: float
    side_above_mm: float
    side_below_mm: float
    # How far the dimensions above or below the side view stick out at its left and right
    side_left_mm: float
    side_right_mm: float
    side_least_mm: float
    width_tier_mm: float
    front_caption_mm: float
    plan_caption_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """Places of the three views, the areas they fill with their dimensions, and areas for notes, none over another."""

    front: OnPaper
    plan: OnPaper
    side: OnPaper
    front_area: Area
    plan_area: Area
    side_area: Area
    note_areas: tuple[Area, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Corners:
    """The lower left corners of the views at full size, and their scale."""

    front: Bounds
    plan: Bounds
    side: Bounds
    scale_factor: float


def arrangements(corners: Corners, needs: Needs, paper: Paper, *, plan_above: bool) -> Iterator[Arrangement]:
    """Return the places for the views that keep clear of frame and title block, the most even ones first."""
    room, title = room_of(paper), title_area(paper).grown(CLEAR_MM)
    n = needs
    front_right = max(n.front_width_mm, n.across_length_mm) + 1.0
    beside = max(_BETWEEN_MM + n.side_left_mm, front_right - n.front_width_mm + 2.0)
    side_right = max(n.side_width_mm + n.side_right_mm, n.side_least_mm)
    # Where depths stand at the right of the plan, the side view is turned away from them and may stand below them.
    to_side = n.front_width_mm + beside
    width = n.left_mm + max(to_side + side_right, n.front_width_mm + n.plan_right_mm)
    height = (
        n.across_row_mm
        + n.front_height_mm
        + n.front_caption_mm
        + n.plan_height_mm
        + n.width_tier_mm
        + n.plan_caption_mm
    )
    slack_x, slack_y = room.width_mm - width, room.height_mm - height
    if slack_x < 0 or slack_y < 0:
        return
    for up in (0.6, 1.0, 0.3, 0.0):
        for over in (0.5, 0.0, 1.0):
            x0, y0 = room.x0_mm + over * slack_x, room.y0_mm + up * slack_y
            front_x = x0 + n.left_mm
            side_x = front_x + to_side
            if plan_above:
                front_y = y0 + n.across_row_mm
                plan_y = front_y + n.front_height_mm + n.front_caption_mm
                front_area = Area(x0, y0, front_x + front_right, plan_y - 0.01)
                plan_area = Area(x0, plan_y, front_x + n.front_width_mm + n.plan_right_mm, y0 + height)
            else:
                plan_y = y0 + n.width_tier_mm
                front_y = plan_y + n.plan_height_mm + n.plan_caption_mm
                front_area = Area(x0, front_y, front_x + front_right, y0 + height)
                plan_area = Area(x0, y0, front_x + n.front_width_mm + n.plan_right_mm, front_y - 0.01)
            side_area = Area(
                side_x - n.side_left_mm,
                front_y - n.side_below_mm,
                side_x + side_right,
                front_y + n.front_height_mm + n.side_above_mm,
            )
            areas = (front_area, plan_area, side_area)
            if any(area.overlaps(title) or not room.grown(0.01).holds(area) for area in areas):
                continue
            if side_area.overlaps(plan_area) or side_area.overlaps(front_area):
                continue
            yield Arrangement(
                front=_place(corners.front, corners.scale_factor, front_x, front_y),
                plan=_place(corners.plan, corners.scale_factor, front_x, plan_y),
                side=_place(corners.side, corners.scale_factor, side_x, front_y),
                front_area=front_area,
                plan_area=plan_area,
                side_area=side_area,
                note_areas=_note_areas(room, title, areas),
            )


def _place(bounds: Bounds, scale_factor: float, x_mm: float, y_mm: float) -> OnPaper:
    return OnPaper(scale_factor=scale_factor, u0_mm=bounds.u0_mm, v0_mm=bounds.v0_mm, x0_mm=x_mm, y0_mm=y_mm)


def _note_areas(room: Area, title: Area, areas: tuple[Area, Area, Area]) -> tuple[Area, ...]:
    """Return where notes may stand: beside the plan, above or beside the title block, right and left of all."""
    front, plan, side = areas
    right = max(plan.x1_mm, side.x1_mm)
    lowest, left = min(area.y0_mm for area in areas), min(area.x0_mm for area in areas)
    third = plan.y0_mm > front.y0_mm
    beside_plan = (
        Area(plan.x1_mm + 4.0, side.y1_mm + CLEAR_MM, room.x1_mm, room.y1_mm)
        if third
        else Area(plan.x1_mm + 4.0, title.y1_mm, room.x1_mm, side.y0_mm - CLEAR_MM)
    )
    beneath = (
        Area(room.x0_mm, title.y1_mm, room.x1_mm, lowest - CLEAR_MM)
        if title.x0_mm <= room.x0_mm + CLEAR_MM
        else Area(room.x0_mm, room.y0_mm, title.x0_mm, lowest - CLEAR_MM)
    )
    # Under the side view, where the title block leaves room
    under_side = Area(front.x1_mm + 4.0, title.y1_mm, room.x1_mm, side.y0_mm - CLEAR_MM)
    beside_side = Area(right + 4.0, max(side.y0_mm, title.y1_mm), room.x1_mm, side.y1_mm)
    at_left = Area(room.x0_mm, max(lowest, title.y1_mm), left - 4.0, room.y1_mm)
    if title.x0_mm <= room.x0_mm + CLEAR_MM:
        found = [beneath, beside_plan, beside_side, at_left]
    else:
        found = [beside_plan, *([under_side] if third else []), beneath, beside_side, at_left]
    return tuple(area for area in found if area.width_mm > 0 and area.height_mm > 0)
