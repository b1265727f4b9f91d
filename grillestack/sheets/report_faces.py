"""The faces of the cores as pictures: what of each sees fresh air, what stands behind another core, off the opening or blocked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from grillestack.assess.result import Assessment
from grillestack.geometry.exposure import CoreFace, FaceState
from grillestack.geometry.projection import project_part
from grillestack.sheets.draw_list import OUTLINE, THIN, Hatch, Layer, Mark, Point, Polyline, Text
from grillestack.sheets.flat_part import rectangle
from grillestack.sheets.lettering import text_width_mm
from grillestack.sheets.move_marks import moved
from grillestack.sheets.paper import Area
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.report_flow import Figure

# Spacing and angle of the hatching of each state; fresh air is left white.
_HATCHING: Mapping[FaceState, tuple[float, float]] = {
    FaceState.BEHIND: (2.0, 45.0),
    FaceState.OFF_OPENING: (1.0, 135.0),
    FaceState.BLOCKED: (0.5, 0.0),
}
_WORDS: Mapping[FaceState, str] = {
    FaceState.EXPOSED: "fresh air",
    FaceState.BEHIND: "behind another core",
    FaceState.OFF_OPENING: "off the opening",
    FaceState.BLOCKED: "blocked",
}
_GAP_MM, _MOST_ACROSS, _MOST_HIGH_MM = 8.0, 3, 45.0
_SMALLEST_MM, _SMALLEST_SCALE = 0.05, 1000.0


def faces_figure(assessment: Assessment, width_mm: float, text_mm: float) -> Figure | None:
    """Return the faces side by side at one scale, seen from ahead, with their shares and a legend; none without cores."""
    faces = list(assessment.faces.values())
    if not faces:
        return None
    boxes = [_box(assessment, face) for face in faces]
    captions = [_caption(assessment, face) for face in faces]
    least = [text_width_mm(caption, text_mm) for caption in captions]
    rows = [list(range(k, min(k + _MOST_ACROSS, len(faces)))) for k in range(0, len(faces), _MOST_ACROSS)]
    # Tall pictures would take the page.
    scale = max(box.height_mm for box in boxes) / _MOST_HIGH_MM
    while any(_row_mm(row, boxes, least, scale) > width_mm for row in rows) and scale < _SMALLEST_SCALE:
        scale *= 1.02
    marks: list[Mark] = []
    y = 0.0
    for row in rows:
        x = 0.0
        for k in row:
            marks += _face(faces[k], boxes[k], captions[k], (scale, Point(x, y), text_mm))
            x += max(boxes[k].width_mm / scale, least[k]) + _GAP_MM
        y -= max(boxes[k].height_mm for k in row) / scale + 4.6 * text_mm
    legend, below = _legend(width_mm, text_mm)
    marks += moved(legend, 0.0, y)
    return Figure(marks=tuple(marks), width_mm=width_mm, height_mm=below - y)


def _row_mm(row: Sequence[int], boxes: Sequence[Area], least_mm: Sequence[float], scale: float) -> float:
    return sum(max(boxes[k].width_mm / scale, least_mm[k]) for k in row) + _GAP_MM * (len(row) - 1)


def _caption(assessment: Assessment, face: CoreFace) -> str:
    share = 100 * face.exposed_mm2 / face.core_mm2 if face.core_mm2 else 0.0
    return f"{part_tags(assessment.project)[face.part_id].tag}: {share:.0f} % fresh"


def _box(assessment: Assessment, face: CoreFace) -> Area:
    box = project_part(assessment.project.part(face.part_id)).core_box
    if box is None:
        return Area(0.0, 0.0, 1.0, 1.0)
    return Area(-box.y1_mm, box.z0_mm, -box.y0_mm, box.z1_mm)


def _face(face: CoreFace, box: Area, caption: str, at: tuple[float, Point, float]) -> Iterator[Mark]:
    scale, corner, text_mm = at
    below = corner.y_mm - 1.8 * text_mm
    above = Point(corner.x_mm, corner.y_mm - 1.2 * text_mm)
    yield Text(at=above, text=caption, height_mm=text_mm, layer=Layer.NOTE)

    def on(y_mm: float, z_mm: float) -> Point:
        return Point(corner.x_mm + (-y_mm - box.x0_mm) / scale, below - (box.y1_mm - z_mm) / scale)

    frame = Area(corner.x_mm, below - box.height_mm / scale, corner.x_mm + box.width_mm / scale, below)
    yield Polyline(points=rectangle(frame), is_closed=True, stroke=OUTLINE, layer=Layer.OUTLINE)
    for state, patches in face.painted.items():
        if state not in _HATCHING:
            continue
        spacing, angle = _HATCHING[state]
        for patch in patches:
            points = tuple(on(y, z) for y, z in patch)
            if _size(points) > _SMALLEST_MM:
                yield Hatch(points=points, spacing_mm=spacing, angle_deg=angle)


def _size(points: Sequence[Point]) -> float:
    xs, ys = [p.x_mm for p in points], [p.y_mm for p in points]
    return min(max(xs) - min(xs), max(ys) - min(ys))


def _legend(width_mm: float, text_mm: float) -> tuple[list[Mark], float]:
    """Return the legend and how far it reaches down."""
    marks: list[Mark] = []
    x, y, size = 0.0, 0.0, 1.6 * text_mm
    for state, words in _WORDS.items():
        need = 2 * size + 1.0 + text_width_mm(words, text_mm) + 5.0
        if x > 0 and x + need > width_mm:
            x, y = 0.0, y - 2.2 * text_mm
        patch = Area(x, y - size, x + 2 * size, y)
        marks.append(Polyline(points=rectangle(patch), is_closed=True, stroke=THIN, layer=Layer.OUTLINE))
        if state in _HATCHING:
            spacing, angle = _HATCHING[state]
            marks.append(Hatch(points=rectangle(patch), spacing_mm=spacing, angle_deg=angle))
        at = Point(patch.x1_mm + 1.0, y - 0.5 * (size + text_mm))
        marks.append(Text(at=at, text=words, height_mm=text_mm, layer=Layer.NOTE))
        x += need
    return marks, size - y
