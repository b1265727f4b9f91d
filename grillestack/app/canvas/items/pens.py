"""How thick and how broken each kind of line is: wide to narrow as 2 to 1, after the line kinds of ISO 128-2."""

from __future__ import annotations

import enum
import functools

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPen


class Line(enum.Enum):
    """The kinds of line on the sheet: width in pixels and the pattern in multiples of that width."""

    OPENING = (2.6, ())
    VISIBLE = (1.7, ())
    SELECTED = (2.5, ())
    SELECTED_HIDDEN = (2.0, (4.0, 2.5))
    HIDDEN = (1.0, (6.0, 3.5))
    SHROUD = (1.1, (9.0, 4.0))
    CENTRE = (0.9, (14.0, 3.0, 2.0, 3.0))
    NARROW = (0.9, ())


def pen(line: Line, colour: QColor) -> QPen:
    """Return a pen that keeps its width in pixels at every zoom; it is the caller's own to change."""
    return QPen(_pen(line, colour.rgba()))


@functools.lru_cache(maxsize=512)
def _pen(line: Line, rgba: int) -> QPen:
    """Return the pen; a sheet asks for the same few hundreds of times at each repaint."""
    width_px, pattern = line.value
    made = QPen(QColor.fromRgba(rgba), width_px)
    made.setCosmetic(True)
    made.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    made.setCapStyle(Qt.PenCapStyle.FlatCap)
    if pattern:
        made.setDashPattern(list(pattern))
    return made


def faded(colour: QColor, share_frac: float) -> QColor:
    """Return the colour let through to this share."""
    made = QColor(colour)
    made.setAlphaF(colour.alphaF() * share_frac)
    return made
