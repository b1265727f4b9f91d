"""What to tell the user when a drawing cannot be made."""

from __future__ import annotations


class SheetError(ValueError):
    """A drawing cannot be made or written; the message is a sentence with the remedy."""
