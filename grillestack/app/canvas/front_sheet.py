"""Which items stand on the front view's sheet, and which of them a new project touches."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF
from PySide6.QtWidgets import QGraphicsScene

from grillestack.app.canvas.face_show import PaintedFace
from grillestack.app.canvas.gestures.snap import bounds_of
from grillestack.app.canvas.items.air_item import AirItem
from grillestack.app.canvas.items.face_item import FaceItem
from grillestack.app.canvas.items.nose_items import CentreLineItem, NoseDrawing, NoseItem
from grillestack.app.canvas.items.part_item import PartDrawing, PartItem, WashItem, rect_of
from grillestack.app.canvas.items.photo_item import photo_bounds
from grillestack.app.palette import Palette
from grillestack.app.session import SUPPORT_WINDOW_ID
from grillestack.geometry.corners import traced
from grillestack.geometry.projection import Box, project_part
from grillestack.model.nose import NoseThing
from grillestack.model.outline import Point
from grillestack.model.project import Project, stack

_Z_CENTRE, _Z_WASH, _Z_FACE, _Z_WINDOW, _Z_PARTS = 0.0, 1.0, 2.0, 3.0, 10.0
_Z_SELECTED, _Z_OPENING, _Z_OBSTRUCTION = 490.0, 500.0, 510.0
_AROUND_MM = 45.0


class FrontSheet:
    """Keeps one item per part, opening and obstruction, by id; what did not change is not touched."""

    def __init__(self, scene: QGraphicsScene, palette: Palette) -> None:
        self._scene = scene
        self._parts: dict[str, PartItem] = {}
        self._nose: dict[str, NoseItem] = {}
        self._centre = CentreLineItem(palette)
        self._wash = WashItem(palette)
        self._face = FaceItem(palette)
        self._air = AirItem(palette)
        places = ((self._centre, _Z_CENTRE), (self._wash, _Z_WASH), (self._face, _Z_FACE), (self._air, _Z_FACE))
        for item, z in places:
            item.setZValue(z)
            scene.addItem(item)

    def part_item(self, part_id: str) -> PartItem:
        """Return the item of that part."""
        return self._parts[part_id]

    def show_project(self, project: Project, selection: Sequence[str], palette: Palette) -> int:
        """Draw the project; return how many items were drawn anew."""
        self._centre.set_palette(palette)
        cores = tuple(p for p in (project_part(part) for part in project.parts if not part.hidden) if p.is_core)
        self._wash.show_cores(cores, palette)
        return self._show_nose(project, selection, palette) + self._show_parts(project, selection, palette)

    def show_face(self, painted: PaintedFace, palette: Palette) -> None:
        """Paint the face that is shown."""
        self._face.show_patches(painted.patches, palette)
        self._air.show_cells(painted.measured, painted.cells, palette)

    def _show_parts(self, project: Project, selection: Sequence[str], palette: Palette) -> int:
        order = [part for part in stack(project) if not part.hidden]
        self._drop_missing(self._parts, {part.id for part in order})
        ahead: list[Box] = [bounds_of(o.outline) for o in project.nose.obstructions if _is_upright_box(traced(o))]
        touched = 0
        for depth, part in enumerate(order):
            selected = part.id in selection
            drawing = PartDrawing(part, tuple(ahead), selected, palette)
            item = self._parts.get(part.id)
            if item is None:
                item = self._parts[part.id] = PartItem(drawing)
                self._scene.addItem(item)
                touched += 1
            else:
                touched += item.show_drawing(drawing)
            item.setZValue(_Z_SELECTED if selected else _Z_PARTS + len(order) - depth)
            seen = project_part(part)
            # One sees through a ring and, on this sheet, through a shroud: neither hides what stands behind.
            if seen.is_core:
                ahead.append(seen.outline_box)
        return touched

    def _show_nose(self, project: Project, selection: Sequence[str], palette: Palette) -> int:
        nose = project.nose
        things: dict[str, NoseThing] = {o.id: o for o in nose.openings}
        things |= {o.id: o for o in nose.obstructions}
        heights = dict.fromkeys((o.id for o in nose.openings), _Z_OPENING)
        heights |= dict.fromkeys((o.id for o in nose.obstructions), _Z_OBSTRUCTION)
        if nose.support_window is not None:
            things[SUPPORT_WINDOW_ID] = nose.support_window
            heights[SUPPORT_WINDOW_ID] = _Z_WINDOW
        self._drop_missing(self._nose, set(things))
        touched = 0
        for name, thing in things.items():
            drawing = NoseDrawing(thing, name in selection, palette)
            item = self._nose.get(name)
            if item is None:
                item = self._nose[name] = NoseItem(drawing)
                self._scene.addItem(item)
                touched += 1
            else:
                touched += item.show_drawing(drawing)
            item.setZValue(heights[name])
        return touched

    def _drop_missing(self, items: dict[str, PartItem] | dict[str, NoseItem], wanted: set[str]) -> None:
        for gone in [name for name in items if name not in wanted]:
            self._scene.removeItem(items.pop(gone))


def drawn_bounds(project: Project) -> QRectF | None:
    """Return what must be in sight: pack, openings and support window with a little around them, or nothing.

    What only crosses the nose, such as a beam as wide as the vehicle, may run out of sight: it would make the pack small.
    """
    boxes = [rect_of(project_part(part).outline_box) for part in project.parts]
    outlines = [o.outline for o in project.nose.openings]
    if project.nose.support_window is not None:
        outlines.append(project.nose.support_window.outline)
    if not boxes and not outlines:
        outlines = [o.outline for o in project.nose.obstructions]
    if not boxes and not outlines and project.nose.photo is not None:
        boxes.append(photo_bounds(project.nose.photo))
    boxes += [rect_of(bounds_of(outline)) for outline in outlines]
    if not boxes:
        return None
    covered = boxes[0]
    for box in boxes[1:]:
        covered = covered.united(box)
    return covered.adjusted(-_AROUND_MM, 0.0, _AROUND_MM, 0.0)


def is_other_document(old: Project, new: Project) -> bool:
    """Return whether the new project is no edit of the old one: an edit shares all that it did not change."""
    shares_part = any(part is other for part in old.parts for other in new.parts)
    return old.nose is not new.nose and old.engine is not new.engine and not shares_part


def _is_upright_box(outline: Sequence[Point]) -> bool:
    box = bounds_of(outline)
    corners = {(p.y_mm, p.z_mm) for p in outline}
    return len(outline) == 4 and corners == {(y, z) for y in (box.y0_mm, box.y1_mm) for z in (box.z0_mm, box.z1_mm)}
