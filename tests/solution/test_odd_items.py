"""Items that are odd but legal. Expectations were worked by hand; each once went wrong."""

from __future__ import annotations

from typing import Any

import pytest

from tests.solving import FRACTION, MIXED, NUMBER, Row, solve_one, solved_one

CLAIM = "Noor says 1/2 + 2/5 is 3/7. What did Noor do wrong?"
SENTENCES = {"A": "Noor added the denominators.", "B": "Noor subtracted."}


def _lists(row: Row) -> list[int]:
    return [len(step["shows"].split(", ")) for step in row["steps"] if "multiples" in step["move"]]


@pytest.mark.parametrize(
    ("asked", "written"),
    [
        ("1/97 + 1/89", "186/8633"),
        ("1/999983 + 1/999979", "1999962/999962000357"),
        (
            "1/999999999989 + 1/999999999961",
            "1999999999950/999999999950000000000429",
        ),
        ("1/46 + 1/58", "52/1334"),
        ("1/82 + 1/86", "84/3526"),
        ("1/82 + 1/84 + 5/86", "12179/148092"),
    ],
)
def test_large_denominators_need_no_endless_list(asked: str, written: str) -> None:
    """Always over the least: 1334 = 2 × 23 × 29, 3526 = 2 × 41 × 43, 148092 = 3526 × 42."""
    row = solve_one(f"What is {asked}?", boxes=FRACTION)
    assert row["written"] == written
    assert max(_lists(row), default=0) <= 40


@pytest.mark.parametrize(
    ("asked", "written", "joined"),
    [
        ("3/1 + 2/1", "5", "3 + 2 = 5"),
        ("2/1 + 5/6", "17/6", "12/6 + 5/6 = 17/6"),
        ("3 2/1 + 2 1/1", "8", "5 + 3 = 8"),
        ("0 + 2/1", "2", "0 + 2 = 2"),
        ("2/1 - 3/1", "-1", "2 − 3 = −1"),
    ],
)
def test_fractions_over_one_are_counted_as_wholes(asked: str, written: str, joined: str) -> None:
    row = solve_one(f"What is {asked}?", boxes=NUMBER)
    assert row["written"] == written
    assert joined in [step["shows"] for step in row["steps"]]


@pytest.mark.parametrize(("asked", "written"), [("12 0/12", "12"), ("2 8/4", "4"), ("0/12", "0")])
def test_a_mixed_number_with_no_piece_left_over_keeps_its_whole(asked: str, written: str) -> None:
    row = solve_one(f"Work out {asked} in simplest form.", boxes=MIXED)
    assert row["written"] == written


def test_what_goes_in_the_boxes_has_no_commas() -> None:
    row = solve_one("What is 12,000/23,456 + 1/23,456?", boxes=FRACTION)
    assert row["written"] == "12001/23456"


def test_large_numerators_have_no_endless_slips() -> None:
    row = solve_one(
        "Simplify 123456789012/123456789014.",
        choices={"A": "61728394506/61728394507", "B": "1/2"},
    )
    assert row["key"] == "A"


@pytest.mark.parametrize(
    ("asked", "boxes", "simplest", "written"),
    [
        ("−5/21 + (−9/21)", FRACTION, True, "-2/3"),
        ("1/2 − 1 3/4", MIXED, False, "-1 1/4"),
        ("−5/6 + (−9/6)", MIXED, True, "-2 1/3"),
        ("1/2 − 2 1/2", MIXED, False, "-2"),
        ("1/2 − 2 1/2", FRACTION, True, "-2/1"),
        ("−1/2 + 1/2", NUMBER, False, "0"),
    ],
)
def test_an_answer_below_zero_is_put_in_the_form_that_is_asked(
    asked: str, boxes: list[str], simplest: bool, written: str
) -> None:
    assert solve_one(f"Find {asked}.", boxes=boxes, simplest=simplest)["written"] == written


def test_a_mixed_number_below_zero_fills_the_box_for_wholes() -> None:
    steps = solved_one("Find 1/2 − 1 3/4.", boxes=MIXED).solution.steps
    assert [step.details["reason"] for step in steps if step.move == "fit the boxes"] == ["mixed"]


