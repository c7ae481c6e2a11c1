"""Amounts of one thing in everyday words, and numbers that their units put together.

Stories of our own in a school garden and kitchen, answers worked by hand. Whatever
is read must be right; what is not certain is declined.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from narrate.errors import Declined
from narrate.reading.words.understand import read_words
from tests.reading.lots import hold, lots

STORIES = [
    ("17", "A basket held 12 eggs. Ana put in 5 more eggs. How many eggs are in the basket now?"),
    ("3", "A plank was 5 meters long. Vida sawed off 2 meters. How long is the plank now?"),
    ("15", "The cart had 26 pots on it. Nico lifted 11 pots off. How many pots were on it then?"),
    ("1", "In the morning 48 bees came. By noon 47 of them had flown away. How many were left?"),
    ("24", "Pru's tray had 18 pots on it. Roy brought over some more, and now there are 42 pots. "
     "How many pots did Roy bring?"),
    ("3/4", "There was 1/2 cup of milk in the batter. Nell stirred in another 1/4 cup. "
     "How many cups of milk are in the batter now?"),
    ("41", "Some snails sat on the wall. After 13 had crawled away, 28 stayed. "
     "How many snails were on the wall at first?"),
    ("10", "The candle was 15 cm tall at noon and 5 cm tall at night. How many cm burned away?"),
    ("240", "Each shed has 6 shelves, and on each shelf stand 8 pots. There are 5 sheds. "
     "How many pots is that?"),
    ("95", "Practice has a 35-minute talk and two games lasting 30 minutes each. "
     "How many minutes does it take in all?"),
]  # fmt: skip


@pytest.mark.parametrize(("answer", "text"), STORIES)
def test_a_story_in_everyday_words_is_right_or_declined(answer: str, text: str) -> None:
    assert _read(text) in (Fraction(answer), None)


def test_most_of_them_are_read() -> None:
    assert sum(_read(text) is not None for _, text in STORIES) >= MOST


MOST = 7
"""The rest is declined: "had flown away", "brought over some more", a talk and two games."""

NOT_SO = [
    ("55", "Dina had $40. Her brother paid her back $15. How much money does Dina have now?"),
    ("75", "Mia had 48 seeds. Her aunt gave her 27 more. How many seeds does Mia have now?"),
    ("31.5", "The gauge showed 24.8 mm. Overnight 6.7 mm more fell. What does the gauge show now?"),
    ("1", "There are 29 pears. 4 pears fit in a bag. How many pears are left over?"),
    ("20", "Pia played tag with 7 pupils on Monday and 13 pupils on Tuesday. She played cards with "
     "20 pupils on Friday. How many pupils did she play tag with altogether?"),
    ("9", "Roy buys 2 rolls for $5 each and a pie for $3. He uses a $4 coupon. "
     "How much does he pay in total?"),
]  # fmt: skip


@pytest.mark.parametrize(("answer", "text"), NOT_SO)
def test_words_that_look_alike_lead_nowhere_else(answer: str, text: str) -> None:
    assert _read(text) in (Fraction(answer), None)


def _read(text: str) -> Fraction | None:
    try:
        return read_words(text).value
    except Declined:
        return None


LEAST = {
    "traps": 5,
    "changes": 43,
    "sixty plain": 34,
    "sixty, teacher's words": 25,
    "sixty, textbook's words": 36,
    "so much less": 0,
}
"""So many are read at least; most traps are declined."""


@pytest.mark.parametrize("lot", LEAST)
def test_stories_that_others_wrote_are_read_right_or_declined(lot: str) -> None:
    hold(lots("told_in_order.tsv"), lot, LEAST)
