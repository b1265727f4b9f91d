"""What is written and marked over the front view: names, sizes, snap lines, the next step and the pointer's tag."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from grillestack.app.canvas.gestures.gesture import Marks
from grillestack.app.canvas.gestures.outline_hand import OutlineMarks
from grillestack.app.canvas.gestures.shift import outline_of
from grillestack.app.canvas.gestures.snap import united
from grillestack.app.canvas.gestures.stretch import HANDLES, can_stretch, handle_place
from grillestack.app.canvas.items.connections import connection_strips
from grillestack.app.canvas.items.drawing_marks import paint_drawing, paint_outline_handles, sides_drawn
from grillestack.app.canvas.items.live_sizes import live_sizes
from grillestack.app.canvas.items.lock_mark import is_seen_locked, paint_hidden_note, paint_locks
from grillestack.app.canvas.items.measure_marks import measured_px, paint_measured
from grillestack.app.canvas.items.overlay import (
    NamedThing,
    Over,
    paint_handles,
    paint_live_sizes,
    paint_marks,
    paint_names,
    paint_next_step,
    paint_vehicle_sides,
)
from grillestack.app.canvas.items.pointer_tag import PlacedTag, TagLine, paint_tag, place_tag, tag_lines
from grillestack.app.canvas.items.typed_field import paint_typed_field, place_typed_field
from grillestack.app.canvas.sheet_names import front_names, hidden_words, next_step
from grillestack.app.locked import seen_among
from grillestack.geometry.projection import Box, project_part
from grillestack.model.project import Project, radiator

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.assess.result import Assessment

_MOST_NAMES = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class FrontScene:
    """What the words depend on besides the sheet: project, selection, both assessments, and what the hand does."""

    project: Project
    selection: tuple[str, ...]
    base: Assessment | None
    now: Assessment | None
    marks: Marks
    pointer: QPointF | None
    in_gesture: bool
    outline: OutlineMarks | None = None


def paint_front_words(
    painter: QPainter,
    over: Over,
    scene: FrontScene,
    label_choices: dict[str, int],
    written_before: Sequence[QRectF] = (),
) -> None:
    """Write everything, most important first, each off what is written already; `label_choices` is kept between paints."""
    project = scene.project
    taken = [*written_before, *paint_vehicle_sides(painter, over, "vehicle RIGHT", "vehicle LEFT")]
    sentence = scene.marks.hint or next_step(project)
    if sentence:
        paint_next_step(
            painter, over, sentence, alone=not scene.marks.hint and not project.parts and not project.nose.openings
        )
    held = [part for part in project.parts if part.id in scene.selection and not part.hidden]
    sizes: list[QRectF] = []
    if len(held) == 1:
        sizes = paint_live_sizes(painter, over, live_sizes(project, held[0].id), taken)
        taken += sizes
    taken += paint_hidden_note(painter, over, hidden_words(project))
    if scene.outline is not None:
        paint_outline_handles(painter, over, scene.outline)
    if scene.marks.drawing is not None:
        paint_drawing(painter, over, scene.marks.drawing)
    measured = [] if scene.marks.measured is None else paint_measured(painter, over, scene.marks.measured)
    moving = _moving_px(over, scene)
    field = place_typed_field(over, scene.marks.typed, moving)
    written = [*measured, *([] if field is None else [field.rect])]
    taken += written
    taken += paint_marks(painter, over, scene.marks, moving, taken)
    tag = _tag(over, scene, [*written, *([] if moving is None else [moving])], [*sizes, *written_before])
    if tag is not None and field is not None and tag.rect.intersects(field.rect):
        tag = None  # in so little room the field says how far, the verdict beside it what comes of it
    if tag is not None:
        taken.append(tag.rect)
    taken += connection_strips(project, over.to_px)
    if not scene.in_gesture:
        label_choices.clear()  # names hold their place only while something moves
    paint_names(painter, over, _things(over, scene), taken, label_choices)
    if len(held) == 1 and can_stretch(held[0]):
        paint_handles(painter, over, [handle_place(held[0], handle) for handle in HANDLES])
    paint_locks(painter, over, [_px(over, project_part(p).outline_box) for p in project.parts if is_seen_locked(p)])
    if tag is not None:
        paint_tag(painter, tag, over.palette)
    if field is not None:
        paint_typed_field(painter, over, field)


def _things(over: Over, scene: FrontScene) -> list[NamedThing]:
    """Return what is in sight, each with the part of it that is; beyond a number of names nobody can read them."""
    found: list[NamedThing] = []
    for name in front_names(scene.project):
        if len(found) >= _MOST_NAMES and name.key not in scene.selection:
            continue
        seen = _px(over, name.around).intersected(over.area)
        if not seen.isEmpty():
            selected = name.key in scene.selection
            found.append(NamedThing(key=name.key, text=name.text, around=seen, number=name.number, selected=selected))
    return found


def _moving_px(over: Over, scene: FrontScene) -> QRectF | None:
    if not scene.in_gesture:
        return None
    held = united(outline_of(scene.project, name) for name in seen_among(scene.project, scene.selection))
    return None if held is None else _px(over, held)


def _tag(over: Over, scene: FrontScene, keep_off: list[QRectF], words: Sequence[QRectF]) -> PlacedTag | None:
    if scene.pointer is None or not scene.marks.moved_text:
        return None
    face = radiator(scene.project)
    if face is not None:
        keep_off.append(_px(over, project_part(face).outline_box))
    lines = tag_lines(scene.base, scene.now, over.units)
    if scene.marks.facts is not None:
        lines = tuple(TagLine(fact.words, fact.now_text, "") for fact in scene.marks.facts)
        keep_off = [] if scene.marks.measured is None else [measured_px(over, scene.marks.measured), *keep_off]
        if scene.marks.drawing is not None:
            keep_off = sides_drawn(over, scene.marks.drawing)
    return place_tag(over.font, scene.marks.moved_text, lines, scene.pointer, over.area, keep_off, words)


def _px(over: Over, box: Box) -> QRectF:
    return QRectF(over.to_px(box.y0_mm, box.z0_mm), over.to_px(box.y1_mm, box.z1_mm)).normalized()
