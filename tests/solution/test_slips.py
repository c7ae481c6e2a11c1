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
    ("12/20 = 3/□", {}, {"4": "multiplier given", "11": "changed by subtracting",
                         "20": "numerator only", "5": None}),
    # 1 + 2 over 3 + 5 is what the parts make across; 8/8 less that is left
    ("Peas cover 1/3 of a bed, beans 2/5. What is left?", {"model": "1 - 1/3 - 2/5"},
     {"3/8": "parts added across", "5/8": "parts added across", "4/15": None}),
    # 4/8 − 3/8, whichever stands first
    ("1/2 + 3/8 = ?", {}, {"1/8": "other operation", "7/8": None}),
    ("3/8 + 1/2 = ?", {}, {"1/8": "other operation", "7/8": None}),
    # 8 + 5 ones make a new ten, 4 + 7 and that ten a new hundred; 348 − 275
    ("348 + 275 = ?", {}, {"613": "new ten dropped", "513": "all regrouping dropped",
                           "523": "regrouping dropped", "73": "another operation", "623": None}),
    # 7 and 6 tenths make a new one; one carried from the hundredths, where five is not enough
    ("2.75 + 1.60 = ?", {}, {"3.35": "regrouping dropped", "4.45": "always regrouped",
                             "4.35": None}),
    # a tenth opened and still counted; a one opened and still counted; 18 and 6 tenths
    ("4.6 - 1.85 = ?", {}, {"2.85": "ten not taken", "3.75": "ten not taken",
                            "3.25": "places copied down", "2.75": None}),
    ("(36 - 12) / 4 + 5 = ?", {"model": "(36 − 12) ÷ 4 + 5"},
     {"38": "parentheses ignored", "57": "all numbers added", "6": "first step only", "11": None}),
    # 4 + 4 + 4; the question has no such numbers to add
    ("What is 4 × 4 × 4?", {}, {"12": "factors added", "64": None}),
    # of −6 + 9 nothing is taken away
    ("(-6) - (-9) equals which of these?", {}, {"15": None, "3": None}),
    ("Each bus holds 36 pupils. 164 pupils go to the farm. How many buses are needed?", {},
     {"4": "remainder left out", "20": "remainder given", "5": None}),
    ("There are 86 jars of jam. Each crate holds 8 jars. How many full crates are there?", {},
     {"11": "group not full", "6": "remainder given", "10": None}),
    ("There are 50 beans. Each pot gets 7 beans. How many beans are left over?", {},
     {"7": "groups given", "8": None, "1": None}),
    # 1 + 3 eighths; 4 − 3 eighths
    ("3/8 + 1/2 = □/8", {}, {"4": "numerators not rescaled", "1": "other operation", "7": None}),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "keys", "named"), CASES)
def test_the_slip_behind_a_choice_is_named(
    stem: str, keys: dict[str, Any], named: dict[str, str | None]
) -> None:
    choices = dict(zip("ABCDE", named, strict=False))
    row = solve_one(stem, choices=choices, **keys)
    assert row["status"] == "solved", row["message"]
    assert {text: row["choices"][letter]["slip"] for letter, text in choices.items()} == named
