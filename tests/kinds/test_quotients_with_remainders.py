"""Quotients with remainders: against Python's `divmod`, every line against sympy."""

from __future__ import annotations

from random import Random

import pytest
import sympy

from tests.solving import solve_one

STEMS = ("What is {} / {}?", "Find {} ÷ {}.", "What is the quotient of {} and {}?")


def test_against_divmod() -> None:
    random = Random(5)
    for number in range(120):
        size = random.randint(2, 24)
        total = random.randint(size + 1, random.choice((99, 999, 9999)))
        full, rest = divmod(total, size)
        wrong = [f"{full} R {rest + size}", f"{full + 1} R {rest}", f"{full} R {(rest + 1) % size}"]
        texts = [f"{full} R {rest}" if rest else str(full), *wrong]
        order = random.sample(range(4), 4)
        choices = {"ABCD"[place]: texts[at] for place, at in enumerate(order)}
        row = solve_one(STEMS[number % 3].format(total, size), choices=choices)
        assert row["status"] == "solved", (total, size, choices, row["message"])
        assert choices[row["key"]] == texts[0]
        assert all(c["reason"] for letter, c in row["choices"].items() if letter != row["key"])
        for step in row["steps"]:
            sides = step["shows"].replace("×", "*").replace("−", "-").replace("÷", "/").split(" = ")
            if len(sides) > 1 and "remainder" not in step["shows"]:
                assert len({sympy.sympify(side.replace(",", "")) for side in sides}) == 1, step


@pytest.mark.parametrize(
    "text", ["15 remainder 3", "15 R 3", "15 R3", "15 r3", "15 with remainder 3"]
)
def test_every_way_of_writing(text: str) -> None:
    choices = {"A": text, "B": "14 remainder 11", "C": "3 remainder 15"}
    row = solve_one("What is 123 ÷ 8?", choices=choices)
    assert (row["key"], row["written"]) == ("A", "15 remainder 3")
    assert row["choices"]["B"]["slip"] == "remainder too large"
    assert row["choices"]["C"]["slip"] == "quotient and remainder exchanged"


@pytest.mark.parametrize(
    "stem",
    [
        "87 beans are packed 8 to a bag. How many bags are full?",
        "What is 12 + 8?",
        "What is left?",
    ],
)
def test_without_a_division_it_is_declined(stem: str) -> None:
    row = solve_one(stem, choices={"A": "10 R 7", "B": "7 R 10"})
    assert row["status"] == "declined"


def test_two_right_choices_are_told() -> None:
    """15 3/8 is as much, but the remainder is what the choices are about."""
    row = solve_one("What is 123 ÷ 8?", choices={"A": "15 R 3", "B": "15 remainder 3"})
    assert row["status"] == "fault"
