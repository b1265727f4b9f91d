"""The faint map of how the hottest day would change with the middle of the held core at each place, and its best place."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from grillestack.app.canvas.items.hatch import Hatch, hatch_brush
from grillestack.app.canvas.items.kept_picture import KeptPicture
from grillestack.app.canvas.items.overlay import Over
from grillestack.app.canvas.items.pens import Line, faded, pen
from grillestack.app.canvas.items.sheet_words import text_on_paper
from grillestack.app.palette import Palette

_FAINTEST, _STRONGEST = 0.06, 0.55
_LEAST_FULL_K = 1.0
_RING_PX = 8.0
_SWATCH_PX = 13.0


@dataclass(frozen=True, slots=True)
class BetterCell:
    """A square of the map, in mm of the sheet, and what the hottest day gains there; `None` where there is none.

    What spoils something else is hatched.
    """

    rect: QRectF
    change_k: float | None
    spoils: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BetterMarks:
    """What is written with the map: a sentence at the foot, and the best place with what it gains, if it is worth it.

    `best_mm` is where the core's middle would stand, `ghost` its outline there; `worst_text` and `most_text` stand beside the
    samples of the colours, if there is a map.
    """

    sentence: str
    best_mm: tuple[float, float] | None = None
    best_text: str = ""
    ghost: QRectF | None = None
    worst_text: str = ""
    most_text: str = ""
    spoilt_text: str = ""


class BetterItem(QGraphicsItem):
    """Draws the squares."""

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._kept = KeptPicture()
        self._cells: tuple[BetterCell, ...] = ()
        self._palette: Palette | None = None

    def show_cells(self, cells: tuple[BetterCell, ...], palette: Palette) -> None:
        """Draw these squares from now on."""
        if cells is not self._cells or palette is not self._palette:
            self.prepareGeometryChange()
            self._cells, self._palette = cells, palette
            self.update()

    def boundingRect(self) -> QRectF:
        """Return what all squares cover together."""
        covered = QRectF()
        for cell in self._cells:
            covered = covered.united(cell.rect)
        return covered

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Draw the squares."""
        if self._cells:
            self._kept.paint(painter, self.boundingRect(), (self._cells, self._palette), self._draw)

    def _draw(self, painter: QPainter) -> None:
        if self._palette is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003  Qt's signature
        full_k = max([_LEAST_FULL_K, *(abs(cell.change_k) for cell in self._cells if cell.change_k is not None)])
        for cell in self._cells:
            if cell.change_k is not None:
                painter.fillRect(cell.rect, shade_of(cell.change_k / full_k, self._palette))
            if cell.spoils:
                ink = faded(self._palette.ink, 0.5)
                painter.fillRect(cell.rect, hatch_brush(Hatch.BLOCKED, ink, painter.worldTransform()))


def shade_of(share: float, palette: Palette) -> QColor:
    """Return the shade of a change between the worst (-1), none (0) and the best (1): two hues, the stronger the more."""
    hue = palette.speed(0.85) if share > 0 else palette.temperature(0.85)
    return faded(hue, _FAINTEST + (_STRONGEST - _FAINTEST) * min(1.0, abs(share)))


def paint_better(painter: QPainter, over: Over, marks: BetterMarks) -> list[QRectF]:
    """Mark the best place and write the sentence; return the strips of the texts."""
    painter.setFont(over.font)
    if marks.ghost is not None:
        a, b = marks.ghost.topLeft(), marks.ghost.bottomRight()
        painter.setPen(pen(Line.HIDDEN, over.palette.accent))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(QRectF(over.to_px(a.x(), a.y()), over.to_px(b.x(), b.y())).normalized())
    return [*_paint_sentence(painter, over, marks), *paint_best(painter, over, marks)]


