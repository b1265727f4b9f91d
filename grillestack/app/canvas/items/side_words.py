"""What is written into the side strip: part numbers over the parts, gaps between them, names of planes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter

from grillestack.app.canvas.gestures.snapping import whole_step
from grillestack.app.canvas.items.clearance_sizes import clearance_sizes
from grillestack.app.canvas.items.gap_sizes import gap_sizes
from grillestack.app.canvas.items.overlay import Over
from grillestack.app.canvas.items.pens import Line, pen
from grillestack.app.canvas.items.sheet_words import (
    covered_px2,
    paint_balloon,
    paint_size,
    paint_size_line,
    sheet_font,
    text_on_paper,
)
from grillestack.app.canvas.items.side_item import side_rect
from grillestack.model.project import Project, stack
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_bare, show_quantity

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.assess.result import Assessment
    from grillestack.geometry.depth import DepthReport

_BALLOON_PX = 18.0
_ABOVE_PX = 16.0
_ROWS = 6


def paint_side_words(
    painter: QPainter,
    over: Over,
    project: Project,
    assessment: Assessment | None,
    selection: Sequence[str],
    narrowed_frac: float,
) -> list[QRectF]:
    """Write everything, gaps only while the assessment is that of the project shown; return the strips of numbers."""
    painter.setFont(over.font)
    _planes(painter, over, project)
    taken: list[QRectF] = []
    if assessment is not None and assessment.project is project:
        taken = _gaps(painter, over, project, assessment.depth)
    strips = _numbers(painter, over, project, selection)
    if assessment is not None and assessment.project is project:
        painter.setFont(over.font)
        _clearances(painter, over, project, assessment.depth, (selection, [*taken, *strips]))
    painter.setFont(over.font)
    painter.setPen(over.palette.faint_ink)
    heading = over.area.adjusted(8.0, 5.0, -8.0, 0.0)
    words = "◄ FRONT · from vehicle LEFT"
    if narrowed_frac < 0.995:
        share = show_quantity(narrowed_frac, Dimension.FRACTION, over.units)
        words += f"\ndepth drawn at {share} of its scale"
    flags = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
    painter.fillRect(painter.boundingRect(heading, flags, words), over.palette.label_paper)
    painter.drawText(heading, flags, words)
    return strips


def _numbers(painter: QPainter, over: Over, project: Project, selection: Sequence[str]) -> list[QRectF]:
    """Set the numbers in one row over the pack, in depth order, never over each other."""
    rects, numbered = [], []
    for number, part in enumerate(stack(project), start=1):
        if part.hidden:
            continue
        rect = side_rect(part)
        if over.area.left() <= over.to_px(rect.center().x(), 0.0).x() <= over.area.right():
            rects.append(rect)
            numbered.append((number, part.id))
    if not rects:
        return []
    painter.setFont(sheet_font(over.font, 0.5))
    tops = [over.to_px(r.center().x(), r.bottom()) for r in rects]
    row = max(over.area.top() + 34.0, min(p.y() for p in tops) - _ABOVE_PX)
    at = [p.x() for p in tops]
    for place in range(1, len(at)):
        at[place] = max(at[place], at[place - 1] + _BALLOON_PX)
    over_right = at[-1] - (over.area.right() - _BALLOON_PX / 2 - 2.0)
    if over_right > 0:
        at = [x - over_right for x in at]
    for (number, part_id), x, top in zip(numbered, at, tops, strict=True):
        chosen = part_id in selection
        painter.setPen(pen(Line.NARROW, over.palette.accent if chosen else over.palette.faint_ink))
        painter.drawLine(QLineF(QPointF(x, row + _BALLOON_PX / 2 - 1), QPointF(top.x(), top.y())))
        paint_balloon(painter, QPointF(x, row), number, over.palette, selected=chosen)
    half = _BALLOON_PX / 2
    return [QRectF(x - half, row - half, _BALLOON_PX, _BALLOON_PX) for x in at]


def _clearances(
    painter: QPainter,
    over: Over,
    project: Project,
    depth: DepthReport,
    held: tuple[Sequence[str], list[QRectF]],
) -> None:
    """Write the room around the part that is selected alone, off the gaps that are written already."""
    selection, taken = held
    chosen = [part for part in project.parts if part.id in selection and not part.hidden]
    if len(chosen) != 1:
        return
    palette = over.palette
    for size in clearance_sizes(project, depth, chosen[0].id):
        a, b = over.to_px(*size.from_mm), over.to_px(*size.to_mm)
        text = show_bare(whole_step(size.room_mm, over.units, free=False), Dimension.LENGTH, over.units)
        ink = palette.accent if size.room_mm >= 0 else palette.fail_ink
        if abs(a.y() - b.y()) < abs(a.x() - b.x()):
            strip = QRectF(a, b).normalized().adjusted(-16.0, -12.0, 16.0, 12.0)
            down = QPointF(0.0, _free_step(strip, taken))
            taken.append(paint_size(painter, a + down, b + down, text, ink, palette.label_paper))
        else:
            paint_size_line(painter, a, b, ink)
            at = _beside_line(QFontMetricsF(over.font), text, QLineF(a, b), taken)
            taken.append(text_on_paper(painter, text, at, ink, palette.label_paper, over.area))


def _beside_line(metrics: QFontMetricsF, text: str, line: QLineF, taken: Sequence[QRectF]) -> QPointF:
    """Return where the text of an upright size stands: on its line or beside it, where it covers least of other words."""
    half, up = metrics.horizontalAdvance(text) / 2 + 3.0, metrics.height() / 2
    asides = (0.0, -half - 5.0, half + 5.0)
    places = [line.pointAt(share) + QPointF(dx, 0.0) for dx in asides for share in (0.5, 0.3, 0.7)]
    return min(places, key=lambda at: covered_px2(QRectF(at.x() - half, at.y() - up, 2 * half, 2 * up), taken))


def _gaps(painter: QPainter, over: Over, project: Project, depth: DepthReport) -> list[QRectF]:
    taken: list[QRectF] = []
    metrics = QFontMetricsF(over.font)
    for size in gap_sizes(project, depth):
        a, b = over.to_px(size.from_x_mm, size.z_mm), over.to_px(size.to_x_mm, size.z_mm)
        text = show_bare(size.room_mm, Dimension.LENGTH, over.units)
        wide = max(metrics.horizontalAdvance(text) + 8.0, abs(b.x() - a.x()) + 34.0)
        strip = QRectF((a.x() + b.x() - wide) / 2, a.y() - 1.4 * metrics.height(), wide, 2.1 * metrics.height())
        step = _free_step(strip, taken)
        taken.append(strip.translated(0.0, step))
        ink = over.palette.ink if size.room_mm >= 0 else over.palette.fail_ink
        down = QPointF(0.0, step)
        paint_size(painter, a + down, b + down, text, ink, over.palette.label_paper)
    return taken


def _free_step(strip: QRectF, taken: Sequence[QRectF]) -> float:
    """Return by how far down or up a size must move to stand clear of those already drawn: the least that will do."""
    row = strip.height() + 2.0
    for number in range(2 * _ROWS):
        step = row * ((number + 1) // 2) * (1 if number % 2 else -1)
        if not any(strip.translated(0.0, step).intersects(other) for other in taken):
            return step
    return 0.0


def _planes(painter: QPainter, over: Over, project: Project) -> None:
    stations = project.nose.stations
    metrics = QFontMetricsF(over.font)
    foot = over.area.bottom() - metrics.height() * 0.8
    places = [(stations.grille_x_mm, "grille plane")]
    if stations.pulley_x_mm is not None:
        places.append((stations.pulley_x_mm, "pulley"))
    taken = QRectF()
    for x_mm, words in places:
        at = QPointF(over.to_px(x_mm, 0.0).x(), foot)
        if abs(at.x() - taken.center().x()) < (taken.width() + metrics.horizontalAdvance(words)) / 2 + 8.0:
            at.setY(taken.top() - metrics.height() / 2)
        taken = _name_at(painter, over, words, at)
    if len(stations.bonnet_line) > 1:
        a, b = stations.bonnet_line[-2], stations.bonnet_line[-1]
        at = over.to_px((a.x_mm + b.x_mm) / 2, (a.z_mm + b.z_mm) / 2) + QPointF(0.0, -metrics.height() * 0.8)
        _name_at(painter, over, "bonnet line", at)
    window = project.nose.support_window
    if window is not None:
        low = min(p.z_mm for p in window.outline)
        at = over.to_px(window.x_mm, low - 40.0) + QPointF(0.0, metrics.height() * 0.7)
        _name_at(painter, over, "core support", at)


def _name_at(painter: QPainter, over: Over, words: str, at: QPointF) -> QRectF:
    """Name what is in sight, and nothing else: a name pushed in from outside would point at the wrong thing."""
    inside = over.area.adjusted(4.0, 4.0, -4.0, -4.0)
    if not inside.contains(at):
        return QRectF()
    return text_on_paper(painter, words, at, over.palette.faint_ink, over.palette.label_paper, inside)
