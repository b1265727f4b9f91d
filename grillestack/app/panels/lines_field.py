"""A field for a small table: one line a point, quantities parted by semicolons, as they stand on a parts page."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from grillestack.app.panels.field import Complaint
from grillestack.app.panels.leaving_text import LeavingText
from grillestack.app.said import said
from grillestack.units.display import UnitSystem
from grillestack.units.parse import parse_quantity
from grillestack.units.quantity import Dimension, QuantityError
from grillestack.units.show import display_unit, show_bare

Row = tuple[float, ...]


class LinesField(QWidget):
    """Some rows of quantities as text; `committed` carries the rows in internal units when the field is left."""

    committed = Signal(object)

    def __init__(self, name: str, columns: Sequence[tuple[str, Dimension]]) -> None:
        super().__init__()
        self._columns = tuple(columns)
        self._rows: tuple[Row, ...] = ()
        self._units = UnitSystem.METRIC
        self.heading = QLabel()
        self.heading.setObjectName("label")
        self.heading.setWordWrap(True)
        self.text = LeavingText()
        self.text.setAccessibleName(name)
        self.text.setTabChangesFocus(True)
        self.text.setFixedHeight(92)
        self.complaint = Complaint()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        for widget in (self.heading, self.text, self.complaint):
            layout.addWidget(widget)
        self.setFocusProxy(self.text)
        self.text.left.connect(self.take)
        self._render()

    def show_rows(self, rows: Sequence[Row], units: UnitSystem) -> None:
        """Show the rows of the document; what is being typed stays."""
        changed = (tuple(rows), units) != (self._rows, self._units)
        self._rows, self._units = tuple(rows), units
        if changed and not self.text.document().isModified():
            self._render()

    def lock(self, reason: str) -> None:
        """Make the field read-only and say why."""
        self.text.setReadOnly(True)
        self.text.setToolTip(reason)

    def take(self) -> None:
        """Hand on what is typed, or say under the field which line cannot be taken."""
        if not self.text.document().isModified():
            return
        try:
            rows = self.typed_rows()
        except QuantityError as error:
            self.complain(str(error))
            return
        self.complaint.say("")
        self.text.document().setModified(False)
        self.committed.emit(rows)
        if not self.text.document().isModified():
            self._render()

    def complain(self, sentence: str) -> None:
        """Show the sentence and keep what was typed."""
        self.text.document().setModified(True)
        self.complaint.say(sentence)

    def typed_rows(self) -> tuple[Row, ...]:
        """Return what the text says in internal units.

        Raises
        ------
        QuantityError
            With the line and what is wrong in it.
        """
        rows = []
        for number, line in enumerate(self.text.toPlainText().splitlines(), start=1):
            if not line.strip():
                continue
            cells = [cell.strip() for cell in line.rstrip().rstrip(";").split(";")]
            if len(cells) != len(self._columns):
                names = "; ".join(name for name, _ in self._columns)
                raise QuantityError(
                    f"Line {number} holds {len(cells)} figures instead of {len(self._columns)}: type {names}, with semicolons between."
                )
            try:
                rows.append(
                    tuple(
                        parse_quantity(cell, dimension, display_unit(dimension, self._units))
                        for cell, (_, dimension) in zip(cells, self._columns, strict=True)
                    )
                )
            except QuantityError as error:
                raise QuantityError(f"Line {number}: {error}") from error
        return tuple(rows)

    def _render(self) -> None:
        titles = [f"{said(name)} {display_unit(dimension, self._units)}".strip() for name, dimension in self._columns]
        self.heading.setText(said("One line a point: {columns}", columns=" ; ".join(titles)))
        lines = [
            " ; ".join(
                show_bare(value, dimension, self._units.base)
                for value, (_, dimension) in zip(row, self._columns, strict=True)
            )
            for row in self._rows
        ]
        self.text.setPlainText("\n".join(lines))
        self.text.document().setModified(False)
        self.complaint.say("")
