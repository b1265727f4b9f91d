"""How wide a text is on paper and whether every letter of it can be written, from the bundled font's own tables."""

from __future__ import annotations

import functools
import struct
from dataclasses import dataclass
from pathlib import Path

from grillestack.assets.locate import resource
from grillestack.sheets.trouble import SheetError

FONT_FAMILY = "DejaVu Sans"
# Depth of letters like g below the line, as a share of the height of capitals; measured off the font: 426 / 1493
DESCENT_FRAC = 0.29


class MissingLetterError(SheetError):
    """A text holds a letter that the font of the sheets lacks; the message names it and the text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Widths:
    # In units of the font; keys are code points.
    advances: dict[int, int]
    units_per_em: int
    capital_units: int


def font_file(*, is_bold: bool = False) -> Path:
    """Return the bundled font file."""
    return resource("fonts", "DejaVuSans-Bold.ttf" if is_bold else "DejaVuSans.ttf")


def text_width_mm(text: str, height_mm: float, *, is_bold: bool = False) -> float:
    """Return how long the text is where capitals are `height_mm` high.

    Raises
    ------
    MissingLetterError
        If the font lacks one of its letters.
    """
    return _units(text, is_bold) * height_mm / _widths(is_bold).capital_units


def em_mm(height_mm: float, *, is_bold: bool = False) -> float:
    """Return the size of type whose capitals are `height_mm` high."""
    widths = _widths(is_bold)
    return height_mm * widths.units_per_em / widths.capital_units


def check_letters(text: str) -> None:
    """Refuse a text of which a letter cannot be written.

    Raises
    ------
    MissingLetterError
        If the font lacks one of its letters.
    """
    text_width_mm(text, 1.0)
    text_width_mm(text, 1.0, is_bold=True)


def lines_of(text: str, height_mm: float, room_mm: float, *, is_bold: bool = False) -> tuple[str, ...]:
    """Return the text broken between words into lines that fit the room; a word longer than the room is cut."""
    lines: list[str] = []
    for paragraph in text.splitlines():
        line = ""
        # A no-break space holds its words together, which a plain split would not heed.
        for word in (w for w in paragraph.split(" ") if w):
            rest = word
            longer = f"{line} {word}" if line else word
            if text_width_mm(longer, height_mm, is_bold=is_bold) <= room_mm:
                line = longer
                continue
            if line:
                lines.append(line)
            while text_width_mm(rest, height_mm, is_bold=is_bold) > room_mm and len(rest) > 1:
                most = _letters_that_fit(rest, height_mm, room_mm, is_bold=is_bold)
                lines.append(rest[:most])
                rest = rest[most:]
            line = rest
        if line:
            lines.append(line)
    return tuple(lines)


def one_line(text: str) -> str:
    """Return the text on one line, its words one space apart."""
    return " ".join(text.split())


def shortened(text: str, height_mm: float, room_mm: float, *, is_bold: bool = False) -> str:
    """Return the text, or as much of it as fits with an ellipsis behind it."""
    text = one_line(text)
    if text_width_mm(text, height_mm, is_bold=is_bold) <= room_mm:
        return text
    while text and text_width_mm(f"{text}…", height_mm, is_bold=is_bold) > room_mm:
        text = text[:-1].rstrip()
    return f"{text}…"


def _letters_that_fit(word: str, height_mm: float, room_mm: float, *, is_bold: bool) -> int:
    most = 1
    while most < len(word) and text_width_mm(word[: most + 1], height_mm, is_bold=is_bold) <= room_mm:
        most += 1
    return most


@functools.lru_cache(maxsize=8192)
def _units(text: str, is_bold: bool) -> int:  # noqa: FBT001  a cached function is told by place
    advances = _widths(is_bold).advances
    total = 0
    for letter in text:
        advance = advances.get(ord(letter))
        if advance is None:
            raise MissingLetterError(_cannot(letter, text))
        total += advance
    return total


def _cannot(letter: str, text: str) -> str:
    shown = f"the letter “{letter}” (U+{ord(letter):04X})" if letter.isprintable() else f"the sign U+{ord(letter):04X}"
    said = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    return f"The sheet cannot show {shown} in “{said[:60]}”, because its font has none: write the text without it."


@functools.cache
def _widths(is_bold: bool) -> _Widths:  # noqa: FBT001  a cached function is told by place
    data = font_file(is_bold=is_bold).read_bytes()
    count = struct.unpack_from(">H", data, 4)[0]
    tables = {}
    for place in range(count):
        tag, _, offset, _ = struct.unpack_from(">4sLLL", data, 12 + 16 * place)
        tables[tag] = offset
    units_per_em = struct.unpack_from(">H", data, tables[b"head"] + 18)[0]
    n_widths = struct.unpack_from(">H", data, tables[b"hhea"] + 34)[0]
    glyphs = _glyph_of_letter(data, tables[b"cmap"])
    hmtx = tables[b"hmtx"]
    advances = {
        code: struct.unpack_from(">H", data, hmtx + 4 * min(glyph, n_widths - 1))[0] for code, glyph in glyphs.items()
    }
    # OS/2 from version 2 on states the height of capitals; DejaVu carries version 1, so it is read off the letter H.
    return _Widths(advances=advances, units_per_em=units_per_em, capital_units=_height_of_h(data, tables, glyphs))


def _glyph_of_letter(data: bytes, cmap: int) -> dict[int, int]:
    """Return the glyph of each letter of the basic plane, from the table of segments (format 4)."""
    count = struct.unpack_from(">H", data, cmap + 2)[0]
    starts = [struct.unpack_from(">HHL", data, cmap + 4 + 8 * k) for k in range(count)]
    start = next(cmap + at for platform, encoding, at in starts if (platform, encoding) == (3, 1))
    n = struct.unpack_from(">H", data, start + 6)[0] // 2
    ends = struct.unpack_from(f">{n}H", data, start + 14)
    firsts = struct.unpack_from(f">{n}H", data, start + 16 + 2 * n)
    deltas = struct.unpack_from(f">{n}H", data, start + 16 + 4 * n)
    at_ranges = start + 16 + 6 * n
    ranges = struct.unpack_from(f">{n}H", data, at_ranges)
    found: dict[int, int] = {}
    for place in range(n):
        for code in range(firsts[place], min(ends[place], 0xFFFE) + 1):
            glyph = code
            if ranges[place]:
                where = at_ranges + 2 * place + ranges[place] + 2 * (code - firsts[place])
                glyph = struct.unpack_from(">H", data, where)[0]
                if glyph == 0:
                    continue
            glyph = (glyph + deltas[place]) & 0xFFFF
            if glyph:
                found[code] = glyph
    return found


def _height_of_h(data: bytes, tables: dict[bytes, int], glyphs: dict[int, int]) -> int:
    long_offsets = struct.unpack_from(">h", data, tables[b"head"] + 50)[0]
    glyph, loca = glyphs[ord("H")], tables[b"loca"]
    at = struct.unpack_from(">L", data, loca + 4 * glyph)[0]
    if not long_offsets:
        at = 2 * struct.unpack_from(">H", data, loca + 2 * glyph)[0]
    return int(struct.unpack_from(">h", data, tables[b"glyf"] + at + 8)[0])
