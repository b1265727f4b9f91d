"""The list of sources as it is read for the screen."""

from pathlib import Path

import grillestack.physics
from grillestack.assets.sources import sources


def test_every_id_of_the_list_is_read_with_authors_and_title():
    found = sources()
    # The first and the last of the numbered list, as they stand there.
    assert found["CW1997"].startswith("Y.-J. Chang, C.-C. Wang: A generalized heat transfer correlation")
    assert found["J1994"].startswith("SAE J1994, laboratory testing")
    text = (Path(grillestack.physics.__file__).parent / "SOURCES.md").read_text(encoding="utf-8")
    assert len(found) == text.count(". **[")


def test_an_entry_ends_before_the_next_heading_and_holds_no_marks():
    for words in sources().values():
        assert "#" not in words
        assert "*" not in words
        assert "\n" not in words
