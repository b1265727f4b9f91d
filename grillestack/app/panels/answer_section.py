"""A section for one further answer: a heading with its gist that opens it, and under it what the answer is about."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QEnterEvent, QFont, QPainter, QPaintEvent, QPalette, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractButton, QLabel, QSizePolicy, QVBoxLayout, QWidget

from grillestack.app.palette import Palette
from grillestack.app.workers.standing import Stage, Standing

_ARROW_PX = 16
_GAP_PX = 10
WORKING = "working"
NOT_KNOWN = "not known"
AS_OF_BEFORE = "Working; below as before the change."


class AnswerHeading(QAbstractButton):
    """Paints an arrow, the title and at the right the gist of what is under it."""

    def __init__(self, title: str, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._palette = palette
        self._gist = ""
        self.setText(title)
        self.setAccessibleName(title)
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    @property
    def gist(self) -> str:
        """Return the words at the right."""
        return self._gist

    def show_gist(self, gist: str) -> None:
        """Show these words at the right."""
        if gist != self._gist:
            self._gist = gist
            self.setAccessibleDescription(gist)
            self.update()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self._palette = palette
        self.update()

    def sizeHint(self) -> QSize:
        """Return a size that holds the title."""
        return QSize(240, self.fontMetrics().height() + 10)

    def enterEvent(self, event: QEnterEvent) -> None:
        """Show that it can be pressed."""
        super().enterEvent(event)
        self.update()

    def leaveEvent(self, event: QEvent) -> None:
        """Show it at rest again."""
        super().leaveEvent(event)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint rule, arrow, title and gist."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette, box = self._palette, QRectF(self.rect())
        lit = self.hasFocus()
        painter.setPen(QPen(palette.accent if lit else palette.rule, 1.5 if lit else 1.0))
        painter.drawLine(box.topLeft() + QPointF(0, 0.5), box.topRight() + QPointF(0, 0.5))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(palette.accent if lit or self.underMouse() else palette.faint_ink)
        painter.drawPolygon(_arrow(QPointF(6.0, box.center().y()), is_open=self.isChecked()))
        font = QFont(self.font())
        font.setBold(True)
        painter.setFont(font)
        painter.setPen(palette.ink)
        words = box.adjusted(_ARROW_PX, 0, -2, 0)
        painter.drawText(words, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, self.text())
        title_px = painter.fontMetrics().horizontalAdvance(self.text())
        painter.setFont(self.font())
        painter.setPen(palette.faint_ink)
        rest = words.adjusted(title_px + _GAP_PX, 0, 0, 0)
        gist = painter.fontMetrics().elidedText(self._gist, Qt.TextElideMode.ElideRight, max(0, int(rest.width())))
        painter.drawText(rest, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, gist)
        painter.end()


class AnswerSection(QWidget):
    """Heading, one line on what the answer is about or how it stands, and the content, shut until it is asked for."""

    def __init__(self, title: str, content: QWidget, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.content = content
        self.heading = AnswerHeading(title, palette, self)
        self.about = QLabel(self)
        self.about.setWordWrap(True)
        self._has_content = False
        self._above: QWidget | None = None
        self.heading.toggled.connect(lambda _checked: self._fold())
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.heading)
        column.addWidget(self.about)
        column.addWidget(content)
        self.setAccessibleName(title)
        self._fold()
        self.show_palette(palette)

    def open(self) -> None:
        """Show what is under the heading."""
        self.heading.setChecked(True)

    def put_above(self, widget: QWidget) -> None:
        """Show that widget right under the heading whenever the section is open, whether there is an answer or not."""
        self._above = widget
        column = self.layout()
        if isinstance(column, QVBoxLayout):
            column.insertWidget(1, widget)
        self._fold()

    def show_standing(self, standing: Standing, gist: str, about: str) -> None:
        """Say how the answer stands; gist and about are those of a current answer."""
        self._has_content = standing.result is not None
        if standing.stage is Stage.CURRENT:
            words = about
        elif standing.stage is Stage.WORKING:
            gist = WORKING if standing.share_frac is None else f"{WORKING}, {standing.share_frac * 100:.0f} %"
            words = AS_OF_BEFORE if self._has_content else "Working."
        else:
            gist, words = NOT_KNOWN, standing.reason or "Not known yet."
        self.heading.show_gist(gist)
        if self.about.text() != words:
            self.about.setText(words)
        self._fold()

    def show_palette(self, palette: Palette) -> None:
        """Paint in these colours from now on."""
        self.heading.show_palette(palette)
        ink_label(self.about, palette.faint_ink)

    def _fold(self) -> None:
        is_open = self.heading.isChecked()
        if self._above is not None:
            self._above.setVisible(is_open)
        self.about.setVisible(is_open and bool(self.about.text()))
        self.content.setVisible(is_open and self._has_content)


def ink_label(widget: QWidget, colour: QColor) -> None:
    """Let the words of the widget have that ink."""
    colours = widget.palette()
    for role in (QPalette.ColorRole.WindowText, QPalette.ColorRole.ButtonText):
        colours.setColor(role, colour)
    widget.setPalette(colours)


def _arrow(at: QPointF, *, is_open: bool) -> QPolygonF:
    places = ((-4.0, -2.0), (4.0, -2.0), (0.0, 2.5)) if is_open else ((-2.0, -4.0), (-2.0, 4.0), (2.5, 0.0))
    return QPolygonF([at + QPointF(x, y) for x, y in places])
