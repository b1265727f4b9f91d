"""Fixed words can be said in another language: with a translator that brackets each, none on menus, rows and cards is left bare."""

from __future__ import annotations

import re

import pytest
from PySide6.QtCore import QCoreApplication, QTranslator
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QAbstractButton, QCheckBox, QComboBox, QLabel, QMenu, QPushButton, QToolButton

from grillestack.app.said import CONTEXT, said
from grillestack.model.project import stack

_LETTERS = re.compile(r"[A-Za-z]{2,}")


class Bracketing(QTranslator):
    """Says every fixed word of ours in brackets, and notes which it was asked for."""

    def __init__(self) -> None:
        super().__init__()
        self.asked: set[str] = set()

    def isEmpty(self) -> bool:
        return False

    def translate(self, context, source, disambiguation=None, n=-1):
        if context != CONTEXT:
            return None
        self.asked.add(source)
        return f"[{source}]"


@pytest.fixture
def bracketing(qapp):
    """Install the translator before the window of the test is made, and take it away after."""
    made = Bracketing()
    qapp.installTranslator(made)
    yield made
    qapp.removeTranslator(made)


@pytest.fixture
def translated(bracketing, request):
    return request.getfixturevalue("window")


def bare(words: str) -> bool:
    return bool(_LETTERS.search(words)) and not words.startswith("[")


def test_without_a_translator_words_are_as_they_are_written(qapp):
    assert said("Zoom to fit") == "Zoom to fit"
    assert said("") == ""
    assert said("saved {time} ago", time="3 min") == "saved 3 min ago"


def test_every_line_of_every_menu_is_translated(translated):
    lines = [action for menu in translated.menuBar().findChildren(QMenu) for action in menu.actions()]
    lines += list(translated.menuBar().actions())
    lines += [action for action in translated.findChildren(QAction) if action.shortcut().toString() and action.menu()]
    texts = {action.text() for action in lines if not action.isSeparator()}
    left = {text for text in texts if bare(text) and text.replace("&", "") not in ("Undo", "Redo")}
    # Qt makes the text of undo and redo itself, and what is filled in when a menu opens names files and parts.
    assert left <= {""}
    assert len(texts) > 50


def test_the_tool_row_and_the_status_line_are_translated(translated):
    for whole in (translated.row, translated.status):
        buttons = [b for b in whole.findChildren(QToolButton) if not b.objectName().startswith("qt_")]
        left = {b.text() or str(b.property("text")) for b in buttons if bare(str(b.property("text")))}
        assert {words for words in left if not words.startswith("Layout")} == set()


@pytest.mark.parametrize("chosen", ["project", "core", "shroud", "fan", "opening", "obstruction"])
def test_labels_buttons_and_choices_of_every_card_are_translated(translated, session, chosen):
    parts = stack(session.project)
    session.select(
        {
            "project": (),
            "core": (parts[0].id,),
            "shroud": (next(p.id for p in parts if p.name == "Invented shroud"),),
            "fan": (next(p.id for p in parts if p.name == "Invented fan"),),
            "opening": ("opening-1",),
            "obstruction": ("obstruction-2",),
        }[chosen]
    )
    QCoreApplication.processEvents()
    card = translated.card.widget()
    left = {label.text() for label in card.findChildren(QLabel) if label.objectName() == "label" and bare(label.text())}
    left |= {button.text() for button in card.findChildren(QPushButton) if bare(button.text())}
    left |= {box.text() for box in card.findChildren(QCheckBox) if bare(box.text())}
    left |= {box.itemText(0) for box in card.findChildren(QComboBox) if bare(box.itemText(0))}
    left |= {
        fold.text()
        for fold in card.findChildren(QAbstractButton)
        if fold.objectName() == "folder" and bare(fold.text())
    }
    assert left == set()


def test_menus_are_found_by_the_words_of_the_program_in_any_language(translated, session):
    session.select((session.project.parts[0].id,))
    translated.menus.actions["Turn a quarter"].trigger()
    assert session.undo_stack.count() == 1


def test_templates_name_their_fields(bracketing, translated):
    """A translator must be able to move a figure within its sentence: no template has a nameless field."""
    assert not [words for words in bracketing.asked if re.search(r"\{\d*[:}]", words)]
    assert len(bracketing.asked) > 100
