"""Stories told in many words: what tells no amount is left out, what binds one never is."""

from __future__ import annotations

import pytest

from narrate.reading.words.openings import idle_opening, is_idle
from narrate.reading.words.understand import read_words
from tests.reading.lots import hold, lots

ITEMS = lots("wordy.tsv")

READ = {"told in many words": 14, "words that bind": 6}
"""How many of each are read."""


@pytest.mark.parametrize("name", READ)
def test_what_is_read_is_right(name: str) -> None:
    hold(ITEMS, name, READ)


def test_marks_stand_where_the_text_has_them() -> None:
    text = (
        "Ms. Rowe has 83 radishes that she wants to pack in bags. She puts exactly 3 radishes in "
        "each bag. How many radishes will not be in a full bag?"
    )
    found = read_words(text)
    assert found.value == 2
    assert [(mark.role, mark.text) for mark in found.marks] == [
        ("amount", "83 radishes"),
        ("relationship", "3 radishes"),
        ("unknown", "How many radishes will not be in a full bag?"),
    ]
    assert all(text[mark.start : mark.end] == mark.text for mark in found.marks)


@pytest.mark.parametrize(
    ("said", "who"),
    [
        ("Mara is making wreaths for the spring fair.", "Mara"),
        ("The cook counted the jars that she saw.", "The cook"),
        ("Mara bought a wreath.", None),
        ("Mara has the red pots.", None),
        ("Each pot is full.", None),
        ("Mara and Jo share the pots.", None),
    ],
)
def test_an_opening_that_tells_nothing(said: str, who: str | None) -> None:
    rest = ["She saw 12 pots and 5 jars.", "A wreath costs $4.", "How many did she see?"]
    assert idle_opening(said, rest) == who


def test_what_somebody_wonders_is_idle_and_what_they_do_is_not() -> None:
    assert is_idle("Nadia is trying to decide which pot to buy. ")
    assert not is_idle("The birds ate the plums. ")
    assert not is_idle("Nadia likes red pots. ")
