"""The whole frame around the pack, from ahead and from the left: which piece goes where."""

from __future__ import annotations

from collections.abc import Sequence

from grillestack.geometry.projection import placed_boxes
from grillestack.model.project import Project, stack
from grillestack.sheets.brackets import Kind, Placed
from grillestack.sheets.datum import datum_of
from grillestack.sheets.detail_block import Detail, DetailPicture, Named, Station
from grillestack.sheets.draw_list import OUTLINE, THIN, Axis, Layer, Mark, Point, Polyline
from grillestack.sheets.flat_part import rectangle
from grillestack.sheets.frame_rails import Frame
from grillestack.sheets.paper import Area
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_length
from grillestack.sheets.view_faces import Looking, faces_of


def frame_pictures(project: Project, frame: Frame) -> tuple[Detail, ...]:
    """Return the frame from ahead and from the left, pieces in wide lines, the pack in narrow ones."""
    corner = _corner_words(project, frame)
    return (
        Detail(
            key="frame:ahead",
            title="FRAME FROM AHEAD  ◄ RIGHT   LEFT ►",
            lines=(corner,),
            pictures=(_picture(project, frame, Looking.AHEAD),),
        ),
        Detail(
            key="frame:left",
            title="FRAME FROM THE LEFT  ◄ FRONT",
            lines=(),
            pictures=(_picture(project, frame, Looking.LEFT),),
        ),
    )


def _picture(project: Project, frame: Frame, looking: Looking) -> DetailPicture:
    marks: list[Mark] = []
    for face in faces_of(stack(project), looking):
        points = tuple(Point(c.u_mm, c.v_mm) for c in face.corners)
        marks.append(Polyline(points=points, is_closed=True, stroke=THIN, layer=Layer.VEHICLE))
    seen = [(one, _area(one, looking)) for one in frame.placed]
    if looking is Looking.LEFT:
        # What stands on the right side would lie over what is on the left.
        plane = sum(one.space.across0_mm + one.space.across1_mm for one in frame.placed) / (2 * len(frame.placed))
        seen = [(o, a) for o, a in seen if o.space.across1_mm > plane]
    bounds = Area(
        min(a.x0_mm for _, a in seen),
        min(a.y0_mm for _, a in seen),
        max(a.x1_mm for _, a in seen),
        max(a.y1_mm for _, a in seen),
    )
    stations: list[Station] = []
    named: list[Named] = []
    told: set[tuple[str, float, float]] = set()
    for number, (one, area) in enumerate(seen, start=1):
        marks.append(Polyline(points=rectangle(area), is_closed=True, stroke=OUTLINE, layer=Layer.OUTLINE))
        key = f"frame:{looking.value}:{one.name}-{number}"
        stations += _stations(key, one, area, looking)
        middle = Point((area.x0_mm + area.x1_mm) / 2, (area.y0_mm + area.y1_mm) / 2)
        place = (one.name, round(middle.x_mm, 1), round(middle.y_mm, 1))
        if place not in told:
            told.add(place)
            named.append(Named(key=key, text=one.name, at=middle, radius_mm=min(area.width_mm, area.height_mm) / 2))
    stations += [
        Station(key=f"frame:{looking.value}:{end}:{axis.value}", axis=axis, at=at)
        for end, at in (("low", Point(bounds.x0_mm, bounds.y0_mm)), ("high", Point(bounds.x1_mm, bounds.y1_mm)))
        for axis in Axis
    ]
    tags = part_tags(project)
    for part in stack(project) if looking is Looking.LEFT else ():
        box = placed_boxes(part)[0]
        centre = Point((box.x0_mm + box.x1_mm) / 2, (box.z0_mm + box.z1_mm) / 2)
        named.append(
            Named(
                key=f"frame:{looking.value}:{part.id}",
                text=tags[part.id].tag,
                at=centre,
                radius_mm=0.0,
                is_needed=False,
            )
        )
    return DetailPicture(
        name="",
        area=bounds,
        marks=tuple(marks),
        stations=tuple(stations),
        named=tuple(named),
    )


def _stations(key: str, one: Placed, area: Area, looking: Looking) -> Sequence[Station]:
    """Return what places a piece: rails by their inner faces and ends, arms and cross rails by their seats' heights."""
    if one.kind is Kind.SIDE_RAIL:
        return [
            Station(key=f"{key}:{number}", axis=Axis.ACROSS, at=Point(x, area.y0_mm))
            for number, x in enumerate((area.x0_mm, area.x1_mm))
        ]
    low, high = Point(area.x0_mm, area.y0_mm), Point(area.x0_mm, area.y1_mm)
    found = [Station(key=f"{key}:up", axis=Axis.UP, at=high)]
    if looking is Looking.LEFT:
        middle = Point((area.x0_mm + area.x1_mm) / 2, area.y0_mm)
        found.append(Station(key=f"{key}:across", axis=Axis.ACROSS, at=middle))
    elif one.kind is Kind.FOOT:
        found.append(Station(key=f"{key}:across", axis=Axis.ACROSS, at=low))
    return found


def _area(one: Placed, looking: Looking) -> Area:
    s = one.space
    if looking is Looking.AHEAD:
        return Area(s.across0_mm, s.z0_mm, s.across1_mm, s.z1_mm)
    return Area(s.x0_mm, s.z0_mm, s.x1_mm, s.z1_mm)


def _corner_words(project: Project, frame: Frame) -> str:
    """Return where the corner of the frame lies to the datum of the pack sketch."""
    datum, units = datum_of(project), project.sheet.units
    across = min(one.space.across0_mm for one in frame.placed)
    front = min(one.space.x0_mm for one in frame.placed)
    low = min(one.space.z0_mm for one in frame.placed)
    if datum is None:
        return ""
    dx, dy, dz = datum.x_mm - front, -datum.y_mm - across, datum.z_mm - low
    return (
        f"0/0/0 of the frame: its lower corner at the right of the vehicle, at the front. The datum of the pack sketch lies "
        f"{said_length(dy, units)} to the left of it, {said_length(dz, units)} above and {said_length(dx, units)} behind it."
    )
