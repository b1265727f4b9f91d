"""How far a traced photo can be trusted, in words: the pixel, the marks, and what stands ahead of the plane or behind it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from grillestack.model.nose import Opening
from grillestack.model.photo import FourCorners, Photo, TwoPoints
from grillestack.units.display import InchStyle, UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

if TYPE_CHECKING:  # numpy comes with it
    from grillestack.geometry.homography import Matrix, Points

_BEHIND_MM = {UnitSystem.METRIC: 50.0, UnitSystem.INCH: 50.8}
_AWAY_MM = {UnitSystem.METRIC: 500.0, UnitSystem.INCH: 508.0}
_MANY_PIXELS = 4.0
_COARSE_MM = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoTruth:
    """What the words rest on; `leverage_mm` is what one mark a pixel wrong does to the farthest place asked about."""

    mm_per_px: float
    leverage_mm: float | None
    offset_mm: float
    behind_mm: float
    off_plane_mm: float


def truth_of(photo: Photo, openings: Sequence[Opening], units: UnitSystem) -> PhotoTruth:
    """Return how far the photo can be trusted at the openings, or half a metre away where there are none.

    Raises
    ------
    ValueError
        If the marks straighten nothing; the message is a sentence.
    """
    from grillestack.geometry.homography import mapped
    from grillestack.geometry.photo_plane import around_reference_px, map_to_nose
    from grillestack.geometry.photo_truth import largest_mm_per_px, off_plane_shift_mm

    tied = photo.tied
    matrix = map_to_nose(tied)
    middle = mapped(matrix, [(photo.image.width_px / 2, photo.image.height_px / 2)])[0]
    corners = [(p.y_mm, p.z_mm) for opening in openings for p in opening.outline]
    offset = max((math.dist(middle, corner) for corner in corners), default=_AWAY_MM[units.base])
    behind = _BEHIND_MM[units.base]
    return PhotoTruth(
        mm_per_px=largest_mm_per_px(matrix, around_reference_px(tied)),
        leverage_mm=_leverage_mm(matrix, tied, corners or _around(tied, _AWAY_MM[units.base])),
        offset_mm=offset,
        behind_mm=behind,
        off_plane_mm=abs(off_plane_shift_mm(behind, offset, photo.camera_distance_mm)),
    )


def truth_words(photo: Photo, openings: Sequence[Opening], units: UnitSystem) -> str:
    """Return the accuracy in three sentences, or the sentence for marks that straighten nothing."""
    try:
        truth = truth_of(photo, openings, units)
    except ValueError as error:
        return str(error)

    def mm(length_mm: float) -> str:
        style = InchStyle.FRACTIONS if length_mm in (_BEHIND_MM[units.base], _AWAY_MM[units.base]) else _DECIMAL
        return show_quantity(_as_estimate(length_mm), Dimension.LENGTH, units, style)

    thing = "the flat thing" if isinstance(photo.tied, FourCorners) else "the two points"
    sentences = [f"1 px is {mm(truth.mm_per_px)} here."]
    if truth.leverage_mm is not None:
        where = "the openings' far corner" if openings else f"a place {mm(_AWAY_MM[units.base])} away"
        sentences.append(f"A corner marked 1 px wrong shifts {where} by up to {mm(truth.leverage_mm)}.")
        if truth.leverage_mm > _MANY_PIXELS * truth.mm_per_px:
            sentences.append("Something larger, or nearer to what you trace, would do better.")
    else:
        sentences.append("Only scaled: true only if the camera was held square to the nose.")
    away = show_quantity(photo.camera_distance_mm, Dimension.LENGTH, units)
    there = "at the openings' far corner" if openings else f"{mm(_AWAY_MM[units.base])} from the photo's middle"
    sentences.append(
        f"With the camera {away} away, what stands {mm(truth.behind_mm)} behind {thing} is drawn about "
        f"{mm(truth.off_plane_mm)} too small {there}, what stands ahead of it too large."
    )
    return " ".join(sentences)


_DECIMAL = next(style for style in InchStyle if style is not InchStyle.FRACTIONS)


def _leverage_mm(
    matrix: Matrix, tied: FourCorners | TwoPoints, places_mm: Sequence[tuple[float, float]]
) -> float | None:
    from grillestack.geometry.homography import inverse, mapped
    from grillestack.geometry.photo_plane import pairs, reference_mm
    from grillestack.geometry.photo_truth import mark_leverage_mm_per_px

    if isinstance(tied, TwoPoints):
        return None
    places_px: Points = mapped(inverse(matrix), list(places_mm))
    return float(mark_leverage_mm_per_px(pairs(tied.corners), reference_mm(tied), places_px).max())


def _around(tied: FourCorners | TwoPoints, away_mm: float) -> list[tuple[float, float]]:
    if isinstance(tied, TwoPoints):
        return []
    y, z = tied.middle_y_mm, tied.bottom_z_mm + tied.height_mm / 2
    return [(y + away_mm, z), (y - away_mm, z), (y, z + away_mm), (y, z - away_mm)]


def _as_estimate(length_mm: float) -> float:
    """Return the length no finer than an estimate is: two digits, and whole millimetres from two on."""
    if length_mm <= 0.0:
        return 0.0
    digits = 1 - math.floor(math.log10(length_mm))
    return round(length_mm, digits if length_mm < _COARSE_MM else min(0, digits))
