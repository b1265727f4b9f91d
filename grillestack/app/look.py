"""How the window looks: fonts where there are none, the colours of the palette on every widget, a visible focus."""

from __future__ import annotations

import os
import sys

from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication, QStyleFactory

from grillestack.app.canvas.spoken import SheetSpeaker
from grillestack.app.palette import Palette, dark, high_contrast, light
from grillestack.assets.locate import resource
from grillestack.storage.settings import Look

_BUNDLED_SIZE_PT = 9.0


def use_offscreen_without_a_display() -> None:
    """Have Qt paint into memory where there is no display; must come before the application is made."""
    if sys.platform.startswith("linux") and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


def prepare_application(app: QApplication) -> None:
    """Give the application its name, its style, and a font if the system has none."""
    app.setApplicationName("grillestack")
    app.setApplicationDisplayName("grillestack")
    SheetSpeaker().install()
    style = QStyleFactory.create("Fusion")
    if style is not None:
        app.setStyle(style)
    if not QFontDatabase.families():
        number = QFontDatabase.addApplicationFont(str(resource("fonts", "DejaVuSans.ttf")))
        QFontDatabase.addApplicationFont(str(resource("fonts", "DejaVuSans-Bold.ttf")))
        families = QFontDatabase.applicationFontFamilies(number)
        if families:
            font = QFont(families[0])
            font.setPointSizeF(_BUNDLED_SIZE_PT)
            app.setFont(font)


def palette_of(look: Look) -> Palette:
    """Return the colours of that look."""
    return {Look.LIGHT: light, Look.DARK: dark, Look.HIGH_CONTRAST: high_contrast}[look]()


def colour_application(app: QApplication, palette: Palette, more_style: str = "") -> None:
    """Put the palette on all widgets, and what else their style asks for."""
    app.setPalette(_qt_palette(palette))
    app.setStyleSheet(_style_sheet(palette) + more_style)


def _qt_palette(p: Palette) -> QPalette:
    colours = QPalette()
    role = QPalette.ColorRole
    for which, colour in (
        (role.Window, p.panel),
        (role.WindowText, p.ink),
        (role.Base, p.paper),
        (role.AlternateBase, p.panel),
        (role.Text, p.ink),
        (role.Button, p.panel),
        (role.ButtonText, p.ink),
        (role.PlaceholderText, p.faint_ink),
        (role.Highlight, p.accent),
        (role.HighlightedText, p.paper),
        (role.ToolTipBase, p.tag_paper),
        (role.ToolTipText, p.tag_ink),
        (role.Link, p.accent),
        (role.Mid, p.rule),
        (role.Dark, p.rule),
    ):
        colours.setColor(which, colour)
    for which in (role.Text, role.ButtonText, role.WindowText):
        colours.setColor(QPalette.ColorGroup.Disabled, which, p.faint_ink)
    return colours


