"""What was typed after a verb and makes no sense."""

from __future__ import annotations


class RefusedWordsError(ValueError):
    """The words of the command line make no sense; the message says what to type."""
