"""Amounts in two units as choices: worked out by hand, with near misses that must not be solved.

A foot is 12 inches, a pound 16 ounces, a gallon 4 quarts (NIST Handbook 44, Appendix C; from
memory), an hour 60 minutes.
"""

from __future__ import annotations

import pytest

from tests.solving import solve_one

SOLVED = [
    ("A sack of peas weighs 7 pounds 2 ounces and a sack of oats 4 pounds 11 ounces. How much more "
     "does the sack of peas weigh than the sack of oats?",
     ("2 pounds 7 ounces", "3 pounds 9 ounces", "2 pounds 1 ounce", "11 pounds 13 ounces"), "A"),
    ("Each of 14 beds needs a string that is 3 feet 5 inches long. What is the total length of "
     "string?", ("42 feet 5 inches", "47 feet 10 inches", "49 feet 0 inches", "42 ft 10 in."), "B"),
    ("A loaf takes 2 hours 35 minutes to rise and 50 minutes to bake. How long does it take in "
     "all?", ("2 hours 85 minutes", "3 hours 25 minutes", "3 hours 35 minutes"), "B"),
    ("A loaf takes 2 hours 35 minutes to rise and 50 minutes to bake. How long does it take in "
     "all?", ("2 hours 45 minutes", "3 hours 25 minutes", "3 hours 15 minutes"), "B"),
    ("A hose 10 feet 6 inches long is cut into 6 equal pieces. How long is each piece?",
     ("1 foot 9 inches", "1 foot 1 inch", "1 foot 7 inches"), "A"),
    ("What is 6 gallons 3 quarts + 2 gallons 2 quarts?",
     ("8 gallons 1 quart", "9 gallons 1 quart", "8 gallons 5 quarts"), "B"),
    ("What is 6 gallons 3 quarts + 2 gallons 2 quarts?",
     ("8 gallons 1 quart", "9 gallons 1 quart", "4 gallons 1 quart"), "B"),
    ("A bench is 5 feet long. It is 1 foot 8 inches longer than a shelf. How long is the shelf?",
     ("6 feet 8 inches", "4 feet 8 inches", "3 feet 4 inches"), "C"),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "choices", "key"), SOLVED)
def test_amounts_in_two_units(stem: str, choices: tuple[str, ...], key: str) -> None:
    row = solve_one(stem, choices=dict(zip("ABCD", choices, strict=False)))
    assert row["key"] == key, row["message"]
    assert all(c["ruled_out_at"] is not None for n, c in row["choices"].items() if n != key)


DECLINED = [
    ("Rope costs $3 per foot. Each of 14 beds needs a string 3 feet 5 inches long. What is the "
     "total length of string?", ("47 feet 10 inches", "42 feet 10 inches")),
    ("A hose 10 feet 6 inches long is cut into pieces of 1 foot 9 inches. How many pieces are "
     "there?", ("1 foot 9 inches", "6 feet 0 inches")),
    ("Each of 41 beds needs a string that is 3 feet 5 inches long. What is the total length?",
     ("140 feet 1 inch", "123 feet 5 inches")),
    ("A sack weighs 7 pounds 2 ounces and a hose is 4 feet 11 inches long. How much more does the "
     "sack weigh than the hose?", ("2 pounds 7 ounces", "3 pounds 9 ounces")),
    ("A sack weighs 7 1/2 pounds. Nia takes out 2 pounds 3 ounces. How much is left?",
     ("5 pounds 5 ounces", "4 pounds 13 ounces")),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "choices"), DECLINED)
def test_what_is_not_certain_is_declined(stem: str, choices: tuple[str, ...]) -> None:
    """A price for each unit, a number of pieces, a number that is both amount and count, a half."""
    row = solve_one(stem, choices=dict(zip("ABCD", choices, strict=False)))
    assert row["status"] != "solved", row


@pytest.mark.parametrize(
    ("choice", "slip"),
    [
        ("3 pounds 9 ounces", "smaller unit from larger"),
        ("2 pounds 1 ounce", "units exchanged by tens"),
        ("3 pounds 7 ounces", "unit not lowered"),
        ("11 pounds 13 ounces", "added or subtracted instead"),
    ],
)
def test_slips_are_named(choice: str, slip: str) -> None:
    row = solve_one(SOLVED[0][0], choices={"A": "2 pounds 7 ounces", "B": choice})
    assert row["choices"]["B"]["slip"] == slip
