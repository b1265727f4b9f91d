"""The strip holds a few sentences, answers once, and never grows over the window."""

import pytest

from grillestack.app.message_strip import MessageStrip


@pytest.fixture
def strip(qtbot):
    made = MessageStrip()
    qtbot.addWidget(made)
    return made


def test_it_takes_no_room_until_something_is_said(strip):
    assert strip.isHidden()
    strip.say("The file was not saved.")
    assert not strip.isHidden()
    assert strip.sentences() == ["The file was not saved."]


def test_the_same_sentence_shows_once(strip):
    strip.say("One.")
    strip.say("Two.")
    strip.say("One.")
    assert strip.sentences() == ["Two.", "One."]


def test_an_answer_acts_once_and_takes_its_sentence_away(strip):
    done = []
    strip.say("Go on?", [("Yes", lambda: done.append("yes")), ("No", lambda: done.append("no"))])
    strip.buttons()[0].click()
    assert done == ["yes"]
    assert strip.sentences() == []
    assert strip.isHidden()


def test_the_oldest_plain_sentence_gives_way_and_questions_stay(strip):
    strip.say("Go on?", [("Yes", lambda: None)])
    for sentence in ("One.", "Two.", "Three."):
        strip.say(sentence)
    assert strip.sentences() == ["Go on?", "Two.", "Three."]


def test_clearing_leaves_questions(strip):
    strip.say("Go on?", [("Yes", lambda: None)])
    strip.say("One.")
    strip.clear()
    assert strip.sentences() == ["Go on?"]
