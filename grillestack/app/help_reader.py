"""The window in which help is read: pages at the left, words to search for above them, the page with its pictures at the right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QImage, QTextCursor, QTextDocument
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

_LIST_PX: Final = 216
_SIZE_PX: Final = (940, 680)
_MARGIN_PX: Final = 56
_DOCUMENT_MARGIN_PX: Final = 16.0


@dataclass(frozen=True, slots=True)
class HelpPage:
    """A page: its title, the name other pages call it by, and how its text is had."""

    title: str
    name: str
    read: Callable[[], str]


class PageBrowser(QTextBrowser):
    """Shows a page; pictures come from one folder and are never wider than the page."""

    def __init__(self, folder: Path | None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._folder = folder
        self.setOpenLinks(False)
        self.setOpenExternalLinks(False)

    def loadResource(self, kind: int, name: QUrl | str) -> object:
        """Return a picture of the help's own folder; anything else is not fetched."""
        url = QUrl(name)
        path = url.path()
        if self._folder is None or url.scheme() or not path.startswith("pictures/") or ".." in path:
            return None
        if QTextDocument.ResourceType(kind) is not QTextDocument.ResourceType.ImageResource:
            return None
        image = QImage(str(self._folder / path))
        room = max(200, self.viewport().width() - _MARGIN_PX)
        if image.width() > room:
            image = image.scaledToWidth(room, Qt.TransformationMode.SmoothTransformation)
        return image


class HelpReader(QWidget):
    """Lists the pages that hold the words searched for, and shows one; it does not block the work."""

    def __init__(self, pages: Sequence[HelpPage], folder: Path | None, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self._pages = tuple(pages)
        self._texts = [page.read() for page in pages]
        self.search = QLineEdit(self)
        self.search.setPlaceholderText("Search the help")
        self.search.setAccessibleName("Search the help")
        self.search.setClearButtonEnabled(True)
        self.list = QListWidget(self)
        self.list.setAccessibleName("Help pages")
        self.list.setSpacing(3)
        self.nothing = QLabel("No page holds all these words.", self)
        self.nothing.setObjectName("faint")
        self.nothing.setWordWrap(True)
        self.nothing.hide()
        self.page = PageBrowser(folder, self)
        for page in pages:
            self.list.addItem(QListWidgetItem(page.title))
        left = QVBoxLayout()
        left.addWidget(self.search)
        left.addWidget(self.nothing)
        left.addWidget(self.list, 1)
        for widget in (self.search, self.list, self.nothing):
            widget.setFixedWidth(_LIST_PX)
        whole = QHBoxLayout(self)
        whole.setContentsMargins(8, 8, 8, 8)
        whole.addLayout(left)
        whole.addWidget(self.page, 1)
        self.resize(*_SIZE_PX)
        self.list.currentRowChanged.connect(self._show_row)
        self.search.textChanged.connect(lambda _words: self._filter())
        self.search.returnPressed.connect(self._next_hit)
        self.page.anchorClicked.connect(self._follow)

    def show_page(self, name: str) -> None:
        """Show the page of that name."""
        for row, page in enumerate(self._pages):
            if page.name == name:
                self.search.clear()
                self.list.setCurrentRow(row)
                self._show_row(row)
        self.show()
        self.activateWindow()

    def titles_shown(self) -> list[str]:
        """Return the titles in the list, top to bottom."""
        return [page.title for row, page in enumerate(self._pages) if not self.list.isRowHidden(row)]

    def _show_row(self, row: int) -> None:
        if row < 0:
            return
        title = self._pages[row].title
        self.setWindowTitle(title)
        self.page.setAccessibleName(title)
        self.page.setMarkdown(self._texts[row])
        self.page.document().setDocumentMargin(_DOCUMENT_MARGIN_PX)
        self.page.moveCursor(QTextCursor.MoveOperation.Start)
        self._mark()

    def _filter(self) -> None:
        wanted = self.search.text().casefold().split()
        found = []
        for row, (page, text) in enumerate(zip(self._pages, self._texts, strict=True)):
            words = f"{page.title} {text}".casefold()
            is_found = all(word in words for word in wanted)
            self.list.setRowHidden(row, not is_found)
            if is_found:
                found.append(row)
        self.nothing.setVisible(not found)
        if found and self.list.currentRow() not in found:
            self.list.setCurrentRow(found[0])
        else:
            self.page.moveCursor(QTextCursor.MoveOperation.Start)
            self._mark()

    def _mark(self) -> None:
        """Mark the first place of the first word searched for."""
        words = self.search.text().split()
        if words:
            self.page.find(words[0])

    def _next_hit(self) -> None:
        words = self.search.text().split()
        if words and not self.page.find(words[0]):
            self.page.moveCursor(QTextCursor.MoveOperation.Start)
            self.page.find(words[0])

    def _follow(self, link: QUrl) -> None:
        name = link.path().removesuffix(".md")
        if not link.scheme() and any(page.name == name for page in self._pages):
            self.show_page(name)
