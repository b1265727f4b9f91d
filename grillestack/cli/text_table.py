"""Rows of words and figures under each other: words to the left, figures to the right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence


def table(head: Sequence[str] | None, rows: Sequence[Sequence[str]], *, words: int) -> Iterator[str]:
    """Return the lines of a table, indented by two; the first `words` columns are words, the others figures."""
    every = [*([head] if head is not None else []), *rows]
    widths = [max(len(cell) for cell in column) for column in zip(*every, strict=True)]
    for row in every:
        cells = [
            cell.ljust(width) if place < words else cell.rjust(width)
            for place, (cell, width) in enumerate(zip(row, widths, strict=True))
        ]
        yield f"  {'  '.join(cells)}".rstrip()
