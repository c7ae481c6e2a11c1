"""What is read and not worked out is told with the reason that applies, and rates are worked out.

Own items; the values were worked out by hand.
"""

from __future__ import annotations

import pytest

from tests.solving import solve_one

FRACTION = ["numerator", "denominator"]


@pytest.mark.parametrize(
    ("stem", "boxes", "why"),
    [
        (
            "Write 3.75 as an improper fraction.",
            FRACTION,
            "writing a decimal as a fraction is not worked out yet",
        ),
        ("What is 0.5 + 1/4?", ["number"], "decimals in work with fractions are not worked out"),
        (
            "3 bags of soil cost $10. At this rate, how much do 10 bags of soil cost?",
            ["number"],
            "10 ÷ 3 does not come out in dollars and cents",
        ),
        ("What is 7.5 ÷ 0.7?", ["number"], "7.5 ÷ 0.7 does not come out even, nor ends"),
    ],
)
def test_the_one_reason_is_told(stem: str, boxes: list[str], why: str) -> None:
    row = solve_one(stem, boxes=boxes)
    assert row["status"] == "declined"
    assert why in row["message"]
    assert "below zero" not in row["message"]


def test_whole_groups_of_a_decimal_are_no_decimal_of_groups() -> None:
    """6.25 bows is no answer to how many can be made: 5 = 0.8 × 6 + 0.2, worked out by hand."""
    stem = "Ribbon of 5 m is cut for bows of 0.8 m. What is the greatest number of bows it makes?"
    row = solve_one(stem, model="5 ÷ 0.8", boxes=["number"])
    assert row["answer"] == "6"
    assert "5 = 0.8 × 6 + 0.2" in [step["shows"] for step in row["steps"]]


@pytest.mark.parametrize(
    ("stem", "answer", "first"),
    [
        (
            "4 bags of soil cost $18. At this rate, how much do 10 bags of soil cost?",
            "45",
            "18 ÷ 4 = 4.50",
        ),
        (
            "Cal's cabbage weighs 2.4 kilograms, which is 0.75 kilogram less than Dee's cabbage. "
            "How much does Dee's cabbage weigh?",
            "3.15",
            "2.4 + 0.75 = 2.40 + 0.75 = 3.15",
        ),
    ],
)
def test_what_was_declined_for_no_reason_is_solved(stem: str, answer: str, first: str) -> None:
    row = solve_one(stem, boxes=["number"])
    assert (row["status"], row["answer"]) == ("solved", answer)
    assert first in [step["shows"] for step in row["steps"]]


def test_the_last_step_is_offered_where_it_can_be_worked_out() -> None:
    """2/3 + 1/2 + 3/4 = 23/12, and 23/12 ÷ 1/12 = 23, worked out by hand."""
    story = (
        "Wendel mixes 2/3 cup of raisins, 1/2 cup of nuts, and 3/4 cup of seeds. He puts the mix "
        "into bags that hold 1/12 cup each. How many bags does he fill?"
    )
    message = solve_one(story, boxes=["number"])["message"]
    assert "add `model: 23/12 ÷ 1/12`, its last step" in message
    row = solve_one(story, model="23/12 ÷ 1/12", boxes=["number"])
    assert row["answer"] == "23"
