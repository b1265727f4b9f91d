"""The one door through which fixed words go on their way to the screen, so that they can be said in another language.

Words are handed over whole, with their keys (`&Save`); a sentence with figures in it is a template with named fields.
"""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QCoreApplication

CONTEXT: Final = "grillestack"


def said(words: str, **fields: object) -> str:
    """Return the words in the user's language, as they are where nobody translated them, with the named fields filled in."""
    found = QCoreApplication.translate(CONTEXT, words) if words else words
    return found.format(**fields) if fields else found
