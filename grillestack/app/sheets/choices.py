"""The column of choices: paper, views, units, scale, title block, and how brackets and shroud are made."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.form import Form, Slot
from grillestack.app.session import Session
from grillestack.assess.defaults import Default, Tag
from grillestack.model.project import Project
from grillestack.model.sheet_choices import DrawingUnits, Paper, Projection, SheetView, WeldSymbols
from grillestack.model.sheet_edits import set_choice, set_making, show_view
from grillestack.sheets.making import (
    BRACKET_MATERIAL,
    BRACKET_THICKNESS_MM,
    NEUTRAL_FRAC,
    RADIUS_FACTOR,
    SHROUD_MATERIAL,
    SHROUD_THICKNESS_MM,
)
from grillestack.sheets.paper import ISO_5455, scale_words
from grillestack.units.quantity import Dimension

_PX = 312
_PRACTICE = "common practice, no source"
# What the document may hold of the scales of ISO 5455
_SCALES = tuple(one for one in ISO_5455 if 0.1 <= one <= 100)
_PAPERS = {
    Paper.A4: "A4, upright",
    Paper.A3: "A3",
    Paper.A2: "A2",
    Paper.A1: "A1",
    Paper.LETTER: "Letter, upright",
    Paper.TABLOID: "Tabloid, 11 × 17 in",
    Paper.ANSI_D: "ANSI D, 22 × 34 in",
}
_UNITS = {
    DrawingUnits.MILLIMETRES: "millimetres",
    DrawingUnits.INCH_FRACTIONS: "inches, fractions",
    DrawingUnits.INCH_DECIMALS: "inches, decimals",
    DrawingUnits.BOTH: "millimetres and inches",
}
_VIEWS = {
    SheetView.PACK: "Pack with its dimensions",
    SheetView.BRACKETS: "Brackets and frame",
    SheetView.SHROUD: "Shroud, flat and bent",
    SheetView.PARTS_LIST: "Parts list",
    SheetView.TEMPLATE: "Full-size templates, in tiles",
    SheetView.REPORT: "Report on the heat",
}
_TITLE_BLOCK = (
    ("Document number", "document_number_text"),
    ("Revision", "revision_text"),
    ("Created by", "drawn_by_text"),
    ("Approved by", "approved_by_text"),
    ("Legal owner", "owner_text"),
)


class ChoicesColumn(QScrollArea):
    """Shows and changes the project's choices for its drawings."""

    def __init__(self, session: Session, today: Callable[[], dt.date] = dt.date.today) -> None:
        super().__init__()
        self._session = session
        self._today = today
        self.what = self._what()
        self.drawing = self._drawing()
        self.title_block = self._title_block()
        self.making = self._making()
        column = QWidget()
        layout = QVBoxLayout(column)
        layout.setContentsMargins(12, 8, 12, 12)
        layout.setSpacing(8)
        for heading, form in (
            ("Drawings", self.what),
            ("How they are drawn", self.drawing),
            ("Title block", self.title_block),
            ("How brackets and shroud are made", self.making),
        ):
            layout.addWidget(FoldingSection(heading, form))
        layout.addStretch(1)
        self.setWidget(column)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFixedWidth(_PX)
        self.setAccessibleName("Choices for the drawings")
        session.project_changed.connect(lambda _old, _new: self.refresh())
        session.units_changed.connect(lambda _units: self.refresh())
        self.refresh()

    def refresh(self) -> None:
        """Show what the project says now."""
        for form in (self.what, self.drawing, self.title_block, self.making):
            form.refresh()

    def _what(self) -> Form:
        form = Form(self._session)
        for view, words in _VIEWS.items():
            form.switch(words, _view_slot(view))
        return form

    def _drawing(self) -> Form:
        form = Form(self._session)
        form.choice("Paper", [(words, paper) for paper, words in _PAPERS.items()], _slot("paper"))
        form.choice("Projection", [(one.value, one) for one in Projection], _slot("projection"))
        form.choice("Dimensions in", [(words, one) for one, words in _UNITS.items()], _slot("units"))
        scales: list[tuple[str, float | None]] = [("fills the sheet", None)]
        form.choice("Scale", [*scales, *((scale_words(one), one) for one in _SCALES)], _slot("scale_factor"))
        form.choice("Weld symbols", [(one.value, one) for one in WeldSymbols], _slot("weld_symbols"))
        return form

    def _title_block(self) -> Form:
        form = Form(self._session)
        for label, field in _TITLE_BLOCK:
            form.text(label, _slot(field))
        form.text("Date of issue", _slot("date_text"))
        form.act("Put in today’s date", self._put_in_today)
        return form

    def _making(self) -> Form:
        form = Form(self._session)
        for label, field, stand_in in (
            ("Bracket material", "bracket_material_text", BRACKET_MATERIAL),
            ("Shroud material", "shroud_material_text", SHROUD_MATERIAL),
        ):
            line = form.text(label, _making_slot(field))
            line.setPlaceholderText(f"{stand_in}, default")
            line.setToolTip(f"Default: {stand_in}, {_PRACTICE}")
        for label, field, thickness_mm in (
            ("Bracket thickness", "bracket_thickness_mm", BRACKET_THICKNESS_MM),
            ("Shroud thickness", "shroud_thickness_mm", SHROUD_THICKNESS_MM),
        ):
            stands_in = Default(thickness_mm, Tag.MEMORY, _PRACTICE)
            form.quantity(label, Dimension.LENGTH, _making_slot(field), optional=True, default=stands_in)
        form.quantity("Bend radius, inside", Dimension.LENGTH, _making_slot("bend_radius_mm"), optional=True)
        form.note(f"Without it, {RADIUS_FACTOR:g} × the thickness of each ({_PRACTICE}).")
        form.quantity(
            "K-factor",
            Dimension.COUNT,
            _making_slot("bend_neutral_frac"),
            optional=True,
            default=Default(NEUTRAL_FRAC, Tag.MEMORY, f"neutral fibre of air bending, {_PRACTICE}"),
        )
        return form

    def _put_in_today(self) -> None:
        project = self._session.project
        # As text, once: a date that moved by itself would make every print another one.
        self._session.apply("put in the date", set_choice(project, "date_text", self._today().isoformat()))


def _slot(field: str) -> Slot:
    return Slot(
        lambda project: getattr(project.sheet, field),
        lambda project, value: set_choice(project, field, value),
    )


def _making_slot(field: str) -> Slot:
    return Slot(
        lambda project: getattr(project.sheet.making, field),
        lambda project, value: set_making(project, field, value),
    )


def _view_slot(view: SheetView) -> Slot:
    def write(project: Project, value: Any) -> Project:
        return show_view(project, view, is_wanted=bool(value))

    return Slot(lambda project: view in project.sheet.views, write)
