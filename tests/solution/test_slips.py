"""Slips behind wrong choices and answers, worked by hand.

S015 (the other operation) is Brown and Burton (1978), S035 and S036 Hart (1981) and Ashlock, all
from memory; the others are common practice, no source.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.solving import solve_one

CASES: list[tuple[str, dict[str, Any], dict[str, str | None]]] = [
    # 3 + 16 = 19 as 4 + 16 = 20; 5 is 20/4; three left as it was
    ("3/4 = □/20", {}, {"19": "changed by adding", "5": "multiplier given", "3": "denominator only",
                        "15": None}),
    # 4 is 12/3; 11 is 20 − 9 as 3 is 12 − 9; 20 is left as it was
    ("12/20 = 3/□", {}, {"4": "multiplier given", "11": "changed by adding",
                         "20": "numerator only", "5": None}),
    # 1 + 2 over 3 + 5 is what the parts make across; 8/8 less that is left
    ("Peas cover 1/3 of a bed, beans 2/5. What is left?", {"model": "1 - 1/3 - 2/5"},
     {"3/8": "parts added across", "5/8": "parts added across", "4/15": None}),
    # 4/8 − 3/8, whichever stands first
    ("1/2 + 3/8 = ?", {}, {"1/8": "other operation", "7/8": None}),
    ("3/8 + 1/2 = ?", {}, {"1/8": "other operation", "7/8": None}),
    # 1 + 3 eighths; 4 − 3 eighths
    ("3/8 + 1/2 = □/8", {}, {"4": "numerators not rescaled", "1": "other operation", "7": None}),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "keys", "named"), CASES)
def test_the_slip_behind_a_choice_is_named(
    stem: str, keys: dict[str, Any], named: dict[str, str | None]
) -> None:
    choices = dict(zip("ABCD", named, strict=False))
    row = solve_one(stem, choices=choices, **keys)
    assert row["status"] == "solved", row["message"]
    assert {text: row["choices"][letter]["slip"] for letter, text in choices.items()} == named
