"""What to tell the user when a drawing cannot be made."""

from __future__ import annotations


class SheetError(ValueError):
    """A drawing cannot be made or written; the message is a sentence with the remedy."""


class NothingToDrawError(SheetError):
    """One drawing has nothing to show, or what it shows cannot be made as it stands; others of the set may be drawn."""
