"""What a composer hands in: a sheet without its frame, title block and number, which come last and are alike on all."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.model.sheet_choices import Paper, SheetView
from grillestack.sheets.draw_list import Mark, View
from grillestack.sheets.paper import Area, paper_form
from grillestack.sheets.trouble import SheetError

# ISO 7200: a title block is 180 mm wide, so that it fits upright A4 between its borders.
TITLE_WIDTH_MM, TITLE_HEIGHT_MM = 180.0, 36.0
# Room between what is drawn and the frame or the title block
CLEAR_MM = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetBody:
    """One sheet without frame and title block.

    The key is stable ("pack", "pack-2"); `title` says what is shown, `document_type` what it is (ISO 7200); `scale_factor`
    is `None` where nothing is drawn to scale.
    """

    key: str
    title: str
    document_type: str
    view: SheetView
    paper: Paper
    scale_factor: float | None
    marks: tuple[Mark, ...]
    views: tuple[View, ...] = ()
    shows_projection: bool = False
    # Whether the notes stand on this sheet; if not, another of the set carries those that are left.
    has_notes: bool = True
    notes_left: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()


class SheetTooSmallError(SheetError):
    """Something does not fit on the paper; the message says what and what to do."""


def title_area(paper: Paper) -> Area:
    """Return where the title block stands: the lower right corner of the frame."""
    frame = paper_form(paper).frame
    return Area(frame.x1_mm - TITLE_WIDTH_MM, frame.y0_mm, frame.x1_mm, frame.y0_mm + TITLE_HEIGHT_MM)


def room_of(paper: Paper) -> Area:
    """Return the area inside the frame that may be drawn on; the title block takes its lower right corner."""
    return paper_form(paper).frame.grown(-CLEAR_MM)


def room_above_title(paper: Paper) -> Area:
    """Return the area above the title block, over the whole width of the frame."""
    room, title = room_of(paper), title_area(paper)
    return Area(room.x0_mm, title.y1_mm + CLEAR_MM, room.x1_mm, room.y1_mm)
