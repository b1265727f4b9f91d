"""What is written into the view from above: which end is the front, part numbers, gaps, the names of planes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter

from grillestack.app.canvas.items.gap_sizes import gap_sizes
from grillestack.app.canvas.items.overlay import Over
from grillestack.app.canvas.items.pens import Line, pen
from grillestack.app.canvas.items.plan_item import plan_rect
from grillestack.app.canvas.items.sheet_words import paint_balloon, paint_size, sheet_font, text_on_paper
from grillestack.model.project import Project, stack
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_bare

if TYPE_CHECKING:  # the scientific core is loaded behind the first paint
    from grillestack.assess.result import Assessment

_BALLOON_PX = 18.0
_ASIDE_PX = 20.0
_GAPS_APART_PX = 46.0


def paint_plan_words(
    painter: QPainter, over: Over, project: Project, assessment: Assessment | None, selection: Sequence[str]
) -> list[QRectF]:
    """Write everything, gaps only while the assessment is that of the project shown; return the strips of numbers."""
    painter.setFont(over.font)
    _planes(painter, over, project)
    if assessment is not None and assessment.project is project:
        _gaps(painter, over, project, assessment)
    strips = _numbers(painter, over, project, selection)
    painter.setFont(over.font)
    painter.setPen(over.palette.faint_ink)
    heading = over.area.adjusted(8.0, 5.0, -8.0, 0.0)
    flags = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
    words = "▼ FRONT · from above"
    rect = painter.boundingRect(heading, flags, words)
    painter.fillRect(rect, over.palette.label_paper)
    painter.drawText(heading, flags, words)
    return [*strips, rect]


def _numbers(painter: QPainter, over: Over, project: Project, selection: Sequence[str]) -> list[QRectF]:
    """Set the numbers in one column beside the pack, in depth order, never over each other."""
    found = [(n, p.id, plan_rect(p)) for n, p in enumerate(stack(project), start=1) if not p.hidden]
    shown = [
        (number, name, over.to_px(rect.right(), rect.center().y()))
        for number, name, rect in found
        if over.area.top() <= over.to_px(0.0, rect.center().y()).y() <= over.area.bottom()
    ]
    if not shown:
        return []
    painter.setFont(sheet_font(over.font, 0.5))
    # The vehicle's right lies at the left of the sheet: the column stands there, before the outermost part.
    column = max(over.area.left() + _BALLOON_PX, min(at.x() for _, _, at in shown) - _ASIDE_PX)
    heights = [at.y() for _, _, at in shown]
    for place in range(1, len(heights)):
        heights[place] = min(heights[place], heights[place - 1] - _BALLOON_PX)
    too_high = over.area.top() + _BALLOON_PX / 2 + 2.0 - heights[-1]
    if too_high > 0:
        heights = [y + too_high for y in heights]
    half = _BALLOON_PX / 2
    for (number, name, at), y in zip(shown, heights, strict=True):
        chosen = name in selection
        painter.setPen(pen(Line.NARROW, over.palette.accent if chosen else over.palette.faint_ink))
        painter.drawLine(QLineF(QPointF(column + half - 1, y), at))
        paint_balloon(painter, QPointF(column, y), number, over.palette, selected=chosen)
    return [QRectF(column - half, y - half, _BALLOON_PX, _BALLOON_PX) for y in heights]


def _gaps(painter: QPainter, over: Over, project: Project, assessment: Assessment) -> None:
    """Write the gaps from front to rear, each a little further aside than the one before, so that none lies over another."""
    seen = [plan_rect(part) for part in project.parts if not part.hidden]
    if not seen:
        return
    middle = over.to_px(sum(rect.center().x() for rect in seen) / len(seen), 0.0).x()
    apart_px = min(_GAPS_APART_PX, over.area.width() / 10)
    for number, size in enumerate(gap_sizes(project, assessment.depth)):
        x = middle + apart_px * (number % 5 - 2)
        a = QPointF(x, over.to_px(0.0, size.from_x_mm).y())
        b = QPointF(x, over.to_px(0.0, size.to_x_mm).y())
        text = show_bare(size.room_mm, Dimension.LENGTH, over.units)
        ink = over.palette.ink if size.room_mm >= 0 else over.palette.fail_ink
        paint_size(painter, a, b, text, ink, over.palette.label_paper)


def _planes(painter: QPainter, over: Over, project: Project) -> None:
    stations = project.nose.stations
    metrics = QFontMetricsF(over.font)
    places = [(stations.grille_x_mm, "grille plane")]
    if stations.pulley_x_mm is not None:
        places.append((stations.pulley_x_mm, "pulley"))
    inside = over.area.adjusted(4.0, 4.0, -4.0, -4.0)
    for x_mm, words in places:
        half = metrics.horizontalAdvance(words) / 2 + 8.0
        at = QPointF(over.area.right() - half, over.to_px(0.0, x_mm).y())
        if inside.contains(at):
            text_on_paper(painter, words, at, over.palette.faint_ink, over.palette.label_paper, inside)
