"""Items of our own that ask which expression or equation tells their story, read and judged whole.

The letter of the right choice was found by hand from the words (CCSSM 2010: 3.OA.D.8, 4.OA.A.3,
6.EE.A.2). None may be answered with another letter; what is not certain is declined.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate.exact.parser import parse, parse_expr
from narrate.reading.saying import same_by_another_way, says_same
from tests.solving import Row, solve_one

_LINES = Path(__file__).with_name("work_items.tsv").read_text("utf-8").splitlines()
ITEMS = [line.split("\t") for line in _LINES if not line.startswith("#")]
ANSWERED = {"first": 29, "after": 21, "letters": 10}
"""How many of each are answered; of 38 with 6 never to be, of 26 with 2, and of 12 with 2."""


def _solved(stem: str, choices: str) -> Row:
    found = dict(zip("ABCD", choices.split(" | "), strict=False))
    return solve_one(stem, choices=found)


@pytest.mark.parametrize("name", ANSWERED)
def test_the_choice_that_tells_the_story_is_picked(name: str) -> None:
    mine = [
        (key, _solved(stem, choices), stem) for told, key, stem, choices in ITEMS if told == name
    ]
    solved = [(key, row["key"], stem) for key, row, stem in mine if row["status"] == "solved"]
    assert [each for each in solved if each[0] != each[1]] == []
    assert len(solved) >= ANSWERED[name]


def test_the_answer_is_a_choice_and_no_number() -> None:
    row = _solved(
        "Noor has 20 cups of flour. She uses 6. Which expression shows how much flour is left?",
        "20 + 6 | 6 - 20 | 20 - 6 | 25 - 6",
    )
    assert (row["key"], row["answer"], row["written"]) == ("C", None, None)
    reasons = {letter: choice["reason"] for letter, choice in row["choices"].items()}
    assert reasons == {
        "A": "adds, but here some goes away",
        "B": "the wrong way round",
        "C": None,
        "D": "other amounts",
    }


@pytest.mark.parametrize(
    ("asked", "choice"),
    [
        ("20 + 6", "6 + 20"),
        ("3 × 8", "8 × 3"),
        ("3 × 8 + 5", "5 + 8 × 3"),
        ("40 − 16 − 9", "40 − (16 + 9)"),
        ("20 − 6", "b = 20 − 6"),
        ("20 − 6", "6 + b = 20"),
        ("14 + 6", "b − 6 = 14"),
        ("48 ÷ 6", "6 × s = 48"),
        ("20 ÷ 5", "20/5"),
        ("120 ÷ n", "120 ÷ n"),
    ],
)
def test_another_order_says_the_same(asked: str, choice: str) -> None:
    assert says_same(parse_expr(asked), parse(choice))


@pytest.mark.parametrize(
    ("asked", "choice"),
    [
        ("20 − 6", "6 − 20"),
        ("2 × 2", "2 + 2"),
        ("36 − 8", "4 × 7"),
        ("(36 − 8) ÷ 4", "36 − 8 ÷ 4"),
        ("3 × 8 + 5", "3 × (8 + 5)"),
        ("20 − 6", "b − 6 = 20"),
        ("120 ÷ n", "n ÷ 120"),
        ("24 × 1/3", "24 ÷ 3"),
    ],
)
def test_an_equal_value_or_the_same_amounts_do_not_say_the_same(asked: str, choice: str) -> None:
    assert not says_same(parse_expr(asked), parse(choice))


@pytest.mark.parametrize(
    ("asked", "choice"),
    [("24 × 1/3", "24 ÷ 3"), ("3 × 8", "8 + 8 + 8"), ("3 × 8 + 3 × 5", "3 × (8 + 5)")],
)
def test_what_is_right_in_another_way_is_not_struck(asked: str, choice: str) -> None:
    assert same_by_another_way(parse_expr(asked), parse(choice))


@pytest.mark.parametrize(
    ("stem", "message"),
    [
        (
            "Lou has b bags. Each bag holds f figs. Which expression shows how many figs Lou has?",
            "amounts are told by the letters b and f",
        ),
        (
            "Lou has 3 bags. Each bag holds 8 figs. Which expression shows how many figs Lou has?",
            "I read 3 × 8, but no choice says that",
        ),
    ],
)
def test_what_cannot_be_judged_is_declined_by_name(stem: str, message: str) -> None:
    row = _solved(stem, "b × f | b + f | b - f")
    if message.startswith("I read"):
        row = _solved(stem, "3 + 8 | 8 - 3 | 8 ÷ 3")
    assert row["status"] == "declined"
    assert message in row["message"]
