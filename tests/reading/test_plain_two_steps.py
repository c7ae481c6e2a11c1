"""Plain stories of one and two steps as tests tell them, beside near misses of each kind.

What was there before and after, two parts of a mixture, a fraction of the rest, a sum and a
difference, seats that are empty, the rest of a rectangle, words that are idle (tax that is in it,
the end of the so many days).
"""

from __future__ import annotations

import pytest

from narrate.reading.words.idle import without_idle
from tests.reading.lots import hold, lots

ITEMS = lots("plain_two_steps.tsv")

READ = {
    "as tests tell it": 85,
    "near misses": 5,
    "fresh, with traps": 32,
    "traps of broad rules": 16,
}
"""So many are read at least, none wrong."""


@pytest.mark.parametrize("lot", READ)
def test_what_is_read_is_right(lot: str) -> None:
    hold(ITEMS, lot, READ)


@pytest.mark.parametrize(
    ("text", "idle"),
    [
        ("Each pot costs $2, including tax. How much do 3 pots cost?", ", including tax"),
        ("Each pot costs $2, not including tax. How much do 3 pots cost?", ""),
        ("Ana picks 3 figs a day for 5 days. How many in the 5 days?", " in the 5 days"),
        ("Ana picks 3 figs a day for 5 days. How many in the 4 days?", ""),
        ("A pot costs 90 cents. What is the cost, in dollars, of 3 pots?", ""),
        ("A pot costs $2. There was no tax. What did it cost?", " There was no tax."),
        ("A pot costs $2. There was no tax on pots. What did it cost?", ""),
    ],
)
def test_only_what_says_nothing_is_idle(text: str, idle: str) -> None:
    assert without_idle(text) == text.replace(idle, " " * len(idle), 1)
