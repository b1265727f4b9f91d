"""Parts as text come back as they were, and any other text is refused in a sentence."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grillestack.storage.parts_text import LARGEST_LETTERS, PartsTextError, parts_from_text, parts_to_text
from tests.model.examples import a_full_project
from tests.model.random_projects import parts


def test_all_parts_come_back_as_they_were():
    all_kinds = a_full_project().parts
    assert len(all_kinds) > 3
    assert parts_from_text(parts_to_text(all_kinds)) == all_kinds


@settings(max_examples=60, deadline=None)
@given(st.lists(parts(), min_size=1, max_size=4))
def test_random_parts_come_back_as_they_were(given_parts):
    assert parts_from_text(parts_to_text(given_parts)) == tuple(given_parts)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "copy a part first"),
        ("   ", "copy a part first"),
        ("milk, bread", "milk, bread"),
        ("[1, 2]", "copied last"),
        ("{", "copied last"),
        ('{"kind": "grillestack project", "format": 1}', "copied last"),
        ('{"kind": "grillestack copied parts", "format": 2, "parts": []}', "newer"),
        ('{"kind": "grillestack copied parts", "format": 1, "parts": []}', "holds no part"),
        ('{"kind": "grillestack copied parts", "format": 1}', "holds no part"),
        ('{"kind": "grillestack copied parts", "format": "x", "parts": []}', "cannot be pasted"),
        ('{"kind": "grillestack copied parts", "format": 1, "parts": [{"part": "boat"}]}', "cannot be pasted"),
        ("x" * (LARGEST_LETTERS + 1), "too long"),
        ("\ud800", "copied last"),
    ],
)
def test_any_other_text_is_refused_in_one_sentence(text, said):
    with pytest.raises(PartsTextError) as refused:
        parts_from_text(text)
    assert said in str(refused.value)
    assert len(str(refused.value)) < 300


def test_an_impossible_figure_is_named():
    text = parts_to_text(a_full_project().parts[:1])
    data = json.loads(text)
    data["parts"][0]["depth_mm"] = -5
    with pytest.raises(PartsTextError, match="depth"):
        parts_from_text(json.dumps(data))
