"""The card of what is selected, or a form for something new; it keeps its rows as long as they fit."""

from __future__ import annotations

from collections.abc import Hashable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from grillestack.app.panels.card import Card
from grillestack.app.panels.cards import card_for, shape_of
from grillestack.app.panels.draft import DraftForm
from grillestack.app.panels.field import QuantityField, TypedLine
from grillestack.app.panels.folding import FoldingSection
from grillestack.app.panels.leaving_text import LeavingText
from grillestack.app.said import said
from grillestack.app.session import Session


class PartCard(QScrollArea):
    """Follows the session; what is typed on it becomes edits."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self._session = session
        self._card: Card | None = None
        self._shape: Hashable = None
        self._draft: DraftForm | None = None
        self.setAccessibleName("Part card")
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        session.project_changed.connect(lambda _old, _new: self._follow())
        session.selection_changed.connect(lambda _ids: self._follow())
        session.units_changed.connect(lambda _units: self._show_units())
        self._follow()

    @property
    def card(self) -> Card | None:
        """Return the card shown, or nothing while a form for something new is."""
        return None if self._draft is not None else self._card

    @property
    def draft(self) -> DraftForm | None:
        """Return the form for something new, if one is shown."""
        return self._draft

    def show_draft(self, draft: DraftForm) -> None:
        """Show a form for something new until it is taken or cancelled."""
        self._draft = draft
        draft.taken.connect(self._end_draft)
        draft.cancelled.connect(self._end_draft)
        framed = QWidget()
        layout = QVBoxLayout(framed)
        layout.setContentsMargins(8, 4, 8, 8)
        layout.addWidget(draft)
        self._put(framed)
        draft.begin()

    def go_to(self, label: str) -> None:
        """Put the cursor into the line of that label, unfolded and in sight; without such a line nothing happens."""
        content = self.widget()
        lines = content.findChildren(TypedLine) if content is not None else []
        line = next((one for one in lines if one.accessibleName() == said(label)), None)
        if line is None:
            return
        above = line.parentWidget()
        while above is not None and above is not content:
            if isinstance(above, FoldingSection):
                above.open()
            above = above.parentWidget()
        line.setFocus()
        line.selectAll()
        self.ensureWidgetVisible(line)

    def settle(self) -> None:
        """Have all that is typed on the card count now, as if the cursor had left it."""
        if self._draft is not None or self._card is None:
            return
        card = self._card
        for line in card.findChildren(TypedLine):
            if card is self._card and line.isModified():
                line.typed.emit()
        for text in card.findChildren(LeavingText):
            if card is self._card:
                text.left.emit()

    def _end_draft(self) -> None:
        self._draft = None
        self._shape = None
        self._follow()

    def _follow(self) -> None:
        if self._draft is not None:
            return
        shape = shape_of(self._session)
        if self._card is None or shape != self._shape:
            focused = self._focused_name() if self._same_subject(shape) else ""
            self._tell_what_is_dropped()
            self._shape = shape
            self._card = card_for(self._session)
            self._card.refresh()
            self._put(self._card)
            self._focus(focused)
        else:
            self._card.refresh()

    def _show_units(self) -> None:
        if self._draft is not None:
            self._draft.show_units(self._session.units)
        elif self._card is not None:
            self._card.refresh()

    def _put(self, content: QWidget) -> None:
        # The old content may be the sender of the signal that led here, so it is let go only after the signal.
        old = self.takeWidget()
        if old is not None:
            old.hide()
            old.setParent(None)
            old.deleteLater()
        self.setWidget(content)
        content.show()
        self.verticalScrollBar().setValue(0)

    def _same_subject(self, shape: Hashable) -> bool:
        if not (isinstance(shape, tuple) and isinstance(self._shape, tuple)):
            return False
        return bool(shape[0] == self._shape[0])

    def _tell_what_is_dropped(self) -> None:
        if self._card is None:
            return
        for field in self._card.findChildren(QuantityField):
            if field.is_kept:
                name, text = field.line.accessibleName(), field.line.text()
                self._session.message.emit(
                    f"“{text}” for “{name}” was not taken: {field.complaint.text() or field.comma.question.text()}"
                )
                return

    def _focused_name(self) -> str:
        widget = self.focusWidget()
        return widget.accessibleName() if widget is not None else ""

    def _focus(self, name: str) -> None:
        if not name or self._card is None:
            return
        for line in self._card.findChildren(TypedLine):
            if line.accessibleName() == name:
                line.setFocus()
                self.ensureWidgetVisible(line)
                return
