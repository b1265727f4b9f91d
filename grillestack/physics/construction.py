"""What a core is made of, and the areas and passages that follow, per square metre of its face.

Louvred corrugated fins between flat tubes: `tube_rows` tubes one behind the other in the air, one fin over all.
A bar-and-plate core is described the same way, its plate channel being the tube.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from functools import cached_property
from typing import Final

FIN_FITS_GAP_FRAC: Final = 0.05
"""How far the fin height may differ from the gap between tubes: rounding on a parts page, not more."""


@dataclass(frozen=True, kw_only=True)
class InnerFin:
    """The offset strip fin inside a charge-air tube; spacing and height are clear gaps, metal not counted."""

    spacing_m: float
    height_m: float
    thickness_m: float
    strip_length_m: float

    def __post_init__(self) -> None:
        for field in fields(self):
            _refuse_unless_positive(f"inner fin's {_words(field.name)}", getattr(self, field.name))

    @cached_property
    def channel_area_m2(self) -> float:
        """Give the free cross-section of one channel between two fin legs."""
        return self.spacing_m * self.height_m

    @cached_property
    def channel_perimeter_m(self) -> float:
        """Give the wetted area of one channel per metre of tube, with the strips' cut edges. Source: [MB1995]."""
        s, h, t, strip = self.spacing_m, self.height_m, self.thickness_m, self.strip_length_m
        return (2.0 * (s * strip + h * strip + t * h) + t * s) / strip

    @cached_property
    def hydraulic_diameter_m(self) -> float:
        """Give four times free cross-section over wetted perimeter. Source: [MB1995]."""
        return 4.0 * self.channel_area_m2 / self.channel_perimeter_m

    @cached_property
    def fin_area_frac(self) -> float:
        """Give the share of the wetted area that is fin and not tube wall."""
        return 1.0 - 2.0 * self.spacing_m / self.channel_perimeter_m


@dataclass(frozen=True, kw_only=True)
class Construction:
    """Fins and tubes of a core, in metres.

    `tube_thickness_m` is the tube across the face (symbol Dm in the sources), `tube_depth_m` one tube along the air (Td),
    `row_gap_m` the clear gap from one tube row to the next, `fin_pitch_m` one leg of the corrugation (Fp).
    `tube_enhancement_factor` multiplies the film inside the tube for dimples or turbulators.

    Raises
    ------
    ValueError
        With one sentence, if the sizes cannot be put together.
    """

    tube_pitch_m: float
    tube_thickness_m: float
    tube_depth_m: float
    tube_rows: int
    fin_height_m: float
    fin_pitch_m: float
    louvre_pitch_m: float
    louvre_length_m: float
    louvre_angle_deg: float
    fin_thickness_m: float
    tube_wall_m: float
    fin_conductivity_w_per_m_k: float
    tube_conductivity_w_per_m_k: float
    tube_enhancement_factor: float = 1.0
    row_gap_m: float = 0.0
    inner_fin: InnerFin | None = None

    def __post_init__(self) -> None:
        for field in fields(self):
            if field.name not in ("inner_fin", "row_gap_m"):
                _refuse_unless_positive(_words(field.name), getattr(self, field.name))
        for sentence in _impossibilities(self):
            raise ValueError(sentence)

    @cached_property
    def flow_depth_m(self) -> float:
        """Give the depth of the core along the air, tubes and the gaps between rows; the fin is as deep (Fd)."""
        return self.tube_rows * self.tube_depth_m + (self.tube_rows - 1) * self.row_gap_m

    @cached_property
    def free_flow_frac(self) -> float:
        """Give the share of the face through which air passes at its narrowest (σ)."""
        return (self.fin_pitch_m - self.fin_thickness_m) * self.fin_height_m / (self.fin_pitch_m * self.tube_pitch_m)

    @cached_property
    def fin_area_m2_per_m2(self) -> float:
        """Give the air-side fin area per square metre of face, both sides of the sheet."""
        return 2.0 * self.fin_height_m * self.flow_depth_m / (self.tube_pitch_m * self.fin_pitch_m)

    @cached_property
    def prime_area_m2_per_m2(self) -> float:
        """Give the bare tube area in the air per square metre of face: between the fin feet, and the tube noses."""
        between_feet = (self.fin_pitch_m - self.fin_thickness_m) / self.fin_pitch_m * self.tube_depth_m
        return 2.0 * self.tube_rows * (between_feet + self.tube_thickness_m) / self.tube_pitch_m

    @cached_property
    def air_area_m2_per_m2(self) -> float:
        """Give the whole area in the air, fins and tubes, per square metre of face."""
        return self.fin_area_m2_per_m2 + self.prime_area_m2_per_m2

    @cached_property
    def air_hydraulic_diameter_m(self) -> float:
        """Give four times the narrowest free area over the wetted perimeter of the air passage."""
        return 4.0 * self.free_flow_frac * self.flow_depth_m / self.air_area_m2_per_m2

    @cached_property
    def bore_height_m(self) -> float:
        """Give the clear height inside the tube, across the face."""
        return self.tube_thickness_m - 2.0 * self.tube_wall_m

    @cached_property
    def bore_width_m(self) -> float:
        """Give the clear width inside the tube, along the air."""
        return self.tube_depth_m - 2.0 * self.tube_wall_m

    @cached_property
    def bore_aspect(self) -> float:
        """Give short over long side of the tube's bore, 0 to 1."""
        return min(self.bore_height_m, self.bore_width_m) / max(self.bore_height_m, self.bore_width_m)

    @cached_property
    def _bore_flat_m(self) -> float:
        return abs(self.bore_width_m - self.bore_height_m)

    @cached_property
    def inner_channels(self) -> float:
        """Give how many channels the inner fin makes in one tube, 1 without inner fin; a fraction counts."""
        if self.inner_fin is None:
            return 1.0
        return self.bore_width_m / (self.inner_fin.spacing_m + self.inner_fin.thickness_m)

    @cached_property
    def bore_area_m2(self) -> float:
        """Give the free cross-section of one tube: flat with round ends, or all channels of its inner fin."""
        if self.inner_fin is None:
            short = min(self.bore_height_m, self.bore_width_m)
            return short * self._bore_flat_m + 0.25 * math.pi * short * short
        return self.inner_channels * self.inner_fin.channel_area_m2

    @cached_property
    def bore_perimeter_m(self) -> float:
        """Give the wetted area inside one tube per metre of tube, inner fin included."""
        if self.inner_fin is None:
            return 2.0 * self._bore_flat_m + math.pi * min(self.bore_height_m, self.bore_width_m)
        return self.inner_channels * self.inner_fin.channel_perimeter_m

    @cached_property
    def bore_hydraulic_diameter_m(self) -> float:
        """Give the hydraulic diameter of the tube's bore, or of one channel of its inner fin."""
        return 4.0 * self.bore_area_m2 / self.bore_perimeter_m

    @cached_property
    def tubes_per_m(self) -> float:
        """Give how many tubes, all rows counted, lie in one metre of face across the tubes."""
        return self.tube_rows / self.tube_pitch_m

    @cached_property
    def inner_area_m2_per_m2(self) -> float:
        """Give the wetted area inside the tubes per square metre of face, inner fins included."""
        return self.tubes_per_m * self.bore_perimeter_m

    @cached_property
    def wall_area_m2_per_m2(self) -> float:
        """Give the area through which heat crosses the tube wall per square metre of face, at mid-wall."""
        round_ends = math.pi * (min(self.tube_thickness_m, self.tube_depth_m) - self.tube_wall_m)
        return self.tubes_per_m * (2.0 * self._bore_flat_m + round_ends)


