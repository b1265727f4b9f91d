"""The dimensions of the pack sketch in their places: ordinates in rows, gaps and overall sizes in tiers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grillestack.sheets.arrangement import Arrangement
from grillestack.sheets.dimension_wishes import Ordinate
from grillestack.sheets.draw_list import Axis, LinearDimension, Mark, Point
from grillestack.sheets.gap_wishes import REF, GapWish, gap_wishes, room_wishes
from grillestack.sheets.ordinate_rows import Row, RowItem, placed_row, row_length_mm
from grillestack.sheets.pack_wanted import GapsAt, Views, Wanted, Way
from grillestack.sheets.say_length import said_length
from grillestack.sheets.sheet_body import CLEAR_MM, room_of, title_area
from grillestack.sheets.tiers import TierItem, Tiers, placed_tiers
from grillestack.sheets.view_faces import Looking, Seen
from grillestack.sheets.view_marks import OnPaper, pack_bounds


def ordinate_marks(wanted: Wanted, way: Way, views: Views, place: Arrangement) -> tuple[Mark, ...] | None:
    """Return the ordinates: heights at the left, those across at the outer side of the front view, depths beside the plan.

    Nothing, where a row has no room.
    """
    h, datum = wanted.text_mm, wanted.datum
    room, title = room_of(wanted.paper), title_area(wanted.paper)
    low = place.front.at(Seen(views.across.u0_mm, views.across.v0_mm))
    high = place.front.at(Seen(views.across.u1_mm, views.across.v1_mm))
    floor = room.y0_mm if low.x_mm < title.x0_mm - CLEAR_MM else title.y1_mm + CLEAR_MM
    front_datum = place.front.at(Seen(-datum.y_mm, datum.z_mm))
    plan_datum = place.plan.at(Seen(-datum.y_mm, datum.x_mm))
    heights = _items(wanted, wanted.up, (place.front, front_datum), is_short=way.short_labels)
    short_depths = way.short_labels and not way.depths_at_right
    depths = _items(wanted, wanted.depth, (place.plan, plan_datum), is_short=short_depths)
    across = _items(wanted, wanted.across, (place.front, front_datum), is_short=way.short_labels)
    outward = -1 if wanted.is_third_angle else 1
    plan_edge = place.plan.at(Seen(views.along_plan.u1_mm, views.along_plan.v0_mm))
    rows = [
        (
            heights if way.depths_at_right else [*heights, *depths],
            Row(axis=Axis.UP, edge_mm=low.x_mm, outward=-1, low_mm=floor, high_mm=room.y1_mm, text_mm=h),
        ),
        (
            across,
            Row(
                axis=Axis.ACROSS,
                edge_mm=low.y_mm if wanted.is_third_angle else high.y_mm,
                outward=outward,
                low_mm=low.x_mm,
                high_mm=max(high.x_mm, low.x_mm + row_length_mm([item.text for item in across], h)),
                text_mm=h,
            ),
        ),
    ]
    if way.depths_at_right:
        # They keep clear of the side view, which stands level with the front view.
        below, above = (plan_edge.y_mm, room.y1_mm) if wanted.is_third_angle else (floor_of(wanted), low.y_mm)
        rows.append(
            (
                _right_end(depths, wanted, place, views),
                Row(axis=Axis.UP, edge_mm=plan_edge.x_mm, outward=1, low_mm=below, high_mm=above, text_mm=h),
            )
        )
    marks: list[Mark] = []
    for items, row in rows:
        placed = placed_row(items, row)
        if placed is None:
            return None
        marks += placed
    return tuple(marks)


def floor_of(wanted: Wanted) -> float:
    """Return how low something at the right of the sheet may stand."""
    return title_area(wanted.paper).y1_mm + CLEAR_MM


def gap_marks(wanted: Wanted, way: Way, views: Views, on: OnPaper) -> tuple[tuple[LinearDimension, ...], Tiers]:
    """Return the gaps beside the plan view, on the side that the depths leave free, and where they stand."""
    left = way.depths_at_right
    corner = on.at(Seen(views.along_plan.u0_mm if left else views.along_plan.u1_mm, 0.0))
    tiers = Tiers(
        is_upright=True,
        edge_mm=corner.x_mm,
        outward=-1 if left else 1,
        text_mm=wanted.text_mm,
        texts_are_level=True,
    )
    if way.gaps is not GapsAt.PLAN:
        return (), tiers
    wishes, _ = gap_wishes(wanted.project, wanted.report, from_top=True)
    items = [_tier_item(wish, Looking.ABOVE, on, at_left=left) for wish in wishes]
    return placed_tiers(items, tiers)[0], tiers


def side_marks(wanted: Wanted, way: Way, views: Views, on: OnPaper) -> tuple[tuple[LinearDimension, ...], Tiers]:
    """Return the lengths above or below the side view, and where they stand."""
    at_top = tiers_at_top(wanted, way)
    pack = pack_bounds(views.side)
    edge = on.at(Seen(0.0, views.along_side.v1_mm if at_top else views.along_side.v0_mm)).y_mm
    tiers = Tiers(is_upright=False, edge_mm=edge, outward=1 if at_top else -1, text_mm=wanted.text_mm)
    always = list(room_wishes(wanted.project, pack.v1_mm if at_top else pack.v0_mm, to_planes=way.to_planes))
    gaps = list(gap_wishes(wanted.project, wanted.report, from_top=at_top)[0]) if way.gaps is GapsAt.SIDE else []
    gaps.sort(key=lambda wish: wish.measured_mm)
    while True:
        items = [_tier_item(wish, views.side.looking, on) for wish in (*always, *gaps)]
        placed, left_out = placed_tiers(items, tiers)
        # Gaps give way to the depth of the pack and the room around it, the largest first.
        if not gaps or not {item.key for item in left_out} & {wish.key for wish in always}:
            return placed, tiers
        gaps.pop()


def tiers_at_top(wanted: Wanted, way: Way) -> bool:
    """Return whether the lengths stand above the side view: beside the plan unless the depths need that room."""
    return wanted.is_third_angle is not way.depths_at_right


def overall_marks(wanted: Wanted, views: Views, place: Arrangement) -> Iterator[LinearDimension]:
    """Return the width of the whole pack at the plan view and its height at the side view."""
    third, units, h = wanted.is_third_angle, wanted.project.sheet.units, wanted.text_mm
    pack, bounds = pack_bounds(views.plan), views.along_plan
    v, edge_v = (pack.v1_mm, bounds.v1_mm) if third else (pack.v0_mm, bounds.v0_mm)
    width = TierItem(
        key="plan:pack:overall-width",
        first=place.plan.at(Seen(pack.u0_mm, v)),
        second=place.plan.at(Seen(pack.u1_mm, v)),
        measured_mm=pack.u1_mm - pack.u0_mm,
        text=f"{said_length(pack.u1_mm - pack.u0_mm, units)} {REF}",
    )
    edge = place.plan.at(Seen(0.0, edge_v)).y_mm
    yield from placed_tiers([width], Tiers(is_upright=False, edge_mm=edge, outward=1 if third else -1, text_mm=h))[0]
    pack = pack_bounds(views.side)
    height = TierItem(
        key="side:pack:overall-height",
        first=place.side.at(Seen(pack.u1_mm, pack.v0_mm)),
        second=place.side.at(Seen(pack.u1_mm, pack.v1_mm)),
        measured_mm=pack.v1_mm - pack.v0_mm,
        text=f"{said_length(pack.v1_mm - pack.v0_mm, units)} {REF}",
    )
    edge = place.side.at(Seen(views.along_side.u1_mm, 0.0)).x_mm
    yield from placed_tiers([height], Tiers(is_upright=True, edge_mm=edge, outward=1, text_mm=h))[0]


def lengths_in_words(wanted: Wanted, drawn: Sequence[LinearDimension]) -> tuple[str, ...]:
    """Return in words what of gaps and room found no place in the drawing, alike ones behind one part together."""
    keys = {dimension.key for dimension in drawn}
    gaps, said = gap_wishes(wanted.project, wanted.report, from_top=True)
    alike: dict[tuple[str, str], list[str]] = {}
    for wish in (*gaps, *room_wishes(wanted.project, 0.0, to_planes=True)):
        if wish.key not in keys:
            start, _, end = wish.names.partition(" to ")
            alike.setdefault((start, wish.text), []).append(end)
    found = [
        f"{start} to {', '.join(ends)}: {text}" if any(ends) else f"{start}: {text}"
        for (start, text), ends in alike.items()
    ]
    return (*found, *said)


def _items(wanted: Wanted, found: Sequence[Ordinate], on: tuple[OnPaper, Point], *, is_short: bool) -> list[RowItem]:
    return [
        RowItem(
            key=ordinate.key,
            datum=on[1],
            feature=on[0].at(ordinate.at),
            value_mm=ordinate.value_mm,
            text=wanted.text(ordinate, is_short=is_short),
        )
        for ordinate in found
    ]


def _right_end(items: Sequence[RowItem], wanted: Wanted, place: Arrangement, views: Views) -> list[RowItem]:
    """Return the depths with their lines beginning at the right ends of what they measure."""
    by_key = {}
    for ordinate in wanted.depth:
        part_id = ordinate.key.split(":")[1]
        faces = [face for face in views.plan.faces if face.part_id == part_id]
        at = [c.u_mm for face in faces for c in face.corners if abs(c.v_mm - ordinate.at.v_mm) < 1.0]
        by_key[ordinate.key] = max(at, default=ordinate.at.u_mm)
    return [
        RowItem(
            key=item.key,
            datum=item.datum,
            feature=Point(place.plan.at(Seen(by_key[item.key], 0.0)).x_mm, item.feature.y_mm),
            value_mm=item.value_mm,
            text=item.text,
        )
        for item in items
    ]


def _tier_item(wish: GapWish, looking: Looking, on: OnPaper, *, at_left: bool = False) -> TierItem:
    first, second = wish.ends(looking)
    if at_left:
        first, second = (Seen(-y, end.v_mm) for y, end in zip(wish.right_y_mm, (first, second), strict=True))
    return TierItem(
        key=wish.key,
        first=on.at(first),
        second=on.at(second),
        measured_mm=wish.measured_mm,
        text=wish.text,
    )
