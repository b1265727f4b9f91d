"""Which part of which face sees what: every piece of a core has one state, and every zone says what the air met."""

from __future__ import annotations

import enum
import functools
from dataclasses import dataclass, field

import numpy as np

from grillestack.geometry.grid import Bools, Ints
from grillestack.geometry.overlay import Overlay
from grillestack.geometry.piece_shapes import Patch, patches_of
from grillestack.model.project import Project, cores

OUTSIDE_OPENING = "outside the opening"
_MOST_BITS = 62


class FaceState(enum.Enum):
    """What a piece of a face sees; the last of these that holds is its state."""

    EXPOSED = "exposed"
    BEHIND = "behind"
    OFF_OPENING = "off-opening"
    BLOCKED = "blocked"


@dataclass(frozen=True, eq=False)
class FaceZone:
    """All pieces of one face where the air meets the same things.

    Whatever the state, `behind` names every core ahead, `blocked_by` every other part with a solid there (or the support
    plate), and `off_because` says "outside the opening" or names the obstructions whose shadow it is.
    """

    state: FaceState
    behind: tuple[str, ...]
    blocked_by: tuple[str, ...]
    off_because: tuple[str, ...]
    area_mm2: float
    overlay: Overlay = field(repr=False)
    pieces: Ints = field(repr=False)

    @functools.cached_property
    def patches(self) -> tuple[Patch, ...]:
        """Return the zone as closed patches of the front view, corners (y, z) in mm."""
        # No fan's ring parts one zone from another.
        return patches_of(self.overlay.frame, self.pieces, self.overlay.frame.n_nose)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, FaceZone):
            return NotImplemented
        return self._told() == other._told() and self.patches == other.patches

    def __hash__(self) -> int:
        return hash(self._told())

    def _told(self) -> tuple[object, ...]:
        return self.state, self.behind, self.blocked_by, self.off_because, self.area_mm2


@dataclass(frozen=True, eq=False, kw_only=True)
class CoreFace:
    """The true areas of one core's face; exposed, behind, blocked and off-opening add up to the core.

    `unshrouded_mm2` and `unswept_mm2` are counted over the whole core, apart from those four: what no shroud with a fan
    in it covers, and what lies in no fan's ring.
    """

    part_id: str
    core_mm2: float
    exposed_mm2: float
    behind_mm2: float
    blocked_mm2: float
    off_opening_mm2: float
    unshrouded_mm2: float
    unswept_mm2: float
    overlay: Overlay = field(repr=False)

    @functools.cached_property
    def zones(self) -> tuple[FaceZone, ...]:
        """Return the face's zones: exposed ones first, then behind, off-opening, blocked."""
        return _zones(self.overlay, self.overlay.core_ids.index(self.part_id))

    @functools.cached_property
    def painted(self) -> dict[FaceState, tuple[Patch, ...]]:
        """Return the patches of each state; fewer and larger than the zones' own, for painting within a mouse move."""
        c = self.overlay.core_ids.index(self.part_id)
        frame = self.overlay.frame
        return {
            state: patches_of(frame, np.flatnonzero(holds[:, c]), frame.n_nose)
            for state, holds in _states(self.overlay).items()
        }

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, CoreFace):
            return NotImplemented
        return self._areas() == other._areas() and self.zones == other.zones

    def __hash__(self) -> int:
        return hash(self._areas())

    def _areas(self) -> tuple[object, ...]:
        return (
            self.part_id,
            self.core_mm2,
            self.exposed_mm2,
            self.behind_mm2,
            self.blocked_mm2,
            self.off_opening_mm2,
            self.unshrouded_mm2,
            self.unswept_mm2,
        )


