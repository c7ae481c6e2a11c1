"""Long sentences: a number nobody asks for is left out, one that is asked for never is."""

from __future__ import annotations

import pytest

from narrate.reading.words.terse import terse
from narrate.reading.words.understand import read_words
from tests.reading.lots import hold, lots

ITEMS = lots("turned.tsv")

READ = {"asides": 13, "turned round": 14, "asked after all": 0}
"""How many of each are read."""


@pytest.mark.parametrize("name", READ)
def test_what_is_read_is_right(name: str) -> None:
    hold(ITEMS, name, READ)


@pytest.mark.parametrize(
    ("aside", "question"),
    [
        ("who is 9 years old", "How old is her sister"),
        ("who has 6 helpers", "How many helpers are there in all"),
        ("which weighs 3 kilograms", "How heavy are they"),
        ("which opened in 1998", "How long ago was that"),
        ("which lasts 3 hours", "How many hours is that"),
    ],
)
def test_an_aside_that_is_asked_for_is_kept(aside: str, question: str) -> None:
    told = terse(f"The cook, {aside}, has 12 pots and buys 5 pots. {question}?")
    assert told is None or aside in told.text


def test_marks_stand_where_the_text_has_them() -> None:
    text = (
        "The kitchen, where 3 cooks work, uses 12 kilograms of rice each week. How many kilograms "
        "of rice does it use in 4 weeks?"
    )
    found = read_words(text)
    assert found.value == 48
    assert all(text[mark.start : mark.end] == mark.text for mark in found.marks)
    assert not any("3" in mark.text for mark in found.marks)
