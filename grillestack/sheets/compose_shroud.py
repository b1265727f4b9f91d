"""The sheets of the shroud: its blank with cuts and bends, the folded box, and how it is bent and put together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from grillestack.assess.result import Assessment
from grillestack.model.project import Project
from grillestack.model.sheet_choices import SheetView
from grillestack.sheets.box_blank import relief_radius_mm
from grillestack.sheets.clip import clipped
from grillestack.sheets.detail_block import Detail, DetailPicture, Named, Station, WeldAt
from grillestack.sheets.detail_sheets import SheetNames, piece_sheets, with_words
from grillestack.sheets.draw_list import CENTRE, HIDDEN, OUTLINE, Axis, Circle, Layer, Line, Mark, Point, Polyline
from grillestack.sheets.flat_part import rectangle
from grillestack.sheets.flat_picture import flat_picture
from grillestack.sheets.making import Making, shroud_making
from grillestack.sheets.notes import tolerance_note
from grillestack.sheets.paper import Area
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_hole, said_length, units_note
from grillestack.sheets.sheet_body import SheetBody
from grillestack.sheets.shroud_blank import ShroudBlank, shroud_blanks
from grillestack.sheets.weld_symbol import Weld


def compose_shroud(project: Project, assessment: Assessment) -> tuple[SheetBody, ...]:
    """Return the sheets of every shroud of the pack.

    Raises
    ------
    NothingToDrawError
        If there is no shroud, or one cannot be made.
    SheetTooSmallError
        If a blank does not fit the paper at any scale.
    """
    del assessment
    making = shroud_making(project.sheet.making, project.sheet.units)
    bodies: list[SheetBody] = []
    tags = part_tags(project)
    for number, blank in enumerate(shroud_blanks(project, making), start=1):
        tag = tags[blank.shroud.id].tag
        names = SheetNames(
            key="shroud" if number == 1 else f"shroud-of-{blank.shroud.id}",
            title=f"{tag}, blank and folded",
            document_type="Sheet metal detail",
            view=SheetView.SHROUD,
        )
        details = (blank_detail(project, blank, making), *_folded(project, blank))
        found = with_words(project, names, piece_sheets(project, names, details, 2), (), _notes(project, blank, making))
        bodies += (replace(found[0], warnings=blank.warnings), *found[1:])
    return tuple(bodies)


def blank_detail(project: Project, blank: ShroudBlank, making: Making) -> Detail:
    """Return the blank as a detail."""
    units, flat, bend = project.sheet.units, blank.flat, blank.shape.bend
    size = f"{said_length(flat.area.width_mm, units)} × {said_length(flat.area.height_mm, units)}"
    return Detail(
        key=f"{blank.shroud.id}:blank",
        title=f"{part_tags(project)[blank.shroud.id].tag} BLANK, 1 off, seen from ahead: into the box",
        lines=(
            f"{making.material_words}; blank {size} REF.",
            f"{making.bend_words}; bend allowance {bend.allowance_mm:.2f}, deduction {bend.deduction_mm:.2f} for each 90°.",
        ),
        pictures=(flat_picture(blank.shroud.id, flat, units, _corners(blank)),),
    )


def _corners(blank: ShroudBlank) -> tuple[Point, ...]:
    """Return the corners of walls and flanges, those of the reliefs' small chords left out."""
    middle, least = blank.middle, relief_radius_mm(blank.shape.bend) * 2.2
    near = (
        blank.shape.width_mm / 2 - blank.shape.bend.setback_mm,
        blank.shape.height_mm / 2 - blank.shape.bend.setback_mm,
    )
    return tuple(
        p
        for p in blank.flat.contour
        if abs(abs(p.x_mm - middle.x_mm) - near[0]) > least or abs(abs(p.y_mm - middle.y_mm) - near[1]) > least
    )


def _folded(project: Project, blank: ShroudBlank) -> tuple[Detail, Detail]:
    """Return the folded box as seen from ahead, and its section."""
    units, shape = project.sheet.units, blank.shape
    out = 0.0 if shape.flange_is_inward else shape.flange_mm
    reach = -shape.flange_mm if shape.flange_is_inward else 0.0
    outer = Area(-out, -out, shape.width_mm + out, shape.height_mm + out)
    inner = Area(-reach, -reach, shape.width_mm + reach, shape.height_mm + reach)
    thickness = shape.bend.thickness_mm
    wall = Area(0.0, 0.0, shape.width_mm, shape.height_mm).grown(-thickness)
    marks: list[Mark] = [
        Polyline(points=rectangle(outer), is_closed=True, stroke=OUTLINE),
        Polyline(points=rectangle(inner), is_closed=True, stroke=OUTLINE),
        Polyline(points=rectangle(wall), is_closed=True, stroke=HIDDEN, layer=Layer.HIDDEN),
    ]
    key = f"{blank.shroud.id}:folded"
    stations = [
        Station(key=f"{key}:{name}:{axis.value}", axis=axis, at=at)
        for name, at in (
            ("low", Point(outer.x0_mm, outer.y0_mm)),
            ("wall-low", Point(0.0, 0.0)),
            ("wall-high", Point(shape.width_mm, shape.height_mm)),
            ("high", Point(outer.x1_mm, outer.y1_mm)),
        )
        for axis in Axis
    ]
    named = []
    for hole in blank.flat.holes:
        if not any(hole.name == part_tags(project)[fan.id].tag for fan in blank.fans) or hole.diameter_mm < 50:
            continue
        at = Point(
            hole.at.x_mm - blank.middle.x_mm + shape.width_mm / 2,
            hole.at.y_mm - blank.middle.y_mm + shape.height_mm / 2,
        )
        marks += _ring(at, hole.diameter_mm / 2, inner if shape.flange_is_inward else outer, outer)
        marks += _cross(at, hole.diameter_mm / 2 + 10.0)
        stations += [Station(key=f"{key}:{hole.name}:{axis.value}", axis=axis, at=at) for axis in Axis]
        named.append(
            Named(
                key=f"{key}:{hole.name}",
                text=f"{hole.name} {said_hole(hole.diameter_mm, units)}",
                at=at,
                radius_mm=hole.diameter_mm / 2,
            )
        )
    front = DetailPicture(
        name="FRONT VIEW, folded",
        area=outer,
        marks=tuple(marks),
        stations=tuple(stations),
        weld=WeldAt(
            tip=Point(shape.width_mm, shape.height_mm),
            weld=Weld.SQUARE,
            tail_text="4 corners",
        ),
    )
    tag = part_tags(project)[blank.shroud.id].tag
    return (
        Detail(key=key, title=f"{tag} FOLDED, over the outer faces", lines=(), pictures=(front,)),
        Detail(key=f"{key}:section", title=f"{tag}, section", lines=(), pictures=(_section(key, blank),)),
    )


