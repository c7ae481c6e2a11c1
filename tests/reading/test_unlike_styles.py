"""Stories in unlike styles: notes, numbers not needed, comparisons told the other way, pronouns.

Each lot was written with its answers by hand before it was run; the file's head says how many of a
first run were wrong. None may be wrong now; what is not read for certain is declined.
"""

from __future__ import annotations

import pytest

from narrate.reading.words.understand import read_words
from tests.reading.lots import hold, lots

ITEMS = lots("unlike_styles.tsv")

READ = {
    "plain though": 77,
    "plain though, fresh": 58,
    "unlike styles": 88,
    "unlike styles, second": 28,
    "unlike styles, third": 31,
    "unlike styles, fourth": 32,
    "a new user's": 9,
    "a new user's, more": 9,
    "both tables": 52,
    "measures compared": 39,
    "measures compared, traps": 12,
    "added and taken": 102,
}
"""How many of each are read; of 112, 73, 152, 60, 60, 60, 27, 35, 60, 40, 44 and 191."""


@pytest.mark.parametrize("name", READ)
def test_what_is_read_is_right(name: str) -> None:
    hold(ITEMS, name, READ)


def test_what_was_given_away_is_said_to_have_gone() -> None:
    found = read_words(
        "Nico had 43 marbles. He gave his aunt some marbles. Now he has 26 marbles. "
        "How many marbles did Nico give his aunt?"
    )
    assert found.value == 17
    assert (found.situation, found.unknown) == ("take from", "change")
