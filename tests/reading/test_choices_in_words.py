"""Signs in a box, steps in words, equations of a story as choices: keys found by hand.

Steps that keep an equation true: CCSSM (2010) 6.EE.B.7; splitting a factor: 3.OA.B.5, Table 3.
"""

from __future__ import annotations

import pytest

from narrate.settling import draft
from tests.solving import solve_one

SIGNS = ("=", "<", ">")
STEPS = ("Add 7 to both sides", "Subtract 7 from both sides", "Divide both sides by 7",
         "Multiply both sides by 7")  # fmt: skip
POTS = "Each pot costs $37. Nia buys 14 pots. Which equation shows a way to find the total cost?"
SPLIT = (
    "(30 × 10) + (7 × 4) = 300 + 28",
    "(30 × 14) + (7 × 14) = 420 + 98",
    "(30 × 14) + (70 × 14) = 420 + 980",
)
SOLVED = [
    ("Which symbol belongs in the box to make this true? 3/5 □ 5/9", SIGNS, "C"),
    ("Compare. 2,046 ___ 2,064", SIGNS, "B"),
    ("Compare. 4/6 ___ 2/3", SIGNS, "A"),
    ("Which step can be used to solve k + 7 = 30?", STEPS, "B"),
    ("Which step can be used to solve k − 7 = 30?", STEPS, "A"),
    ("Which step shows how to find the value of k in 7k = 63?", STEPS, "C"),
    ("Which step shows how to find k in k ÷ 7 = 9?", STEPS, "D"),
    (POTS, SPLIT, "B"),
    ("An angle measures 68°. What type of angle is it?", ("right", "obtuse", "acute"), "C"),
    ("What kind of angle has a measure of 180 degrees?", ("a right angle", "straight"), "B"),
    ("A cart rents for $9 plus $4 for each hour. Which expression gives the cost, in dollars, of "
     "renting a cart for h hours?", ("13h", "9h + 4", "9 + 4h"), "C"),
    ("Solve the equation 2.5 = k/1.4. Check your answer.", ("3.5", "3.9", "1.1"), "A"),
    ("There are 15 more pots than trays. If there are 90 pots, how can you find the number of "
     "trays?", ("add 15 to 90", "subtract 15 from 90", "divide 90 by 15"), "B"),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "choices", "key"), SOLVED)
def test_choices_in_words_and_signs(stem: str, choices: tuple[str, ...], key: str) -> None:
    row = solve_one(stem, choices=dict(zip("ABCD", choices, strict=False)))
    assert row["key"] == key, row["message"]
    assert all(c["ruled_out_at"] is not None for n, c in row["choices"].items() if n != key)


DECLINED = [
    ("Which step comes first in solving 2k + 7 = 30?", STEPS),
    ("Which step can be used to solve 7 − k = 3?", STEPS),
    (POTS, (*SPLIT[:2], "37 × 14 = 420 + 97")),  # one side makes the cost, the other does not
    (POTS, (*SPLIT[:2], "(37 × 10) + (37 × 4) = 370 + 148")),  # two ways are right
    ("An angle measures 368°. What type of angle is it?", ("right", "obtuse", "acute")),
    (
        "An angle of a bed measures 68° more than a right angle. What type of angle is it?",
        ("right", "obtuse", "acute"),
    ),
    (POTS.replace("buys 14", "buys some"), SPLIT),
]


@pytest.mark.parametrize(("stem", "choices"), DECLINED)
def test_near_misses_are_not_solved(stem: str, choices: tuple[str, ...]) -> None:
    row = solve_one(stem, choices=dict(zip("ABCD", choices, strict=False)))
    assert row["status"] != "solved", row


def test_a_box_of_brackets_is_a_box() -> None:
    text = "1. Which symbol makes this true? 3/5 [ ] 5/9\nA. <\nB. >\n"
    assert '"Which symbol makes this true? 3/5 □ 5/9"' in draft(text, "w").text