def _impossibilities(c: Construction) -> list[str]:
    gap_m = c.tube_pitch_m - c.tube_thickness_m
    found = []
    if c.tube_rows != int(c.tube_rows):
        found.append(f"Tube rows {c.tube_rows:g} is no whole number: count the tubes behind each other.")
    if not (math.isfinite(c.row_gap_m) and c.row_gap_m >= 0.0):
        found.append(f"Row gap {_mm(c.row_gap_m)} is below zero: give the clear gap between two tube rows.")
    if gap_m <= 0.0:
        found.append(
            f"Tube thickness {_mm(c.tube_thickness_m)} leaves no room for fins at a tube pitch of {_mm(c.tube_pitch_m)}."
        )
    elif abs(c.fin_height_m - gap_m) > FIN_FITS_GAP_FRAC * gap_m:
        found.append(
            f"Fin height {_mm(c.fin_height_m)} does not fill the {_mm(gap_m)} between two tubes: "
            "it is tube pitch less tube thickness."
        )
    if c.fin_thickness_m >= 0.5 * min(c.fin_pitch_m, c.fin_height_m):
        found.append(
            f"Fin thickness {_mm(c.fin_thickness_m)} closes a fin of pitch {_mm(c.fin_pitch_m)} "
            f"and height {_mm(c.fin_height_m)}."
        )
    if c.louvre_length_m > c.fin_height_m:
        found.append(
            f"Louvre length {_mm(c.louvre_length_m)} is more than the fin height {_mm(c.fin_height_m)} it is cut into."
        )
    if c.louvre_pitch_m > c.flow_depth_m:
        found.append(
            f"Louvre pitch {_mm(c.louvre_pitch_m)} is more than the core's depth {_mm(c.flow_depth_m)}: it runs along the air."
        )
    if c.louvre_angle_deg >= 90.0:
        found.append(f"Louvre angle {c.louvre_angle_deg:g}° must stay under 90°: it is measured from the air's way.")
    if min(c.bore_height_m, c.bore_width_m) <= 0.0:
        found.append(f"Tube wall {_mm(c.tube_wall_m)} leaves no bore in a tube {_mm(c.tube_thickness_m)} thick.")
    elif c.inner_fin is not None and (
        c.inner_fin.height_m > c.bore_height_m or c.inner_fin.spacing_m + c.inner_fin.thickness_m > c.bore_width_m
    ):
        found.append(
            f"Inner fin {_mm(c.inner_fin.height_m)} high does not fit the bore of {_mm(c.bore_height_m)} by "
            f"{_mm(c.bore_width_m)}: its height is the clear gap, its metal not counted."
        )
    return found


def _refuse_unless_positive(what: str, number: float) -> None:
    if not (math.isfinite(number) and number > 0.0):
        raise ValueError(f"The {what} must be more than zero, not {number:g}.")


def _words(field_name: str) -> str:
    for unit in ("_w_per_m_k", "_deg", "_m"):
        field_name = field_name.removesuffix(unit)
    return field_name.replace("_", " ")


def _mm(length_m: float) -> str:
    return f"{length_m * 1000.0:.3g} mm"
