"""Zones of one face that look alike as patches: few and large, for painting within a mouse move."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from grillestack.geometry.exposure import FaceZone
from grillestack.geometry.piece_shapes import Patch, patches_of


def joined_patches(zones: Sequence[FaceZone]) -> tuple[Patch, ...]:
    """Return the area of several zones of one face as closed patches of the front view, corners (y, z) in mm.

    Cells of neighbouring zones are merged before they are cut, so there are fewer patches than the zones have by themselves.
    """
    if not zones:
        return ()
    frame = zones[0].overlay.frame
    return patches_of(frame, np.concatenate([zone.pieces for zone in zones]), frame.n_nose)
