"""Where a question tells what a pupil wrote, the two lines to add are `model:` and `claim:`."""

from __future__ import annotations

import pytest

from tests.solving import solve_one

CLAIMED = (
    ("Filip worked out 3/4 - 1/3 and wrote 2/1. What went wrong?", "3/4 − 1/3", "2/1"),
    ("Mina says that 0.4 + 0.25 = 0.29. What mistake did she make?", "0.4 + 0.25", "0.29"),
    ("Bo wrote 12 − 5 = 8. Explain what is wrong with his work.", "12 − 5", "8"),
    ("For 6 × 7 Ada got 48. Find her mistake and correct it.", "6 × 7", "48"),
)


@pytest.mark.parametrize(("stem", "model", "claim"), CLAIMED)
def test_the_claim_is_offered_and_works(stem: str, model: str, claim: str) -> None:
    message = solve_one(stem, boxes=["number"])["message"]
    assert f"add `model: {model}`" in message
    assert f"`claim: {claim}`" in message


@pytest.mark.parametrize(
    "stem",
    [
        "Filip worked out 3/4 - 1/3 and wrote 5/12. Is he right?",  # he is: no wrong answer
        "Ada found 6 × 7 and got 42. Is she right? What is 5 + 3?",
        "Ada wrote 5 + 3 on the right side of a card. What is 5 + 3?",
        "Ada got 12 figs on the right and 5 on the left. How many figs did Ada get in all?",
        "Which number is wrong in 3, 6, 9, 13, 15?",
        "Bo says the right sum of 4 + 2 and 7 is on the card.",
    ],
)
def test_no_claim_is_offered_where_none_is_told(stem: str) -> None:
    assert "`claim:" not in solve_one(stem, boxes=["number"])["message"]
