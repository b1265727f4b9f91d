"""Every change that the ladder tries."""

from __future__ import annotations

from grillestack.advice import change_nose, change_parts, change_places, change_shroud
from grillestack.advice.change import Change

# The order is that of effort, least first: among changes that buy the same it is the order of the ladder.
CHANGES: tuple[Change, ...] = (
    *change_nose.CHANGES,
    *change_shroud.CHANGES,
    *change_places.CHANGES,
    *change_parts.CHANGES,
)
