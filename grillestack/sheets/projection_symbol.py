"""The symbol of first or third angle projection (ISO 5456-2): a truncated cone from the side and from its small end."""

from __future__ import annotations

from grillestack.model.sheet_choices import Projection
from grillestack.sheets.draw_list import CENTRE, OUTLINE, Circle, Layer, Line, Mark, Point, Polyline

# Small end, large end and length of the cone in shares of the height of the symbol; from memory of the standard.
_SMALL_FRAC, _LARGE_FRAC, _LENGTH_FRAC = 0.5, 1.0, 1.0


def projection_symbol(projection: Projection, centre: Point, height_mm: float) -> tuple[Mark, ...]:
    """Return the symbol around that centre.

    In third angle the view from the left end stands at the left of the cone, so the circles stand beside the end they
    show, the small one; in first angle they stand beyond the large end.
    """
    small, large, length = (frac * height_mm for frac in (_SMALL_FRAC, _LARGE_FRAC, _LENGTH_FRAC))
    apart = 0.3 * height_mm
    whole = length + apart + large
    left = centre.x_mm - whole / 2
    if projection is Projection.THIRD_ANGLE:
        circles, cone, small_x, large_x = left + large / 2, left + large + apart, 0.0, length
    else:
        circles, cone, small_x, large_x = left + length + apart + large / 2, left, 0.0, length
    y = centre.y_mm
    corners = (
        Point(cone + small_x, y - small / 2),
        Point(cone + small_x, y + small / 2),
        Point(cone + large_x, y + large / 2),
        Point(cone + large_x, y - large / 2),
    )
    middle = Point(circles, y)
    over = 0.12 * height_mm
    return (
        Polyline(points=corners, is_closed=True, stroke=OUTLINE, layer=Layer.TITLE),
        Circle(centre=middle, radius_mm=small / 2, stroke=OUTLINE, layer=Layer.TITLE),
        Circle(centre=middle, radius_mm=large / 2, stroke=OUTLINE, layer=Layer.TITLE),
        Line(start=Point(cone - over, y), end=Point(cone + length + over, y), stroke=CENTRE, layer=Layer.TITLE),
        Line(
            start=Point(circles - large / 2 - over, y),
            end=Point(circles + large / 2 + over, y),
            stroke=CENTRE,
            layer=Layer.TITLE,
        ),
        Line(
            start=Point(circles, y - large / 2 - over),
            end=Point(circles, y + large / 2 + over),
            stroke=CENTRE,
            layer=Layer.TITLE,
        ),
    )
