"""Sheets as the bytes of the files that hold them, by the ending of the file's name."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from grillestack.sheets.draw_list import Sheet
from grillestack.sheets.trouble import SheetError
from grillestack.sheets.write_dxf import dxf_bytes
from grillestack.sheets.write_pdf import pdf_bytes
from grillestack.sheets.write_svg import svg_bytes

ENDINGS = (".pdf", ".svg", ".dxf")


class UnknownEndingError(SheetError):
    """There is no writer for files of that ending; the message says which there are."""


def file_bytes(sheets: Sequence[Sheet], ending: str) -> Mapping[str, bytes]:
    """Return the files' bytes by what comes behind their name: "" for the only file, else "-1", "-2" for each sheet.

    A PDF holds all sheets as its pages; an SVG or a DXF file holds one.

    Raises
    ------
    UnknownEndingError
        If no file of that ending can be written.
    """
    match ending.lower():
        case ".pdf":
            return {"": pdf_bytes(sheets)}
        case ".svg":
            made = [svg_bytes(sheet) for sheet in sheets]
        case ".dxf":
            made = [dxf_bytes(sheet) for sheet in sheets]
        case _:
            raise UnknownEndingError(
                f"A drawing cannot be written as “{ending}”: let the name of the file end in .pdf, .svg or .dxf."
            )
    if len(made) == 1:
        return {"": made[0]}
    return {f"-{number}": one for number, one in enumerate(made, start=1)}