def core_faces(overlay: Overlay, project: Project) -> dict[str, CoreFace]:
    """Return the face of every core of the project by the part's id, front to back.

    Each piece of a core has one state, the first that holds: blocked (a solid of another part, ahead or behind, or the
    support plate), off-opening, behind another core, exposed. Areas are on the true face: the projected area divided by
    the cosine of the core's tilt.
    """
    ordered = cores(project)
    if not ordered:
        return {}
    states = _states(overlay)
    hit = overlay.core_hit
    unshrouded = hit & (overlay.shroud < 0)[:, None]
    unswept = hit & ~overlay.swept[:, None]
    columns = np.concatenate((hit, unshrouded, unswept, *(states[state] for state in FaceState)), axis=1)
    areas = (overlay.area_mm2 @ columns.astype(np.float64)).reshape(-1, len(ordered))
    # Lines nearer than 1e-6 mm are one on the grid; as shares of the face the areas add up to the core all the same.
    # A core thinner than that has no piece, and no area to share out.
    areas *= np.divide(overlay.core_mm2, areas[0], out=np.zeros(len(ordered)), where=areas[0] > 0)
    return {
        core.id: CoreFace(
            part_id=core.id,
            core_mm2=overlay.core_mm2[c],
            exposed_mm2=float(areas[3, c]),
            behind_mm2=float(areas[4, c]),
            blocked_mm2=float(areas[6, c]),
            off_opening_mm2=float(areas[5, c]),
            unshrouded_mm2=float(areas[1, c]),
            unswept_mm2=float(areas[2, c]),
            overlay=overlay,
        )
        for c, core in enumerate(ordered)
    }


def _states(overlay: Overlay) -> dict[FaceState, Bools]:
    """Return, per state, the pieces (rows) and cores (columns) it holds for: exactly one wherever the core is."""
    hit = overlay.core_hit
    blocked = hit & np.logical_or.reduce(overlay.blocked_by, axis=1)[:, None]
    off_opening = hit & overlay.off_opening & ~blocked
    behind = overlay.behind & ~blocked & ~off_opening
    exposed = hit & ~(blocked | off_opening | behind)
    return {
        FaceState.EXPOSED: exposed,
        FaceState.BEHIND: behind,
        FaceState.OFF_OPENING: off_opening,
        FaceState.BLOCKED: blocked,
    }


def _zones(overlay: Overlay, c: int) -> tuple[FaceZone, ...]:
    pieces = np.flatnonzero(overlay.core_hit[:, c])
    blockers = tuple(dict.fromkeys(overlay.solid_parts))
    blocked_by = np.zeros((len(pieces), len(blockers)), dtype=np.bool_)
    for s, part_id in enumerate(overlay.solid_parts):
        blocked_by[:, blockers.index(part_id)] |= overlay.blocked_by[pieces, s]
    ahead = overlay.core_hit[pieces, :c]
    shaded = overlay.shadow_of[pieces] & overlay.shadow_falls[:, c]
    off = np.column_stack((~overlay.in_opening[pieces], shaded))
    flags, index = _alike(np.concatenate((blocked_by, off, ahead), axis=1))
    true_mm2 = overlay.area_mm2[pieces]
    true_mm2 = true_mm2 * (overlay.core_mm2[c] / true_mm2.sum())
    found = []
    for number, row in enumerate(flags):
        members = np.flatnonzero(index == number)
        names = (
            _named(row[: len(blockers)], blockers),
            _named(row[len(blockers) : -c or None], (OUTSIDE_OPENING, *overlay.obstruction_ids)),
            _named(row[len(row) - c :], overlay.core_ids),
        )
        found.append(_zone(names, float(true_mm2[members].sum()), overlay, pieces[members]))
    places = list(FaceState)
    return tuple(sorted(found, key=lambda zone: (places.index(zone.state), zone.behind, zone.blocked_by)))


def _alike(rows: Bools) -> tuple[Bools, Ints]:
    """Return the different rows in their order, and which of them each row is."""
    count = rows.shape[1]
    if count > _MOST_BITS:
        different, index = np.unique(rows, axis=0, return_inverse=True)
        return different, index.reshape(-1)
    # Rows read as numbers, the first column the greatest digit, stand in the same order and are sorted far sooner.
    numbers = rows @ (1 << np.arange(count - 1, -1, -1, dtype=np.int64))
    _, first, index = np.unique(numbers, return_index=True, return_inverse=True)
    return rows[first], index.reshape(-1)


def _zone(names: tuple[tuple[str, ...], ...], area_mm2: float, overlay: Overlay, pieces: Ints) -> FaceZone:
    blocked_by, off_because, behind = names
    if blocked_by:
        state = FaceState.BLOCKED
    elif off_because:
        state = FaceState.OFF_OPENING
    else:
        state = FaceState.BEHIND if behind else FaceState.EXPOSED
    return FaceZone(state, behind, blocked_by, off_because, area_mm2, overlay, pieces)


def _named(flags: Bools, names: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(name for name, holds in zip(names, flags, strict=False) if holds)
