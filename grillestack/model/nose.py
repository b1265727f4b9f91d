"""The nose the pack has to live in: openings, support window, obstructions and depth stations."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta
from msgspec.structs import force_setattr

from grillestack.model.outline import CornerRadii, Outline, SidePoint, checked_radii
from grillestack.model.photo import Photo
from grillestack.model.values import CoordinateMm, Fraction, Identifier, ModelError, Name, SizeMm, Text, Value


class Opening(Value, frozen=True, kw_only=True):
    """A grille opening; the free-area share is what bars or mesh leave open."""

    id: Identifier
    name: Name
    outline: Outline
    x_mm: CoordinateMm = 0.0
    free_area_frac: Fraction | None = None
    corner_radii_mm: CornerRadii = ()

    def __post_init__(self) -> None:
        super().__post_init__()
        force_setattr(self, "corner_radii_mm", checked_radii(self.outline, self.corner_radii_mm))


class SupportWindow(Value, frozen=True, kw_only=True):
    """The hole in the core support; outside it the support plate lets no air through."""

    outline: Outline
    x_mm: CoordinateMm = 0.0
    corner_radii_mm: CornerRadii = ()

    def __post_init__(self) -> None:
        super().__post_init__()
        force_setattr(self, "corner_radii_mm", checked_radii(self.outline, self.corner_radii_mm))


class Obstruction(Value, frozen=True, kw_only=True):
    """Something solid in the nose that is no part of the pack: beam, lamp, winch, latch."""

    id: Identifier
    name: Name
    outline: Outline
    x_front_mm: CoordinateMm
    x_rear_mm: CoordinateMm
    corner_radii_mm: CornerRadii = ()

    def __post_init__(self) -> None:
        super().__post_init__()
        force_setattr(self, "corner_radii_mm", checked_radii(self.outline, self.corner_radii_mm))
        if self.x_rear_mm < self.x_front_mm:
            raise ModelError(
                "x_rear_mm",
                f"The obstruction “{self.name}” ends ahead of where it begins: its rear must lie behind its front.",
            )


class NoseMount(Value, frozen=True, kw_only=True):
    """A hole, stud or nut of the vehicle that a bracket may use; `is_structure` where it is in the crash structure."""

    id: Identifier
    name: Name
    x_mm: CoordinateMm
    y_mm: CoordinateMm
    z_mm: CoordinateMm
    hole_mm: SizeMm
    is_structure: bool = False


# What is drawn as an outline on the front view and lies in the nose.
NoseThing = Opening | SupportWindow | Obstruction


class DepthStations(Value, frozen=True, kw_only=True):
    """Where along x the room for the pack begins and ends; the bonnet line is the lowest metal above the pack."""

    grille_x_mm: CoordinateMm = 0.0
    pulley_x_mm: CoordinateMm | None = None
    bonnet_line: tuple[SidePoint, ...] = ()


class Nose(Value, frozen=True, kw_only=True):
    """Everything about the vehicle's front that the pack must respect."""

    name: Name = "New nose"
    about_text: Text = ""
    openings: tuple[Opening, ...] = ()
    support_window: SupportWindow | None = None
    obstructions: tuple[Obstruction, ...] = ()
    mounts: Annotated[tuple[NoseMount, ...], Meta(max_length=100)] = ()
    stations: DepthStations = DepthStations()
    photo: Photo | None = None
