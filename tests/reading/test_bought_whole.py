"""How many of a thing somebody can buy is whole ones only, read or with a teacher's `model:` line.

Own stories, worked by hand. What is sold by measure may be bought in part.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from narrate.errors import Declined
from narrate.reading.words.groups import can_buy
from narrate.reading.words.understand import read_words
from tests.solving import solve_one

WHOLE = [
    ("A packet of seeds costs $2.40. Mina has $15. How many packets can she buy?", 6),
    ("Bo has $20. Bulbs cost $3 each. How many bulbs can he buy?", 6),
    ("Stakes cost $4 each. Tia has $30. How many stakes can Tia buy?", 7),
    ("Each tray costs $1.75. The cooks have $10. How many trays can the cooks buy?", 5),
    ("A bag of soil costs $6. Ana has $50. How many bags can Ana buy?", 8),
    ("One ladle costs $9. Ugo has $40. How many ladles can he buy with his money?", 4),
]  # fmt: skip


@pytest.mark.parametrize(("story", "whole"), WHOLE)
def test_only_whole_things_are_bought(story: str, whole: int) -> None:
    assert read_words(story).value == whole


MODELS = [
    ("Mina has $15 for packets at $2.40. How many packets can she buy?", "15 ÷ 2.40", "6"),
    ("Bo has $20 for bulbs at $3. How many bulbs can he buy?", "20 ÷ 3", "6"),
]


@pytest.mark.parametrize(("stem", "model", "answer"), MODELS)
def test_the_line_that_is_told_is_worked_out_when_it_is_pasted(
    stem: str, model: str, answer: str
) -> None:
    row = solve_one(stem, model=model, boxes=["number"])
    assert (row["status"], row["answer"]) == ("solved", answer), row["message"]


def read(story: str) -> Fraction | None:
    try:
        return read_words(story).value
    except Declined:
        return None


NOT_SO = [
    # by measure, in part; the question asks for something else, or with something else
    ("A pound of nuts costs $4. Mina has $10. How many pounds can she buy?", {Fraction(5, 2)}),
    ("Mina saves $4 a week. How many weeks must pass until she can buy a $30 spade?", {8}),
    ("A bulb costs $3. Bo has $20. How many more dollars does he need to buy 7 bulbs?", {1}),
    ("A bulb costs $3. Bo has $20. How many dollars are left if he buys all he can buy?", {2}),
    ("Bulbs cost $3 each. Bo has $20 and needs $6 for the bus. How many bulbs can he buy?", {4}),
    ("Bulbs cost $3 each and are sold in bags of 4. Bo has $20. How many bulbs can he buy?", {4}),
    ("A rake costs $7 and a hoe costs $5. Bo has $30. How many rakes can he buy?", {4}),
    ("Three bulbs cost $2. Bo has $5. How many bulbs can he buy?", {7, 6}),
    ("A book costs $4. Bo has $30 and buys 2 books. How many more books can he buy?", {5}),
]  # fmt: skip


@pytest.mark.parametrize(("story", "right"), NOT_SO)
def test_near_misses_are_read_rightly_or_not_at_all(story: str, right: set[int | Fraction]) -> None:
    assert read(story) in {None, *right}


def test_which_questions_ask_what_can_be_bought() -> None:
    assert can_buy("How many packets can she buy?")
    assert can_buy("how many small bags can the club afford")
    assert not can_buy("How many weeks until she can buy a spade?")
    assert not can_buy("How many more bulbs can he buy?")
    assert not can_buy("How many bags must he buy?")
    assert not can_buy("How many can he buy, and how much is left?")
