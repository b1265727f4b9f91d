"""A photo of the nose to draw over: the picture itself, and how it was tied to the vehicle."""

from __future__ import annotations

import enum
from typing import Annotated

from msgspec import Meta

from grillestack.model.values import CoordinateMm, Fraction, ModelError, SizeMm, Value

MOST_PIXELS = 2_000_000
# Two megapixels as a JPEG are about 1 MB; four letters stand for three bytes, and a project file may hold 50 MB.
MOST_LETTERS = 4_000_000

SidePx = Annotated[int, Meta(ge=16, le=20_000)]
PlacePx = Annotated[float, Meta(ge=0, le=20_000)]
# RFC 4648, checked as a whole once per picture: all other edits of a photo share the picture.
Base64 = Annotated[str, Meta(min_length=16, max_length=MOST_LETTERS, pattern=r"^[A-Za-z0-9+/]*={0,2}$")]

# How the first bytes of each kind of file look in base64: FF D8 FF, and the eight bytes that a PNG begins with.
_BEGINNINGS = ("/9j/", "iVBORw0KGgo")


class PhotoImage(Value, frozen=True, kw_only=True):
    """The picture as the bytes of a JPEG or PNG file in base64, upright and already reduced."""

    data_base64: Base64
    width_px: SidePx
    height_px: SidePx

    def __post_init__(self) -> None:
        super().__post_init__()
        if not self.data_base64.startswith(_BEGINNINGS) or len(self.data_base64) % 4:
            raise ModelError(
                "data_base64", "The photo in the project is neither a JPEG nor a PNG picture: load the photo again."
            )
        if self.width_px * self.height_px > MOST_PIXELS:
            raise ModelError(
                "width_px",
                f"The photo has {self.width_px} × {self.height_px} pixels, but a project keeps 2 megapixels at most: "
                "load the photo again, so that it is reduced.",
            )


class Mark(Value, frozen=True, kw_only=False, array_like=True):
    """A place in the photo, from its upper left corner to the right and down."""

    x_px: PlacePx
    y_px: PlacePx


class FourCorners(Value, frozen=True, kw_only=True, tag_field="by", tag="four corners"):
    """The photo is straightened by a flat, upright rectangle of known size that stands square to the vehicle."""

    # As the photo shows them: lower left, lower right, upper right, upper left.
    corners: Annotated[tuple[Mark, ...], Meta(min_length=4, max_length=4)]
    width_mm: SizeMm
    height_mm: SizeMm
    middle_y_mm: CoordinateMm = 0.0
    bottom_z_mm: CoordinateMm = 0.0


class LineLies(enum.Enum):
    """What is known of the line between two marked points."""

    AS_TAKEN = "as taken"
    LEVEL = "level"
    PLUMB = "plumb"


class TwoPoints(Value, frozen=True, kw_only=True, tag_field="by", tag="two points"):
    """The photo is only scaled, by two points of known distance; it must have been taken square to the nose."""

    first: Mark
    second: Mark
    distance_mm: SizeMm
    lies: LineLies = LineLies.AS_TAKEN
    first_y_mm: CoordinateMm = 0.0
    first_z_mm: CoordinateMm = 0.0


class Photo(Value, frozen=True, kw_only=True):
    """A photo under the front view: it is drawn over, and nothing is computed from it."""

    image: PhotoImage
    tied: FourCorners | TwoPoints
    opacity_frac: Fraction = 0.6
    locked: bool = True
    hidden: bool = False
    # From memory: about where one stands to get a whole nose into a telephone's picture.
    camera_distance_mm: Annotated[float, Meta(ge=200, le=50_000)] = 2_500.0

    def __post_init__(self) -> None:
        super().__post_init__()
        for mark in marks_of(self.tied):
            if mark.x_px > self.image.width_px or mark.y_px > self.image.height_px:
                raise ModelError(
                    "tied",
                    f"The mark at {mark.x_px:.6g}, {mark.y_px:.6g} px lies outside the photo of {self.image.width_px} × "
                    f"{self.image.height_px} px: mark the photo again.",
                )


def marks_of(tied: FourCorners | TwoPoints) -> tuple[Mark, ...]:
    """Return the marked places, in their order."""
    return tied.corners if isinstance(tied, FourCorners) else (tied.first, tied.second)
