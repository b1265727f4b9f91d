"""What the overlay is made of: every outline that divides the front view, rectangles apart from all others."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from grillestack.geometry.fan_places import FanDuty, fan_duties, fans_in_shrouds
from grillestack.geometry.jet import Jet, jet_of
from grillestack.geometry.outlines import SLIVER_MM2, Shape, outline_shape, ring_shape
from grillestack.geometry.projection import Box, ProjectedPart, project_part
from grillestack.model.project import Project, cores, stack


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pack:
    """The pack and the nose as the overlay sees them.

    `cores` run from front to back; `shrouds`, `fans` follow the document. `foremost` is the part whose front face
    stands foremost; `housing` lists the shrouds in which a fan sits.
    """

    cores: tuple[ProjectedPart, ...]
    shrouds: tuple[ProjectedPart, ...]
    fans: tuple[ProjectedPart, ...]
    solid_core: tuple[int, ...]
    fan_shroud: tuple[int, ...]
    duties: tuple[FanDuty, ...]
    housing: tuple[int, ...]
    foremost: ProjectedPart | None
    jet: Jet
    window: Shape | None

    def fans_on(self, duty: FanDuty) -> tuple[int, ...]:
        """Return the indices of the fans with that duty."""
        return tuple(k for k, own in enumerate(self.duties) if own is duty)


@dataclass(frozen=True, slots=True, eq=False)
class Rectangles:
    """All rectangles in one list, and which rows of it are what; `shadows` pairs obstruction and row."""

    boxes: tuple[Box, ...]
    cores: slice
    solids: slice
    shrouds: slice
    openings: slice
    window: int | None
    shadows: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Cutters:
    """All outlines that are no rectangles, and which of them is what; `shadows` pairs obstruction and place."""

    shapes: tuple[Shape, ...]
    opening: int | None
    window: int | None
    shadows: tuple[tuple[int, int], ...]
    rings: slice


def pack_of(project: Project, jet_spread_deg: float) -> Pack:
    """Return the pack of a project as the overlay sees it."""
    ordered = tuple(project_part(core) for core in cores(project))
    projected = tuple(project_part(part) for part in project.parts)
    fans = tuple(part for part in projected if part.is_fan)
    shrouds = tuple(part for part in projected if part.is_shroud)
    in_shroud = fans_in_shrouds(fans, shrouds)
    first = next(iter(stack(project)), None)
    # Without a pack there is no plane to grow to, and nothing grows.
    front_mm = first.placement.x_mm if first else min((o.x_mm for o in project.nose.openings), default=0.0)
    window = project.nose.support_window
    return Pack(
        cores=ordered,
        shrouds=shrouds,
        fans=fans,
        solid_core=tuple(c for c, core in enumerate(ordered) for _ in core.solid_boxes),
        fan_shroud=in_shroud,
        duties=fan_duties(fans, in_shroud, ordered),
        housing=tuple(sorted(set(in_shroud) - {-1})),
        foremost=project_part(first) if first else None,
        jet=jet_of(project.nose, jet_spread_deg, front_mm),
        window=outline_shape(window.outline, window.corner_radii_mm) if window else None,
    )


def rectangles_of(pack: Pack) -> Rectangles:
    """Return the pack's and the nose's axis-parallel rectangles."""
    boxes: list[Box] = []

    def rows(added: Iterable[Box | None]) -> slice:
        start = len(boxes)
        boxes.extend(box for box in added if box is not None)
        return slice(start, len(boxes))

    core_rows = rows(core.core_box for core in pack.cores)
    solid_rows = rows(box for core in pack.cores for box in core.solid_boxes)
    shroud_rows = rows(pack.shrouds[k].outline_box for k in pack.housing)
    opening_rows = rows(opening.reach.box for opening in pack.jet.openings)
    window_rows = rows([pack.window.box] if pack.window else [])
    shadows = tuple(
        (o, rows([shadow.shape.box]).start) for o, shadow in enumerate(pack.jet.shadows) if shadow.shape.box is not None
    )
    return Rectangles(
        boxes=tuple(boxes),
        cores=core_rows,
        solids=solid_rows,
        shrouds=shroud_rows,
        openings=opening_rows,
        window=window_rows.start if window_rows.start < window_rows.stop else None,
        shadows=shadows,
    )


def cutters_of(pack: Pack) -> Cutters:
    """Return the outlines that cut through cells: the fans' rings come last."""
    shapes: list[Shape] = []

    def place(shape: Shape | None) -> int | None:
        if shape is None or shape.box is not None:
            return None
        shapes.append(shape)
        return len(shapes) - 1

    opening, window = place(pack.jet.reach_cut), place(pack.window)
    shadows = []
    for o, shadow in enumerate(pack.jet.shadows):
        if shadow.shape.area_mm2 > SLIVER_MM2 and (at := place(shadow.shape)) is not None:
            shadows.append((o, at))
    first_ring = len(shapes)
    for fan in pack.fans:
        if fan.circle is not None:
            place(ring_shape(fan.circle.y_mm, fan.circle.z_mm, fan.circle.radius_mm, fan.cos_tilt_frac))
    return Cutters(tuple(shapes), opening, window, tuple(shadows), slice(first_ring, len(shapes)))
