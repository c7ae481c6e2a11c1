"""Ratios as choices: worked out by hand (CCSSM 2010, 6.RP.A.1), with near misses that decline."""

from __future__ import annotations

import pytest

from tests.solving import solve_one

BEDS = "A bed has 14 bean plants and 21 pea plants. "
SOLVED = [
    (BEDS + "What is the ratio of bean plants to pea plants?", ("3:2", "2:3", "2:5", "14:7"), "B"),
    (BEDS + "What is the ratio of pea plants to bean plants?", ("3:2", "2:3", "2:5"), "A"),
    (BEDS + "What is the ratio of the number of bean plants to the total number of plants?",
     ("2 to 3", "3 to 5", "2 to 5"), "C"),
    (BEDS + "What is the ratio of bean plants to pea plants? Write it in simplest form.",
     ("14/21", "2/3", "3/2"), "B"),
    ("In the kitchen there are 9 cups and 4 bowls. What is the ratio of bowls to cups in the "
     "kitchen?", ("9 to 4", "4 to 9", "4 to 13"), "B"),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "choices", "key"), SOLVED)
def test_ratios(stem: str, choices: tuple[str, ...], key: str) -> None:
    row = solve_one(stem, choices=dict(zip("ABCD", choices, strict=False)))
    assert row["key"] == key, row["message"]
    assert all(c["ruled_out_at"] is not None for n, c in row["choices"].items() if n != key)


@pytest.mark.parametrize(
    "stem",
    [
        "A bed has 14 bean plants and 7 more pea plants than that. What is the ratio of bean "
        "plants to pea plants?",
        BEDS + "Then 7 bean plants are eaten. What is the ratio of bean plants to pea plants?",
        BEDS + "What is the ratio of corn plants to pea plants?",
        "A bed has 14 bean plants and 21 plants in all. What is the ratio of bean plants to pea "
        "plants?",
        "A bed has 14 plants, and 21 beds are planted. What is the ratio of beans to peas?",
        BEDS + "What is the ratio of bean plants to all of the pots?",
    ],
)
def test_what_is_not_told_is_declined(stem: str) -> None:
    row = solve_one(stem, choices={"A": "2:3", "B": "3:2", "C": "2:5", "D": "1:2"})
    assert row["status"] == "declined", row


@pytest.mark.parametrize(
    ("choice", "slip"), [("3:2", "ratio the other way"), ("2:5", "all for a part")]
)
def test_slips_are_named(choice: str, slip: str) -> None:
    row = solve_one(SOLVED[0][0], choices={"A": "2:3", "B": choice})
    assert row["choices"]["B"]["slip"] == slip
