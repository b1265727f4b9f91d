"""Flat shapes of the document: points, polygons and axis-parallel rectangles."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta

from grillestack.model.values import CoordinateMm, ModelError, Value


class Point(Value, frozen=True, kw_only=False, array_like=True):
    """A point of the front view: y to the vehicle's right, z up."""

    y_mm: CoordinateMm
    z_mm: CoordinateMm


class SidePoint(Value, frozen=True, kw_only=False, array_like=True):
    """A point of the side view: x rearward from the grille plane, z up."""

    x_mm: CoordinateMm
    z_mm: CoordinateMm


# A polygon, closed without repeating its first corner. It may cross itself: it is then drawn and reported.
Outline = Annotated[tuple[Point, ...], Meta(min_length=3, max_length=200)]


_LARGEST_RADIUS_MM = 5_000
# One radius for each corner of an outline, in its order; none at all for an outline of sharp corners.
CornerRadii = Annotated[tuple[Annotated[float, Meta(ge=0, le=_LARGEST_RADIUS_MM)], ...], Meta(max_length=200)]


class Rect(Value, frozen=True, kw_only=True):
    """An axis-parallel rectangle in a part's own frame: u to the vehicle's right and v up, before any turn or flip."""

    u_min_mm: CoordinateMm
    v_min_mm: CoordinateMm
    u_max_mm: CoordinateMm
    v_max_mm: CoordinateMm

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.u_max_mm <= self.u_min_mm:
            raise ModelError(
                "u_max_mm", "The width must be above 0 mm: give the right edge a place right of the left one."
            )
        if self.v_max_mm <= self.v_min_mm:
            raise ModelError(
                "v_max_mm", "The height must be above 0 mm: give the top edge a place above the bottom one."
            )

    @property
    def width_mm(self) -> float:
        """Return the size along u."""
        return self.u_max_mm - self.u_min_mm

    @property
    def height_mm(self) -> float:
        """Return the size along v."""
        return self.v_max_mm - self.v_min_mm

    def contains(self, other: Rect, slack_mm: float = 0.01) -> bool:
        """Return whether the other rectangle lies inside this one, to within the slack."""
        return (
            other.u_min_mm >= self.u_min_mm - slack_mm
            and other.v_min_mm >= self.v_min_mm - slack_mm
            and other.u_max_mm <= self.u_max_mm + slack_mm
            and other.v_max_mm <= self.v_max_mm + slack_mm
        )

    def overlaps(self, other: Rect, slack_mm: float = 0.01) -> bool:
        """Return whether the two share more than the slack in both directions."""
        return (
            min(self.u_max_mm, other.u_max_mm) - max(self.u_min_mm, other.u_min_mm) > slack_mm
            and min(self.v_max_mm, other.v_max_mm) - max(self.v_min_mm, other.v_min_mm) > slack_mm
        )


def checked_radii(outline: tuple[Point, ...], radii_mm: tuple[float, ...]) -> tuple[float, ...]:
    """Return the corner radii as the document keeps them: one for each corner, or none if all corners are sharp.

    Raises
    ------
    ModelError
        If there are more or fewer radii than corners, or one cannot be a radius.
    """
    field = "corner_radii_mm"
    for radius in radii_mm:
        is_number = isinstance(radius, (int, float)) and not isinstance(radius, bool)
        if not is_number or not 0 <= radius <= _LARGEST_RADIUS_MM:
            raise ModelError(
                field,
                f"A corner radius must be at least 0 mm and at most {_LARGEST_RADIUS_MM:g} mm, not “{radius}”: correct the figure.",
            )
    if not any(radii_mm):
        return ()
    if len(radii_mm) != len(outline):
        raise ModelError(
            field,
            f"The outline has {len(outline)} corners but {len(radii_mm)} corner radii: give each corner one, or none at all.",
        )
    return tuple(float(radius) + 0.0 for radius in radii_mm)


def centred_rect(width_mm: float, height_mm: float) -> Rect:
    """Return the rectangle of that size around the origin."""
    return Rect(u_min_mm=-width_mm / 2, v_min_mm=-height_mm / 2, u_max_mm=width_mm / 2, v_max_mm=height_mm / 2)


def rectangle_outline(y_min_mm: float, z_min_mm: float, y_max_mm: float, z_max_mm: float) -> tuple[Point, ...]:
    """Return the four corners of a rectangle of the front view as an outline."""
    return (Point(y_min_mm, z_min_mm), Point(y_max_mm, z_min_mm), Point(y_max_mm, z_max_mm), Point(y_min_mm, z_max_mm))