def paint_best(painter: QPainter, over: Over, marks: BetterMarks) -> list[QRectF]:
    """Mark the best place with what it gains; return the strip of the text."""
    if marks.best_mm is None:
        return []
    accent, paper = over.palette.accent, over.palette.label_paper
    at = over.to_px(*marks.best_mm)
    painter.setPen(pen(Line.SELECTED, accent))
    painter.setBrush(over.palette.paper)
    painter.drawEllipse(at, _RING_PX, _RING_PX)
    painter.setBrush(accent)
    painter.drawEllipse(at, _RING_PX * 0.4, _RING_PX * 0.4)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    bold = QFont(over.font)
    bold.setBold(True)
    painter.setFont(bold)
    half = QFontMetricsF(bold).horizontalAdvance(marks.best_text) / 2 + 4.0
    strip = text_on_paper(painter, marks.best_text, at + QPointF(half + _RING_PX + 4.0, 0.0), accent, paper, over.area)
    painter.setFont(over.font)
    return [strip]


def _paint_sentence(painter: QPainter, over: Over, marks: BetterMarks) -> list[QRectF]:
    """Write the sentence at the foot of the drawing, samples of the squares beside it, or under it where there is no room."""
    metrics = QFontMetricsF(painter.font())
    kinds = [(marks.worst_text, -1.0), (marks.most_text, 1.0), (marks.spoilt_text, None)]
    samples = [(text, share) for text, share in kinds if text]
    said_px = metrics.horizontalAdvance(marks.sentence)
    samples_px = sum(_SWATCH_PX + 6.0 + metrics.horizontalAdvance(text) + 12.0 for text, _ in samples)
    fits = said_px + samples_px <= over.area.width() - 24.0
    high = metrics.height() + 6.0
    rows = 1 if fits or not samples else 2
    wide = said_px + samples_px if rows == 1 else max(said_px, samples_px)
    whole = QRectF(over.area.center().x() - wide / 2, over.area.bottom() - rows * high - 6.0, wide, rows * high)
    painter.fillRect(whole.adjusted(-6.0, 0.0, 6.0, 0.0), over.palette.label_paper)
    painter.setPen(over.palette.ink)
    sentence = QRectF(whole.left(), whole.top(), whole.width() if rows == 2 else said_px, high)
    painter.drawText(sentence, int(Qt.AlignmentFlag.AlignCenter), marks.sentence)
    x = whole.left() + (said_px + 12.0 if rows == 1 else (wide - samples_px) / 2)
    y = whole.bottom() - high
    for text, share in samples:
        x = _paint_sample(painter, over, QPointF(x, y), text, share)
    return [whole]


def _paint_sample(painter: QPainter, over: Over, at: QPointF, text: str, share: float | None) -> float:
    """Draw one sample with its text; return where the next one begins."""
    metrics = QFontMetricsF(painter.font())
    high = metrics.height() + 6.0
    sample = QRectF(round(at.x()), round(at.y() + (high - _SWATCH_PX) / 2), _SWATCH_PX, _SWATCH_PX)
    faint = faded(over.palette.ink, 0.5)
    painter.fillRect(sample, faded(over.palette.ink, 0.0) if share is None else shade_of(share, over.palette))
    if share is None:
        painter.fillRect(sample, hatch_brush(Hatch.BLOCKED, faint, painter.worldTransform()))
    painter.setPen(pen(Line.NARROW, faint))
    painter.drawRect(sample)
    painter.setPen(over.palette.ink)
    wide = metrics.horizontalAdvance(text)
    words = QRectF(sample.right() + 6.0, at.y(), wide + 2.0, high)
    painter.drawText(words, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), text)
    return words.right() + 10.0


def paint_middle(painter: QPainter, over: Over, at_mm: tuple[float, float]) -> None:
    """Mark the middle of the held core, which the map speaks of."""
    at = over.to_px(*at_mm)
    painter.setPen(pen(Line.VISIBLE, over.palette.accent))
    painter.drawLine(QLineF(at.x() - _RING_PX, at.y(), at.x() + _RING_PX, at.y()))
    painter.drawLine(QLineF(at.x(), at.y() - _RING_PX, at.x(), at.y() + _RING_PX))
