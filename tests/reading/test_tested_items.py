"""Items of our own whose choices are tested one by one, read, solved and told whole.

The letter of the right choice was found by hand. CCSSM (2010): 1.OA.D.7 (true equations), 3.OA.B.5
and glossary Table 3 (properties), 4.NBT.A.2, 4.OA.B.4, 6.EE.B.5, 8.EE.A.4.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate.exact.caption import write
from narrate.exact.parser import parse
from narrate.exact.tree import Relation
from narrate.items.spelled import in_words, spelled
from narrate.reading.tested.properties import property_of
from narrate.reading.words.phrases import phrase
from tests.lesson.test_read_and_told import said
from tests.solving import solve_one

_HERE = Path(__file__).parent


def rows(name: str) -> list[list[str]]:
    """The rows of a table of items."""
    lines = (_HERE / f"{name}.tsv").read_text("utf-8").splitlines()
    return [line.split("\t") for line in lines if not line.startswith("#")]


ITEMS = [row for name in ("tested", "named", "phrase") for row in rows(f"{name}_items")]


@pytest.mark.parametrize(("stem", "choices", "key"), ITEMS)
def test_the_right_choice_is_picked(stem: str, choices: str, key: str) -> None:
    offered = dict(zip("ABCD", choices.split("; "), strict=True))
    row = solve_one(stem, choices=offered)
    assert row["status"] != "solved" if key == "-" else row["key"] == key, row


@pytest.mark.parametrize(
    ("text", "means"),
    [
        ("twelve thousand, forty", "12,040"),
        ("six hundred nine", "609"),
        ("two million, five", "2,000,005"),
        ("six and five hundredths", "6.05"),
        ("sixty-two thousandths", "0.062"),
        ("forty", "40"),
    ],
)
def test_numbers_in_words(text: str, means: str) -> None:
    found = in_words(text)
    assert found is not None
    assert write(found) == means


@pytest.mark.parametrize(
    "text",
    ["five forty", "forty fifteen", "thousand", "a dozen", "six beds", "one half", "two ten"],
)
def test_other_words_are_no_numbers(text: str) -> None:
    assert in_words(text) is None


@pytest.mark.parametrize(
    ("text", "means"),
    [
        ("7 tens", "7 × 10"),
        ("3 hundredths", "0.03"),
        ("2n − 5", "2n − 5"),
        ("4(x + 2)", None),
        ("2 • 3 • 7", "2 × 3 × 7"),
        ("2² × 5", "2 × 2 × 5"),
        ("20 ÷ 2²", "20 ÷ (2 × 2)"),
        ("6.2 × 10^-3", "6.2 × 0.001"),
        ("17 over 2", "17/2"),
        ("0.7 is less than 7/100.", "0.7 < 7/100"),
        ("12cm", None),
        ("12 beds", None),
    ],
)
def test_work_that_is_spelled_otherwise(text: str, means: str | None) -> None:
    found = spelled(text)
    assert (None if found is None else write(found)) == means


@pytest.mark.parametrize(
    ("equation", "shows"),
    [
        ("4 + 9 = 9 + 4", ("commutative", "addition")),
        ("a × b = b × a", ("commutative", "multiplication")),
        ("(2 + 3) + 5 = 5 + (2 + 3)", ("commutative", "addition")),
        ("2 × (3 × 4) = (2 × 3) × 4", ("associative", "multiplication")),
        ("5 × (2 + 6) = 5 × 2 + 5 × 6", ("distributive", "")),
        ("4 × 9 + 4 × 1 = 4 × (9 + 1)", ("distributive", "")),
        ("0 + 7 = 7", ("identity", "addition")),
        ("7 × 1 = 7", ("identity", "multiplication")),
        ("7 × 0 = 0", ("zero", "multiplication")),
        ("9 − 4 = 4 − 9", None),
        ("3 + 4 = 7", None),
        ("4 + 3 = 4 + 3", None),
        ("5 × (2 + 6) = 5 × 2 + 6", None),
        ("2 + 3 + 5 = 5 + 2 + 3", ("commutative", "addition")),
    ],
)
def test_what_an_equation_shows(equation: str, shows: tuple[str, str] | None) -> None:
    tree = parse(equation)
    assert isinstance(tree, Relation)
    assert property_of(tree) == shows


def test_a_test_is_told_with_its_reason() -> None:
    text = said("Which equation is true?", "7 + 6 = 14", "15 − 9 = 6", "4 × 5 = 9", key="B")
    assert "7 + 6 = 13" in text
    assert "4 × 5 = 20" in text
    assert "answer is B" in text or "choice B" in text


def test_a_right_choice_is_struck_where_the_wrong_one_is_asked_for() -> None:
    text = said("Which is NOT equal to 24?", "4 × 6", "30 − 6", "12 + 14", "48 ÷ 2", key="C")
    assert "12 + 14 = 26" in text or "26" in text
    assert "as it should be" not in text


@pytest.mark.parametrize(
    ("stem", "says"),
    [
        ("What is the median of 9, 4, 12, 6, 7?", ("4, 6, 7, 9 and 12", "7")),
        (
            "What is the least common multiple of 4 and 10?",
            ("Multiples of 4: 4, 8, 12, 16 and 20",),
        ),
        ("What is the greatest common factor of 20 and 32?", ("1, 2 and 4", "20 = 1 × 20")),
        ("What is the mean of 12, 7, 9, and 8?", ("12 + 7 + 9 + 8 = 36", "36 ÷ 4 = 9")),
        ("What is the value of the 4 in 24,309?", ("thousands", "4 × 1,000 = 4,000")),
    ],
)
def test_a_named_number_is_found_in_steps(stem: str, says: tuple[str, ...]) -> None:
    row = solve_one(stem, boxes=["number"])
    assert row["status"] == "solved"
    text = said(stem) + "\n".join(step["shows"] for step in row["steps"])
    for each in says:
        assert each in text


@pytest.mark.parametrize(
    ("text", "means"),
    [
        ("5 less than twice a number n", "2 × n − 5"),
        ("the product of 4 and the sum of 3 and 7", "4 × (3 + 7)"),
        ("a number k divided by the sum of four and nine", "k ÷ (4 + 9)"),
        ("the difference between 12 and n", "12 − n"),
        ("5 times n, decreased by 8", "5 × n − 8"),
        ("half of the sum of n and 6", "(n + 6) ÷ 2"),
        ("8 subtracted from the product of n and 3", "n × 3 − 8"),
        ("the sum of 3 and 4 times 5", None),
        ("12 more than n divided by 3", None),
        ("3 more beans than n", None),
    ],
)
def test_a_phrase_is_read_where_it_allows_one_reading(text: str, means: str | None) -> None:
    found = phrase(text)
    assert (None if found is None else write(found)) == means


def test_a_phrase_is_no_story() -> None:
    text = said("Which expression shows 8 more than a number k?", "8k", "k + 8", "k − 8", key="B")
    assert "story" not in text
