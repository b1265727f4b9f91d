"""A section that folds away under its heading."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSizePolicy, QToolButton, QVBoxLayout, QWidget

from grillestack.app.said import said


class FoldingSection(QWidget):
    """A heading that opens and shuts what is under it, by mouse or by Space."""

    def __init__(self, heading: str, content: QWidget, *, is_open: bool = True) -> None:
        super().__init__()
        self.content = content
        self.button = QToolButton()
        self.button.setObjectName("folder")
        self.button.setText(said(heading))
        self.button.setAccessibleName(said(heading))
        self.button.setCheckable(True)
        self.button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.button)
        layout.addWidget(content)
        self.button.toggled.connect(self._fold)
        self.button.setChecked(is_open)
        self._fold(is_open)

    def open(self) -> None:
        """Show what is under the heading."""
        self.button.setChecked(True)

    def _fold(self, is_open: bool) -> None:  # noqa: FBT001  Qt's signal hands a bare bool
        self.content.setVisible(is_open)
        self.button.setArrowType(Qt.ArrowType.DownArrow if is_open else Qt.ArrowType.RightArrow)