def _style_sheet(p: Palette) -> str:
    ink, faint, rule, paper, panel = (_css(c) for c in (p.ink, p.faint_ink, p.rule, p.paper, p.panel))
    edge = _css(p.edge)
    accent, wash, warning = _css(p.accent), _css(p.accent_wash), _css(p.warning)
    return f"""
QMainWindow, QMainWindow > QWidget {{ background: {panel}; }}
QMenuBar {{ background: {panel}; border-bottom: 1px solid {rule}; padding: 1px 4px; }}
QMenuBar::item {{ padding: 3px 8px; background: transparent; }}
QMenuBar::item:selected, QMenu::item:selected {{ background: {wash}; color: {ink}; }}
QMenu {{ background: {paper}; border: 1px solid {rule}; padding: 4px 0; }}
QMenu::item {{ padding: 4px 28px 4px 24px; }}
QMenu::item:disabled {{ color: {faint}; }}
QMenu::separator {{ height: 1px; background: {rule}; margin: 4px 8px; }}
QToolBar {{ background: {panel}; border: 0; border-bottom: 1px solid {rule}; padding: 2px 6px; spacing: 2px; }}
QToolBar::separator {{ width: 1px; background: {rule}; margin: 4px 4px; }}
QToolBar QToolButton {{ padding: 4px 7px; border: 1px solid transparent; border-radius: 3px; }}
QToolBar QToolButton:hover {{ background: {wash}; }}
QToolButton:focus {{ border: 1px solid {accent}; border-radius: 3px; }}
QToolBar QToolButton:focus {{ border: 2px solid {accent}; padding: 3px 6px; }}
QToolBar QToolButton:disabled {{ color: {faint}; }}
QToolBar QToolButton#qt_toolbar_ext_button {{ padding: 0; }}
QStatusBar {{ background: {panel}; border-top: 1px solid {rule}; }}
QStatusBar::item {{ border: 0; }}
QSplitter::handle {{ background: {rule}; }}
QScrollArea#column, QScrollArea#column > QWidget > QWidget {{ background: {panel}; }}
QLineEdit, QPlainTextEdit, QComboBox {{
  background: {paper}; color: {ink}; border: 1px solid {edge}; border-radius: 3px; padding: 2px 4px;
  selection-background-color: {accent}; selection-color: {paper}; }}
QLineEdit:focus, QPlainTextEdit:focus, QComboBox:focus {{ border: 2px solid {accent}; padding: 1px 3px; }}
QLineEdit:read-only {{ background: transparent; border: 1px solid transparent; }}
QLineEdit:read-only:focus {{ border: 1px solid {accent}; }}
QLineEdit[refused="yes"] {{ border: 1px solid {warning}; }}
QComboBox::drop-down {{ border: 0; width: 18px; }}
QComboBox QAbstractItemView {{ background: {paper}; border: 1px solid {rule};
  selection-background-color: {wash}; selection-color: {ink}; }}
QPushButton {{ background: {paper}; border: 1px solid {edge}; border-radius: 3px; padding: 3px 10px; }}
QPushButton:hover {{ background: {wash}; }}
QPushButton:focus {{ border: 2px solid {accent}; padding: 2px 9px; }}
QPushButton#chief {{ background: {accent}; color: {paper}; border: 1px solid {accent}; }}
QPushButton#chief:focus {{ border: 2px solid {ink}; }}
QCheckBox, QRadioButton {{ border: 1px solid transparent; border-radius: 3px; }}
QCheckBox:focus, QRadioButton:focus {{ background: {wash}; border: 1px solid {accent}; }}
QCheckBox::indicator {{ width: 12px; height: 12px; border: 1px solid {faint}; border-radius: 2px; background: {paper}; }}
QCheckBox::indicator:checked {{ border: 1px solid {accent}; background: {accent}; }}
QSlider::groove:horizontal {{ height: 3px; background: {rule}; border-radius: 1px; }}
QSlider::sub-page:horizontal {{ background: {accent}; border-radius: 1px; }}
QSlider::handle:horizontal {{ width: 12px; margin: -6px 0; border: 1px solid {accent}; border-radius: 3px; background: {paper}; }}
QSlider:focus {{ background: {wash}; border: 1px solid {accent}; }}
QRadioButton::indicator {{ width: 12px; height: 12px; border: 1px solid {faint}; border-radius: 7px; background: {paper}; }}
QRadioButton::indicator:checked {{ border: 4px solid {accent}; width: 6px; height: 6px; }}
QScrollArea, QScrollArea > QWidget > QWidget {{ background: {panel}; }}
QTreeWidget, QListWidget {{ background: {panel}; color: {ink}; border: 2px solid transparent; outline: 0; }}
QTreeWidget:focus, QListWidget:focus {{ background: {paper}; border: 2px solid {accent}; }}
QScrollArea:focus {{ border: 1px solid {accent}; }}
QToolButton#folder {{ border: 0; border-top: 1px solid {rule}; padding: 4px 2px; text-align: left; }}
QToolButton#folder:focus {{ color: {accent}; border: 1px solid {accent}; }}
QToolButton#unit {{ border: 1px solid {edge}; border-radius: 3px; padding: 1px 6px; color: {faint}; }}
QToolButton#unit:checked {{ color: {ink}; background: {wash}; border-color: {accent}; }}
QToolButton#unit:focus {{ border: 2px solid {accent}; padding: 0 5px; }}
QScrollBar:vertical {{ background: transparent; width: 10px; margin: 0; }}
QScrollBar:horizontal {{ background: transparent; height: 10px; margin: 0; }}
QScrollBar::handle {{ background: {rule}; border-radius: 3px; margin: 2px; min-height: 24px; min-width: 24px; }}
QScrollBar::handle:hover {{ background: {faint}; }}
QScrollBar::add-line, QScrollBar::sub-line {{ width: 0; height: 0; }}
QScrollBar::add-page, QScrollBar::sub-page {{ background: transparent; }}
QLabel#columnTitle {{ color: {faint}; padding: 6px 8px 2px 8px; }}
QLabel#heading {{ font-weight: bold; }}
QLabel#faint, QLabel#label {{ color: {faint}; }}
QLabel#complaint {{ color: {warning}; }}
QFrame#strip {{ background: {paper}; border-bottom: 1px solid {warning}; }}
QToolTip {{ background: {_css(p.tag_paper)}; color: {_css(p.tag_ink)}; border: 0; padding: 3px 6px; }}
"""


def _css(colour: QColor) -> str:
    return f"rgba({colour.red()}, {colour.green()}, {colour.blue()}, {colour.alpha()})"
