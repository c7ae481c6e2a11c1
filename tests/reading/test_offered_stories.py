"""The lines offered for stories of every situation, as if each of them had been declined.

`offered_stories.tsv` holds stories of our own for every cell of CCSSM (2010), glossary Tables 1 and
2, two-step ones and such with numbers that are not needed, each with its work. They were written
before the rows that offer lines for them; a half was looked at while those were built.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.exact.parser import parse_expr
from narrate.exact.tree import value
from narrate.reading.words.declining import unsure
from narrate.reading.words.offered_none import not_understood
from narrate.reading.words.offering import MOST, offered


def rows() -> list[list[str]]:
    """The rows: situation, work, story."""
    lines = Path(__file__).with_name("offered_stories.tsv").read_text("utf-8").splitlines()
    return [line.split("\t") for line in lines if not line.startswith("#")]


def worth(line: str) -> Fraction:
    return value(parse_expr(line))


def test_the_first_line_is_right_nearly_always_and_wrong_lines_alone_are_rare() -> None:
    found: Counter[str] = Counter()
    for _, work, story in rows():
        values = [worth(line) for line in offered(story)]
        found["first" if values[:1] == [worth(work)] else "none" if not values else "wrong"] += 1
    every = sum(found.values())
    assert every == len(rows()) > 150
    assert found["first"] / every >= 0.8
    assert found["wrong"] / every <= 0.01


def test_half_a_story_is_no_reason_to_fail() -> None:
    """What is pasted may end anywhere."""
    for _, _, story in rows()[::4]:
        words = story.split()
        for end in range(0, len(words), 3):
            assert len(offered(" ".join(words[:end]))) <= MOST
            not_understood(" ".join(words[:end]))


@pytest.mark.parametrize(
    ("story", "told"),
    [
        (
            "Pia had 24 figs. 16 fell. Then she ate half of the rest. How many did she eat?",
            "Then she ate half of the rest.",
        ),
        ("There are 12 hens and 15 ducks. What is the ratio?", "What is the ratio?"),
        ("Mia has 3 pots and 2 pans. How many pans has Mia?", "How many pans has Mia?"),
    ],
)
def test_where_no_line_can_be_right_the_sentence_to_say_plainly_is_named(
    story: str, told: str
) -> None:
    assert offered(story) == []
    assert not_understood(story) == told
    assert unsure(story, "why").add.startswith(f"say “{told}” in plainer words, or add a `model:`")


@pytest.mark.parametrize(
    ("story", "understood"),
    [
        ("Class 4 dug up 132 bulbs and Class 5 dug up 119. How many?", "I found 132, 119"),
        ("There are 204 bulbs. Class 4 sets them in rows of 17. How many rows?", "I found 204, 17"),
        ("In 2019 there were 85 trees. Now there are 122. How many more?", "I found 85, 122"),
        ("Wen is 8 years old. She picks 12 plums and 9 pears. How many?", "I found 12, 9"),
        ("Wen is 8 years old. Ben is 3 years older. How old is Ben?", "I found 8, 3"),
        ("Each class has 4 rows of 6 chairs. How many chairs is that?", "I found 4, 6"),
    ],
)
def test_numbers_that_only_name_are_not_found(story: str, understood: str) -> None:
    declined: Declined = unsure(story, "why")
    assert declined.understood == f"{understood} in the words, but why"
