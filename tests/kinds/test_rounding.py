"""Rounding: answers against Python's `decimal` (ROUND_HALF_UP), its lines, what is declined.

`decimal` implements the General Decimal Arithmetic Specification (Cowlishaw, IBM), a reference
outside the project; sympy judges every line.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from itertools import pairwise
from random import Random

import pytest
import sympy

from tests.solving import NUMBER, solve_one

PLACES = {
    "ten thousand": "1E4",
    "thousand": "1E3",
    "hundred": "1E2",
    "ten": "1E1",
    "whole number": "1",
    "tenth": "0.1",
    "hundredth": "0.01",
    "thousandth": "0.001",
}


def half_up(number: str, place: str) -> Decimal:
    return Decimal(number).quantize(Decimal(PLACES[place]), rounding=ROUND_HALF_UP)


def test_against_decimal() -> None:
    """Numbers of every length, a third of them halfway between their neighbors."""
    random = Random(5)
    for _ in range(300):
        place = random.choice(list(PLACES))
        size = Decimal(PLACES[place])
        amount = size * random.randint(0, 999) + size * random.choice(
            (Decimal("0.5"), Decimal(random.randint(0, 999)) / 1000)
        )
        text = f"{amount.normalize():f}"
        row = solve_one(f"Round {text} to the nearest {place}.", boxes=NUMBER)
        assert Decimal(row["answer"]) == half_up(text, place), text
        assert Decimal(row["written"]) == Decimal(row["answer"])
        for step in row["steps"]:
            assert holds(step["shows"], place), step


def holds(line: str, place: str) -> bool:
    """Whether a line is so, by sympy; an approximate one, to the place."""
    plain = line.replace(",", "").replace("×", "*").replace("÷", "/")
    if "≈" in plain:
        exact, rounded = plain.split(" ≈ ")
        return abs(Decimal(exact) - Decimal(rounded)) <= Decimal(PLACES[place]) / 2
    for sign in ("<", ">", "="):
        sides = plain.split(f" {sign} ")
        if len(sides) > 1:
            values = [sympy.sympify(side, rational=True) for side in sides]
            pairs = pairwise(values)
            compare = {"<": lambda a, b: a < b, ">": lambda a, b: a > b, "=": lambda a, b: a == b}
            return all(bool(compare[sign](a, b)) for a, b in pairs)
    return not line or "≈" in line or " " not in line


@pytest.mark.parametrize(
    ("total", "by", "place"),
    [("100", "7", "tenth"), ("50", "3", "whole number"), ("7.5", "0.7", "hundredth")],
)
def test_a_quotient_without_an_end(total: str, by: str, place: str) -> None:
    row = solve_one(f"What is {total} ÷ {by}, rounded to the nearest {place}?", boxes=NUMBER)
    quotient = Decimal(total) / Decimal(by)
    assert Decimal(row["answer"]) == half_up(str(quotient), place)
    assert [step["move"] for step in row["steps"][1:4]] == [
        "neighbors by product",
        "halfway by product",
        "round",
    ]


@pytest.mark.parametrize(
    ("wrong", "slip"),
    [
        ("3.4", "later digits cut off"),
        ("3.456", "not rounded"),
        ("3.46", "another place"),
        ("3.556", "later digits kept"),
    ],
)
def test_slips(wrong: str, slip: str) -> None:
    row = solve_one("Round 3.456 to the nearest tenth.", choices={"A": "3.5", "B": wrong, "C": "9"})
    assert row["choices"]["B"]["slip"] == slip
    assert row["choices"]["C"]["reason"] == "neither 3.4 nor 3.5"


def test_rounding_again_and_again_is_a_slip() -> None:
    """3.446 is nearer to 3.4; by way of 3.45 it would come to 3.5."""
    row = solve_one("Round 3.446 to the nearest tenth.", choices={"A": "3.4", "B": "3.5"})
    assert (row["key"], row["choices"]["B"]["slip"]) == ("A", "rounded in turn")


READ = {
    "What is 68,512 to the nearest ten thousand?": "70000",
    "To the nearest tenth, what is 12.05?": "12.1",
    "45.5 rounded to the nearest whole number is □.": "46",
    "Round 5 7/12 to the nearest whole number.": "6",
    "A pumpkin weighs 7.38 pounds. Round its weight to the nearest pound.": "7",
    "Tama's bean row is 9.5 meters long. To the nearest meter, how long is the row?": "10",
    "There are 1,249 carrots in the store. Round the number of carrots to the nearest hundred.": (
        "1200"
    ),
    "Pia pays $3.85 for seeds and $2.60 for a pot. How much does she pay in all, to the nearest "
    "dollar?": "6",
    "A sack holds 4.449 kg of seed. Round this amount to the nearest tenth.": "4.4",
    "A bag of seed costs $4.50. What does it cost to the nearest dollar?": "5",
    "What is 7.5 × 0.37? Round your answer to the nearest hundredth.": "2.78",
    "100 grams of lentils are shared equally among 7 bowls. How many grams are in each bowl, to "
    "the nearest tenth of a gram?": "14.3",
}
"""Worked out by hand."""


@pytest.mark.parametrize(("stem", "answer"), READ.items())
def test_read(stem: str, answer: str) -> None:
    assert solve_one(stem, boxes=NUMBER)["answer"] == answer


DECLINED = (
    "Round 48 and 33 to the nearest ten to estimate the sum.",
    "A bed is 3.46 m long. How wide is it to the nearest meter?",
    "A bed is 3.46 m long. Round its width to the nearest meter.",
    "A bed is 3.46 m long. What is its area to the nearest meter?",
    "There are 1,249 carrots. Round the number of beans to the nearest hundred.",
    "A rope is 3.46 m long. To the nearest centimeter, how long is it?",
    "Each of the ropes is 3.46 m long. How long are both to the nearest meter?",
    "A pole is 2 meters 46 centimeters tall. How tall is it to the nearest meter?",
    "About how many seeds are 6 packs of 24 seeds to the nearest ten?",
    "A number was rounded to the nearest ten. It is 400 now. What is the least it could be?",
    "Round 3.4 to the nearest half.",
    "Round 3.4 to the nearest tenth and the nearest whole number.",
    "What is -3.4 rounded to the nearest whole number?",
)


@pytest.mark.parametrize("stem", DECLINED)
def test_what_is_not_certain_is_declined(stem: str) -> None:
    assert solve_one(stem, boxes=NUMBER)["status"] == "declined"