def test_a_missing_numerator_may_be_zero() -> None:
    assert solve_one("0/5 = □/10", boxes=NUMBER)["written"] == "0"
    assert solve_one("3/4 + □/4 = 3/4", boxes=NUMBER)["written"] == "0"


def test_a_missing_denominator_is_never_zero() -> None:
    assert solve_one("3/4 = 0/□", boxes=NUMBER)["status"] == "declined"


# -- claims, sentences and equations as choices


def test_a_claim_may_stand_in_a_bare_question() -> None:
    row = solve_one("What is 1/2 + 2/5? Noor got 3/7. What went wrong?", claim="3/7")
    assert (row["status"], row["answer"]) == ("solved", "9/10")


def test_a_claim_may_be_asked_about_with_sentences() -> None:
    row = solve_one(CLAIM, claim="3/7", choices=SENTENCES, key="A")
    assert (row["status"], row["key"]) == ("solved", "A")
    assert "put right" in [step["move"] for step in row["steps"]]
    assert row["choices"]["B"]["ruled_out_at"] == len(row["steps"]) - 1


EQUATIONS = {"A": "1/2 + 1/3 = 5/6", "B": "1/2 + 1/3 = 2/5"}


def test_equations_as_choices_are_told_from_the_key() -> None:
    row = solve_one("Which equation shows 1/2 + 1/3?", choices=EQUATIONS, key="A")
    assert (row["status"], row["key"]) == ("solved", "A")
    assert row["choices"]["B"]["ruled_out_at"] is not None


@pytest.mark.parametrize(
    ("choices", "keys", "named"),
    [
        (EQUATIONS, {}, "is an equation; declare the right one"),
        ({"A": "□", "B": "5/6"}, {}, "choice A (□) has a blank"),
        ({"A": "3/4 + □", "B": "5/6"}, {"key": "B"}, "choice A (3/4 + □) has a blank"),
    ],
)
def test_choices_that_cannot_be_judged_are_declined_by_name(
    choices: dict[str, str], keys: dict[str, Any], named: str
) -> None:
    row = solve_one("Which equation shows 1/2 + 1/3?", choices=choices, **keys)
    assert row["status"] == "declined"
    assert named in row["message"]


# -- first lines


def test_a_first_line_of_a_whole_and_a_fraction_must_count_one_size() -> None:
    row = solve_one(
        "Which could be the first line of work for 1 − 1/3?",
        choices={"A": "3/3 − 1/3", "B": "1/1 − 1/3", "C": "2/3", "D": "3/3 + 1/3"},
    )
    struck = {letter: choice["ruled_out_at"] for letter, choice in row["choices"].items()}
    moves = [step["move"] for step in row["steps"]]
    assert row["key"] == "A"
    assert moves[struck["B"]] == "like size"
    assert moves[struck["D"]] == "set up"


def test_a_number_alone_is_not_said_to_add() -> None:
    row = solve_one(
        "Which could be the first line of work for 1 − 1/3?", choices={"A": "3/3 − 1/3", "B": "2/3"}
    )
    told = row["steps"][row["choices"]["B"]["ruled_out_at"]]["facts"]
    assert [fact["name"] for fact in told] == ["amounts"]


# -- what is asked for


@pytest.mark.parametrize("word", ["numerator", "denominator"])
def test_a_part_of_the_answer_is_not_taken_for_the_answer(word: str) -> None:
    row = solve_one(f"3/4 + 1/5. What is the {word} of the sum?", boxes=NUMBER)
    assert row["status"] == "declined"


@pytest.mark.parametrize(
    ("stem", "answer"),
    [
        ("What is the missing numerator? 3/4 = □/20", "15"),
        ("What is 1/4 plus 2/3?", "11/12"),
        ("What is 2/3 minus 1/4?", "5/12"),
        ("Add 1/4 to 2/3.", "11/12"),
        ("Work out 8/11 + 1/3.", "35/33"),
    ],
)
def test_plain_instructions_are_read(stem: str, answer: str) -> None:
    assert solve_one(stem, boxes=NUMBER)["answer"] == answer
