"""A window at the bench with the real core and the whole shelf, a person who answers its questions, and hands of real events."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent, QDragMoveEvent, QDropEvent, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QWidget
from shiboken6 import isValid

from grillestack.app.dialogs import Unsaved
from grillestack.app.own_parts import own_size_starters, shelf_parts
from grillestack.app.panels.field import QuantityField
from grillestack.app.scientific_core import ScientificCore
from grillestack.app.session import Session
from grillestack.app.window import Equipment, MainWindow
from grillestack.assets.locate import demo_projects
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import cores
from grillestack.units.display import UnitSystem

CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
ALT, NONE = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.NoModifier
LEFT = Qt.MouseButton.LeftButton
PRESS, MOVE, RELEASE = QEvent.Type.MouseButtonPress, QEvent.Type.MouseMove, QEvent.Type.MouseButtonRelease


@dataclass
class Person:
    """Answers what the window asks, and remembers what was asked."""

    open_path: Path | None = None
    save_path: Path | None = None
    unsaved: Unsaved = Unsaved.LEAVE
    asked: list[str] = field(default_factory=list)

    def ask_open(self, folder: Path) -> Path | None:
        self.asked.append("open")
        return self.open_path

    def ask_photo(self, folder: Path) -> Path | None:
        self.asked.append("photo")
        return None

    def ask_save(self, suggested: Path) -> Path | None:
        self.asked.append(f"save {suggested.name}")
        return self.save_path

    def ask_unsaved(self, title: str) -> Unsaved:
        self.asked.append(f"unsaved {title}")
        return self.unsaved


@dataclass
class Bench:
    """One window, its session, and who sits before it."""

    window: MainWindow
    person: Person

    @property
    def session(self) -> Session:
        return self.window.session

    # --- what can be seen -------------------------------------------------------------------------------------------

    def words(self) -> list[str]:
        """Return every text on the verdict's labels and the spoken words of what it paints, from top to bottom."""
        QApplication.processEvents()  # everything stands where it is painted
        verdict = self.window.verdict
        shown = [w for w in verdict.findChildren(QWidget) if w.isVisible()]
        shown.sort(key=lambda w: (w.mapTo(verdict, QPoint()).y(), w.mapTo(verdict, QPoint()).x()))
        labels = [w.text() for w in shown if isinstance(w, QLabel)]
        return labels + [f"{w.accessibleName()}: {w.accessibleDescription()}" for w in shown if w.accessibleName()]

    def verdict_word(self) -> str:
        """Return the one word at the head of the verdict."""
        (said,) = {
            w.accessibleName()
            for w in self.window.verdict.findChildren(QLabel)
            if w.accessibleName().startswith("Verdict: ")
        }
        (label,) = [w for w in self.window.verdict.findChildren(QLabel) if w.accessibleName() == said]
        assert label.isVisible()
        assert label.text().casefold() == said.removeprefix("Verdict: ")
        return label.text()

    def findings(self) -> list[str]:
        return [row.text() for row in self.window.verdict.findings_list.rows]

    def cautions(self) -> list[str]:
        return [row.text() for row in self.window.verdict.cautions.list.rows]

    def status_words(self) -> str:
        return self.window.status.currentMessage()

    def look(self) -> None:
        """Have everything painted; what goes wrong in painting fails the test."""
        assert not self.window.grab().isNull()

    # --- hands ------------------------------------------------------------------------------------------------------

    def key(self, key: Qt.Key, modifiers: Qt.KeyboardModifier = NONE, on: QWidget | None = None) -> None:
        """Press a key where the keyboard is put first: on the nose, if nothing else is named."""
        target = on or self.window.front
        target.setFocus()
        QTest.keyClick(target, key, modifiers)

    def type_in(self, line: QLineEdit, text: str, end: Qt.Key | None = Qt.Key.Key_Return) -> None:
        line.setFocus()
        line.selectAll()
        QTest.keyClick(line, Qt.Key.Key_Delete)
        QTest.keyClicks(line, text)
        if end is not None:
            QTest.keyClick(line, end)

    def field(self, name: str) -> QuantityField:
        """Return the field of the card with that name."""
        found = [f for f in self.window.card.widget().findChildren(QuantityField) if f.line.accessibleName() == name]
        assert found, f"the card has no field “{name}”"
        return found[0]

    def mouse(self, kind: QEvent.Type, at: QPointF, held: Qt.KeyboardModifier = NONE) -> None:
        """Send one event of the left button to the front view, at a pixel."""
        port = self.window.front.viewport()
        cause = Qt.MouseButton.NoButton if kind is MOVE else LEFT
        buttons = Qt.MouseButton.NoButton if kind is RELEASE else LEFT
        QApplication.sendEvent(port, QMouseEvent(kind, at, port.mapToGlobal(at), cause, buttons, held))

    def middle_px(self, part_id: str) -> QPointF:
        """Return the pixel over the middle of a part, checked to be in sight."""
        place = self.session.shown.part(part_id).placement
        at = self.window.front.px_of(place.y_mm, place.z_mm)
        assert self.window.front.sheet_area().contains(at)
        return at

    def charge_air_cooler(self) -> Core:
        return cores(self.session.shown, CoreRole.CHARGE_AIR_COOLER)[0]

    def shelf_mime(self, name: str):
        """Return what the shelf hands over when the first part with that name is dragged away."""
        tree = self.window.shelf.tree
        items = [
            tree.topLevelItem(i).child(j)
            for i in range(tree.topLevelItemCount())
            for j in range(tree.topLevelItem(i).childCount())
        ]
        item = next(item for item in items if name in item.text(0))
        return tree.mimeData([item])

    def carry(self, kind: str, mime, at: QPointF) -> bool:
        """Send one event of drag and drop to the front view; say whether the view takes it."""
        port = self.window.front.viewport()
        allowed = Qt.DropAction.CopyAction | Qt.DropAction.MoveAction
        event = {
            "enter": lambda: QDragEnterEvent(at.toPoint(), allowed, mime, LEFT, NONE),
            "move": lambda: QDragMoveEvent(at.toPoint(), allowed, mime, LEFT, NONE),
            "leave": QDragLeaveEvent,
            "drop": lambda: QDropEvent(at, allowed, mime, LEFT, NONE),
        }[kind]()
        QApplication.sendEvent(port, event)
        return event.isAccepted()


def open_window(person: Person, units: UnitSystem = UnitSystem.METRIC) -> Bench:
    """Return a bench at which nothing is open yet."""
    core = ScientificCore()
    session = Session(core.assess, units)
    parts, complaints = shelf_parts()
    assert complaints == []
    equipment = Equipment(
        advise=core.advise,
        dialogs=person,
        parts=(*parts, *own_size_starters()),
        demos=demo_projects(),
        compare=core.compare,
    )
    window = MainWindow(session, equipment)
    window.resize(1280, 800)
    window.show()
    QApplication.processEvents()
    return Bench(window, person)


def close_window(bench: Bench) -> None:
    """Close the window without saving; it must go, and leave nothing behind."""
    bench.person.unsaved = Unsaved.LEAVE
    bench.window.close()
    bench.window.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert not isValid(bench.window)


def middle_of(widget: QWidget) -> QPoint:
    return widget.rect().center()
