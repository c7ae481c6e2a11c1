"""Choices as papers print them: x = 11, ratios, some that are equal, so many to mark.

Worked out by hand; the forms are common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate import pipeline
from narrate.items.loading import load_text
from tests.solving import solve_one

SOLVED = [
    ("Solve x − 4 = 9.", ("x = 5", "x = 13", "x = 36"), "B"),
    ("Solve 3n = 27. What is n?", ("n = 9", "n = 24", "n = 81"), "A"),
    ("What is the solution of p + 8 = 20?", ("p = 28", "p = 12"), "B"),
    ("Which ratio is 18 : 24 in simplest form?", ("4 : 3", "9 : 12", "3 : 4", "3 : 7"), "C"),
    ("Simplify the ratio 10 to 25.", ("5 to 2", "2 to 5"), "B"),
    ("What is the ratio of 8 rakes to 6 hoes in simplest form?", ("8:6", "4:3", "3:4"), "B"),
    ("Which of these shows the ratio of 8 kale rows to 3 pea rows?", ("3:8", "8:3", "8:11"), "B"),
    ("Which number is the product of 36 and 24?", ("60", "216", "864"), "C"),
    ("Which of these is the quotient of 3/4 and 1/2?", ("3/8", "1 1/2", "1/4"), "B"),
    ("Which value is the sum of 2.5 and 1.25?", ("3.75", "1.5"), "A"),
    ("What is one fourth of 12?", ("3", "48", "8"), "A"),
    ("Find three fourths of 20.", ("5", "15", "12"), "B"),
]


@pytest.mark.parametrize(("stem", "choices", "key"), SOLVED)
def test_choices_as_printed(stem: str, choices: tuple[str, ...], key: str) -> None:
    row = solve_one(stem, choices=dict(zip("ABCD", choices, strict=False)))
    assert row["key"] == key, row["message"]


DECLINED = [
    ("Which equation shows how to find x in x + 5 = 12?", ("x = 12 − 5", "x = 12 + 5")),
    ("Solve x − 4 = 9.", ("x = 5", "y = 13")),
    ("Solve y − 4 = 9 for y.", ("x = 5", "x = 13")),
    ("A bed has x = 5 rows. How many plants has it?", ("x = 5", "x = 13")),
    ("What is the ratio of 8 inches to 2 feet?", ("8:2", "4:1", "1:3")),
    ("What is the ratio of 3 hours to 30 minutes?", ("1:10", "6:1")),
    ("What is the ratio of 0 rakes to 6 hoes?", ("0:6", "6:1")),
    ("Which ratio is the same?", ("8:30", "4:15")),
    ("Which ratio shows how many eggs go with 3 cups?", ("8:30", "4:15")),
    ("Which number is the difference of 36 and 50?", ("-14", "86")),
    ("What is one fourth of the 12 beds and 3 more?", ("3", "6")),
    ("What is the ratio of 8 rakes to 6 more hoes than rakes?", ("8:6", "4:7")),
]


@pytest.mark.parametrize(("stem", "choices"), DECLINED)
def test_what_is_not_written_so_is_declined(stem: str, choices: tuple[str, ...]) -> None:
    row = solve_one(stem, choices=dict(zip("ABCD", choices, strict=False)))
    assert row["status"] != "solved", row


def test_ratios_are_no_times_of_day() -> None:
    row = solve_one("Which ratio is told?", choices={"A": "8:30", "B": "4:15"})
    assert "times of day" not in row["message"]


SELECT = """review: marks
grade: 5
items:
  - id: many
    stem: "{stem}"
    select: all
    choices: {{A: 8/12 + 3/12, B: 3/7, C: 1 - 1/12, D: {last}}}
"""


@pytest.mark.parametrize(
    ("stem", "last", "key"),
    [
        ("Select TWO expressions that are equal to 2/3 + 1/4.", "3/12", ["A", "C"]),
        ("Choose the two expressions that are equal to 2/3 + 1/4.", "3/12", ["A", "C"]),
        ("Select three expressions that are equal to 2/3 + 1/4.", "11/12", ["A", "C", "D"]),
    ],
)
def test_so_many_are_marked(stem: str, last: str, key: list[str], tmp_path: Path) -> None:
    path = tmp_path / "marks.yaml"
    path.write_text(SELECT.format(stem=stem, last=last), encoding="utf-8")
    assert [row["key"] for row in pipeline.solve([path])] == [key]


def test_another_count_than_is_asked_for_is_a_fault() -> None:
    text = SELECT.format(stem="Select TWO expressions that are equal to 2/3 + 1/4.", last="11/12")
    review, _ = load_text(text, Path("marks.yaml"))
    assert review is not None
    fault = next(pipeline.solve_item(review.items[0])).fault
    assert fault is not None
    assert fault.wrong.startswith("2 choices are to be marked, but right: A (8/12 + 3/12) and C")


@pytest.mark.parametrize(
    ("stem", "choices", "told"),
    [
        ("Which is NOT equal to 1/2?", "{A: 50%, B: 0.5, C: 5/10, D: 3/5}", False),
        ("Which of these is equal to 0.5?", "{A: 5%, B: 50%, C: 500%, D: 0.05}", False),
        ("What is 0.2 + 0.05?", "{A: 50%, B: 0.5, C: 0.25}", True),
        ("Which is equal to 1/2?", "{A: 5%, B: 50%, C: 5%}", True),
    ],
)
def test_equal_choices_are_doubted_only_where_none_is_asked_to_be(
    stem: str, choices: str, told: bool, tmp_path: Path
) -> None:
    path = tmp_path / "w.yaml"
    path.write_text(f'items:\n  - id: a\n    stem: "{stem}"\n    choices: {choices}\n', "utf-8")
    assert any("are the same" in note for note in pipeline.check([path]).notes) == told
