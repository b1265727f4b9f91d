"""The sheets of brackets and frame: the frame around the pack, every piece as a detail, the list of pieces, how to put it up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from grillestack.assess.result import Assessment
from grillestack.model.parts import CoreRole
from grillestack.model.project import Project, cores
from grillestack.model.sheet_choices import SheetView
from grillestack.sheets.brackets import Kind, Piece
from grillestack.sheets.detail_block import Detail, Named, Station, WeldAt
from grillestack.sheets.detail_sheets import SheetNames, piece_sheets, with_words
from grillestack.sheets.draw_list import HIDDEN, Axis, Layer, Mark, Point, Polyline
from grillestack.sheets.flat_picture import angle_picture, flat_picture, hole_words
from grillestack.sheets.frame import CROSS_LEG_MM, CROSS_SEAT_MM
from grillestack.sheets.frame_picture import frame_pictures
from grillestack.sheets.frame_rails import TO_SUIT, Frame, Rail, frame_of
from grillestack.sheets.making import Making, bracket_making
from grillestack.sheets.notes import tolerance_note
from grillestack.sheets.paper import paper_form
from grillestack.sheets.say_length import said_length, units_note
from grillestack.sheets.sheet_body import SheetBody
from grillestack.sheets.tables import Table
from grillestack.sheets.thermal_growth import ALUMINIUM_PER_K_FACTOR, COLD_DEGC, LEAST_PLAY_MM, charge_rise_k
from grillestack.sheets.weld_symbol import Weld

_LARGE_SHEET_MM = 300.0
_WHOLE = SheetNames(
    key="brackets", title="Frame around the pack", document_type="Bracket detail", view=SheetView.BRACKETS
)
_ARMS = SheetNames(key="brackets-arms", title="Brackets", document_type="Bracket detail", view=SheetView.BRACKETS)
_RAILS = SheetNames(key="brackets-rails", title="Rails", document_type="Bracket detail", view=SheetView.BRACKETS)


def compose_brackets(project: Project, assessment: Assessment) -> tuple[SheetBody, ...]:
    """Return the sheets of the frame around the pack.

    Raises
    ------
    NothingToDrawError
        If there is no core to hold.
    SheetTooSmallError
        If a piece does not fit the paper at any scale.
    """
    del assessment
    making = bracket_making(project.sheet.making, project.sheet.units)
    frame = frame_of(project, making)
    small = [piece_detail(project, p, making) for p in frame.pieces if p.kind in (Kind.ARM, Kind.FOOT)]
    across = [piece_detail(project, p, making) for p in frame.pieces if p.kind is Kind.CROSS_RAIL]
    upright = [rail_detail(project, rail, making) for rail in frame.rails]
    most = 2 if paper_form(project.sheet.paper).width_mm > _LARGE_SHEET_MM else 3
    whole = piece_sheets(project, _WHOLE, frame_pictures(project, frame), most - 1)
    whole = with_words(project, _WHOLE, whole, (_list(project, frame),), _notes(project, frame, making))
    bodies = [replace(whole[0], warnings=frame.warnings), *whole[1:]]
    for names, details in ((_ARMS, small), (_RAILS, [*across, *upright])):
        bodies += piece_sheets(project, names, details, most) if details else ()
    return tuple(bodies)


def piece_detail(project: Project, piece: Piece, making: Making) -> Detail:
    """Return a piece with its profile and its blank."""
    units, angle = project.sheet.units, piece.angle
    weld = None
    if piece.kind is Kind.CROSS_RAIL:
        size = said_length(_fillet_mm(making), units)
        weld = WeldAt(
            tip=Point(angle.length_mm, piece.flat.area.height_mm),
            weld=Weld.FILLET,
            size_text=f"z{size}",
            tail_text="both ends",
        )
    name = "FLAT, from above  ▲ FRONT  ◄ LEFT" if piece.kind is Kind.CROSS_RAIL else "FLAT PATTERN"
    flat = replace(flat_picture(piece.name, piece.flat, units, name=name), weld=weld)
    return Detail(
        key=piece.name,
        title=f"{piece.name}  {piece.title} – {piece.count} off",
        lines=(_blank_words(project, piece, making), *piece.remarks),
        pictures=(angle_picture(piece.name, angle.seat_mm, angle.leg_mm, angle.bend), flat),
    )


def rail_detail(project: Project, rail: Rail, making: Making) -> Detail:
    """Return a side rail: its blank, and where the cross rails are welded on."""
    units, piece = project.sheet.units, rail.piece
    is_left = "LEFT" in piece.title
    picture = flat_picture(piece.name, piece.flat, units, name="FLAT  ◄ FRONT" if is_left else "FLAT  FRONT ►")
    marks: list[Mark] = list(picture.marks)
    stations, named = list(picture.stations), list(picture.named)
    for name, at in rail.seams:
        seat = CROSS_SEAT_MM if is_left else -CROSS_SEAT_MM
        t = making.thickness_mm if is_left else -making.thickness_mm
        corners = (
            Point(at.x_mm, at.y_mm),
            Point(at.x_mm - seat, at.y_mm),
            Point(at.x_mm - seat, at.y_mm - abs(t)),
            Point(at.x_mm - t, at.y_mm - abs(t)),
            Point(at.x_mm - t, at.y_mm - CROSS_LEG_MM),
            Point(at.x_mm, at.y_mm - CROSS_LEG_MM),
        )
        marks.append(Polyline(points=corners, is_closed=True, stroke=HIDDEN, layer=Layer.HIDDEN))
        key = f"{piece.name}:{name}"
        stations += [Station(key=f"{key}:{axis.value}", axis=axis, at=at, label=name) for axis in Axis]
        middle = Point(at.x_mm - seat / 2, at.y_mm - abs(t))
        named.append(Named(key=key, text=f"{name} welded on, behind", at=middle, radius_mm=0.0))
    return Detail(
        key=piece.name,
        title=f"{piece.name}  {piece.title} – {piece.count} off",
        lines=(_blank_words(project, piece, making), *piece.remarks),
        pictures=(
            replace(picture, marks=tuple(marks), stations=tuple(stations), named=tuple(named)),
            angle_picture(piece.name, piece.angle.seat_mm, piece.angle.leg_mm, piece.angle.bend),
        ),
    )


def _blank_words(project: Project, piece: Piece, making: Making) -> str:
    units, area = project.sheet.units, piece.flat.area
    size = f"{said_length(area.width_mm, units)} × {said_length(area.height_mm, units)}"
    return f"{making.material_words}; blank {size} REF"


def _fillet_mm(making: Making) -> float:
    return max(1.0, round(making.thickness_mm * 2) / 2)


def _list(project: Project, frame: Frame) -> Table:
    units = project.sheet.units
    rows = []
    for piece in frame.pieces:
        area = piece.flat.area
        alike: dict[str, int] = {}
        for hole in piece.flat.holes:
            words = hole_words(hole, units)
            alike[words] = alike.get(words, 0) + 1
        holes = ", ".join(f"{count} × {words}" if count > 1 else words for words, count in alike.items())
        size = f"{said_length(area.width_mm, units)} × {said_length(area.height_mm, units)}"
        rows.append((piece.name, piece.title, str(piece.count), size, holes))
    return Table(
        title="Pieces and their holes",
        heads=("No.", "What for", "Off", "Blank REF", "Holes"),
        rows=tuple(rows),
        at_right=frozenset({2}),
    )


def _notes(project: Project, frame: Frame, making: Making) -> tuple[str, ...]:
    return tuple(_note_texts(project, frame, making))


def _note_texts(project: Project, frame: Frame, making: Making) -> Iterator[str]:
    units = project.sheet.units
    bend = making.bend
    yield f"{units_note(units)} {tolerance_note(units)} Each piece is measured from the lower left corner of its picture."
    yield (
        f"{making.material_words}; {making.bend_words}; bend allowance {bend.allowance_mm:.2f}, deduction "
        f"{bend.deduction_mm:.2f} for each 90°. Double-dotted lines: middle of the bend. Break edges, round outer corners."
    )
    yield (
        "Weight stands in the lower saddles, whose legs hang down; upper arms, legs up, only locate and come off, so that a "
        "core can come out. Rubber of 4 mm "
        "under and over each part. No core carries anything: nothing is fixed to fins, tubes or tanks."
    )
    if cores(project, CoreRole.CHARGE_AIR_COOLER):
        rise = charge_rise_k(project)
        yield (
            f"Charge-air cooler: one end fixed, the other slotted. Growth REF = α·L·ΔT, α = {ALUMINIUM_PER_K_FACTOR * 1e6:g}·10⁻⁶ "
            f"per K, ΔT = {rise:.0f} K over {COLD_DEGC:g} °C; play at least {LEAST_PLAY_MM:g} mm either way."
        )
    yield f"Bolts M8, washers both sides, locking nuts. Arms are bolted, cross rails welded; size of fillets: leg z = {_fillet_mm(making):g}."
    if frame.has_vehicle_mounts:
        yield "Feet reach to the mounts of the vehicle that were measured: verify each on the vehicle before drilling."
    else:
        yield f"No mounts of the vehicle are given: the rails and their flanges end {TO_SUIT}. Carry them at two places at least."
    for name in frame.structure:
        yield f"CAUTION: “{name}” is in the crash structure: no welding, drilling or cutting there; ask a licensed engineer."
    yield from (f"NOTE {warning}" for warning in frame.warnings)
    yield (
        "CAUTION: bumper, beam and core support may carry the crash: local codes decide. Strength is not computed: judge it for "
        "the weight and the road, and follow licensed practice. Verify on vehicle."
    )