def _ring(at: Point, radius_mm: float, inner: Area, outer: Area) -> Iterator[Mark]:
    """Return a ring hole as it is seen over the flange: what lies behind an inward one is hidden."""
    ring = Circle(centre=at, radius_mm=radius_mm, stroke=OUTLINE)
    yield from clipped(ring, inner)
    behind = replace(ring, stroke=HIDDEN, layer=Layer.HIDDEN)
    for band in (
        Area(outer.x0_mm, outer.y0_mm, inner.x0_mm, outer.y1_mm),
        Area(inner.x1_mm, outer.y0_mm, outer.x1_mm, outer.y1_mm),
        Area(inner.x0_mm, outer.y0_mm, inner.x1_mm, inner.y0_mm),
        Area(inner.x0_mm, inner.y1_mm, inner.x1_mm, outer.y1_mm),
    ):
        if band.width_mm > 0 and band.height_mm > 0:
            yield from clipped(behind, band)


def _section(key: str, blank: ShroudBlank) -> DetailPicture:
    """Return the upright section, the front of the vehicle at its left."""
    shape = blank.shape
    t, d, h, f = shape.bend.thickness_mm, shape.depth_mm, shape.height_mm, shape.flange_mm
    if shape.flange_is_inward:
        low = 0.0
        outside, inside = [(d, h), (0.0, h), (0.0, h - f)], [(t, h - f), (t, h - t), (d - t, h - t)]
    else:
        low = -f
        outside, inside = [(d, h), (t, h), (t, h + f)], [(0.0, h + f), (0.0, h - t), (d - t, h - t)]
    # Once round: forward along the top of the upper wall and back inside it, then the same below, mirrored.
    half = [*outside, *inside]
    ring = [Point(x, y) for x, y in (*half, *((x, h - y) for x, y in reversed(half)))]
    corners = ((0.0, low), (d, 0.0), (d, h), (0.0, h - low))
    return DetailPicture(
        name="SECTION  ◄ FRONT",
        area=Area(0.0, low, d, h - low),
        marks=(Polyline(points=tuple(ring), is_closed=True, stroke=OUTLINE),),
        stations=tuple(
            Station(key=f"{key}:section-{place}:{axis.value}", axis=axis, at=Point(*corner))
            for place, corner in enumerate(corners, start=1)
            for axis in Axis
        ),
    )


def _cross(at: Point, reach_mm: float) -> Iterator[Line]:
    for dx, dy in ((reach_mm, 0.0), (0.0, reach_mm)):
        yield Line(
            start=Point(at.x_mm - dx, at.y_mm - dy),
            end=Point(at.x_mm + dx, at.y_mm + dy),
            stroke=CENTRE,
            layer=Layer.CENTRE,
        )


def _notes(project: Project, blank: ShroudBlank, making: Making) -> tuple[str, ...]:
    units = project.sheet.units
    relief = said_length(relief_radius_mm(making.bend), units)
    flange = "inwards" if blank.shape.flange_is_inward else "outwards"
    flaps: tuple[str, ...] = ()
    if blank.flat.openings:
        flaps = (
            "Flap openings: cover each from behind with rubber sheet hung from its upper edge, 15 mm larger all round.",
        )
    return (
        f"{units_note(units)} {tolerance_note(units)} Measured from the lower left corner of the blank’s rectangle.",
        (
            "Double-dotted lines: the middle of each bend. Up: towards the reader. Bend a test strip first and correct the "
            "deduction for your sheet and tools; bend sizes are computed (REF)."
        ),
        (
            f"Flanges turn {flange}; bend them before the walls where the tool needs it. Corner reliefs R{relief} about the "
            "crossing of two bend lines: close them after bending; corners may be riveted with lugs instead of welded. Break "
            "all edges; seal the flange to the core, and fix it to side plates or frame, never to fins or tubes."
        ),
        *flaps,
        *(f"NOTE {warning}" for warning in blank.warnings),
        (
            "CAUTION: fans start by themselves: disconnect them before hands or tools go near. Cut edges are sharp. Check "
            "the clearance of each fan by hand before power is put to it. Verify on vehicle."
        ),
    )
