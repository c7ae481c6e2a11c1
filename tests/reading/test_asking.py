"""The same question asked in many ways: each is read as the plain one, or is declined.

Stories of our own with answers worked by hand; the ways to ask are common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from narrate.errors import Declined
from narrate.reading.words.understand import read_words

SACKS = (
    "A sack of rice weighs 5 kilograms. "
    "A sack of beans weighs 3 kilograms more than the sack of rice."
)
PENS = "One pen costs $3."
PLUMS = "24 plums are put into bags of 4."
ROPES = "A rope is 250 centimeters long. Ana cuts off 50 centimeters."

SAME = [
    ("8", SACKS, "What does the sack of beans weigh?"),
    ("8", SACKS, "What does the sack of beans weigh, in kilograms?"),
    ("8", SACKS, "What is the mass of the sack of beans, in kilograms?"),
    ("8", SACKS, "State the weight of the sack of beans."),
    ("12", PENS, "What do 4 pens cost?"),
    ("12", PENS, "At this price, what will 4 pens cost?"),
    ("12", PENS, "What must Ana pay for 4 pens?"),
    ("12", PENS, "Find the cost, in dollars, of 4 pens."),
    ("6", PLUMS, "Work out how many bags there are."),
    ("6", PLUMS, "Give the number of bags."),
    ("6", PLUMS, "What is the least number of bags needed?"),
    ("200", ROPES, "What length of rope is left, in centimeters?"),
]
OTHER_UNITS = [
    (ROPES, "How much rope is left, in meters?"),
    (ROPES, "How much rope is left? Give your answer in meters."),
    (SACKS, "What is the mass of the sack of beans, in grams?"),
]


@pytest.mark.parametrize(("answer", "story", "asked"), SAME)
def test_a_question_in_other_words_is_the_same(answer: str, story: str, asked: str) -> None:
    assert read_words(f"{story} {asked}").value == Fraction(answer)


@pytest.mark.parametrize(("story", "asked"), OTHER_UNITS)
def test_an_answer_in_a_unit_that_is_not_told_is_declined(story: str, asked: str) -> None:
    with pytest.raises(Declined, match=r"another unit|not sure|do not know"):
        read_words(f"{story} {asked}")
