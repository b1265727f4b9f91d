"""Bytes become plain data (RFC 8259), or a reason and a remedy."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grillestack.storage.json_text import NotJsonError, plain_data

PLAIN = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**17), 10**17)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(codec="utf-8"), max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text("abc", max_size=3), inner, max_size=3),
    max_leaves=12,
)


@given(st.dictionaries(st.text(st.characters(codec="utf-8"), max_size=4), PLAIN, max_size=4))
def test_what_the_standard_library_writes_is_read_as_it_was(data):
    assert plain_data(json.dumps(data).encode("utf-8")) == data


def test_a_byte_order_mark_is_passed_over():
    # RFC 8259, section 8.1: parsers may ignore it.
    assert plain_data(b'\xef\xbb\xbf{"a": 1}') == {"a": 1}


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"", "it is empty"),
        (b" \n\t ", "it is empty"),
        (b"hello", "it is no file of grillestack"),
        (b"\x00" * 40, "it is no file of grillestack"),
        (b"[1, 2]x", "it is no file of grillestack"),
        (b'{"a": 1, "b"', "it is cut off in line 1"),
        (b'{"a":\n {"b": tr', "it is cut off in line 2"),
        (b'{"a": {"b": 1}', "it is cut off in line 1"),
        (b'{"a": "\xc3', "it is cut off in line 1"),
        (b'{"a": 1,,\n "b": 2}', "line 1 is damaged near column 9"),
        (b'{"a": 1\n "b": 2}', "line 2 is damaged near column 2"),
        (b"{'a': 1}", "line 1 is damaged near column 2"),
        (b'{"a": 01}', "line 1 is damaged near column 8"),
        (b'{"a": NaN}', "it holds “NaN” where a number belongs"),
        (b'{"a": [Infinity]}', "it holds “Infinity” where a number belongs"),
        (b'{"a": -Infinity}', "it holds “-Infinity” where a number belongs"),
        (b'{"a": "\xff"}', "byte 8 is not UTF-8 text"),
        ('{"a": "é"}'.encode("latin-1"), "byte 8 is not UTF-8 text"),
        ('{"a": 1}'.encode("utf-16"), "byte 1 is not UTF-8 text"),
        (b'{"a": 1, "b": 2, "a": 3}', "it gives “a” twice in one place"),
        (b'{"a": "\\ud83d"}', "holds half a letter"),
        (b'{"\\udc00": 1}', "holds half a letter"),
        (b'{"a": ' + b"[" * 100_000 + b"]" * 100_000 + b"}", "nested deeper"),
        (b'{"a": "\\u0041", "b": ' + b"[" * 100_000 + b"]" * 100_000 + b"}", "nested deeper"),
    ],
)
def test_bytes_that_are_no_data_are_told_with_the_reason_and_a_remedy(content, reason):
    with pytest.raises(NotJsonError) as refused:
        plain_data(content)
    sentence = str(refused.value)
    assert reason in sentence
    assert ", so " in sentence
    assert "\n" not in sentence


def test_a_whole_number_of_many_digits_is_read_without_delay_as_a_float():
    assert plain_data(b'{"a": ' + b"9" * 100_000 + b"}") == {"a": float("inf")}
    assert plain_data(b'{"a": 123456789012345678}') == {"a": 123456789012345678}


def test_an_escaped_pair_of_halves_is_one_letter():
    # RFC 8259, section 7: the G clef is written "\uD834\uDD1E".
    assert plain_data(b'{"a": "\\ud834\\udd1e"}') == {"a": "\U0001d11e"}
